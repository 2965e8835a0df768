// How fast a picture plays, as a function of the timeline alone: slow where a carry is under way. Degrees a second.

const EVEN = 110;
const PACES = {
  "lever out": 9, "pin deflected": 7, "carry step": 13, "lever home": 13, "bell": 9, "fault": 9,
  "number step": 34, "counter step": 60, "direction taken": 60,
  "carriage eased": 70, "carriage seated": 70,
};
const LEAD = 2;   // degrees before a moment in which the pace has come down to the moment's own
const EASE = 14;  // degrees over which it comes down and goes up again

// Pieces [[from, to, pace], ...] that are slower than the even pace, in order of their beginnings.
export function slowPieces(timeline) {
  const pieces = [];
  for (const moment of timeline.moments) {
    const pace = Math.min(...moment.kinds.map((kind) => PACES[kind] ?? EVEN));
    if (pace < EVEN) pieces.push([moment.from - LEAD, moment.at + LEAD, pace]);
  }
  return pieces.sort((a, b) => a[0] - b[0]);
}

// The pace at a travel: the slowest piece that holds it, easing in and out of it.
export function paceAt(pieces, travel) {
  let pace = EVEN;
  for (const [from, to, slow] of pieces) {
    if (from - EASE > travel) break;
    const away = travel < from ? from - travel : Math.max(0, travel - to);
    if (away < EASE) {
      const share = away / EASE;
      pace = Math.min(pace, slow + (EVEN - slow) * share * share);
    }
  }
  return pace;
}

// Where the playhead is after `seconds`, in small even steps so that a slow frame does not leap over a carry.
export function advance(pieces, travel, seconds, speed, direction) {
  const step = 1 / 120;
  let left = Math.min(seconds, 0.25);
  while (left > 0) {
    const now = Math.min(left, step);
    travel += direction * speed * paceAt(pieces, travel) * now;
    left -= now;
  }
  return travel;
}
