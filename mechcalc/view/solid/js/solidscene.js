// The parts as the stage draws them: a list of copies for each mesh, filled from a pose. No WebGL here, so that node
// can ask where everything is. Only this file decides what is hidden, glass, marked or pale.

import {partsFor} from "./solidparts.js";
import {sizesFor} from "./solidsizes.js";
import {faultyParts} from "./solidfaults.js";

export const COPY = 16;    // numbers a copy: x y z scale, cos sin mark pale, r g b a, - stripe - -
const SKINS = {
  steel: "#8b959b", bright: "#c3c9cb", dark: "#59646b", brass: "#d3a94a", bronze: "#8d6d39", ivory: "#fffaf0",
  cream: "#efe3c6", plate: "#3d4b48", grip: "#7a4423",
};
// The colour of a part in action, by what it does there; a stripe and an outline say the same without colour.
const ACTING = {
  lever: "#d95a00", carrypin: "#1478c8", pin: "#1478c8", idler: "#00835f", wheel: "#00835f", counter: "#00835f",
};
const OTHER = "#e0a000";
const WRONG = "#a3195f";   // a faulty part

export const rgb = (hex) => [1, 3, 5].map((at) => parseInt(hex.slice(at, at + 2), 16) / 255);
const skins = Object.fromEntries(Object.entries(SKINS).map(([name, hex]) => [name, rgb(hex)]));
const acting = Object.fromEntries(Object.entries(ACTING).map(([kind, hex]) => [kind, rgb(hex)]));
const [other, wrong] = [rgb(OTHER), rgb(WRONG)];

// What is shown, at the beginning: nothing away, nothing glass, no cut, all places.
export const plainLook = {away: [], glass: [], only: null, clear: null, cut: null};

// A scene for a timeline's machine and its faults.
export function solidScene(machine, faults = []) {
  const sizes = sizesFor(machine);
  const parts = faultyParts(partsFor(sizes), faults, sizes);
  const lists = new Map();
  for (const part of parts) {
    if (!lists.has(part.mesh)) lists.set(part.mesh, {mesh: part.mesh, parts: [], solid: 0, glass: 0, marked: 0});
    lists.get(part.mesh).parts.push(part);
  }
  for (const list of lists.values()) list.copies = new Float32Array(list.parts.length * COPY);
  const out = {};
  const place = (part, values, turning) => {
    Object.assign(out, {x: 0, y: 0, z: 0, turn: 0, scale: 1});
    part.pose(out, values, turning);
    return out;
  };

  const faulty = [...new Map(parts.filter((part) => part.fault).map(({name, fault}) => [fault, {name, fault}])).values()];

  return {
    sizes, parts, faulty, lists: [...lists.values()],
    // Fill the lists for a pose. lit: names in action; look: see plainLook. Returns how many copies are shown.
    fill(values, turning, lit = [], look = plainLook) {
      const inAction = new Set(lit);
      let shown = 0;
      for (const list of lists.values()) {
        const later = [];
        let at = 0;
        list.marked = 0;
        const marked = [];
        for (const part of list.parts) {
          const seen = howSeen(part, values, look, inAction);
          if (seen === "away") continue;
          if (seen === "glass") later.push(part);
          else if (inAction.has(part.name)) marked.push(part);
          else write(list.copies, COPY * at++, part, place(part, values, turning), false, inAction.size > 0, 1);
        }
        for (const part of marked) write(list.copies, COPY * at++, part, place(part, values, turning), true, false, 1);
        list.marked = marked.length;
        list.solid = at;
        for (const part of later) write(list.copies, COPY * at++, part, place(part, values, turning), false, false, 0.16);
        list.glass = at - list.solid;
        shown += at;
      }
      return shown;
    },
    // Where a named part is: {x, y, z, turn, scale, mesh}, the first of its solids or that of a mesh.
    where(name, values, turning = 1, mesh = null) {
      const part = parts.find((one) => one.name === name && (!mesh || one.mesh === mesh));
      return part && {...place(part, values, turning), mesh: part.mesh};
    },
    // How a part is seen with a look: "solid", "glass" or "away".
    seen: (name, values, look, lit = []) => howSeen(parts.find((part) => part.name === name), values, look, new Set(lit)),
  };

  function write(copies, at, part, {x, y, z, scale, turn}, marked, pale, alpha) {
    const angle = turn * Math.PI / 180;
    const color = marked ? acting[part.name.split("/")[0]] ?? other : part.fault ? wrong : skins[part.skin];
    const stripe = part.fault ? 2 : marked ? 1 : 0;
    copies.set([x, y, z, scale, Math.cos(angle), Math.sin(angle), marked ? 1 : 0, pale && !part.fault ? 1 : 0,
      color[0], color[1], color[2], alpha, 0, stripe, 0, 0], at);
  }
}

// The drum place that a part stands at now; a part of the carriage moves along with it. Shared parts have none.
export function placeNow(part, values) {
  if (part.wheel !== undefined) return part.wheel - values.carriage;
  return part.place;
}

function howSeen(part, values, look, inAction) {
  if (look.away.includes(part.group) || (part.shows && !part.shows(values))) return "away";
  if (look.covered?.has?.(part.name) && part.skin === "ivory") return "away";   // what is asked for is not shown
  if (inAction.has(part.name)) return "solid";
  const place = placeNow(part, values);
  if (look.only !== null && place !== undefined && Math.abs(place - look.only) > 0.55) return "away";
  // Places between the eye and the action: {from, to} in drum places.
  if (look.clear && place !== undefined && place > look.clear.from && place < look.clear.to) return "away";
  return part.pale || look.glass.includes(part.group) || look.ghost?.includes(part.name) ? "glass" : "solid";
}
