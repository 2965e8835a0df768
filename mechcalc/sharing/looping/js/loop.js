// Who has the kiosk: the loop, a visitor, or nobody (stopped). A pure reducer; the clock is handed in as `seconds`.
//
// mode: "loop" (it runs by itself), "taken" (a visitor is at it), "stopped" (until somebody starts the loop again).
// Each step gives the next state with `act`: what is to be done now: "play", "pause", "again" (from the beginning),
// "fresh" (as nobody had been there), or null.

// options: {idle, warning, rest} in seconds; still: nothing may move by itself.
export function newLoop({idle, warning, rest, still}) {
  return {mode: "loop", idle, warning, rest, still, waited: 0, act: still ? null : "play"};
}

// Seconds until the loop comes back, if that is to be said now; null otherwise.
export function secondsLeft(loop) {
  if (loop.mode !== "taken") return null;
  const left = loop.idle - loop.waited;
  return left <= loop.warning ? Math.max(0, Math.ceil(left)) : null;
}

function tick(loop, {seconds, playing}) {
  if (loop.mode === "stopped") return {...loop, act: null};
  const waited = playing ? 0 : loop.waited + seconds;
  if (loop.mode === "taken") {
    return waited >= loop.idle ? {...loop, mode: "loop", waited: 0, act: "fresh"} : {...loop, waited, act: null};
  }
  if (loop.still || waited < loop.rest) return {...loop, waited, act: null};
  return {...loop, waited: 0, act: "again"};
}

const STEPS = {
  tick,
  // A hand, a key or a pointer is there.
  used: (loop) => (loop.mode === "loop" ? {...loop, mode: "taken", waited: 0, act: "pause"} : {...loop, waited: 0, act: null}),
  stop: (loop) => ({...loop, mode: "stopped", waited: 0, act: "pause"}),
  start: (loop) => ({...loop, mode: "loop", waited: 0, act: "fresh"}),
  still: (loop, {still}) => ({...loop, still, waited: 0, act: loop.mode === "loop" ? (still ? "pause" : "play") : null}),
};

// What the loop is after a step; the one handed in is left as it was.
export function stepLoop(loop, step) {
  return STEPS[step.type](loop, step);
}
