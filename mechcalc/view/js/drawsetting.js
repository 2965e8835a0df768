// The setting levers in their slots, the lock under them, and the check register.

import {add, put, move, mark, write} from "./svg.js";

const PLACES = ["units", "tens", "hundreds", "thousands", "ten thousands", "hundred thousands", "millions"];

// What a place is called; as words.py says it.
export function placeName(place) {
  return PLACES[place - 1] ?? `place ${place}`;
}

// The setting inside `parent`; returns update(pose). With `live` each lever can be reached by the keyboard.
export function buildSetting(parent, plan, live) {
  const {machine, u, right, windows, slots, plateBottom} = plan;
  const group = add(parent, "g", {class: "setting"});
  const x = right - machine.settingPlaces * u - 0.3 * u;
  const width = machine.settingPlaces * u + 0.5 * u;
  add(group, "rect", {x, y: 8, width, height: plateBottom - 8, rx: 7, class: "plate"});
  add(group, "rect", {x: x + 3.5, y: 11.5, width: width - 7, height: plateBottom - 15, rx: 5, class: "inlay"});
  const lock = buildLock(group, plan, x, width);
  const levers = [];
  for (let place = 1; place <= machine.settingPlaces; place += 1) levers.push(buildSlot(group, plan, place, live));
  if (x - plan.left > 84) {
    add(group, "text", {x: x - 12, y: windows.top + windows.height * 0.68, class: "small-word end"},
      machine.checkRegister ? "check register" : "setting");
    if (!plan.large) add(group, "text", {x: x - 12, y: slots.top + 4, class: "small-word end"}, "setting levers");
  }
  return {update(pose) { lock(pose); levers.forEach((draw) => draw(pose)); }};
}

function buildLock(parent, plan, x, width) {
  const y = plan.slots.bottom + 13;
  const group = add(parent, "g", {class: "lock", "data-part": "lock", "aria-hidden": "true"});
  add(group, "rect", {x: x + 9, y: y - 2, width: width - 18, height: 4, rx: 2, class: "lock-bar"});
  for (let place = 1; place <= plan.machine.settingPlaces; place += 1) {
    add(group, "rect", {x: plan.centre(place) - 3, y: y - 7, width: 6, height: 7, rx: 1, class: "lock-bar"});
  }
  return (pose) => {
    move(group, 0, (1 - pose.lock) * 5);
    mark(group, "caught", pose.lock > 0.5);
    put(group, "data-value", pose.lock);
  };
}

function buildSlot(parent, plan, place, live) {
  const {u, windows, slots, settingWindow, machine} = plan;
  const name = `setting/${place}`;
  const x = plan.centre(place);
  const group = add(parent, "g", {class: "slot", "data-part": name, "data-hand": "lever", "data-place": place});
  if (live) {
    for (const [key, value] of Object.entries({role: "slider", tabindex: place === 1 ? 0 : -1, "aria-valuemin": 0,
      "aria-valuemax": 9, "aria-orientation": "vertical", "aria-label": `Setting lever, ${placeName(place)}`})) {
      group.setAttribute(key, value);
    }
  }
  const {x: left, width: wide} = settingWindow;
  add(group, "rect", {x: x - u * 0.48, y: windows.top, width: u * 0.96, height: slots.bottom - windows.top + 8, rx: 4, class: "touch"});
  add(group, "rect", {x: x + left, y: windows.top, width: wide, height: windows.height, rx: 4,
    class: machine.checkRegister ? "window check" : "window"});
  const digit = add(group, "text", {x: x + left + wide / 2, y: windows.top + windows.height / 2, class: "numeral set",
    "font-size": Math.min(plan.large ? 0.98 * u : 0.95 * u, windows.height * 0.84), "aria-hidden": "true"});
  const knob = buildGroove(group, plan, x + plan.groove);
  return (pose) => {
    const value = pose[name];
    move(knob, 0, slots.top + value * slots.pitch);
    write(digit, Math.round(value));
    put(group, "data-value", value);
    if (live) put(group, "aria-valuenow", Math.round(value));
  };
}

// The groove around `x` with its scale and the lever's knob, which is returned.
function buildGroove(group, plan, x) {
  const {u, slots} = plan;
  add(group, "line", {x1: x, x2: x, y1: slots.top, y2: slots.bottom, class: "groove"});
  for (let d = 0; d <= 9; d += 1) {
    const y = slots.top + d * slots.pitch;
    add(group, "line", {x1: x - 0.14 * u, x2: x - 0.07 * u, y1: y, y2: y, class: "notch"});
    if (u > 24 && !plan.large) add(group, "text", {x: x - 0.28 * u, y, class: "scale-digit", "aria-hidden": "true"}, d);
  }
  const knob = add(group, "g", {});
  add(knob, "rect", {x: x - 0.13 * u, y: -3.6, width: 0.26 * u, height: 7.2, rx: 3.4, class: "knob"});
  return knob;
}
