// The buttons: those of time, and those of the machine.

import {tag} from "./html.js";
import {add} from "./svg.js";
import {KEYS} from "./keys.js";
import {buildFaultCollar} from "./drawfaults.js";

const ICONS = {
  start: "M4 3v10M13 3L6 8l7 5z", end: "M12 3v10M3 3l7 5-7 5z", play: "M4 2.5l9 5.5-9 5.5z",
  pause: "M4 3h3v10H4zM9 3h3v10H9z", back: "M11 3L5 8l6 5", on: "M5 3l6 5-6 5",
};

function icon(button, name) {
  const svg = add(button, "svg", {viewBox: "0 0 16 16", width: 14, height: 14, class: `icon is-${name}`, "aria-hidden": "true"});
  add(svg, "path", {d: ICONS[name]});
}

function button(parent, {name, words, icons, title, act, signal}) {
  const node = tag(parent, "button", {type: "button", "data-act": name, title, "aria-label": words ? null : title, on: {click: act}, signal});
  if (icons?.[0]) icon(node, icons[0]);
  if (words) tag(node, "span", {text: words});
  if (icons?.[1]) icon(node, icons[1]);
  return node;
}

// The controls of time inside `parent`; do(action) takes what the player's reducer takes.
export function buildTime(parent, act, toggles, has, signal) {
  const box = tag(parent, "div", {class: "controls time", role: "group", "aria-label": "Time"});
  const marks = tag(box, "div", {class: "fault-marks", "aria-hidden": "true", hidden: !has.faults});
  const slider = tag(box, "input", {type: "range", min: 0, max: 1, step: 1, value: 0, class: "scrub", "aria-label": "Moment", signal,
    on: {input: (event) => act({type: "stop", index: Number(event.target.value)})}});
  const row = tag(box, "div", {class: "row"});
  const make = (options) => button(row, {...options, signal});
  make({name: "start", icons: ["start"], title: "To the beginning", act: () => act({type: "start"})});
  make({name: "stroke-back", words: "stroke", icons: ["back"], title: "One stroke back", act: () => act({type: "stroke", direction: -1})});
  make({name: "carry-back", words: "carry", icons: ["back"], title: "Previous carry", act: () => act({type: "carry", direction: -1})});
  make({name: "moment-back", words: "moment", icons: ["back"], title: "One moment back", act: () => act({type: "moment", direction: -1})});
  const play = make({name: "play", title: "Play", act: () => act({type: play.dataset.playing === "true" ? "pause" : "play"})});
  play.classList.add("play");
  icon(play, "play");
  icon(play, "pause");
  const playWords = tag(play, "span", {text: "play"});
  play.removeAttribute("aria-label");
  make({name: "moment-on", words: "moment", icons: [null, "on"], title: "One moment on", act: () => act({type: "moment", direction: 1})});
  make({name: "carry-on", words: "carry", icons: [null, "on"], title: "Next carry", act: () => act({type: "carry", direction: 1})});
  make({name: "stroke-on", words: "stroke", icons: [null, "on"], title: "One stroke on", act: () => act({type: "stroke", direction: 1})});
  make({name: "end", icons: ["end"], title: "To the end", act: () => act({type: "end"})});
  if (has.faults) {
    make({name: "fault-back", words: "fault", icons: ["back"], title: "To where a fault acted before", act: () => act({type: "fault", direction: -1})});
    make({name: "fault-on", words: "fault", icons: [null, "on"], title: "To where a fault acts next", act: () => act({type: "fault", direction: 1})});
  }
  const speed = tag(tag(row, "label", {class: "speed", text: "speed "}), "select", {signal,
    on: {change: (event) => act({type: "speed", speed: Number(event.target.value)})}});
  for (const [value, words] of [[0.25, "¼"], [0.5, "½"], [1, "1"], [2, "2"], [4, "4"], [10, "10"]]) {
    tag(speed, "option", {value, text: words, selected: value === 1});
  }
  tag(row, "span", {class: "space"});
  const wait = make({name: "wait", words: "wait at carries", title: "Wait before each carry, and ask what will happen", act: toggles.wait});
  const large = make({name: "large", words: "large type", title: "Large type, for a projector", act: toggles.large});
  const help = make({name: "help", words: "signs and keys", title: "What the signs mean, and which keys do what", act: toggles.help});
  help.setAttribute("aria-expanded", "false");
  return {
    speed, wait, large, help,
    // Where among the stops of the slider a fault acts: [share of its length, letters].
    markFaults(places) {
      marks.textContent = "";
      for (const [share, letters] of places) {
        const mark = tag(marks, "span", {class: "fault-tick", title: letters});
        mark.style.setProperty("--share", share);
      }
    },
    show({playing, index, count, words}) {
      if (play.dataset.playing !== String(playing)) {
        play.dataset.playing = String(playing);
        play.title = playing ? "Pause" : "Play";
        playWords.textContent = playing ? "pause" : "play";
      }
      if (slider.max !== String(count)) slider.max = String(count);
      if (slider.value !== String(index)) slider.value = String(index);
      if (!playing && slider.dataset.words !== words) {
        slider.dataset.words = words;
        slider.setAttribute("aria-valuetext", `${index} of ${count}: ${words}`);
      }
    },
  };
}

