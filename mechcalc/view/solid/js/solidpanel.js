// The controls of the solid view: viewpoints, following, cut, groups, and which pictures are shown.

import {tag} from "../../js/html.js";
import {GROUPS} from "./solidparts.js";

export const PICTURES = [["solid", "solid"], ["both", "solid and flat"], ["flat", "flat"]];
export const CUTS = [["none", "no cut"], ["across", "across the drum"], ["front", "from the front"], ["level", "from above"]];

// What each key does while the solid picture has the focus, besides the keys of time.
export const SOLID_KEYS = [
  ["Shift ← → ↑ ↓", "turn the machine"], ["Page Up, Page Down", "nearer, farther"], ["Shift Page Up, Page Down", "along the drum"],
  ["1 to 6", "viewpoints"], ["F", "follow the carry"], ["X  Shift X", "cut: next plane; the plane on"], ["Y", "take away or bring back the cover and frame"],
  ["V", "solid, solid and flat, flat"],
];

// Controls inside `parent`. does: {viewpoint(id), follow(on), cut(kind, share), group(id, how), picture(id)}.
export function buildSolidPanel(parent, viewpoints, does, signal) {
  const bar = tag(parent, "div", {class: "controls solidbar", role: "group", "aria-label": "Solid view"});
  const row = tag(bar, "div", {class: "row"});
  const picture = choice(row, "show ", PICTURES, "picture", (value) => does.picture(value), signal);
  const view = choice(row, "from ", [...viewpoints.map(({id, words}) => [id, words]), ["", "as it was turned"]], "viewpoint", (value) => does.viewpoint(value), signal);
  const follow = tag(row, "button", {type: "button", "data-act": "follow", "aria-pressed": "false", text: "follow the carry", signal,
    on: {click: () => does.follow(follow.getAttribute("aria-pressed") !== "true")}});
  const cut = choice(row, "cut ", CUTS, "cut", (value) => does.cut(value, Number(depth.value) / 100), signal);
  const depth = tag(row, "input", {type: "range", min: 0, max: 100, value: 50, class: "depth", "aria-label": "Where the cut goes", hidden: true, signal,
    on: {input: () => does.cut(cut.value, Number(depth.value) / 100)}});
  const more = tag(row, "button", {type: "button", "data-act": "groups", "aria-expanded": "false", text: "parts and keys", signal,
    on: {click: () => open(box.hidden)}});
  const box = tag(bar, "div", {class: "groups", hidden: true});
  const selects = Object.fromEntries(GROUPS.map(([id, words]) => [id, choice(box, `${words} `,
    [["solid", "shown"], ["glass", "glass"], ["away", "away"]], `group-${id}`, (value) => does.group(id, value), signal)]));
  const keys = tag(box, "dl", {});
  for (const [key, words] of SOLID_KEYS) {
    const line = tag(keys, "div", {});
    tag(line, "dt", {text: key});
    tag(line, "dd", {text: words});
  }
  const open = (on) => {
    box.hidden = !on;
    more.setAttribute("aria-expanded", String(on));
  };
  return {
    show(state) {
      picture.value = state.picture;
      view.value = state.viewpoint ?? "";
      follow.setAttribute("aria-pressed", String(state.follow));
      cut.value = state.cut.kind;
      depth.hidden = state.cut.kind === "none";
      depth.value = String(Math.round(state.cut.share * 100));
      for (const [id] of GROUPS) selects[id].value = state.groups[id] ?? "solid";
    },
  };
}

function choice(parent, words, options, name, change, signal) {
  const label = tag(parent, "label", {text: words});
  const select = tag(label, "select", {"data-act": name, signal, on: {change: () => change(select.value)}});
  for (const [value, text] of options) tag(select, "option", {value, text});
  return select;
}
