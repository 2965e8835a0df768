// The timelines and faults that Python wrote for this run, and a reading of tracks that shares no code with the view.

import {readFileSync} from "node:fs";

const path = process.env.MECHCALC_SOLID;
if (!path) throw new Error("MECHCALC_SOLID is not set: run these tests through pytest (tests/solid/test_scene.py)");
export const {sessions, faulty, machines} = JSON.parse(readFileSync(path, "utf8"));
export const session = (name) => sessions.find((one) => one.name === name).timeline;

// A part's value: the last key at or before a travel, and a straight line to the next.
export function read(timeline, part, travel) {
  const keys = timeline.tracks[part];
  let value = keys[0][1];
  for (let i = 0; i < keys.length; i += 1) {
    if (keys[i][0] <= travel) value = keys[i][1];
    else return i === 0 ? value : value + (keys[i][1] - value) * (travel - keys[i - 1][0]) / (keys[i][0] - keys[i - 1][0]);
  }
  return value;
}

export const readAll = (timeline, travel) => Object.fromEntries(Object.keys(timeline.tracks).map((part) => [part, read(timeline, part, travel)]));

// Even steps through a timeline, and both ends of every moment.
export function travels(timeline, step = 1.7) {
  const list = [];
  for (let travel = 0; travel <= timeline.length; travel += step) list.push(travel);
  for (const {from, at} of timeline.moments) list.push(from, at, (from + at) / 2);
  return list;
}

// Whether [z, y] is inside an outline.
export function inside([z, y], outline) {
  let odd = false;
  outline.forEach(([az, ay], i) => {
    const [bz, by] = outline[(i + 1) % outline.length];
    if ((ay > y) !== (by > y) && z < az + (bz - az) * (y - ay) / (by - ay)) odd = !odd;
  });
  return odd;
}

// A point of a part's own frame in the mechanism's: angles go from z towards y.
export function standing({x, y, z, turn}, [px, py, pz]) {
  const angle = turn * Math.PI / 180;
  return [x + px, y + py * Math.cos(angle) + pz * Math.sin(angle), z + pz * Math.cos(angle) - py * Math.sin(angle)];
}

export const angleOf = ([, y, z]) => Math.atan2(y, z) * 180 / Math.PI;
export const apart = (a, b) => Math.abs(((a - b + 540) % 360 + 360) % 360 - 180);
