// The note at a part that refuses: who blocks, why, and what frees it.

import {partName, placeOf} from "./labels.js";
import {tag} from "./html.js";

const GAP = 24;   // pixels between the part and the note

// A note inside `stage`: show(reason, scene, pose) and clear(). `reason` is Python's {reason, part, frees}.
export function buildRefusal(stage) {
  const note = tag(stage, "div", {class: "refusal", hidden: true});
  let blocking = null;
  const place = (part, scene, pose) => {
    const [x, y] = placeOf(scene.plan, part, pose);
    const point = new DOMPoint(x, y).matrixTransform(scene.svg.getScreenCTM());
    const box = stage.getBoundingClientRect();
    const left = Math.min(Math.max(point.x - box.left - note.offsetWidth / 2, 4), box.width - note.offsetWidth - 4);
    const above = point.y - box.top - note.offsetHeight - GAP;
    note.classList.toggle("below", above < 0);
    note.style.left = `${left}px`;
    note.style.top = `${above < 0 ? point.y - box.top + GAP : above}px`;
    note.style.setProperty("--tip", `${point.x - box.left - left}px`);
  };
  return {
    get showing() { return blocking !== null; },
    show({reason, part, frees}, scene, pose) {
      this.clear();
      blocking = scene.node(part);
      blocking.classList.add("refusing");
      note.textContent = "";
      tag(note, "strong", {text: `${partName(part)}: refused`});
      tag(note, "span", {text: `${capital(reason)}.`});
      if (frees) tag(note, "em", {text: `${capital(frees)}.`});
      note.hidden = false;
      place(part, scene, pose);
    },
    clear() {
      blocking?.classList.remove("refusing");
      blocking = null;
      note.hidden = true;
    },
  };
}

// A refusal as one or two sentences.
export function refusalWords({reason, frees}) {
  return frees ? `${capital(reason)}. ${capital(frees)}.` : `${capital(reason)}.`;
}

function capital(words) {
  return words.slice(0, 1).toUpperCase() + words.slice(1);
}
