// The carriage with its number wheels, carry levers, counter wheels and clearing levers, and what it shifts along.

import {add, put, move, mark, write, points} from "./svg.js";
import {buildHandle} from "./drawhandles.js";
import {buildWindow} from "./drawwindow.js";

// The carriage inside `parent`; returns update(pose, cover), `cover` being the parts behind a shutter.
export function buildCarriage(parent, plan) {
  const {machine} = plan;
  const fixed = add(parent, "g", {class: "bed", "aria-hidden": "true"});
  const scale = buildScale(fixed, plan);
  const group = add(parent, "g", {class: "carriage", "data-part": "carriage", "aria-hidden": "true"});
  buildFrame(group, plan);
  const {carriage} = plan;
  const parts = [];
  for (let wheel = 1; wheel <= machine.resultPlaces; wheel += 1) {
    parts.push(buildWheel(group, plan, `wheel/${wheel}`, plan.centre(wheel), carriage.wheelY, carriage.wheel, plan.digit));
  }
  for (let wheel = 1; wheel <= machine.counterPlaces; wheel += 1) {
    parts.push(buildWheel(group, plan, `counter/${wheel}`, plan.centre(wheel), carriage.counterY, carriage.counter,
      plan.counterDigit));
  }
  parts.push(...buildClearing(group, plan));
  const levers = add(group, "g", {class: "levers"});
  for (let wheel = 1; wheel <= machine.resultPlaces; wheel += 1) parts.push(buildLever(levers, plan, wheel));
  const finger = buildFinger(fixed, plan);
  return {
    update(pose, cover) {
      move(group, pose.carriage * plan.u, pose.lift * 9);
      put(group, "data-value", pose.carriage);
      for (const part of parts) part(pose, cover);
      scale(pose);
      finger(pose);
    },
  };
}

function buildFrame(parent, plan) {
  const {carriage, u, right, machine} = plan;
  const wide = Math.max(machine.resultPlaces, machine.counterPlaces);
  const x = right - wide * u - 0.24 * u;
  add(parent, "rect", {x, y: carriage.top, width: wide * u + 0.24 * u + plan.end, height: carriage.bottom - carriage.top,
    rx: 7, class: "plate"});
  add(parent, "rect", {x: x + 3.5, y: carriage.top + 3.5, width: wide * u + 0.24 * u + plan.end - 7,
    height: carriage.bottom - carriage.top - 7, rx: 5, class: "inlay"});
  if (plan.large || u < 24) return;
  for (let wheel = 1; wheel <= machine.resultPlaces; wheel += 1) {
    add(parent, "text", {x: plan.centre(wheel), y: carriage.wheelY - 3.5, class: "wheel-number"}, wheel);
  }
}

function buildWheel(parent, plan, name, x, y, height, size) {
  const shade = `url(#${plan.id}-barrel)`;
  return buildWindow(parent, {name, x, y, width: plan.wheelWidth, height, size, shade, small: name.startsWith("counter")});
}

// A carry lever stands between its wheel and the next higher; out, its blade reaches the idler line.
function buildLever(parent, plan, wheel) {
  const {u, drum, drop, tooth, carriage} = plan;
  const name = `lever/${wheel}`;
  const x = plan.centre(wheel + 1) + 0.62 * u;
  const group = add(parent, "g", {class: "lever", "data-part": name});
  const arm = add(group, "line", {x1: x, x2: x, y2: carriage.top + 6, class: "lever-arm"});
  const head = add(group, "g", {});
  const tall = tooth * 0.95;
  add(head, "polygon", {points: points([x + 0.05 * u, -tall], [x - 0.33 * u, -tall * 0.3], [x - 0.38 * u, 0],
    [x - 0.33 * u, tall * 0.3], [x + 0.05 * u, tall]), class: "lever-head"});
  return (pose) => {
    const out = pose[name];
    const y = drum.line + (1 - out) * drop;
    put(arm, "y1", y);
    put(head, "transform", `translate(${Math.round((1 - out) * 0.62 * x * 10) / 10} ${Math.round(y * 10) / 10}) scale(${Math.round((0.38 + 0.62 * out) * 1000) / 1000} 1)`);
    mark(group, "out", out > 0.5);
    put(group, "data-value", out);
  };
}

function buildClearing(parent, plan) {
  const {carriage, right} = plan;
  return [["result", carriage.wheelY + carriage.wheel / 2], ["counter", carriage.counterY + carriage.counter / 2]]
    .map(([register, y]) => buildHandle(parent, plan, {part: `clearing/${register}`, x: right + 16, y: y + 6, reach: 19,
      swing: 64, label: "", hand: `clear ${register}`, title: `Clear the ${register}`}));
}

// The carriage's positions, fixed to the bed, and the pointer at the carriage's end.
function buildScale(parent, plan) {
  const {bed, u} = plan;
  const from = plan.right + plan.end - 12;
  add(parent, "line", {x1: plan.left - 0.2 * u, x2: from + plan.spare * u + 12, y1: bed, y2: bed, class: "rail"});
  const skip = u < 24 ? 2 : 1;
  const ticks = [];
  for (let position = 0; position <= plan.spare; position += 1) {
    const x = from + position * u;
    add(parent, "line", {x1: x, x2: x, y1: bed, y2: bed + 5, class: "tick"});
    if (position % skip === 0) ticks.push(add(parent, "text", {x, y: bed + 17, class: "position"}, position));
  }
  const pointer = add(parent, "polygon", {class: "pointer", points: points([-6, -9], [6, -9], [0, 0])});
  return (pose) => {
    move(pointer, from + pose.carriage * u, bed + 1);
    ticks.forEach((tick, i) => mark(tick, "now", Math.abs(pose.carriage - i * skip) < 0.01));
  };
}

// The counter's finger at place 1: which way turns count.
function buildFinger(parent, plan) {
  const x = plan.centre(1);
  const y = plan.bed + 12;
  const group = add(parent, "g", {class: "finger", "data-part": "direction"});
  const word = add(group, "text", {x: x - 16, y: y + 4, class: "small-word end"});
  add(group, "path", {d: `M${x - 9.5} ${y - 2}L${x} ${y - 21}L${x + 9.5} ${y - 2}`, class: "finger-tip"});
  add(group, "circle", {cx: x, cy: y, r: 9.5, class: "finger-ring"});
  const sign = add(group, "text", {x, y: y + 0.5, class: "sign"});
  return (pose) => {
    const way = pose.direction;
    write(word, way > 0 ? "additive turns count up" : way < 0 ? "subtractive turns count up" : "counter direction free");
    write(sign, way > 0 ? "+" : way < 0 ? "−" : "");
    mark(group, "free", way === 0);
    put(group, "data-value", way);
  };
}
