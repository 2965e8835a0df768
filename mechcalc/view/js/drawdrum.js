// The drum's surface unrolled, rolling past the line of idlers. Draws a pose; decides nothing about the mechanism.

import {add, put, move, mark, points} from "./svg.js";
import {buildFaultCollar} from "./drawfaults.js";
import {faultsAt, isGone, lostTeeth, seatOf} from "./faults.js";

const round = Math.round;
const RULED = 120;   // degrees that the graduation goes on beyond a turn either way

// The drum inside `parent`; returns update(pose, turning), turning 1, -1 or 0.
export function buildDrum(parent, plan) {
  const {machine, drum, u, right} = plan;
  const x = right - machine.carryReach * u - 0.12 * u;
  const width = machine.carryReach * u + 0.3 * u + plan.collar;
  const frame = add(parent, "g", {class: "drum", "aria-hidden": "true"});
  bearings(frame, plan, x, width);
  const box = add(frame, "svg", {x, y: drum.top, width, height: drum.height, viewBox: `${x} ${drum.top} ${width} ${drum.height}`});
  add(box, "rect", {x, y: drum.top, width, height: drum.height, class: "surface"});
  for (let place = 1; place <= machine.carryReach; place += 1) lane(box, plan, place);
  const graduated = add(box, "g", {});
  buildCollar(graduated, plan, x, width);
  const idlers = buildIdlers(box, plan);
  const rolling = add(box, "g", {});
  const pins = [...numberPins(rolling, plan), ...carryPins(rolling, plan)];
  curve(box, plan, x, width);
  add(frame, "rect", {x, y: drum.top, width, height: drum.height, rx: 3, class: "drum-frame"});
  add(frame, "line", {x1: x - 8, x2: x + width + 8, y1: drum.line, y2: drum.line, class: "idler-line"});
  placeNumbers(frame, plan, x);
  return {
    update(pose, turning) {
      const turned = pose.crank;
      const within = ((turned % 360) + 360) % 360;
      move(rolling, 0, turned * plan.scale);
      move(graduated, 0, within * plan.scale);
      for (const pin of pins) pin(pose, turned);
      idlers(pose, turning);
    },
  };
}

function bearings(parent, plan, x, width) {
  const {drum} = plan;
  const middle = plan.tall ? drum.top + drum.height / 2 : plan.disc.y;
  add(parent, "rect", {x: plan.left - 8, y: middle - 9, width: x - plan.left + 10, height: 18, class: "axle"});
  const end = plan.tall ? plan.width - 8 : plan.disc.x;
  add(parent, "rect", {x: x + width, y: middle - 9, width: Math.max(0, end - x - width), height: 18, class: "axle"});
  for (const at of [x - 6, x + width]) {
    add(parent, "rect", {x: at, y: drum.top + 14, width: 6, height: drum.height - 28, class: "flange"});
  }
}

function lane(parent, plan, place) {
  const {drum} = plan;
  const at = {y: drum.top, height: drum.height};
  const set = place <= plan.machine.settingPlaces ? "lane" : "lane far";
  add(parent, "rect", {...at, x: plan.centre(place) - plan.lane / 2, width: plan.lane, class: set});
  if (place > 1) {
    const x = plan.carryLane(place);
    add(parent, "line", {x1: x, x2: x, y1: drum.top, y2: drum.bottom, class: "carry-lane"});
  }
}

// Degrees on a collar at the end of the drum, and across it the arc with nothing on it, hatched. Both come past twice
// in the window's reckoning.
function buildCollar(parent, plan, x, width) {
  const {rest} = plan.machine;
  const from = x + width - plan.collar;
  for (const angle of [0, 360]) {
    const height = rest * plan.scale;
    const top = plan.surface(angle + rest / 2, 0);
    add(parent, "rect", {x, y: top, width, height, fill: `url(#${plan.id}-hatch)`, class: "rest"});
  }
  const long = 360 + 2 * RULED;
  add(parent, "rect", {x: from, y: plan.surface(360 + RULED, 0), width: plan.collar, height: long * plan.scale, class: "collar"});
  for (let angle = -RULED; angle <= 360 + RULED; angle += 10) {
    const y = plan.surface(angle, 0);
    const words = angle % 360 === 0 ? "rest" : `${((angle % 360) + 360) % 360}°`;
    add(parent, "line", {x1: from, x2: from + (angle % 30 ? 4 : 8), y1: y, y2: y, class: "graduation"});
    if (angle % 30 === 0) add(parent, "text", {x: from + 10, y, class: angle % 360 ? "degree" : "degree rest-word"}, words);
  }
}

// The places, from the right, over the drum.
function placeNumbers(parent, plan, x) {
  const y = plan.drum.top - 5;
  for (let place = 1; place <= plan.machine.carryReach; place += 1) {
    add(parent, "text", {x: plan.centre(place), y, class: "place-number"}, place);
  }
  if (x - plan.left > 30) add(parent, "text", {x: x - 4, y, class: "small-word end"}, "place");
}

// Where something with drum angle `at` (its middle) is now: a whole number of turns is added so that it is nearest.
function nearest(at, turned) {
  return at + 360 * round((turned - at) / 360);
}