// The controls of a live machine inside `parent`; operate(operation, argument).
export function buildHands(parent, machine, operate, signal) {
  const box = tag(parent, "div", {class: "controls hands", role: "group", "aria-label": "The machine's controls"});
  const make = (name, words, title, act) => button(box, {name, words, title, act, signal});
  const form = tag(box, "form", {class: "set", signal, on: {submit: (event) => {
    event.preventDefault();
    operate("set", entry.value.trim());
  }}});
  const entry = tag(tag(form, "label", {text: "set "}), "input", {type: "text", inputmode: "numeric", autocomplete: "off",
    size: Math.max(4, machine.settingPlaces), "aria-label": "Number to set"});
  tag(form, "button", {type: "submit", text: "set", "data-act": "set"});
  make("turn-on", "turn +", "One additive turn", () => operate("turn", 1)).classList.add("strong");
  make("turn-back", "turn −", "One subtractive turn", () => operate("turn", -1)).classList.add("strong");
  make("shift-left", "◂ shift", "Carriage one position to the left", () => operate("shift", -1));
  make("shift-right", "shift ▸", "Carriage one position to the right", () => operate("shift", 1));
  make("clear-setting", "clear setting", "Clear the setting levers with the comb", () => operate("clear setting", null));
  make("clear-result", "clear result", "Clear the result register", () => operate("clear result", null));
  make("clear-counter", "clear counter", "Clear the counter", () => operate("clear counter", null));
  if (machine.backTransfer) make("transfer", "back transfer", "Bring the result back into the setting", () => operate("back transfer", null));
  const back = make("undo", "undo", "Take back the last stroke", () => operate("undo", null));
  return {undoable: (can) => { back.disabled = !can; }};
}

// The list of keys and of signs, shown on demand.
export function buildHelp(parent, heading, has) {
  const box = tag(parent, "section", {class: "help", hidden: true, "aria-label": "Keys and signs"});
  tag(box, heading, {text: "Signs"});
  const signs = tag(box, "dl", {class: "signs"});
  for (const [words, draw] of SIGNS.filter(([,, needs]) => !needs || has[needs])) {
    const row = tag(signs, "div", {});
    const svg = add(tag(row, "dt", {}), "svg", {viewBox: "-16 -11 32 22", width: 32, height: 22, "aria-hidden": "true"});
    draw(svg);
    tag(row, "dd", {text: words});
  }
  tag(box, heading, {text: "Keys, while the picture has the focus"});
  const list = tag(box, "dl", {});
  for (const {keys, words} of KEYS.filter((key) => (has.live || !key.live) && (has.asks || !key.asks) && (has.faults || !key.faults))) {
    const row = tag(list, "div", {});
    tag(row, "dt", {text: keys});
    tag(row, "dd", {text: words});
  }
  return box;
}

const pin = (sign) => (svg) => add(add(svg, "g", {class: `carry-pin ${sign}`}), "polygon",
  {points: sign === "plus" ? "-7,-6 7,-6 2,6 -2,6" : "-7,6 7,6 2,-6 -2,-6"});
const bar = (out) => (svg) => add(add(svg, "g", {class: `pin ${out ? "out" : ""}`}), "rect",
  {x: out ? -11 : -7, y: -4, width: out ? 22 : 14, height: 8, rx: 2.5, class: "pin-body"});
const blade = (out) => (svg) => add(add(svg, "g", {class: `lever ${out ? "out" : ""}`}), "polygon",
  {points: out ? "10,-9 -11,-3 -14,0 -11,3 10,9" : "6,-9 -2,-3 -3,0 -2,3 6,9", class: "lever-head"});
const roller = (svg) => {
  const group = add(svg, "g", {class: "idler"});
  add(group, "rect", {x: -11, y: -10, width: 22, height: 20, rx: 3, class: "idler-body"});
  add(group, "path", {d: "M-9 -6H9M-9 0H9M-9 6H9", class: "idler-teeth"});
};
const slats = (svg) => {
  const group = add(svg, "g", {class: "shutter"});
  add(group, "rect", {x: -9, y: -10, width: 18, height: 20, class: "shutter-body"});
  add(group, "path", {d: "M-9 -6H9M-9 -2H9M-9 2H9M-9 6H9", class: "shutter-slats"});
};
const collar = (svg) => {
  buildFaultCollar(svg)(22, 14);
  add(svg, "text", {y: 0.5, class: "fault-letter"}, "A");
};
const hole = (svg) => {
  const group = add(svg, "g", {class: "pin gone"});
  add(group, "rect", {x: -9, y: -5, width: 18, height: 10, rx: 3, class: "pin-body"});
  add(group, "ellipse", {rx: 3.4, ry: 3, class: "hole"});
};
const SIGNS = [
  ["number pin, out: it will move the idler one tooth", bar(true)], ["number pin, in: it passes by", bar(false)],
  ["carry pin of the additive helix (+)", pin("plus")], ["carry pin of the subtractive helix (−)", pin("minus")],
  ["carry lever, out: it pushes the next carry pin over", blade(true)], ["carry lever, home", blade(false)],
  ["idler: drives the number wheel under it", roller], ["shutter: what stands behind it is to be foretold", slats, "asks"],
  ["faulty part, with the letter that stands in the list", collar, "faults"], ["empty hole: a pin is gone", hole, "faults"],
];
