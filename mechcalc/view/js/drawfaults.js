// Marks on faulty parts: a striped collar and a tag with a letter. Black on white, so that they need no colour.

import {add, move, put} from "./svg.js";
import {collarOf, rolls, tagOf} from "./faults.js";

// A striped collar inside `parent` around (0, 0). Returns size(width, height).
export function buildFaultCollar(parent) {
  const group = add(parent, "g", {class: "fault-collar"});
  const lines = ["fault-band", "fault-stripes"].map((name) => add(group, "rect", {class: name, rx: 3}));
  return (width, height) => {
    for (const line of lines) {
      put(line, "x", -width / 2);
      put(line, "y", -height / 2);
      put(line, "width", width);
      put(line, "height", height);
    }
  };
}

// The tags of all faults, and the collars of those parts that do not roll with the drum. Returns update(pose).
export function buildFaultMarks(parent, plan) {
  const layer = add(parent, "g", {class: "faults", "aria-hidden": "true"});
  const seen = new Map();
  const marks = plan.faults.map(({part, letter}) => {
    const stack = seen.get(part) ?? 0;
    seen.set(part, stack + 1);
    const collar = rolls(part) || stack ? null : add(layer, "g", {"data-fault": letter});
    const size = collar && buildFaultCollar(collar);
    const tag = buildTag(layer, letter);
    return (pose) => {
      if (collar) {
        const {x, y, width, height} = collarOf(plan, part, pose);
        size(width, height);
        move(collar, x, y);
      }
      move(tag, ...tagOf(plan, part, pose, stack));
    };
  });
  return (pose) => marks.forEach((draw) => draw(pose));
}

function buildTag(parent, letter) {
  const tag = add(parent, "g", {class: "fault-tag", "data-tag": letter});
  const wide = 7 + 8.5 * letter.length;
  add(tag, "rect", {x: -wide / 2, y: -8, width: wide, height: 16, rx: 2, class: "fault-tag-body"});
  add(tag, "text", {y: 0.5, class: "fault-letter"}, letter);
  return tag;
}
