// The windows once more, large, for a page on which the picture makes them small: each register in rows of at most ten.

import {add} from "./svg.js";
import {tag} from "./html.js";
import {buildWindow} from "./drawwindow.js";
import {partsOf} from "./registers.js";

const SMALL = 15;   // pixels of a window's width under which digits are hard to read
const ROW = 10;     // windows in a row
const WIDE = 48;    // drawing units at the left, for words
const U = 30;       // drawing units of a window and its gap
const TALL = 31;

// Whether a picture of this plan, drawn `width` pixels wide, wants its windows shown close up.
export function closeupFor(plan, width) {
  return plan.tall && width > 0 && plan.wheelWidth * width / plan.width < SMALL;
}

// The close-up inside `root`, before `stage`. Returns draw(pose, cover) and remove().
export function buildCloseup(root, stage, machine) {
  const box = tag(root, "div", {class: "closeup", "aria-hidden": "true"});
  root.insertBefore(box, stage);
  const rows = [["setting", "setting"], ["wheel", "result"], ["counter", "counter"]]
    .flatMap(([register, words]) => rowsOf(partsOf(machine, register), words));
  const height = rows.length * (TALL + 4) + 4;
  const svg = add(box, "svg", {viewBox: `0 0 ${ROW * U + WIDE} ${height}`, class: "machine"});
  const windows = rows.flatMap((row, index) => buildRow(svg, row, 4 + index * (TALL + 4)));
  return {
    draw(pose, cover) { for (const draw of windows) draw(pose, cover); },
    remove() { box.remove(); },
  };
}

// Windows in rows, the highest places first; the units stand at the right of the last.
function rowsOf(parts, words) {
  const rows = [];
  for (let low = 0; low < parts.length; low += ROW) rows.unshift({parts: parts.slice(low, low + ROW), low, words: ""});
  rows[0].words = words;
  return rows;
}

function buildRow(svg, {parts, words, low}, y) {
  add(svg, "text", {x: 2, y: y + 12, class: "small-word"}, words);
  add(svg, "text", {x: 2, y: y + 26, class: "closeup-places"}, parts.length > 1 ? `${low + parts.length}–${low + 1}` : low + 1);
  return parts.map((name, index) => buildWindow(svg, {name, tagged: "data-near", x: WIDE + (ROW - index - 0.5) * U, y,
    width: U - 3, height: TALL, size: 25, shade: "none", small: name.startsWith("counter")}));
}
