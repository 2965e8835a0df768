// The frame of a view: heading, stage, caption, controls, working, help, and the drawing that fits the page.

import {besideFits, planFor} from "./plan.js";
import {buildScene} from "./scene.js";
import {buildCaption, buildWorking} from "./panel.js";
import {buildAsking} from "./asking.js";
import {buildFaultList} from "./faultlist.js";
import {buildCloseup, closeupFor} from "./closeup.js";
import {buildHands, buildHelp, buildTime} from "./controls.js";
import {buildRefusal, refusalWords} from "./refusal.js";
import {partName} from "./labels.js";
import {tag} from "./html.js";

const NARROW = 540;   // pixels under which the crank stands below the carriage

// root: an empty element; does: {act(action), seek(travel), operate(operation, argument), foretell(question, digits),
// goOn(), wait(), rebuilt(scene)}.
export function buildShell(root, {timeline, live, level, large, asks}, does, signal) {
  const stage = buildStage(root, timeline, level);
  const refusal = buildRefusal(stage);
  const toStage = () => stage.focus({preventScroll: true});   // from a control that goes away when it is used
  const caption = buildCaption(root, () => { toStage(); does.goOn(); }, signal);
  const faults = timeline.faults ?? [];
  buildFaultList(root, faults);
  const asking = asks ? buildAsking(root, {toStage, foretell: does.foretell}, signal) : null;
  const toggles = {large: () => shell.enlarge(!large), help: () => shell.showHelp(help.hidden), wait: does.wait,
    question: () => asking?.focus()};
  const time = buildTime(root, does.act, toggles, {faults: faults.length > 0}, signal);
  const hands = live ? buildHands(root, timeline.machine, does.operate, signal) : null;
  const working = buildWorking(root, `h${level + 1}`, does.seek, signal);
  const help = buildHelp(root, `h${level + 1}`, {live, asks, faults: faults.length > 0});
  let shape = null;

  const shell = {
    stage, caption, time, hands, working, refusal, asking, toggles, scene: null, closeup: null,
    // Draw anew if the page's width, or the size of type, asks for another drawing.
    fit() {
      const width = root.clientWidth;
      root.classList.toggle("beside", !large && besideFits(timeline.machine, width));
      const next = {tall: width > 0 && width < NARROW, large};
      const plan = planFor(timeline.machine, next);
      const near = closeupFor(plan, width);
      if (shape && shape.tall === next.tall && shape.large === next.large && shape.near === near) return;
      shape = {...next, near};
      root.classList.toggle("large", large);
      root.classList.toggle("tall", next.tall);
      refusal.clear();
      shell.scene?.remove();
      shell.closeup?.remove();
      shell.closeup = near ? buildCloseup(root, stage, timeline.machine) : null;
      shell.scene = buildScene(stage, plan, live, faults);
      does.rebuilt(shell.scene);
      working.keepInSight();
    },
    enlarge(on) {
      large = on;
      time.large.setAttribute("aria-pressed", String(large));
      shell.fit();
    },
    wait(on) {
      time.wait.setAttribute("aria-pressed", String(on));
    },
    showHelp(on) {
      help.hidden = !on;
      time.help.setAttribute("aria-expanded", String(on));
    },
    refuse(reason, pose) {
      refusal.show(reason, shell.scene, pose);
      caption.refuse(refusalWords(reason));
      caption.say(`Refused at the ${partName(reason.part)}: ${refusalWords(reason)}`);
    },
  };
  time.large.setAttribute("aria-pressed", String(large));
  return shell;
}

// Heading and stage.
function buildStage(root, timeline, level) {
  const name = timeline.machine.name;
  const title = timeline.title || name;
  root.classList.add("mechcalc");
  const attributes = {"data-lm-suppress-shortcuts": "true", role: "region", "aria-label": `Calculating machine: ${title}`};
  for (const key in attributes) root.setAttribute(key, attributes[key]);
  const head = tag(root, "div", {class: "head"});
  tag(head, `h${level}`, {text: title});
  if (name && name !== title) tag(head, "p", {text: name});
  return tag(root, "div", {class: "stage", tabindex: 0, role: "group",
    "aria-label": "Picture of the machine; press ? for its keys"});
}
