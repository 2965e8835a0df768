// The words beside and under the picture: heading, the working line by line, the caption, the live region.

import {tag} from "./html.js";
import {buildChip} from "./faultlist.js";

// The working inside `parent`: show(timeline) fills it, at(index) marks the current line, open(readable, travel) leaves
// out what would tell what is covered: beyond `readable` a line that has begun says only what the hand does, and one that
// has not is not shown.
export function buildWorking(parent, heading, seek, signal) {
  const box = tag(parent, "section", {class: "working", "aria-label": "The working", tabindex: 0});
  tag(box, heading, {text: "The working"});
  const list = tag(box, "ol", {});
  let rows = [];
  let strokes = [];
  let marked = null;
  return {
    show(timeline) {
      list.textContent = "";
      marked = null;
      strokes = timeline.strokes;
      const faults = strokes.map(() => new Set());
      for (const {stroke, faults: here} of timeline.moments) for (const number of here ?? []) faults[stroke].add(timeline.faults[number].letter);
      rows = strokes.map((stroke, i) => buildLine(list, stroke, faults[i], seek, signal));
      if (!rows.length) tag(list, "li", {class: "none", text: "No stroke yet."});
    },
    open(readable, travel) {
      strokes.forEach((stroke, i) => rows[i].tell(stroke.to <= readable + 1e-6 ? "all" : stroke.from < travel - 1e-6 ? "hand" : "nothing"));
    },
    keepInSight() {
      if (marked !== null) bring(box, rows[marked].node);
    },
    at(index) {
      if (index === marked) return;
      if (marked !== null) {
        rows[marked].node.classList.remove("now");
        rows[marked].node.removeAttribute("aria-current");
      }
      marked = index !== null && rows[index] ? index : null;
      if (marked === null) {
        box.scrollTop = 0;
        return;
      }
      rows[marked].node.classList.add("now");
      rows[marked].node.setAttribute("aria-current", "step");
      bring(box, rows[marked].node);
    },
  };
}

// Scroll `box` so that `row` is seen in it.
function bring(box, row) {
  const above = row.offsetTop;   // from the top of the box, which is its row's offset parent
  if (above < box.scrollTop + 30 || above + row.offsetHeight > box.scrollTop + box.clientHeight) {
    box.scrollTop = Math.max(0, above - box.clientHeight / 2);
  }
}

// One line; tell("all"), tell("hand") or tell("nothing") says how much of it is shown.
function buildLine(list, stroke, faults, seek, signal) {
  const node = tag(list, "li", {});
  const button = tag(node, "button", {type: "button", class: "line", on: {click: () => seek(stroke.to)}, signal});
  const words = tag(button, "span", {class: "words", text: stroke.words});
  const algebra = stroke.algebra ? tag(button, "span", {class: "algebra", text: stroke.algebra}) : null;
  const chips = [...faults].sort().map((letter) => buildChip(button, letter));
  let told = "all";
  return {
    node,
    tell(much) {
      if (much === told) return;
      told = much;
      node.hidden = much === "nothing";
      words.textContent = much === "all" ? stroke.words : stroke.covered;
      for (const chip of chips) chip.hidden = much !== "all";
      if (algebra) algebra.textContent = much === "all" ? stroke.algebra : "";
    },
  };
}

// The sentence of the moment. What changes while playing stands in a plain element; the live region speaks when asked.
// Where the picture pauses to ask something, a button leads on.
export function buildCaption(parent, goOn, signal) {
  const band = tag(parent, "div", {class: "caption"});
  const chips = tag(band, "span", {class: "fault-chips", hidden: true});
  const words = tag(band, "p", {class: "caption-words"});
  const on = tag(band, "button", {type: "button", class: "go-on", "data-act": "go-on", hidden: true, text: "go on", signal, on: {click: goOn}});
  const live = tag(parent, "p", {class: "unseen", role: "status", "aria-live": "polite"});
  let last = "";
  let timer = 0;
  const set = (text, active, kind, letters = []) => {
    const key = `${text}${active}${kind}${letters}`;
    if (key === last) return;
    last = key;
    chips.textContent = "";
    chips.hidden = !letters.length;
    for (const letter of letters) buildChip(chips, letter);
    words.textContent = text;
    band.classList.toggle("active", active);
    band.classList.toggle("refused", kind === "refused");
    band.classList.toggle("pausing", kind === "pausing");
    on.hidden = kind !== "pausing";
  };
  return {
    show: (text, active, pausing, letters) => set(text, active, pausing ? "pausing" : "", letters),
    refuse: (text) => set(text, false, "refused"),
    say(text) {
      clearTimeout(timer);
      live.textContent = "";
      timer = setTimeout(() => { live.textContent = text; }, 60);
    },
    stop: () => clearTimeout(timer),
  };
}
