// A hand on the crank. Pure: what a movement of the pointer shows, commits or runs into. What may turn, and what it
// does, comes from Python with every stroke (`ahead`); nothing of the mechanism is known here. `holds` ({"+": […],
// "-": […]}) are travels at which the hand is stopped until it is told to go on, or lets go and takes hold again.

const SLACK = 1.5;  // degrees before a way of turning counts as meant
const GIVE = 6;     // degrees back before the hand counts as turning back
const HOME = 4;     // degrees before rest at which letting go brings the crank home
export const NEAR = 0.05;  // degrees that are no distance at all
const NONE = {"+": [], "-": []};

export const atEase = {sign: 0, shown: 0, slack: 0, waiting: false, passed: NEAR};

// The name of a way of turning.
export function keyOf(sign) {
  return sign > 0 ? "+" : "-";
}

// A movement by `delta` degrees (clockwise positive). Returns {drag, commit, refused}: signed degrees to send to
// Python, or who refuses.
export function dragBy(drag, delta, ahead, holds = NONE) {
  const slack = Math.max(-360, Math.min(360, drag.slack + delta));
  if (drag.waiting) return {drag: {...drag, slack}};
  if (drag.sign === 0) {
    if (Math.abs(slack) < SLACK) return {drag: {...drag, slack}};
    const sign = Math.sign(slack);
    const way = ahead[keyOf(sign)];
    if (way.refused) return {drag: {...drag, slack: 0}, refused: way.refused};
    return onwards({...drag, sign, slack: 0}, Math.abs(slack), way.timeline.length, holds[keyOf(sign)]);
  }
  const forward = slack * drag.sign;
  if (forward >= 0) return onwards({...drag, slack: 0}, forward, ahead[keyOf(drag.sign)].timeline.length, holds[keyOf(drag.sign)]);
  if (forward > -GIVE) return {drag: {...drag, slack}};
  return settled({...drag, slack}, ahead[keyOf(drag.sign)].timeline.length, NEAR);
}

// Where the hand leaves the crank: to a hundredth of a degree, and at rest where it is nearly there.
function settled(drag, length, near) {
  const shown = length - drag.shown < near ? length : Math.round(drag.shown * 100) / 100;
  return {drag: {...drag, shown, waiting: true}, commit: drag.sign * shown};
}

function onwards(drag, forward, length, holds) {
  const shown = drag.shown + forward;
  const hold = nextHold(drag, holds);
  if (hold !== undefined && shown >= hold) return {drag: {...drag, shown: hold}};
  if (shown < length) return {drag: {...drag, shown}};
  return {drag: {...drag, shown: length, slack: drag.sign * (shown - length), waiting: true}, commit: drag.sign * length};
}

// The next travel at which the hand is stopped.
function nextHold(drag, holds) {
  return holds.find((at) => at > drag.passed && at >= drag.shown);
}

// Whether the hand is being stopped now.
export function isHeld(drag, holds) {
  return drag.sign !== 0 && !drag.waiting && nextHold(drag, holds[keyOf(drag.sign)]) === drag.shown;
}

// The hand may go on from where it is stopped.
export function handGoesOn(drag) {
  return {...drag, passed: drag.shown};
}

// The hand lets go: what is left to send, if anything.
export function letGo(drag, ahead) {
  if (drag.waiting || drag.sign === 0 || drag.shown === 0) return {drag: {...drag, slack: 0}};
  return settled({...drag, slack: 0}, ahead[keyOf(drag.sign)].timeline.length, HOME);
}

// Python has done (or refused) what was sent; what the hand has moved meanwhile still counts.
export function answered(drag) {
  return {...atEase, slack: drag.slack};
}

// The timeline and travel that show the drag, or null while nothing is shown.
export function shownBy(drag, ahead) {
  if (drag.sign === 0 || !ahead) return null;
  const way = ahead[keyOf(drag.sign)];
  return way.timeline ? {timeline: way.timeline, travel: drag.shown} : null;
}

// The shorter way from one pointer angle to the next, in degrees.
export function between(from, to) {
  return ((to - from + 540) % 360 + 360) % 360 - 180;
}
