// The entry of the solid view: the flat view's widget with a solid picture before it, or the reason why there is none.

import {render} from "../../js/index.js";
import {tag} from "../../js/html.js";
import {openStage} from "./stage.js";
import {openSolid} from "./solidview.js";

let shared = null;   // the page's one stage

function stageOf(document) {
  if (!shared) {
    try {
      shared = openStage(document);
      document.defaultView.mechcalcStage = shared;   // for tests and the curious
    } catch (problem) {
      shared = {why: `this browser cannot draw solids: ${problem.message}`};
    }
  }
  return shared;
}

// Like the flat view's render: the model also holds `solid` ({picture, viewpoint, follow}).
export function renderSolid({model, el}) {
  const document = el.ownerDocument;
  let last = null;
  let solid = null;
  let unhear = () => {};
  const hear = (event) => {
    last = event.detail;
    solid?.heard(last);
  };
  el.addEventListener("mechcalc:pose", hear);
  const close = render({model, el});
  const root = el.querySelector(".mechcalc");
  const stage = stageOf(document);
  if (stage.why) {
    const note = tag(root, "p", {class: "nosolid", role: "note", text: `The flat picture stands in for the solid one: ${stage.why}.`});
    root.querySelector(".stage").before(note);
    root.dataset.solid = "none";
  } else {
    solid = openSolid(root, stage, {
      data: () => model.get("scene"), state: model.get("solid") ?? {},
      changed({picture, viewpoint, follow}) {
        const told = {picture, viewpoint: viewpoint ?? "", follow};
        if (JSON.stringify(told) === JSON.stringify(model.get("solid"))) return;
        model.set("solid", told);
        model.save_changes();
      },
    });
    const told = () => {
      const {picture, viewpoint, follow} = model.get("solid");
      const {state} = solid;
      if (picture !== state.picture) solid.change({type: "picture", id: picture});
      if (viewpoint && viewpoint !== state.viewpoint) solid.change({type: "viewpoint", id: viewpoint});
      if (follow !== state.follow) solid.change({type: "follow", on: follow});
    };
    model.on("change:solid", told);
    unhear = () => model.off("change:solid", told);
    root.dataset.solid = "ready";
    root.mechcalcSolid = solid;
    if (last) solid.heard(last);
  }
  return () => {
    el.removeEventListener("mechcalc:pose", hear);
    unhear();
    solid?.remove();
    close?.();
  };
}
