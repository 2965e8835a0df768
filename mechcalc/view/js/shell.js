// The frame of a view: heading, stage, caption, controls, working, help, and the drawing that fits the page.

import {besideFits, planFor} from "./plan.js";
import {buildScene} from "./scene.js";
import {buildCaption, buildWorking} from "./panel.js";
import {buildHands, buildHelp, buildTime} from "./controls.js";
import {buildRefusal, refusalWords} from "./refusal.js";
import {partName} from "./labels.js";
import {tag} from "./html.js";

const NARROW = 540;   // pixels under which the crank stands below the carriage

// root: an empty element; does: {act(action), seek(travel), operate(operation, argument), rebuilt(scene)}.
export function buildShell(root, {timeline, live, level, large}, does, signal) {
  const name = timeline.machine.name;
  const title = timeline.title || name;
  root.classList.add("mechcalc");
  const attributes = {"data-lm-suppress-shortcuts": "true", role: "region", "aria-label": `Calculating machine: ${title}`};
  for (const key in attributes) root.setAttribute(key, attributes[key]);
  const head = tag(root, "div", {class: "head"});
  tag(head, `h${level}`, {text: title});
  if (name && name !== title) tag(head, "p", {text: name});
  const stage = tag(root, "div", {class: "stage", tabindex: 0, role: "group",
    "aria-label": "Picture of the machine; press ? for its keys"});
  const refusal = buildRefusal(stage);
  const caption = buildCaption(root);
  const toggles = {large: () => shell.enlarge(!large), help: () => shell.showHelp(help.hidden)};
  const time = buildTime(root, does.act, toggles, signal);
  const hands = live ? buildHands(root, timeline.machine, does.operate, signal) : null;
  const working = buildWorking(root, `h${level + 1}`, does.seek, signal);
  const help = buildHelp(root, `h${level + 1}`, live);
  let shape = null;

  const shell = {
    stage, caption, time, hands, working, refusal, toggles, scene: null,
    // Draw anew if the page's width, or the size of type, asks for another drawing.
    fit() {
      const width = root.clientWidth;
      root.classList.toggle("beside", !large && besideFits(timeline.machine, width));
      const next = {tall: width > 0 && width < NARROW, large};
      if (shape && shape.tall === next.tall && shape.large === next.large) return;
      shape = next;
      root.classList.toggle("large", large);
      root.classList.toggle("tall", next.tall);
      refusal.clear();
      shell.scene?.remove();
      shell.scene = buildScene(stage, planFor(timeline.machine, shape), live);
      does.rebuilt(shell.scene);
    },
    enlarge(on) {
      large = on;
      time.large.setAttribute("aria-pressed", String(large));
      shell.fit();
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
