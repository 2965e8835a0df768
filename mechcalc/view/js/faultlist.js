// What the marks of faults mean, in words under the picture.

import {tag} from "./html.js";

// The list of faults inside `parent`; nothing where there are none.
export function buildFaultList(parent, faults) {
  if (!faults.length) return;
  const box = tag(parent, "section", {class: "fault-list", "aria-label": "Faulty parts"});
  tag(box, "span", {class: "fault-head", text: faults.length > 1 ? "faulty parts" : "faulty part"});
  const list = tag(box, "ul", {});
  for (const {letter, words} of faults) {
    const row = tag(list, "li", {});
    buildChip(row, letter);
    tag(row, "span", {text: ` ${words}`});
  }
}

// A letter as the picture's tags have it.
export function buildChip(parent, letter) {
  return tag(parent, "span", {class: "fault-chip", text: letter});
}
