// Following the carry: which shot belongs to which phase, where the eye goes, what is out of its way, what to look at.
// Pure. The phases are the timeline's own moments; nothing is foretold here.

import {actionAt} from "./solidparts.js";

const SHOTS = {
  "lever out": {turn: -64, rise: 4, far: 10.5, ahead: {y: -0.3, z: 1.2}, keep: 0.4,
    next: "a lug trips its carry lever",
    look: "Look at the lug on the wheel's side. It has tripped the lever's nose, and the lever swings towards the drum."},
  "pin deflected": {turn: -42, rise: 34, far: 8, ahead: {y: 0.1, z: -0.4}, keep: 1.4, glass: true,
    next: "a carry pin is pushed over",
    look: "Look at the lever's wedge. The carry pin slides up its slope, sideways, into the idler's path."},
  "carry step": {turn: -52, rise: 34, far: 10.5, ahead: {y: 0, z: 0.5}, keep: 1.4,
    next: "a carry pin drives its idler",
    look: "Look between the idler's teeth. The pin takes it one tooth further, and the wheel one digit."},
  "lever home": {turn: -44, rise: 22, far: 9.5, ahead: {y: 0, z: 0}, keep: 0.9,
    next: "a cam pushes the lever home",
    look: "Look behind the pin. The cam on the drum pushes the lever's head home, away from the drum."},
  bell: {turn: -46, rise: 12, far: 14, ahead: {y: 0, z: 0.6}, keep: 0.6,
    next: "the bell is struck",
    look: "Look at the highest lever. It is out and there is no place to carry to: the bell is struck."},
};
const ORDER = ["bell", "carry step", "pin deflected", "lever out", "lever home"];
export const OUT_OF_THE_WAY = ["frame", "cover", "crank", "transfer", "carriage", "setting"];

// The phase of a carry that a moment is, or null.
export function phaseOf(moment) {
  return ORDER.find((kind) => moment.kinds.includes(kind)) ?? null;
}

// The carry moment in action, or the next one after it: {moment, phase, now}; null when no carry is to come.
export function nextPhase(timeline, moment) {
  const phase = phaseOf(moment);
  if (phase && moment.active) return {moment, phase, now: true};
  const next = timeline.moments.find((one) => one.at > moment.at + 1e-9 && phaseOf(one));
  if (next) return {moment: next, phase: phaseOf(next), now: false};
  return phase ? {moment, phase, now: true} : null;
}

// The drum place at which a phase happens: that of its lever, or of its pin or idler.
export function placeOfPhase({parts}, values) {
  for (const name of parts) {
    const [kind, one, two] = name.split("/");
    if (kind === "carrypin") return Number(two);
    if (kind === "idler") return Number(one);
  }
  const lever = parts.find((name) => /^(lever|wheel)\//.test(name));
  return lever ? Number(lever.split("/")[1]) - Math.round(values.carriage) + 1 : null;
}

// {camera, look, words} for what comes next, or null: the camera to go to and what to leave out of the picture. While
// windows are `covered`, because what comes next is asked for, nothing is shown before it happens.
export function shotFor(sizes, timeline, moment, values, covered = false) {
  const next = nextPhase(timeline, moment);
  const place = next && placeOfPhase(next.moment, values);
  if (!place || (covered && !next.now)) return null;
  const shot = SHOTS[next.phase];
  const at = actionAt(sizes, place);
  return {
    phase: next.phase, place, now: next.now,
    camera: {turn: shot.turn, rise: shot.rise, far: shot.far, at: [at.x + 0.3, at.y + shot.ahead.y, at.z + shot.ahead.z]},
    look: {away: OUT_OF_THE_WAY, clear: {from: place - 1 + shot.keep, to: 99}, ghost: ghosts(shot, place, next, values)},
    words: next.now ? shot.look : `Next, at place ${place}: ${shot.next}.`,
  };
}

// What stands before the action and is not in it: seen through. The idler too, while the pin comes into its path.
function ghosts(shot, place, {moment, now}, values) {
  const lever = `lever/${place + Math.round(values.carriage)}`;
  return [...(moment.parts.includes(lever) ? [] : [lever]), ...(shot.glass && now ? [`idler/${place}`] : [])];
}