function numberPins(parent, plan) {
  const {machine, lane: wide, pinHeight} = plan;
  const list = [];
  for (let place = 1; place <= machine.settingPlaces; place += 1) {
    machine.numberPins.forEach((contact, index) => {
      const name = `pin/${place}/${index + 1}`;
      const at = contact + machine.pitch / 2;
      const group = add(parent, "g", {class: "pin", "data-part": name});
      const body = add(group, "rect", {height: pinHeight, y: -pinHeight / 2, rx: pinHeight * 0.3, class: "pin-body"});
      const shine = add(group, "line", {y1: -pinHeight * 0.18, y2: -pinHeight * 0.18, class: "pin-shine"});
      buildFault(group, plan, name, wide * 1.12, pinHeight + 6);
      list.push((pose, turned) => {
        const out = pose[name];
        move(group, plan.centre(place), plan.surface(nearest(at, turned), 0));
        const half = wide * (0.26 + 0.2 * out);
        put(body, "x", -half);
        put(body, "width", 2 * half);
        put(shine, "x1", -half + 3);
        put(shine, "x2", half - 3);
        mark(group, "out", out > 0.5);
        put(group, "data-value", out);
      });
    });
  }
  return list;
}

function carryPins(parent, plan) {
  const {machine, u, pinHeight} = plan;
  const half = Math.max(3.6, 0.115 * u);
  const tall = Math.max(pinHeight * 0.72, 5);
  const list = [];
  for (const sign of ["+", "-"]) {
    const to = sign === "+" ? 1 : -1;
    const shape = points([-half, -tall * to], [half, -tall * to], [half * 0.32, tall * to], [-half * 0.32, tall * to]);
    for (const [place, contact] of machine.carryPins[sign]) {
      const name = `carrypin/${sign}/${place}`;
      const at = contact + machine.pitch / 2;
      const group = add(parent, "g", {class: `carry-pin ${sign === "+" ? "plus" : "minus"}`, "data-part": name});
      add(group, "polygon", {points: shape});
      buildFault(group, plan, name, 2 * half + 8, 2 * tall + 7);
      list.push((pose, turned) => {
        const over = pose[name];
        const x = plan.carryLane(place) + over * (plan.centre(place) - plan.carryLane(place));
        move(group, x, plan.surface(nearest(at, turned), 0));
        mark(group, "over", over > 0.02);
        put(group, "data-value", over);
      });
    }
  }
  return list;
}

// A collar around a faulty pin, and a hole where it is gone.
function buildFault(group, plan, name, width, height) {
  if (!faultsAt(plan.faults, name).length) return;
  if (isGone(plan.faults, name)) {
    group.classList.add("gone");
    add(group, "ellipse", {rx: Math.min(3.4, width / 5), ry: Math.min(3.4, height / 4), class: "hole"});
  }
  buildFaultCollar(group)(width, height);
}

// Toothed rollers seen edge on. Their teeth go with the pins that drive them.
function buildIdlers(parent, plan) {
  const {machine, drum, lane: wide, tooth} = plan;
  const radius = Math.min(24, tooth * 1.85);
  const list = [];
  for (let place = 1; place <= machine.carryReach; place += 1) {
    const name = `idler/${place}`;
    const group = add(parent, "g", {class: "idler", "data-part": name,
      transform: `translate(${plan.centre(place)} ${drum.line})`});
    const half = wide / 2 + 2;
    add(group, "rect", {x: -half, y: -radius, width: 2 * half, height: 2 * radius, rx: 4, class: "idler-body"});
    const teeth = add(group, "path", {class: "idler-teeth"});
    const lost = lostTeeth(plan.faults, place).map((digit) => [digit, add(group, "path", {class: "idler-seat"})]);
    list.push((pose, turning) => {
      const value = pose[name];
      put(group, "data-value", value);
      const opposite = pose[`wheel/${place + Math.round(pose.carriage)}`] ?? value;
      const seats = lost.map(([digit]) => seatOf(digit, opposite, turning));
      const turned = value - Math.floor(value);
      let path = "";
      for (let i = -3; i <= 2; i += 1) {
        const at = i + turned + 0.5;
        if (!seats.some((seat) => Math.abs(seat - at) < 0.5)) path += toothLine(at, half, radius);
      }
      put(teeth, "d", path);
      lost.forEach(([, line], i) => put(line, "d", toothLine(seats[i], half, radius)));
    });
  }
  return (pose, turning) => list.forEach((draw) => draw(pose, turning));
}

// A tooth `at` so many teeth from the idler line, as a path; nothing where it is round the back.
function toothLine(at, half, radius) {
  const angle = at * 0.56;
  if (Math.abs(angle) >= 1.45) return "";
  return `M${round((-half + 2) * 100) / 100} ${round(radius * Math.sin(angle) * 100) / 100}H${round((half - 2) * 100) / 100}`;
}

// Engraved lines that close up towards the edges, as on a cylinder.
function curve(parent, plan, x, width) {
  const {drum} = plan;
  let path = "";
  for (let i = 0; i < 9; i += 1) {
    const away = 34 * (1 - Math.cos((i / 9) * Math.PI / 2)) + 1.2;
    for (const y of [drum.top + 34 - away, drum.bottom - 34 + away]) path += `M${x} ${round(y * 10) / 10}h${width}`;
  }
  add(parent, "rect", {x, y: drum.top, width, height: drum.height, fill: `url(#${plan.id}-round)`});
  add(parent, "path", {d: path, class: "engraved"});
}
