// What each key does while the picture has the focus. Pure: a key becomes an action, or nothing.

const time = (type, direction) => ({time: direction ? {type, direction} : {type}});
const hand = (operation, argument = null) => ({hand: [operation, argument]});

export const KEYS = [
  {keys: "space", words: "play, pause", match: (key) => key === " ", act: {time: {type: "toggle"}}},
  {keys: "→ ←", words: "one moment on, back", match: (key) => key === "ArrowRight" || key === "ArrowLeft",
    act: (key) => time("moment", key === "ArrowRight" ? 1 : -1)},
  {keys: "C  Shift C", words: "next carry, previous carry", match: (key) => key === "c" || key === "C",
    act: (key) => time("carry", key === "c" ? 1 : -1)},
  {keys: "D  Shift D", words: "to where a fault acts next, acted before", faults: true, match: (key) => key === "d" || key === "D",
    act: (key) => time("fault", key === "d" ? 1 : -1)},
  {keys: "N  Shift N", words: "one stroke on, back", match: (key) => key === "n" || key === "N",
    act: (key) => time("stroke", key === "n" ? 1 : -1)},
  {keys: "Home End", words: "to the beginning, to the end", match: (key) => key === "Home" || key === "End",
    act: (key) => time(key === "Home" ? "start" : "end")},
  {keys: "+ −", words: "one turn, additive or subtractive", live: true, match: (key) => "+=-−".includes(key),
    act: (key) => hand("turn", key === "+" || key === "=" ? 1 : -1)},
  {keys: ". ,", words: "turn the crank a little way, additive or subtractive", live: true, match: (key) => key === "." || key === ",",
    act: (key) => hand("crank", key === "." ? 10 : -10)},
  {keys: "[ ]", words: "carriage to the left, to the right", live: true, match: (key) => key === "[" || key === "]",
    act: (key) => hand("shift", key === "]" ? 1 : -1)},
  {keys: "S R T", words: "clear setting, result, counter", live: true, match: (key) => "srt".includes(key),
    act: (key) => hand({s: "clear setting", r: "clear result", t: "clear counter"}[key])},
  {keys: "B", words: "back transfer", live: true, match: (key) => key === "b", act: () => hand("back transfer")},
  {keys: "U", words: "undo", live: true, match: (key) => key === "u", act: () => hand("undo")},
  {keys: "on a setting lever: 0 to 9, ↑ ↓", words: "set it, move it; ← → the next lever", live: true, match: () => false},
  {keys: "W", words: "wait before each carry", match: (key) => key === "w", act: {toggle: "wait"}},
  {keys: "G", words: "go on from where it waits", match: (key) => key === "g", act: {on: true}},
  {keys: "Q", words: "to the question", asks: true, match: (key) => key === "q", act: {toggle: "question"}},
  {keys: "L", words: "large type", match: (key) => key === "l", act: {toggle: "large"}},
  {keys: "?", words: "this list", match: (key) => key === "?", act: {toggle: "help"}},
];

// The action of a key; null where it has none, or only a live machine has it.
export function actionOf(key, live) {
  const row = KEYS.find((candidate) => key.length > 0 && candidate.match(key) && (live || !candidate.live));
  if (!row) return null;
  return typeof row.act === "function" ? row.act(key) : row.act;
}
