// What a solid view is set to show, apart from time: a pure reducer, so that keys, controls and Python do the same.

import {GROUPS} from "./solidparts.js";
import {OUT_OF_THE_WAY} from "./follow.js";
import {CUTS, PICTURES} from "./solidpanel.js";
import {orbit, slide, zoom} from "./solidcamera.js";

export function firstState(viewpoints, {picture = "solid", viewpoint = "home", follow = false} = {}) {
  const state = {picture, viewpoint: null, camera: viewpoints[0].camera, place: null, away: [], glass: [], follow: false, cut: {kind: "none", share: 0.5}, groups: {}};
  const seen = changed(state, {type: "viewpoint", id: viewpoint}, viewpoints);
  return follow ? changed(seen, {type: "follow", on: true}, viewpoints) : seen;
}

// The state after an action; the one handed in is left as it was.
export function changed(state, action, viewpoints) {
  const next = (list, now) => list[(list.findIndex(([id]) => id === now) + 1) % list.length][0];
  const free = {viewpoint: null, follow: false};
  switch (action.type) {
    case "viewpoint": {
      const found = viewpoints.find(({id}) => id === action.id);
      return found ? {...state, viewpoint: found.id, camera: found.camera, away: found.away ?? [], glass: found.glass ?? [], place: found.place ?? null, follow: false} : state;
    }
    case "orbit": return {...state, ...free, camera: orbit(state.camera, action.turn, action.rise)};
    case "zoom": return {...state, camera: zoom(state.camera, action.factor)};
    case "slide": return {...state, ...free, camera: slide(state.camera, action.right, action.up)};
    case "camera": return {...state, camera: action.camera};
    case "follow": return {...state, follow: action.on ?? !state.follow, viewpoint: null, place: null, away: [], glass: []};
    case "cut": return {...state, cut: {kind: action.kind ?? next(CUTS, state.cut.kind), share: action.share ?? state.cut.share}};
    case "deeper": return {...state, cut: {...state.cut, share: (state.cut.share + 0.05) % 1}};
    case "group": return {...state, groups: {...state.groups, [action.id]: action.how}};
    case "housing": {
      const how = state.groups.cover === "away" ? "solid" : "away";
      return {...state, groups: {...state.groups, cover: how, frame: how}};
    }
    case "picture": return {...state, picture: action.id ?? next(PICTURES, state.picture)};
    default: return state;
  }
}

// What the scene is to show: groups by what was chosen for them, and by what the viewpoint or the shot keeps clear.
export function lookOf(state, shot) {
  const by = (how) => GROUPS.map(([id]) => id).filter((id) => state.groups[id] === how);
  const unsaid = (id) => !state.groups[id];
  const aside = (shot ? OUT_OF_THE_WAY : state.away).filter(unsaid);
  return {away: [...by("away"), ...aside], glass: [...by("glass"), ...state.glass.filter(unsaid)], only: state.place, clear: shot?.look.clear ?? null, ghost: shot?.look.ghost ?? []};
}

// The plane of a cut as [x, y, z, distance] in the mechanism's frame: what lies beyond it is taken away.
export function planeOf({kind, share}, sizes, fromWorld) {
  const reach = sizes.R + 5;
  const {carriage, left, right} = sizes;
  const along = [Math.min(left, carriage.left), Math.max(right, carriage.right)];
  const planes = {
    across: [1, 0, 0, along[1] + (along[0] - along[1]) * share],
    front: [...fromWorld([0, 0, 1]), reach - 2 * reach * share], level: [...fromWorld([0, 1, 0]), reach - 2 * reach * share],
  };
  return planes[kind] ?? null;
}

// The action of a key on the solid picture, or null.
export function solidKey({key, shiftKey}, viewpoints) {
  const turns = {ArrowLeft: [-6, 0], ArrowRight: [6, 0], ArrowUp: [0, 5], ArrowDown: [0, -5]};
  if (shiftKey && turns[key]) return {type: "orbit", turn: turns[key][0], rise: turns[key][1]};
  if (key === "PageUp" || key === "PageDown") {
    const way = key === "PageUp" ? 1 : -1;
    return shiftKey ? {type: "slide", right: -0.12 * way, up: 0} : {type: "zoom", factor: way > 0 ? 0.85 : 1 / 0.85};
  }
  if (/^[1-9]$/.test(key) && viewpoints[key - 1]) return {type: "viewpoint", id: viewpoints[key - 1].id};
  return {f: {type: "follow"}, x: {type: "cut"}, X: {type: "deeper"}, v: {type: "picture"}, y: {type: "housing"}}[key] ?? null;
}
