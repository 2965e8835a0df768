// The playhead: a pure reducer. The clock is handed in as `seconds`; with `still` (reduced motion) nothing glides:
// playing goes from stop to stop. `holds` are travels at which whatever goes forwards pauses.

import {advance, slowPieces} from "./pace.js";
import {carriesOf, faultsOf, stopsOf, countBefore} from "./pose.js";

const SAME = 1e-6;
const STILL_WAIT = 1.4;   // seconds at each stop under reduced motion, at speed 1
const itself = (x) => x;

// A player for a timeline, at `travel`. What depends on the timeline alone is worked out once.
export function newPlayer(timeline, travel, options) {
  return {
    travel, playing: false, direction: 1, goal: null, speed: 1, still: false, waited: 0, holds: [], ...options,
    length: timeline.length, stops: stopsOf(timeline), carries: carriesOf(timeline), pieces: slowPieces(timeline),
    faults: faultsOf(timeline), strokes: [0, ...timeline.strokes.map((stroke) => stroke.to)],
  };
}

// The next of `marks` after (or before) a travel; null where there is none.
export function nextMark(marks, travel, direction) {
  if (direction > 0) return marks[countBefore(marks, travel + SAME, itself, true)] ?? null;
  return marks[countBefore(marks, travel - SAME, itself, false) - 1] ?? null;
}

function clamp(player, travel) {
  return Math.min(Math.max(travel, 0), player.length);
}

function paused(player, travel) {
  return {...player, travel: clamp(player, travel), playing: false, goal: null, direction: 1, waited: 0};
}

// A travel forwards to `goal`, or the hold that comes before it.
function upTo(player, travel, goal) {
  const hold = nextMark(player.holds, travel, 1);
  return hold === null ? goal : Math.min(hold, goal);
}

// Glide to a mark, or jump there under reduced motion; pressed again while gliding, jump and go on to the next.
function towards(player, marks, direction, quick) {
  const base = player.goal !== null && player.direction === direction ? player.goal : player.travel;
  const mark = nextMark(marks, base, direction);
  if (mark === null) return paused(player, direction > 0 ? upTo(player, player.travel, base) : base);
  const goal = direction > 0 ? upTo(player, player.travel, mark) : mark;
  if (player.still || quick) return paused(player, goal);
  return {...player, travel: direction > 0 ? Math.min(base, goal) : base, goal, direction, playing: true};
}

function tick(player, seconds) {
  if (!player.playing) return player;
  const goal = player.goal ?? player.length;
  const end = player.direction > 0 ? upTo(player, player.travel, goal) : goal;
  if (player.still) {
    const waited = player.waited + seconds * player.speed;
    if (waited < STILL_WAIT) return {...player, waited};
    const next = nextMark(player.stops, player.travel, 1);
    if (next === null || next >= end - SAME) return paused(player, end);
    return {...player, waited: 0, travel: next};
  }
  const back = player.direction < 0;
  const travel = advance(player.pieces, player.travel, seconds, player.speed * (back ? 3 : 1), player.direction);
  const there = back ? travel <= end + SAME : travel >= end - SAME;
  return there ? paused(player, end) : {...player, travel};
}

const ACTIONS = {
  tick: (player, action) => tick(player, action.seconds),
  play: (player) => (player.travel >= player.length - SAME
    ? {...player, travel: 0, playing: true, goal: null, direction: 1, waited: 0}
    : {...player, playing: true, goal: null, direction: 1, waited: 0}),
  follow: (player) => (player.still ? paused(player, upTo(player, player.travel, player.length))
    : {...player, playing: player.travel < player.length - SAME, goal: null, direction: 1, waited: 0}),
  pause: (player) => paused(player, player.travel),
  seek: (player, action) => paused(player, action.travel),
  stop: (player, action) => paused(player, player.stops[Math.min(Math.max(action.index, 0), player.stops.length - 1)]),
  moment: (player, action) => towards(player, player.stops, action.direction, action.direction < 0),
  carry: (player, action) => towards(player, player.carries, action.direction, true),
  fault: (player, action) => towards(player, player.faults, action.direction, true),
  stroke: (player, action) => towards(player, player.strokes, action.direction, action.direction < 0),
  start: (player) => paused(player, 0),
  end: (player) => paused(player, player.length),
  speed: (player, action) => ({...player, speed: action.speed}),
  still: (player, action) => ({...player, still: action.still}),
  holds: (player, action) => ({...player, holds: action.holds}),
};

// What the player is after an action; the player handed in is left as it was.
export function reduce(player, action) {
  return ACTIONS[action.type](player, action);
}

// The number of the last stop that the playhead has reached.
export function stopIndex(player) {
  return Math.max(0, countBefore(player.stops, player.travel + SAME, itself, true) - 1);
}

// A player for a new timeline in which what was the old end lies at `from`: it keeps its distance from there.
export function rebase(player, timeline, from) {
  const {speed, still, holds} = player;
  const travel = Math.max(0, from - (player.length - player.travel));
  return newPlayer(timeline, Math.min(travel, timeline.length), {speed, still, holds});
}
