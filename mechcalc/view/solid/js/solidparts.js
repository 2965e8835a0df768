// Every part of the solid view: its name (as the tracks have it), mesh, group, place, skin, and where a pose puts it.
// Pure. Only this file reads a pose for the solid view; what a fault does to a part's looks is solidfaults.js.

import {LANES, OUT, PLAY, SWING, polar} from "./solidsizes.js";

// The groups that can be taken away or turned to glass, in the order of the list.
export const GROUPS = [
  ["frame", "frame and base"], ["cover", "cover"], ["setting", "setting levers"], ["drum", "drum and number pins"],
  ["carry", "carry pins and cams"], ["idlers", "idlers"], ["wheels", "number wheels"], ["levers", "carry levers"],
  ["counter", "counter"], ["carriage", "carriage"], ["crank", "crank and ratchet"], ["transfer", "back transfer"],
];

// part: {name, mesh, group, place, skin, pose(out, values, turning)}; `out` takes {x, y, z, turn, scale}.
// `shows` tells when a part is there at all; one that is `pale` is always of glass.
// A part on the carriage has `wheel`, the number of its place there, instead of `place`.
export function partsFor(sizes) {
  const parts = [];
  const add = (name, mesh, group, skin, pose, more = {}) => parts.push({name, mesh, group, skin, pose, ...more});
  addDrum(add, sizes);
  addSetting(add, sizes);
  addIdlers(add, sizes);
  addCarriage(add, sizes);
  addCounter(add, sizes);
  addCrank(add, sizes);
  addTransfer(add, sizes);
  addFrame(add, sizes);
  return parts;
}

const every = (count, act, from = 1) => { for (let place = from; place <= count; place += 1) act(place); };
const fixed = (x, y = 0, z = 0, turn = 0) => (out) => { Object.assign(out, {x, y, z, turn}); };

// Something at drum angle `angle` (where it is when the crank is at rest).
const onDrum = (x, angle) => (out, values) => { Object.assign(out, {x, turn: angle + values.crank}); };

function addDrum(add, {machine, x, reach, pitch}) {
  add("drum", "shaft", "drum", "steel", onDrum(0, 0));
  every(machine.settingPlaces, (place) => {
    add(`disc/${place}`, "disc", "drum", "steel", onDrum(x(place), 0), {place});
    machine.numberPins.forEach((contact, i) => {
      const [name, base] = [`pin/${place}/${i + 1}`, -contact - pitch / 2];
      add(name, "pin", "drum", "bright", (out, values) => {
        const turn = base + values.crank;
        const {y, z} = polar(turn, (values[name] - 1) * OUT);
        Object.assign(out, {x: x(place), y, z, turn});
      }, {place});
    });
  });
  for (const sign of ["+", "-"]) {
    for (const [place, contact] of machine.carryPins[sign]) addCarryPin(add, {place, sign, contact, x: x(place), pitch});
  }
  every(reach, (place) => {
    add(`carrydisc/${place}`, "carryDisc", "drum", "dark", onDrum(x(place), 0), {place});
    add(`camdisc/${place}`, "camDisc", "drum", "dark", onDrum(x(place), 0), {place});
  }, 2);
  add("endcam", "cam", "carry", "brass", onDrum(x(reach + 1), -360 + pitch / 3 - 0.6 * pitch), {place: reach + 1});
  add("endcamdisc", "camDisc", "drum", "dark", onDrum(x(reach + 1), 0), {place: reach + 1});
}

function addCarryPin(add, {place, sign, contact, x, pitch}) {
  const [name, base] = [`carrypin/${sign}/${place}`, -contact - pitch / 2];
  const skin = sign === "+" ? "brass" : "bronze";
  add(name, "carryPin", "carry", skin, (out, values) => { Object.assign(out, {x: x - values[name] * PLAY, turn: base + values.crank}); }, {place});
  // Where it would have passed: a pale copy, seen while it is pushed over.
  add(`straight/${sign}/${place}`, "carryPin", "carry", skin, onDrum(x, base), {place, pale: true, shows: (values) => values[name] > 0.02});
  // The cam is at its lever from two thirds of the pin's passing on, in the direction in which its helix follows.
  const lead = sign === "+" ? -contact - (2 / 3) * pitch - 0.55 * pitch : -contact - pitch / 3 + 0.55 * pitch;
  add(`cam/${sign}/${place}`, sign === "+" ? "cam" : "camBack", "carry", skin, onDrum(x, lead), {place});
}

