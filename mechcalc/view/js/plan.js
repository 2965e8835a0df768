// Where things are drawn: every length of the picture, worked out from the machine and the shape of the page.
// Pure; units are those of the drawing.

const within = (low, value, high) => Math.min(Math.max(value, low), high);

// From the top down: the setting plate, the drum's window, the carriage, the bed under it.
function rowsFor(large) {
  const windows = {top: large ? 17 : 20, height: large ? 70 : 36};
  // In large type the levers' slots stand beside their windows instead of under them.
  const slots = large ? {top: windows.top + 4, pitch: (windows.height - 8) / 9} : {top: windows.top + windows.height + 15, pitch: 8.8};
  slots.bottom = slots.top + 9 * slots.pitch;
  const plateBottom = slots.bottom + (large ? 25 : 23);
  const drum = {top: plateBottom + 20, height: large ? 168 : 216};
  drum.line = drum.top + drum.height * 0.52;
  drum.bottom = drum.top + drum.height;
  const carriage = {top: drum.bottom + 12, wheel: large ? 70 : 50, counter: large ? 46 : 34};
  carriage.wheelY = carriage.top + 14;
  carriage.counterY = carriage.wheelY + carriage.wheel + 10;
  carriage.bottom = carriage.counterY + carriage.counter + 9;
  return {windows, slots, plateBottom, drum, carriage, bed: carriage.bottom + 12, bottom: carriage.bottom + (large ? 42 : 36)};
}

// machine: the timeline's; shape: {tall, large}. Places count from 1 at the right.
export function planFor(machine, shape) {
  const {tall, large} = shape;
  const rows = rowsFor(large);
  const {drum, carriage, bottom} = rows;
  const places = Math.max(machine.carryReach, machine.resultPlaces, machine.counterPlaces);
  const spare = machine.positions - 1;
  const u = tall ? within(17, 480 / (places + spare + 1.8), 60) : within(36, 940 / (places + spare), 74);
  const left = 16 + 0.42 * u;
  const right = left + places * u;              // the units side of the columns
  const end = 44;                               // the carriage's own end, with its clearing levers
  const collar = 38;                            // the graduated collar of the drum
  const over = spare * u + end + 16;            // what the carriage needs beyond the columns
  const side = tall ? Math.max(over, collar + 26) : Math.max(over, 300);
  const width = right + side + 10;
  const scale = 11.5 / machine.pitch;           // drawing units a degree of drum
  const radius = Math.min(large ? 84 : 90, (side - collar) / 2 - 26);
  const disc = tall
    ? {x: width / 2, y: bottom + 136, r: 100}
    : {x: right + collar + 16 + (side - collar) / 2, y: drum.top + drum.height / 2 - 16, r: radius};
  const top = tall
    ? {comb: [width / 2 - 186, bottom + 60], transfer: [width / 2 - 176, bottom + 214], bell: [width / 2 + 180, bottom + 50]}
    : {comb: [right + 0.2 * u + 62, rows.plateBottom * 0.46], transfer: [right + 0.2 * u + 152, rows.plateBottom * 0.46],
      bell: [width - 46, rows.plateBottom * 0.46 - 18]};
  const centre = (place) => right - (place - 0.5) * u - 0.1 * u;
  return {
    machine, tall, large, places, spare, u, left, right, width, end, collar, scale, disc, top, ...rows,
    height: tall ? bottom + 282 : bottom, tooth: machine.pitch * scale, lane: 0.46 * u,
    pinHeight: machine.pitch * scale * 0.6, wheelWidth: 0.78 * u,
    groove: (large ? 0.32 : 0.12) * u,                // how far right of a place's middle its setting lever is
    settingWindow: large ? {x: -0.45 * u, width: 0.62 * u} : {x: -0.39 * u, width: 0.78 * u},
    digit: Math.min(1.05 * u, carriage.wheel * 0.76), counterDigit: Math.min(0.9 * u, carriage.counter * 0.76),
    centre,                                           // x of a place's idler, pins, wheel and lever
    carryLane: (place) => centre(place) + 0.47 * u,   // x of its carry pins while no lever pushes them
    drop: drum.height * 0.29,                         // how far below the idler line a carry lever rests
    // y on the drum window of what has drum angle `angle` when the drum stands at `turned`
    surface: (angle, turned) => drum.line - (angle - turned) * scale,
  };
}

const WORKING = 270;   // pixels for the working beside the picture

// Whether the working fits beside the picture on a page `width` pixels wide, and leaves it large enough.
export function besideFits(machine, width) {
  const plan = planFor(machine, {tall: false, large: false});
  const left = width - WORKING;
  return left > 640 && left * plan.height / plan.width > 385;
}
