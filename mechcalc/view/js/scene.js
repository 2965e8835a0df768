// The whole picture: builds it once for a plan, then draws poses.

import {add, mark} from "./svg.js";
import {buildDrum} from "./drawdrum.js";
import {buildCarriage} from "./drawcarriage.js";
import {buildSetting} from "./drawsetting.js";
import {buildCrank} from "./drawcrank.js";
import {buildLabels} from "./labels.js";
import {buildFaultMarks} from "./drawfaults.js";

let pictures = 0;

function buildDefs(svg, id) {
  const defs = add(svg, "defs", {});
  const shade = (name, stops) => {
    const gradient = add(defs, "linearGradient", {id: `${id}-${name}`, x1: 0, y1: 0, x2: 0, y2: 1});
    for (const [offset, color, opacity] of stops) add(gradient, "stop", {offset, "stop-color": color, "stop-opacity": opacity});
  };
  shade("barrel", [[0, "#2a2118", 0.62], [0.22, "#2a2118", 0.12], [0.42, "#fff", 0], [0.62, "#2a2118", 0.04], [0.8, "#2a2118", 0.18], [1, "#2a2118", 0.66]]);
  shade("round", [[0, "#3a2c18", 0.5], [0.14, "#3a2c18", 0.14], [0.36, "#3a2c18", 0], [0.66, "#3a2c18", 0], [0.87, "#3a2c18", 0.14], [1, "#3a2c18", 0.5]]);
  const hatch = add(defs, "pattern", {id: `${id}-hatch`, width: 6, height: 6, patternUnits: "userSpaceOnUse", patternTransform: "rotate(45)"});
  add(hatch, "rect", {width: 6, height: 6, fill: "#e6d9b8"});
  add(hatch, "line", {x1: 0, x2: 0, y1: 0, y2: 6, stroke: "#8a7851", "stroke-width": 1.6});
}

// An SVG inside `parent` for a plan, with marks on what is faulty. Returns {svg, plan, draw(pose, turning, moment, cover), node(part), remove()}.
export function buildScene(parent, plan, live, faults) {
  pictures += 1;
  plan = {...plan, faults, id: `mc${pictures}-${Math.random().toString(36).slice(2, 7)}`};
  const svg = add(parent, "svg", {viewBox: `0 0 ${Math.round(plan.width)} ${Math.round(plan.height)}`,
    class: "machine", role: "group", "aria-label": "The machine"});
  buildDefs(svg, plan.id);
  const drum = buildDrum(svg, plan);
  const setting = buildSetting(svg, plan, live);
  const carriage = buildCarriage(svg, plan);
  const crank = buildCrank(svg, plan, live);
  const marks = buildFaultMarks(svg, plan);
  const labels = buildLabels(svg, plan);
  const nodes = new Map([...svg.querySelectorAll("[data-part]")].map((node) => [node.dataset.part, node]));
  let lit = [];
  return {
    svg, plan,
    node: (part) => nodes.get(part) ?? nodes.get(part.startsWith("stop") ? "carriage" : "crank"),
    draw(pose, turning, moment, cover) {
      drum.update(pose, turning);
      setting.update(pose);
      crank.update(pose, turning);
      carriage.update(pose, cover);
      marks(pose);
      const parts = moment.active ? moment.parts : [];
      for (const part of lit) if (!parts.includes(part)) mark(nodes.get(part), "lit", false);
      lit = parts.filter((part) => nodes.has(part));
      for (const part of lit) mark(nodes.get(part), "lit", true);
      labels.show(parts, pose);
      parent.dispatchEvent(new CustomEvent("mechcalc:pose", {bubbles: true, detail: {pose, turning, moment, cover}}));
    },
    remove() { svg.remove(); },
  };
}