function addSetting(add, sizes) {
  const {machine, x, leverAt, first, pitch} = sizes;
  every(machine.settingPlaces, (place) => {
    const name = `setting/${place}`;
    add(name, "setLever", "setting", "brass", (out, values) => { Object.assign(out, {x: x(place), turn: leverAt(values[name]) + values.crank}); }, {place});
    add(name, "ring", "drum", "bronze", (out, values) => { Object.assign(out, {x: x(place), turn: -first - values[name] * pitch + values.crank}); }, {place});
    add(`scale/${place}`, "scale", "cover", "ivory", fixed(x(place)), {place});
    if (machine.checkRegister) {
      const at = polar(leverAt(0) + 30, sizes.R + 1.1);
      add(`check/${place}`, "checkRim", "setting", "ivory", (out, values) => { Object.assign(out, {x: x(place), y: at.y, z: at.z, turn: 36 * values[name]}); }, {place});
    }
  });
  every(machine.settingPlaces, (place) => add(`cover/${place}`, "cover", "cover", "plate", fixed(x(place)), {place}));
  add("comb", "comb", "setting", "brass", (out, values) => { out.turn = leverAt(0) + 26 - 14 * values.comb; });
  add("lock", "lockBar", "setting", "bright", (out, values) => {
    const turn = leverAt(9) - 24;
    Object.assign(out, {...polar(turn, 0.34 * (1 - values.lock)), turn});
  });
}

function addIdlers(add, {reach, x, idler}) {
  every(reach, (place) => {
    const name = `idler/${place}`;
    add(name, "idler", "idlers", "bright", (out, values) => { Object.assign(out, {x: x(place), y: idler.y, z: idler.z, turn: -36 * values[name]}); }, {place});
  });
  add("idlershaft", "idlerShaft", "idlers", "steel", fixed(0, idler.y, idler.z));
}

// Where the carriage has been brought: out of its seat, and along.
const carried = ({U, carriage}) => (out, values, x, {y, z}, turn = 0) => {
  Object.assign(out, {x: x + values.carriage * U, y: y + values.lift * carriage.lift.y, z: z + values.lift * carriage.lift.z, turn});
};

function addCarriage(add, sizes) {
  const {machine, x, wheel, rod} = sizes;
  const put = carried(sizes);
  const here = {y: 0, z: 0};
  add("carriage", "carriageEnds", "carriage", "plate", (out, values) => put(out, values, 0, here));
  add("carriage", "rails", "carriage", "steel", (out, values) => put(out, values, 0, here));
  every(machine.resultPlaces, (number) => {
    const [name, lever] = [`wheel/${number}`, `lever/${number}`];
    const roll = (out, values) => put(out, values, x(number), wheel, 36 * values[name]);
    add(name, "rim", "wheels", "ivory", roll, {wheel: number});
    add(name, "wheelGear", "wheels", "bright", roll, {wheel: number});
    add(`window/${number}`, "wheelWindow", "carriage", "plate", (out, values) => put(out, values, x(number), wheel), {wheel: number});
    add(lever, "lever", "levers", "cream", (out, values) => put(out, values, x(number), rod, SWING * (1 - values[lever])), {wheel: number});
  });
  const end = sizes.carriage.right + 0.24;
  for (const [register, at] of [["result", {y: 0.2, z: wheel.z + 0.1}], ["counter", {y: sizes.counter.y, z: sizes.counter.z}]]) {
    const name = `clearing/${register}`;
    add(name, "clearing", "carriage", "brass", (out, values) => put(out, values, end, at, -30 - 70 * values[name]));
  }
}

function addCounter(add, sizes) {
  const {machine, x, counter, finger, close, right} = sizes;
  const put = carried(sizes);
  every(machine.counterPlaces, (number) => {
    const name = `counter/${number}`;
    const roll = (out, values) => put(out, values, x(number), counter, 36 * values[name]);
    add(name, "counterRim", "counter", "ivory", roll, {wheel: number});
    add(name, "counterGear", "counter", "bright", roll, {wheel: number});
    add(`counterwindow/${number}`, "counterWindow", "carriage", "plate", (out, values) => put(out, values, x(number), counter), {wheel: number});
  });
  // The finger shaft makes its turn at the end of the crank's, once the last carry pin has passed.
  const shaft = (values, turning) => {
    const turned = ((values.crank * (turning || 1)) % 360 + 360) % 360;
    return 360 * Math.max(0, turned - close) / (360 - close) * (turning || 1) * (values.direction || 1);
  };
  const towards = Math.atan2(counter.y - finger.y, counter.z - finger.z) * 180 / Math.PI;
  const share = 360 / machine.counterPlaces;
  every(machine.counterPlaces, (number) => {
    if (number > 1 && !machine.counterCarry) return;
    for (const way of [1, -1]) {
      add(`finger/${number}`, "finger", "counter", way > 0 ? "brass" : "bronze", (out, values, turning) => {
        const at = towards + way * (number - 0.5) * share - shaft(values, turning);
        Object.assign(out, {x: x(number) + fingerAside(values, number), y: finger.y, z: finger.z, turn: at});
      }, {place: number});
    }
  });
  const turn = (out, values, turning) => { Object.assign(out, {x: 0, y: finger.y, z: finger.z, turn: -shaft(values, turning)}); };
  add("fingershaft", "fingerShaft", "counter", "steel", turn);
  for (const side of [0.32, -0.32]) {
    add("direction", "directionGear", "counter", "brass", (out, values, turning) => {
      turn(out, values, turning);
      out.x = right - 0.55 + side + 0.16 * values.direction;
    });
  }
  add("directiondrive", "directionDrive", "counter", "bronze", (out, values, turning) => {
    const {y, z} = polar(towards + 150, 1.26);
    Object.assign(out, {x: right - 0.55, y: finger.y + y, z: finger.z + z, turn: shaft(values, turning) * 0.75});
  });
}

