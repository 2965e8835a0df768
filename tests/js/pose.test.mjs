// pose.js says what pose.py says, at every travel that Python sampled.

import {test} from "node:test";
import assert from "node:assert/strict";
import {carriesOf, momentAt, poseAt, stopsOf, strokeAt, trackValue, turningAt} from "../../mechcalc/view/js/pose.js";
import {session, sessions} from "./timelines.mjs";

test("a track rests before its first key and after its last, and the later of two keys at one travel holds", () => {
  const keys = [[0, 3], [10, 3], [20, 4], [20, 7]];
  assert.deepEqual([-5, 10, 15, 20, 99].map((travel) => trackValue(keys, travel)), [3, 3, 3.5, 7, 7]);
});

for (const {name, timeline, samples} of sessions) {
  test(`${name}: every part stands where Python says, at ${samples.length} travels`, () => {
    for (const {travel, pose, stroke, turning, moment} of samples) {
      const found = poseAt(timeline, travel);
      assert.deepEqual(Object.keys(found).sort(), Object.keys(pose).sort());
      for (const part in pose) assert.ok(Math.abs(found[part] - pose[part]) < 1e-9, `${part} at ${travel}: ${found[part]}, not ${pose[part]}`);
      assert.equal(strokeAt(timeline, travel), stroke);
      assert.equal(turningAt(timeline, travel), turning);
      const told = momentAt(timeline, travel);
      assert.deepEqual([told.words, told.active, told.parts], [moment.words, moment.active, moment.parts]);
    }
  });

  test(`${name}: stops go up from 0 to the end, and hold the end of every stroke`, () => {
    const stops = stopsOf(timeline);
    assert.equal(stops[0], 0);
    assert.equal(stops.at(-1), timeline.length);
    for (let i = 1; i < stops.length; i += 1) assert.ok(stops[i] > stops[i - 1]);
    for (const stroke of timeline.strokes) assert.ok(stops.includes(stroke.to));
  });
}

test("a lever that goes from 0 to 9 is one stop; its eight places between are none", () => {
  const {timeline} = session("nines");
  assert.deepEqual(stopsOf(timeline).slice(0, 5), [0, 30, 60, 90, 120]);
});

test("9999 + 1 carries four times", () => {
  const {timeline} = session("nines");
  const carries = carriesOf(timeline);
  assert.equal(carries.length, 4);
  for (const travel of carries) assert.ok(Object.entries(poseAt(timeline, travel)).some(([part, value]) => part.startsWith("carrypin/+") && value === 1));
});
