// A film's frames: where the camera stands in each, by the film's own clock.

import {test} from "node:test";
import assert from "node:assert/strict";
import {reelOf} from "../../mechcalc/view/solid/js/reel.js";
import {solidScene} from "../../mechcalc/view/solid/js/solidscene.js";
import {GLIDE, viewpoints} from "../../mechcalc/view/solid/js/solidcamera.js";
import {session} from "./readings.mjs";

const nines = session("nines");
const {sizes} = solidScene(nines.machine);
const home = viewpoints(sizes)[0].camera;
const seconds = 0.1;
const reel = (travels, follow) => reelOf(sizes, nines, {travels, seconds, follow, home});
const carry = nines.moments.find(({kinds}) => kinds.includes("pin deflected"));
const ripple = nines.strokes[carry.stroke];

test("a camera that does not follow stays where it is, and is the same in every frame", () => {
  const frames = reel([0, carry.at, nines.length], false);
  assert.ok(frames.every(({camera, shot}) => camera === frames[0].camera && shot === null));
});

test("it goes near in a stroke in which something is carried, also while the machine stands, and then rests", () => {
  const frames = reel([0, ...Array(12).fill(ripple.from + 1)], true);
  const glides = Math.ceil(GLIDE / seconds);
  assert.equal(frames[0].shot, null);
  for (let i = 1; i <= glides; i += 1) assert.ok(frames[i].camera.far < frames[i - 1].camera.far, `frame ${i}`);
  assert.equal(frames[glides + 1].camera, frames[glides].camera);
  const {camera, shot} = frames.at(-1);
  for (const name of ["turn", "rise", "far"]) assert.ok(Math.abs(camera[name] - shot.camera[name]) < 1e-9, name);
  camera.at.forEach((part, i) => assert.ok(Math.abs(part - shot.camera.at[i]) < 1e-9));
});

test("a frame speaks of the moment at its travel", () => {
  const frames = reel([0, carry.at], true);
  assert.equal(frames[1].shot.phase, "pin deflected");
  assert.ok(frames[1].shot.now);
  assert.deepEqual(frames[1].detail.moment.parts, carry.parts);
});

test("twice the frames show the same journey", () => {
  const travels = [0, ...Array(10).fill(ripple.from + 1)];
  const coarse = reel(travels, true);
  const fine = reelOf(sizes, nines, {travels: travels.flatMap((travel) => [travel, travel]).slice(1), seconds: seconds / 2, follow: true, home});
  coarse.forEach(({camera}, i) => assert.ok(Math.abs(camera.far - fine[2 * i].camera.far) < (i ? 1e-9 : 1), `frame ${i}`));
});

test("it ends as it began, with the whole machine", () => {
  const frames = reel([0, carry.at, ...Array(12).fill(nines.length)], true);
  assert.equal(frames.at(-1).shot, null);
  assert.ok(Math.abs(frames.at(-1).camera.far - frames[0].camera.far) < 1e-9);
});
