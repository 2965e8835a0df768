// The crank seen from its end: a dial of what stands at the idlers as the handle goes round, the pawl, the way.

import {add, put, mark, write, points} from "./svg.js";
import {buildBell, buildHandle} from "./drawhandles.js";

const turnBy = (degrees) => degrees * Math.PI / 180;

function onCircle(x, y, r, degrees) {
  return [x + r * Math.sin(turnBy(degrees)), y - r * Math.cos(turnBy(degrees))];
}

const at = (pair) => pair.map((v) => Math.round(v * 100) / 100).join(" ");

function ringPath(x, y, inner, outer, from, to) {
  const large = to - from > 180 ? 1 : 0;
  return `M${at(onCircle(x, y, outer, from))}A${outer} ${outer} 0 ${large} 1 ${at(onCircle(x, y, outer, to))}`
    + `L${at(onCircle(x, y, inner, to))}A${inner} ${inner} 0 ${large} 0 ${at(onCircle(x, y, inner, from))}Z`;
}

// Crank, bell, comb and transfer lever inside `parent`; returns update(pose, turning), turning 1, -1 or 0.
export function buildCrank(parent, plan, live) {
  const {disc, machine} = plan;
  const {x, y, r} = disc;
  const group = add(parent, "g", {class: "crank", "data-part": "crank", "data-hand": "crank"});
  if (live) {
    for (const [key, value] of Object.entries({role: "slider", tabindex: 0, "aria-valuemin": 0, "aria-valuemax": 360,
      "aria-label": "Crank, degrees from rest"})) group.setAttribute(key, value);
  }
  add(group, "circle", {cx: x, cy: y, r: r + 24, class: "touch"});
  buildDial(group, plan);
  const rotor = add(group, "g", {class: "rotor"});
  add(rotor, "path", {d: `M${x - 9} ${y}L${x - 5} ${y - r * 0.62}H${x + 5}L${x + 9} ${y}Z`, class: "arm"});
  add(rotor, "circle", {cx: x, cy: y, r: 12, class: "hub"});
  add(rotor, "circle", {cx: x, cy: y - r * 0.62, r: 14, class: "grip"});
  add(rotor, "circle", {cx: x, cy: y - r * 0.62, r: 5.5, class: "grip-end"});
  const pawl = buildPawl(group, plan);
  const reading = add(group, "text", {x, y: y + r + (plan.large ? 46 : 38), class: "angle"});
  const way = buildWay(group, x, y, r);
  const {top} = plan;
  const others = [
    buildHandle(parent, plan, {part: "comb", x: top.comb[0], y: top.comb[1], reach: 26, swing: 46, label: "clear setting", hand: "clear setting", title: "Clear the setting"}),
    buildBell(parent, plan, ...top.bell),
  ];
  if (machine.backTransfer) {
    others.push(buildHandle(parent, plan, {part: "transfer", x: top.transfer[0], y: top.transfer[1],
      reach: 26, swing: 70, label: "back transfer", hand: "back transfer", title: "Back transfer"}));
  }
  return {
    update(pose, turning) {
      const within = ((pose.crank % 360) + 360) % 360;
      put(rotor, "transform", `rotate(${Math.round(within * 10) / 10} ${x} ${y})`);
      put(group, "data-value", pose.crank);
      const angle = turning < 0 ? (360 - within) % 360 : within;
      const rest = pose.pawl === 0 && within === 0;
      write(reading, rest ? "at rest" : pose.comb > 0 ? "held by the comb" : `${Math.round(angle)}° ${turning < 0 ? "subtractive" : "additive"}`);
      if (live) {
        put(group, "aria-valuenow", Math.round(angle));
        put(group, "aria-valuetext", rest ? "at rest" : `${Math.round(angle)} degrees of ${turning < 0 ? "a subtractive" : "an additive"} turn`);
      }
      pawl(pose, turning);
      way(rest ? 0 : turning);
      others.forEach((draw) => draw(pose));
    },
  };
}

