// The words beside and under the picture: heading, the working line by line, the caption, the live region.

import {tag} from "./html.js";

// The working inside `parent`: show(timeline) fills it, at(index) marks the current line.
export function buildWorking(parent, heading, seek, signal) {
  const box = tag(parent, "section", {class: "working", "aria-label": "The working", tabindex: 0});
  tag(box, heading, {text: "The working"});
  const list = tag(box, "ol", {});
  let rows = [];
  let marked = null;
  return {
    show(timeline) {
      list.textContent = "";
      marked = null;
      rows = timeline.strokes.map((stroke) => {
        const row = tag(list, "li", {});
        const button = tag(row, "button", {type: "button", class: "line", on: {click: () => seek(stroke.to)}, signal});
        tag(button, "span", {class: "words", text: stroke.words});
        if (stroke.algebra) tag(button, "span", {class: "algebra", text: stroke.algebra});
        return row;
      });
      if (!rows.length) tag(list, "li", {class: "none", text: "No stroke yet."});
    },
    at(index) {
      if (index === marked) return;
      if (marked !== null) {
        rows[marked].classList.remove("now");
        rows[marked].removeAttribute("aria-current");
      }
      marked = index !== null && rows[index] ? index : null;
      if (marked === null) {
        box.scrollTop = 0;
        return;
      }
      rows[marked].classList.add("now");
      rows[marked].setAttribute("aria-current", "step");
      const row = rows[marked];
      const above = row.offsetTop - box.offsetTop;
      if (above < box.scrollTop + 30 || above + row.offsetHeight > box.scrollTop + box.clientHeight) {
        box.scrollTop = Math.max(0, above - box.clientHeight / 2);
      }
    },
  };
}

// The sentence of the moment. What changes while playing stands in a plain element; the live region speaks when asked.
export function buildCaption(parent) {
  const band = tag(parent, "div", {class: "caption"});
  const words = tag(band, "p", {class: "caption-words"});
  const live = tag(parent, "p", {class: "unseen", role: "status", "aria-live": "polite"});
  let last = "";
  let timer = 0;
  const set = (text, active, refused) => {
    const key = `${text}${active}${refused}`;
    if (key === last) return;
    last = key;
    words.textContent = text;
    band.classList.toggle("active", active);
    band.classList.toggle("refused", refused);
  };
  return {
    show: (text, active) => set(text, active, false),
    refuse: (text) => set(text, false, true),
    say(text) {
      clearTimeout(timer);
      live.textContent = "";
      timer = setTimeout(() => { live.textContent = text; }, 60);
    },
    stop: () => clearTimeout(timer),
  };
}

// The registers in words, for those who do not see the wheels.
export function spoken(machine, pose) {
  const register = (part, places) => {
    let digits = "";
    for (let place = places; place >= 1; place -= 1) digits += ((Math.floor(pose[`${part}/${place}`] + 0.5) % 10) + 10) % 10;
    return digits.replace(/^0+(?=\d)/, "");
  };
  return `Setting ${register("setting", machine.settingPlaces)}, result ${register("wheel", machine.resultPlaces)}, `
    + `counter ${register("counter", machine.counterPlaces)}, carriage at ${Math.round(pose.carriage * 10) / 10}.`;
}
