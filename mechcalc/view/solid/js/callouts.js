// Names on leader lines, and an arrow of the motion, over the solid picture.

import {add} from "../../js/svg.js";
import {chosen, wordsFor} from "../../js/labels.js";
import {project} from "./solidcamera.js";
import {READ, polar} from "./solidsizes.js";

// The point of each mesh that its name points at, in its own frame.
export function anchorsFor({R, U, rod, finger, handle}) {
  const window = polar(READ, 1.3);
  const small = polar(READ, 0.84);
  return {
    pin: [-0.28, 0, R], carryPin: [0.36, 0, R], idler: [-0.31, 0.6, 0.6], idlerLost5: [-0.31, 0.6, 0.6], rim: [0.7, window.y, window.z],
    counterRim: [0.66, small.y, small.z], lever: [-U + 0.7, -rod.y * 0.55, (R - rod.z) * 0.5], setLever: [-0.54, 0, R + 0.74],
    finger: [0, 0, 0.7], crankArm: [0.2, 0, handle], pawl: [0, 0, 0.8], bell: [-0.3, 0, 0], comb: [0, 0, R + 1.1],
    lockBar: [0, 0, R + 0.4], clearing: [0.2, 1.7, 0.2], transferHandle: [-0.2, 1.5, 0.1], carriageEnds: [0, 1, R + 3], directionGear: [0, 0.4, 0.4], none: [finger.y, 0, 0],
  };
}

// A point of a part's own frame, where the part stands now.
export function placed({x, y, z, turn, scale}, [px, py, pz]) {
  const angle = turn * Math.PI / 180;
  const [c, s] = [Math.cos(angle) * scale, Math.sin(angle) * scale];
  return [x + px * scale, y + py * c + pz * s, z + pz * c - py * s];
}

// A layer of names inside `parent`. show(picks): [{kind, words, at: [px, py], to: [px, py] or null}], in pixels.
export function buildCallouts(parent) {
  const svg = add(parent, "svg", {class: "callouts", "aria-hidden": "true"});
  let shown = "";
  return {
    show(picks, [width, height]) {
      const key = JSON.stringify(picks, (_, value) => (typeof value === "number" ? Math.round(value) : value)) + width;
      if (key === shown) return;
      shown = key;
      svg.textContent = "";
      svg.setAttribute("viewBox", `0 0 ${width} ${height}`);
      const small = width < 560 ? 0.84 : 1;
      const rows = [...picks].sort((a, b) => a.at[1] - b.at[1]);
      const top = Math.max(14, Math.min(height - 30 * rows.length, rows.reduce((sum, {at}) => sum + at[1], 0) / (rows.length || 1) - 15 * rows.length));
      rows.forEach((pick, i) => callout(svg, pick, width, top + 30 * small * i + 12, small));
    },
  };
}

function callout(svg, {kind, words, at: [x, y], to}, width, row, small) {
  const wide = (words.length * 7.5 + 18) * small;
  const left = width - wide - 10;
  const line = `M${x} ${y}L${left - 18} ${row}H${left}`;
  add(svg, "path", {d: line, class: "leader-back"});
  add(svg, "path", {d: line, class: `leader role-${kind}`});
  if (to && Math.hypot(to[0] - x, to[1] - y) > 7) {
    const [dx, dy] = [to[0] - x, to[1] - y];
    const length = Math.hypot(dx, dy);
    const [ux, uy] = [dx / length, dy / length];
    const [tipX, tipY] = [x + ux * Math.min(length, 46), y + uy * Math.min(length, 46)];
    const arrow = `M${x} ${y}L${tipX} ${tipY}M${tipX - 9 * ux + 6 * uy} ${tipY - 9 * uy - 6 * ux}L${tipX} ${tipY}L${tipX - 9 * ux - 6 * uy} ${tipY - 9 * uy + 6 * ux}`;
    add(svg, "path", {d: arrow, class: "motion-back"});
    add(svg, "path", {d: arrow, class: `motion role-${kind}`});
  }
  add(svg, "circle", {cx: x, cy: y, r: 3.2, class: `dot role-${kind}`});
  add(svg, "rect", {x: left, y: row - 12 * small, width: wide, height: 24 * small, rx: 3, class: `chip role-${kind}`});
  add(svg, "text", {x: left + wide / 2, y: row, class: "chip-word", "font-size": 13 * small}, words);
}

// What to name: faulty parts; the parts in action, where they are in the picture, and where they are going.
export function calloutsFor(scene, anchors, {values, before, after, turning, parts, faulty}, seen, size) {
  const picks = chosen(parts);
  const find = (part, pose) => {
    const where = scene.where(part, pose, turning, part.startsWith("setting/") ? "setLever" : null);
    return where && project(seen, placed(where, anchors[where.mesh] ?? [0, 0, 0]), size);
  };
  const wrong = faulty.map(({name, fault}) => ({kind: "fault", words: `fault: ${fault}`, at: find(name, values), to: null}));
  return [...wrong, ...picks.flatMap((pick) => {
    const spot = (pose) => find(pick.part, pose);
    const at = spot(values);
    if (!at) return [];
    const [was, will] = before ? [spot(before), spot(after)] : [at, at];
    const to = [at[0] + (will[0] - was[0]) * 1.2, at[1] + (will[1] - was[1]) * 1.2];
    return [{kind: pick.kind, words: wordsFor(pick, picks), at, to}];
  })];
}