function buildDial(parent, plan) {
  const {machine, disc: {x, y, r}, id} = plan;
  const dial = add(parent, "g", {class: "dial", "aria-hidden": "true"});
  add(dial, "circle", {cx: x, cy: y, r, class: "dial-body"});
  const spans = [["pins", machine.numberPins, "number pins"],
    ["plus", machine.carryPins["+"].map((pin) => pin[1]), "carry pins +"],
    ["minus", machine.carryPins["-"].map((pin) => pin[1]), "carry pins −"]];
  spans.forEach(([kind, contacts, words]) => {
    if (!contacts.length) return;
    const from = Math.min(...contacts);
    const to = Math.max(...contacts) + machine.pitch;
    add(dial, "path", {d: ringPath(x, y, r * 0.84, r * 0.97, from, to), class: `span ${kind}`});
    for (const contact of contacts) {
      const middle = contact + machine.pitch / 2;
      const [x1, y1] = onCircle(x, y, r * 0.86, middle);
      const [x2, y2] = onCircle(x, y, r * 0.95, middle);
      add(dial, "line", {x1, y1, x2, y2, class: `span-pin ${kind}`});
    }
    arcWord(dial, plan, `${id}-${kind}`, (from + to) / 2, words);
  });
  for (let angle = 0; angle < 360; angle += 30) {
    const [x1, y1] = onCircle(x, y, r, angle);
    const [x2, y2] = onCircle(x, y, r + (angle % 90 ? 4 : 7), angle);
    add(dial, "line", {x1, y1, x2, y2, class: "tick"});
  }
  const half = Math.max(machine.rest / 2, 5);
  add(dial, "path", {d: ringPath(x, y, r * 0.84, r * 1.0, -half, half), class: "rest-notch"});
}

// Words along the rim; on the lower half they run the other way so that they stand upright.
function arcWord(parent, plan, id, middle, words) {
  const {x, y, r} = plan.disc;
  const low = middle > 95 && middle < 265;
  const radius = low ? r + 19 : r + 10;
  const [from, to] = low ? [middle + 60, middle - 60] : [middle - 60, middle + 60];
  add(parent, "path", {id, fill: "none", d: `M${at(onCircle(x, y, radius, from))}A${radius} ${radius} 0 0 ${low ? 0 : 1} ${at(onCircle(x, y, radius, to))}`});
  const text = add(parent, "text", {class: "arc-word"});
  add(text, "textPath", {href: `#${id}`, startOffset: "50%"}, words);
}

function buildPawl(parent, plan) {
  const {x, y, r} = plan.disc;
  const group = add(parent, "g", {class: "pawl", "data-part": "pawl", "aria-hidden": "true"});
  const dog = add(group, "g", {});
  const top = y - r - 19;
  add(dog, "path", {d: `M${x - 5.5} ${top}H${x + 5.5}L${x + 3} ${y - r + 7}L${x} ${y - r + 12}L${x - 3} ${y - r + 7}Z`, class: "pawl-body"});
  add(group, "circle", {cx: x, cy: top, r: 5, class: "pivot"});
  return (pose, turning) => {
    const tilt = pose.pawl * 24 * (turning < 0 ? -1 : 1);
    put(dog, "transform", `rotate(${Math.round(-tilt * 10) / 10} ${x} ${top}) translate(0 ${Math.round(-pose.pawl * 50) / 10})`);
    mark(group, "caught", pose.pawl > 0.5);
    put(group, "data-value", pose.pawl);
  };
}

// The arrow of the way it is being turned, inside the dial.
function buildWay(parent, x, y, r) {
  const ring = r * 0.36;
  const arrow = (from, to, side) => {
    const [hx, hy] = onCircle(x, y, ring, to);
    const g = add(parent, "g", {class: "way", "aria-hidden": "true"});
    add(g, "path", {d: `M${at(onCircle(x, y, ring, from))}A${ring} ${ring} 0 0 ${side > 0 ? 1 : 0} ${at([hx, hy])}`});
    const back = to - side * 24;
    add(g, "polygon", {points: points(onCircle(x, y, ring - 6, back), onCircle(x, y, ring + 6, back), onCircle(x, y, ring, to + side * 4))});
    return g;
  };
  const plus = arrow(105, 255, 1);
  const minus = arrow(255, 105, -1);
  return (turning) => {
    mark(plus, "on", turning > 0);
    mark(minus, "on", turning < 0);
  };
}
