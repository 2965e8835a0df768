// Faults as the timeline tells them: {fault, part, words, letter, and their figures}. Pure: how each is looked at, and where
// its mark stands. What a faulty part does is in the tracks, as for every part.

import {placeOf} from "./labels.js";

const GONE = ["carry pin gone", "number pin gone"];

// The faults at a part.
export function faultsAt(faults, part) {
  return faults.filter((fault) => fault.part === part);
}

// Whether what should be at a part is gone, so that there is an empty hole.
export function isGone(faults, part) {
  return faultsAt(faults, part).some(({fault}) => GONE.includes(fault));
}

// The teeth that an idler has lost, each by the digit of the wheel opposite before the step that it should drive.
export function lostTeeth(faults, place) {
  return faultsAt(faults, `idler/${place}`).filter(({fault}) => fault === "idler tooth lost").map(({tooth}) => tooth);
}

// How far, in teeth from the idler line (down is on), the seat of a lost tooth stands when the wheel opposite shows
// `value`; as a turn either way meets it.
export function seatOf(tooth, value, turning) {
  const away = turning < 0 ? value - tooth - 1.5 : value - tooth + 0.5;
  return ((away + 5) % 10 + 10) % 10 - 5;
}

// Whether a part rolls with the drum; its collar then rolls along, and its tag stands over its lane.
export function rolls(part) {
  return part.startsWith("pin/") || part.startsWith("carrypin/");
}

const WIDTHS = {wheel: 0.86, counter: 0.86, idler: 0.66, setting: 0.4};   // of a place's width

// The box that a collar goes round, for parts that do not roll: {x, y (its middle), width, height}.
export function collarOf(plan, part, pose) {
  const [kind] = part.split("/");
  const [x, y] = placeOf(plan, part, pose);
  const {u, carriage, tooth} = plan;
  const wide = (WIDTHS[kind] ?? 0) * u;
  const boxes = {
    wheel: () => ({x, y: carriage.wheelY + carriage.wheel / 2, width: wide, height: carriage.wheel + 5}),
    counter: () => ({x, y: carriage.counterY + carriage.counter / 2, width: wide, height: carriage.counter + 5}),
    lever: () => ({x: x - (0.05 + 0.11 * (pose[part] ?? 0)) * u, y: y - 8, width: (0.3 + 0.22 * (pose[part] ?? 0)) * u, height: tooth * 2.3}),
    idler: () => ({x, y, width: wide, height: Math.min(24, tooth * 1.85) * 2 + 7}),
    setting: () => ({x, y, width: wide, height: 15}),
    pawl: () => ({x, y: y - 3, width: 26, height: 34}),
    lock: () => ({x, y, width: 0.7 * u, height: 16}),
    direction: () => ({x, y: y - 1, width: 28, height: 24}),
  };
  return (boxes[kind] ?? (() => ({x, y, width: 30, height: 30})))();
}

// Where the tag with a fault's letter stands; `stack` counts those already at the same part.
export function tagOf(plan, part, pose, stack) {
  const [kind, first, last] = part.split("/");
  if (kind === "pin") return [plan.centre(Number(first)) + 19 * stack, plan.drum.top + 10];
  if (kind === "carrypin") return [plan.carryLane(Number(last)) + 19 * stack, plan.drum.top + 10];
  const {x, y, width, height} = collarOf(plan, part, pose);
  return [x + width / 2 + 8 + 19 * stack, y - height / 2 - 2];
}

// The letters of the faults that act in a moment.
export function lettersOf(timeline, moment) {
  return (moment.faults ?? []).map((number) => timeline.faults[number].letter);
}
