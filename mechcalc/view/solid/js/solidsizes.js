// How large everything in the solid view is: every length and angle, worked out from the machine of a timeline.
// Pure. The mechanism's own frame: x along the drum to the units side; z from the drum's axis through the idlers
// (the line of centres); y square to both, the way the drum's surface goes there in an additive turn. Angles are degrees
// from z towards y. The idler's pitch circle is 1 and the drum's as large as true gearing with ten teeth needs.

export const TILT = -30;        // degrees by which the line of centres stands below the horizon, towards the reader
export const READ = 86;         // the angle at which wheels are read
export const OUT = 0.42;        // a number pin's way out
export const PLAY = 0.32;       // a carry pin's play to the side
export const SWING = 13;        // degrees a carry lever swings
export const LANES = {          // from the middle of a place, along x
  pin: [-0.28, -0.06], ring: [-0.66, -0.42], disc: [-0.40, 0.02], idler: [-0.31, 0.27],
  carryPin: [0.36, 0.56], carryDisc: [0.30, 0.62], cam: [0.66, 0.88], rim: [0.33, 1.08], lug: [-0.58, -0.36],
};

// machine: the timeline's.
export function sizesFor(machine) {
  const {carryReach: reach, pitch, resultPlaces, counterPlaces, positions} = machine;
  const R = 36 / pitch;
  const U = 1.75;
  const middle = (reach + 1) / 2;
  const x = (place) => (middle - place) * U;
  const contacts = Object.values(machine.carryPins).flat().map(([, contact]) => contact);
  const close = Math.max(machine.numberPins[8], ...contacts) + pitch;
  const most = Math.max(resultPlaces, counterPlaces);
  const wheel = {y: 0, z: R + 3};
  const counter = {y: -2.05, z: R + 4.35};
  const finger = {y: counter.y - 0.66, z: counter.z - 1.17};
  const gear = polar(-132, 1.6);     // from a number wheel to its back-transfer gear
  return {
    machine, R, U, pitch, reach, x, close, most, wheel, counter, finger,
    tip: R + 0.1, idler: {y: 0, z: R + 1}, rod: {y: 1.6, z: R + 1.35},
    right: x(1) + 1.5, left: x(reach) - 1.65, plate: 0.24,
    carriage: {right: x(1) + 1.95, left: x(most) - 1.1, lift: {y: 1.6, z: 0.6}},
    shift: U, positions, first: machine.numberPins[0],
    leverAt: (digit) => 92 + (4.5 - digit) * pitch,
    transfer: {near: {y: gear.y, z: wheel.z + gear.z}, away: 1.0},
    handle: Math.max(2.6, R * 0.8),
  };
}

// A point at an angle and a radius.
export function polar(angle, radius) {
  const turn = angle * Math.PI / 180;
  return {y: radius * Math.sin(turn), z: radius * Math.cos(turn)};
}