// A finger that hands a carry on stands in its wheel's lane while that wheel moves, and beside it at other times.
function fingerAside(values, number) {
  if (number === 1) return 0;
  const value = values[`counter/${number + Math.round(values.carriage)}`] ?? 0;
  const share = value - Math.floor(value);
  return 0.4 * (1 - Math.min(1, 8 * Math.min(share, 1 - share)));
}

function addCrank(add, sizes) {
  const {right, plate, handle, left, R} = sizes;
  const out = right + plate + 0.35;
  add("crank", "crankArm", "crank", "steel", (o, values) => { Object.assign(o, {x: out, turn: -40 + values.crank}); });
  add("crank", "grip", "crank", "grip", (o, values) => {
    const turn = -40 + values.crank;
    Object.assign(o, {x: out + 0.42 * values.lock, ...polar(turn, handle), turn});
  });
  add("socket", "socket", "crank", "brass", fixed(right + plate, polar(-40, handle).y, polar(-40, handle).z));
  add("ratchet", "ratchet", "crank", "bronze", (o, values) => { Object.assign(o, {x: right - 0.3, turn: 130 + values.crank}); });
  add("pawl", "pawl", "crank", "brass", (o, values) => {
    const at = polar(148, 2.05);
    const riding = values.pawl * (4 + 2.5 * Math.abs(Math.sin(values.crank * Math.PI / 10)));
    Object.assign(o, {x: right - 0.3, y: at.y, z: at.z, turn: 262 + riding});
  });
  const gong = polar(150, R * 0.8);
  const hinge = polar(150, R * 0.8 + 1.45);
  add("bell", "bell", "crank", "brass", fixed(left - 1.15, gong.y, gong.z));
  add("bell", "clapper", "crank", "dark", (o, values) => { Object.assign(o, {x: left - 1.2, y: hinge.y, z: hinge.z, turn: 205 + 26 * values.bell}); });
}

function addTransfer(add, sizes) {
  const {machine, x, transfer, right, plate} = sizes;
  if (!machine.backTransfer) return;
  const length = Math.hypot(transfer.near.y, transfer.near.z);
  const unit = {y: transfer.near.y / length, z: transfer.near.z / length};
  const place = (radius) => (out, values) => {
    const at = radius + transfer.away * (1 - values.transfer);
    Object.assign(out, {y: unit.y * at, z: unit.z * at});
  };
  const [near, inner] = [place(length), place(length - 1.4)];
  const meshed = (values, number) => (values.transfer > 0.5 ? values[`wheel/${number + Math.round(values.carriage)}`] ?? 0 : 0);
  every(machine.settingPlaces, (number) => {
    add(`transfergear/${number}`, "transferSmall", "transfer", "brass", (out, values) => {
      near(out, values);
      Object.assign(out, {x: x(number), turn: -60 * meshed(values, number)});
    }, {place: number});
    add(`transfergear/${number}`, "transferLarge", "transfer", "bronze", (out, values) => {
      inner(out, values);
      Object.assign(out, {x: x(number), turn: 45 * meshed(values, number)});
    }, {place: number});
  });
  add("transfershaft", "transferShafts", "transfer", "steel", near);
  add("transfershaft", "transferShafts", "transfer", "steel", inner);
  const at = polar(-62, sizes.R + 1.4);
  add("transfer", "transferHandle", "transfer", "brass", (out, values) => { Object.assign(out, {x: right + plate + 0.35, ...at, turn: 20 - 38 * values.transfer}); });
}

function addFrame(add, sizes) {
  const {right, left, plate} = sizes;
  add("frame", "side", "frame", "plate", fixed(right));
  add("frame", "side", "frame", "plate", fixed(left - plate));
  add("base", "base", "frame", "plate", fixed(0));
}

// Where the line of action of a place is: what a camera looks at.
export function actionAt(sizes, place) {
  return {x: sizes.x(place) + (LANES.carryPin[0] + LANES.carryPin[1]) / 2 - 0.2, y: 0.1, z: sizes.R + 0.9};
}
