// Small levers on a pivot, and the bell.

import {add, put, mark} from "./svg.js";

// A lever that swings by `swing` degrees as its part goes from 0 to 1; returns draw(pose).
export function buildHandle(parent, plan, {part, x, y, reach, swing, label, hand, title}) {
  const group = add(parent, "g", {class: "handle", "data-part": part, "data-hand": hand});
  add(group, "title", {}, title);
  add(group, "circle", {cx: x, cy: y, r: reach * 0.95, class: "touch"});
  const arm = add(group, "g", {});
  add(arm, "line", {x1: x, y1: y, x2: x, y2: y - reach, class: "handle-arm"});
  add(arm, "circle", {cx: x, cy: y - reach, r: 5.5, class: "knob"});
  add(group, "circle", {cx: x, cy: y, r: 3.5, class: "pivot"});
  if (label) add(group, "text", {x, y: y + 17, class: "small-word middle"}, label);
  return (pose) => {
    put(arm, "transform", `rotate(${Math.round(pose[part] * swing * 10) / 10} ${x} ${y})`);
    put(group, "data-value", pose[part]);
    mark(group, "pulled", pose[part] > 0.02);
  };
}

// The bell with its clapper; `rang` leaves its sound lines up until the next turn.
export function buildBell(parent, plan, x, y) {
  const group = add(parent, "g", {class: "bell", "data-part": "bell", transform: `translate(${x} ${y})`});
  add(group, "path", {d: "M-15 10C-12 7 -11 1 -10 -5C-9 -13 -5 -17 0 -17C5 -17 9 -13 10 -5C11 1 12 7 15 10Z", class: "bell-body"});
  add(group, "line", {x1: -17, x2: 17, y1: 10, y2: 10, class: "bell-lip"});
  const clapper = add(group, "circle", {cy: 14, r: 3.6, class: "clapper"});
  const sound = add(group, "g", {class: "sound"});
  add(sound, "path", {d: "M-21 -8q-5 7 0 14M21 -8q5 7 0 14M-27 -11q-7 10 0 20M27 -11q7 10 0 20"});
  add(group, "text", {y: 33, class: "small-word middle"}, "bell");
  return (pose) => {
    put(clapper, "cx", pose.bell * 9);
    mark(group, "rang", pose.rang > 0.5 || pose.bell > 0);
    put(group, "data-value", pose.rang);
  };
}
