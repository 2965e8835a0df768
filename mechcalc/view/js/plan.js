// Where things are drawn: every length of the picture, worked out from the machine and the shape of the page.
// Pure; units are those of the drawing.

const within = (low, value, high) => Math.min(Math.max(value, low), high);

// machine: the timeline's; shape: {tall, large}. Places count from 1 at the right.
export function planFor(machine, shape) {
  const {tall, large} = shape;
  const places = Math.max(machine.carryReach, machine.resultPlaces, machine.counterPlaces);
  const spare = machine.positions - 1;
  const u = tall ? within(17, 500 / (places + spare + 1.6), 62) : within(35, 940 / (places + spare), 74);
  const left = 58 + 0.25 * u;
  const right = left + places * u;              // the units side of the drum
  const over = spare * u + 44;                  // what the carriage needs beyond it
  const side = tall ? over : Math.max(over, 262);
  const width = right + side + 14;
  const scale = 11.5 / machine.pitch;           // drawing units a degree of drum
  const tooth = machine.pitch * scale;

  const windows = {top: 20, height: large ? 46 : 36};
  const slots = {top: windows.top + windows.height + 16, pitch: large ? 7.2 : 9.6};
  slots.bottom = slots.top + 9 * slots.pitch;
  const plateBottom = slots.bottom + 24;
  const drum = {top: plateBottom + 14, height: large ? 200 : 224};
  drum.line = drum.top + drum.height * 0.54;
  drum.bottom = drum.top + drum.height;
  const carriage = {top: drum.bottom + 16, wheel: large ? 66 : 50, counter: large ? 44 : 34};
  carriage.wheelY = carriage.top + 12;
  carriage.counterY = carriage.wheelY + carriage.wheel + 12;
  carriage.bottom = carriage.counterY + carriage.counter + 9;
  const scaleY = carriage.bottom + 10;
  const finger = scaleY + 34;
  const bottom = finger + 22;

  const disc = tall
    ? {x: width / 2, y: bottom + 138, r: 104}
    : {x: right + side / 2 + 6, y: drum.top + drum.height / 2 - 4, r: 88};
  const height = tall ? bottom + 268 : bottom;
  const top = tall ? {x: width / 2 - 190, y: bottom + 60} : {x: right + 30, y: 88};
  const centre = (place) => right - (place - 0.5) * u - 0.1 * u;
  return {
    machine, tall, large, places, spare, u, left, right, width, height, scale, tooth, windows, slots, plateBottom,
    drum, carriage, scaleY, finger, disc, top,
    lane: 0.46 * u, pinHeight: tooth * 0.6, wheelWidth: 0.76 * u,
    digit: Math.min(0.66 * u, carriage.wheel * 0.74), counterDigit: Math.min(0.56 * u, carriage.counter * 0.74),
    centre,                                           // x of a place's idler, pins, wheel and lever
    carryLane: (place) => centre(place) + 0.47 * u,   // x of its carry pins while no lever pushes them
    drop: drum.height * 0.28,                         // how far below the idler line a carry lever rests
    // y on the drum window of what has drum angle `angle` when the drum stands at `turned`
    surface: (angle, turned) => drum.line - (angle - turned) * scale,
  };
}
