// What a fault does to the look of a part. How it moves comes from the tracks, as for every part.
// Pure. Only this file knows the kinds of fault in the solid view; they are named as Python names them.

const LATE_LEVERS = "carry timing late";   // it is at every carry lever

// The name of the part that a fault is at; null where it is at many.
export function partOfFault({fault, place, pin, wheel, direction}) {
  const sign = direction > 0 ? "+" : "-";
  const names = {
    "carry pin gone": `carrypin/${sign}/${place}`, "number pin gone": `pin/${place}/${pin}`,
    "number pin stuck out": `pin/${place}/${pin}`, "carry lever will not stay out": `lever/${wheel}`,
    "carry lever not pushed home": `lever/${wheel}`, "number wheel overthrows": `wheel/${wheel}`,
    "idler tooth lost": `idler/${place}`, "setting lever creeps": `setting/${place}`,
    "clearing tooth gone": `wheel/${wheel}`, "back-transfer gear out": `transfergear/${place}`,
    "counter finger gone": `finger/${wheel}`, "counter direction stuck": "direction",
    "full-stroke ratchet worn": "pawl", "setting lock worn": "lock",
  };
  return names[fault] ?? null;
}

// The parts with their faults: what is gone is left out as a solid and stays as an empty seat; what is worn is marked.
export function faultyParts(parts, faults, sizes) {
  let made = parts;
  for (const fault of faults) {
    const name = partOfFault(fault);
    const change = CHANGES[fault.fault];
    const at = (part) => (fault.fault === LATE_LEVERS ? part.name.startsWith("lever/") : part.name === name);
    made = made.map((part) => (at(part) ? {...part, fault: fault.fault, ...change?.(part, fault, sizes)} : part));
  }
  return made;
}

// A part that is gone lies sunk in its seat, as a stump.
const stump = (part) => ({
  pose(out, values, turning) {
    part.pose(out, values, turning);
    out.scale = 0.9;
  },
});
const CHANGES = {
  "carry pin gone": stump, "number pin gone": stump,
  "counter finger gone": (part) => ({pose(out, values, turning) { part.pose(out, values, turning); out.scale = 0.4; }}),
  // The gap stands where the pin finds nothing to push: before the drum when the wheel opposite shows the tooth's digit.
  "idler tooth lost": (part, {place, tooth}) => ({
    mesh: "idlerLost5",
    pose(out, values, turning) {
      part.pose(out, values, turning);
      const wheel = values[`wheel/${place + Math.round(values.carriage)}`];
      if (wheel !== undefined) out.turn = -36 * (wheel - tooth);
    },
  }),
  "back-transfer gear out": (part) => ({pose(out, values, turning) { part.pose(out, values, turning); out.x += 0.9; out.turn = 0; }}),
  "full-stroke ratchet worn": (part) => ({pose(out, values, turning) { part.pose(out, values, turning); out.scale = 0.8; }}),
  "setting lock worn": (part) => ({pose(out, values, turning) { part.pose(out, {...values, lock: Math.min(values.lock, 0.35)}, turning); }}),
};
