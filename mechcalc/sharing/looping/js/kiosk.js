// The kiosk: a page's picture that runs by itself, and that a visitor can take over.
//
// It works the picture by the picture's own controls, as a visitor does, and knows nothing else of it.

import {newLoop, secondsLeft, stepLoop} from "./loop.js";

const TICK = 250;   // milliseconds
const WORDS = {
  loop: ["This runs by itself.", "Touch the machine, or press a key, and it is yours."],
  still: ["Nothing moves here by itself.", "Touch the machine, or press a key, to work it."],
  taken: ["It is yours.", "Draw the crank round, go from carry to carry, or press play."],
  stopped: ["The loop is stopped.", "The machine can be worked all the same."],
};

// draw({model, el}) draws the picture into `el` and returns what takes it away again; options: see loop.js.
export function runKiosk(draw, {model, el}, options) {
  const {ownerDocument: document} = el;
  const window = document.defaultView;
  const quiet = window.matchMedia("(prefers-reduced-motion: reduce)");
  const bar = buildBar(document, el);
  const place = document.createElement("div");
  el.append(bar.node, place);
  let picture = draw({model, el: place});
  let loop = newLoop({...options, still: quiet.matches});
  let swallow = false;   // whether the touch or key that took over is still to be kept from the controls
  let last = window.performance.now();

  const control = (name) => place.querySelector(`[data-act=${name}]`);
  const playing = () => control("play")?.dataset.playing === "true";
  const turnTo = (on) => { if (playing() !== on) control("play")?.click(); };
  const acts = {
    play: () => turnTo(true),
    pause: () => turnTo(false),
    again() {
      control("start")?.click();
      turnTo(true);
    },
    fresh() {
      document.activeElement?.blur?.();
      picture?.();
      place.textContent = "";
      model.set("travel", 0);
      picture = draw({model, el: place});
      window.scrollTo(0, 0);
      if (!loop.still) turnTo(true);
    },
  };

  function go(step) {
    const before = loop.mode;
    loop = stepLoop(loop, step);
    acts[loop.act]?.();
    el.dataset.kiosk = loop.mode;
    bar.show(loop, before);
  }

  // What takes over is kept from the control that it happens to hit: a touch on "pause" pauses, and no more.
  function used(event) {
    if (bar.node.contains(event.target)) return;
    const takes = loop.mode === "loop";
    const hits = event.target.closest?.("button, input, select");
    swallow = takes && event.type !== "keydown" && Boolean(hits);
    if (takes && event.type === "keydown" && event.key !== "Tab") {
      event.preventDefault();
      event.stopPropagation();
    }
    go({type: "used"});
  }
  function clicked(event) {
    if (!event.isTrusted || !swallow || bar.node.contains(event.target)) return;
    swallow = false;
    event.preventDefault();
    event.stopPropagation();
  }
  const never = (event) => event.preventDefault();
  for (const type of ["pointerdown", "keydown", "wheel"]) document.addEventListener(type, used, {capture: true, passive: false});
  document.addEventListener("pointermove", (event) => { if (event.buttons || loop.mode === "taken") used(event); }, {capture: true});
  document.addEventListener("click", clicked, {capture: true});
  for (const type of ["contextmenu", "dragstart"]) document.addEventListener(type, never);
  quiet.addEventListener("change", () => go({type: "still", still: quiet.matches}));
  bar.stop.addEventListener("click", () => go({type: loop.mode === "stopped" ? "start" : "stop"}));
  bar.back.addEventListener("click", () => go({type: "start"}));
  window.setInterval(() => {
    const now = window.performance.now();
    go({type: "tick", seconds: (now - last) / 1000, playing: playing()});
    last = now;
  }, TICK);
  acts[loop.act]?.();
  el.dataset.kiosk = loop.mode;
  bar.show(loop, null);
}

function buildBar(document, el) {
  const make = (parent, name, attributes, text) => {
    const node = document.createElement(name);
    for (const key in attributes) node.setAttribute(key, attributes[key]);
    if (text) node.textContent = text;
    parent?.append(node);
    return node;
  };
  const node = make(null, "div", {class: "kiosk-bar", role: "region", "aria-label": "The loop"});
  const words = make(node, "p", {class: "kiosk-words"});
  const strong = make(words, "strong", {});
  const more = make(words, "span", {});
  const back = make(node, "button", {type: "button", "data-kiosk": "back"}, "back to the loop");
  const stop = make(node, "button", {type: "button", "data-kiosk": "stop"}, "stop the loop");
  const live = make(node, "p", {class: "kiosk-unseen", role: "status", "aria-live": "polite"});
  let said = "";
  const say = (text) => { if (text !== said) live.textContent = said = text; };
  return {
    node, stop, back,
    show(loop, before) {
      const left = secondsLeft(loop);
      const [head, rest] = WORDS[loop.mode === "loop" && loop.still ? "still" : loop.mode];
      strong.textContent = left === null ? head : `Back to the loop in ${left} s.`;
      more.textContent = ` ${left === null ? rest : "Touch anywhere to go on."}`;
      back.hidden = loop.mode !== "taken";
      stop.textContent = loop.mode === "stopped" ? "start the loop" : "stop the loop";
      stop.hidden = loop.mode === "loop" && loop.still;
      node.classList.toggle("kiosk-soon", left !== null);
      if (before !== loop.mode) say(`${head} ${rest}`);
      else if (left !== null) say(`Back to the loop in ${loop.warning} seconds, unless somebody touches the page or presses a key.`);
    },
  };
}
