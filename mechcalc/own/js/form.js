// The form for a machine of one's own, as a widget: sends what is typed, shows what Python found. Decides nothing.

import {tag} from "./html.js";
import {buildSteps} from "./steps.js";
import {buildOutcome} from "./outcome.js";

const CALM = 250;       // milliseconds without a key, before Python is asked
const PATIENCE = 5000;  // milliseconds, before it is said that Python does not answer
let views = 0;

// anywidget's entry. The model holds `told` (steps and words, once), `typed` (what was typed), `found` (what is wrong
// with it) and `file`; messages go out as {act: "save", replace} or {act: "anew"} and come back as {words, good, focus}.
export function render({model, el}) {
  const quit = new AbortController();
  const {signal} = quit;
  const root = tag(el, "section", {class: "mechcalc-form", "aria-label": "A machine of your own",
    "data-lm-suppress-shortcuts": "true", on: {keydown: (event) => event.stopPropagation()}, signal});
  const told = model.get("told");
  const lost = tag(root, "p", {class: "lost", role: "alert"});
  for (const words of told.before) tag(root, "p", {class: "before", text: words});
  let calm = 0;
  let waiting = 0;

  const send = () => {
    clearTimeout(calm);
    const typed = {sent: model.get("typed").sent + 1, answers: steps.answers()};
    clearTimeout(waiting);
    waiting = setTimeout(() => { lost.textContent = told.lost; }, PATIENCE);
    model.set("typed", typed);
    model.set("file", outcome.file());
    model.save_changes();
  };
  const soon = () => {
    clearTimeout(calm);
    calm = setTimeout(send, CALM);
  };
  const ask = (message) => {
    send();
    model.send(message);
  };
  const steps = buildSteps(root, told.steps, {prefix: `mechcalc-form-${views += 1}`, changed: soon, signal});
  const outcome = buildOutcome(root, told, {prefix: `mechcalc-form-${views}-end`, changed: soon, ask, signal});

  const take = () => {
    const found = model.get("found");
    if (found.sent === model.get("typed").sent) {
      clearTimeout(waiting);
      lost.textContent = "";
    }
    steps.show(found);
    outcome.show(found);
  };
  const fill = () => {
    steps.fill(model.get("typed").answers);
    outcome.fill(model.get("file"));
  };
  const hear = (message) => {
    outcome.say(message);
    if (message.focus) steps.focus(message.focus);
  };
  const heeds = [["change:found", take], ["change:typed", fill], ["change:file", fill], ["msg:custom", hear]];
  for (const [event, listener] of heeds) model.on(event, listener);
  fill();
  take();
  root.dataset.ready = "true";
  return () => {
    quit.abort();
    clearTimeout(calm);
    clearTimeout(waiting);
    for (const [event, listener] of heeds) model.off(event, listener);
    root.remove();
  };
}
