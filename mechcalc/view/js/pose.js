// Where every part stands at a travel. Twin of pose.py, and tested against it. Nothing else reads tracks.

// How many items come before `travel` (or at it, when `through`), items being in order of `key`.
export function countBefore(items, travel, key, through) {
  let low = 0;
  let high = items.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    const at = key(items[middle]);
    if (at < travel || (through && at === travel)) low = middle + 1;
    else high = middle;
  }
  return low;
}

const atOf = (item) => item[0];
const momentEnd = (moment) => moment.at;
const strokeEnd = (stroke) => stroke.to;

// The value of one track: even between keys; where two keys share a travel the later one holds.
export function trackValue(keys, travel) {
  const index = countBefore(keys, travel, atOf, true);
  if (index === 0) return keys[0][1];
  if (index === keys.length) return keys[index - 1][1];
  const [begin, was] = keys[index - 1];
  const [end, becomes] = keys[index];
  return was + (becomes - was) * (travel - begin) / (end - begin);
}

// Every part's value at a travel.
export function poseAt(timeline, travel) {
  const pose = {};
  for (const name in timeline.tracks) pose[name] = trackValue(timeline.tracks[name], travel);
  return pose;
}

// The index of the stroke under way; at a boundary the one that ends there; null at the start.
export function strokeAt(timeline, travel) {
  const {strokes} = timeline;
  if (!strokes.length || travel <= strokes[0].from) return null;
  return Math.min(countBefore(strokes, travel, strokeEnd, false), strokes.length - 1);
}

// The moment that a picture at this travel speaks of; `active` while its parts are in action.
export function momentAt(timeline, travel) {
  const {moments} = timeline;
  const index = strokeAt(timeline, travel);
  const first = countBefore(moments, travel, momentEnd, false);
  for (let i = first; i < moments.length; i += 1) {
    if (moments[i].from < travel || moments[i].at === travel) return {...moments[i], active: true};
    if (moments[i].stroke !== index) break;
  }
  if (first && moments[first - 1].stroke === index) return {...moments[first - 1], active: false};
  let words = "Nothing has moved yet.";
  if (index !== null) {
    words = timeline.strokes[index].words;
    words = words.slice(0, 1).toUpperCase() + words.slice(1) + (/[.!?]$/.test(words) ? "" : ".");
  }
  return {at: travel, from: travel, stroke: index, kinds: [], words, parts: [], active: false};
}

// The travels worth stopping at: the beginning, each moment, each stroke's end. A lever's way to its digit, or a
// wheel's way back to 0, is one stop, not nine.
export function stopsOf(timeline) {
  const {moments} = timeline;
  const stops = [0];
  const way = (moment) => moment.kinds.every((kind) => /setting step|clearing step/.test(kind))
    && `${moment.stroke} ${moment.parts}`;
  moments.forEach((moment, i) => {
    const next = moments[i + 1];
    if (!(next && way(moment) && way(moment) === way(next))) stops.push(moment.at);
  });
  for (const stroke of timeline.strokes) stops.push(stroke.to);
  return [...new Set(stops)].sort((a, b) => a - b);
}

// The travels at which a carry lever pushes a carry pin over.
export function carriesOf(timeline) {
  return timeline.moments.filter((moment) => moment.kinds.includes("pin deflected")).map((moment) => moment.at);
}

// The travels at which a fault acts, or where a sound part would have acted.
export function faultsOf(timeline) {
  return timeline.moments.filter((moment) => moment.faults).map((moment) => moment.at);
}

// Which way the crank is being turned, or was turned last: 1 additive, -1 subtractive, 0 not yet.
export function turningAt(timeline, travel) {
  const keys = timeline.tracks.crank;
  for (let i = Math.min(countBefore(keys, travel, atOf, false), keys.length - 1); i > 0; i -= 1) {
    if (keys[i][1] !== keys[i - 1][1]) return Math.sign(keys[i][1] - keys[i - 1][1]);
  }
  return Math.sign(keys[0][1]);
}
