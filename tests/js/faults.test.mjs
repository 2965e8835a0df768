// How faults are looked at: where a mark stands, where the seat of a lost tooth is, what a moment points at.

import {test} from "node:test";
import assert from "node:assert/strict";
import {collarOf, isGone, lettersOf, lostTeeth, rolls, seatOf, tagOf} from "../../mechcalc/view/js/faults.js";
import {planFor} from "../../mechcalc/view/js/plan.js";
import {faultsOf, momentAt, poseAt} from "../../mechcalc/view/js/pose.js";
import {newPlayer, reduce} from "../../mechcalc/view/js/player.js";
import {actionOf} from "../../mechcalc/view/js/keys.js";
import {session, sessions} from "./timelines.mjs";

const faulty = sessions.filter(({timeline}) => timeline.faults);
const {timeline: every} = session("every kind of fault");

test("a sound machine's timeline tells of no fault", () => {
  assert.equal(session("nines").timeline.faults, undefined);
  assert.deepEqual(faultsOf(session("nines").timeline), []);
});

for (const shape of [{tall: false, large: false}, {tall: true, large: false}, {tall: false, large: true}]) {
  test(`${JSON.stringify(shape)}: every collar and tag lies on the sheet, at both ends of the shift`, () => {
    for (const {timeline} of [...faulty, {timeline: every}]) {
      const plan = planFor(timeline.machine, shape);
      for (const carriage of [0, timeline.machine.positions - 1]) {
        const pose = {...poseAt(timeline, timeline.length), carriage};
        for (const {part} of timeline.faults) {
          const spots = [tagOf(plan, part, pose, 0)];
          if (!rolls(part)) {
            const {x, y, width, height} = collarOf(plan, part, pose);
            spots.push([x - width / 2, y - height / 2], [x + width / 2, y + height / 2]);
          }
          for (const [x, y] of spots) assert.ok(x >= 0 && x <= plan.width && y >= 0 && y <= plan.height, `${part} at ${x}, ${y}`);
        }
      }
    }
  });
}

test("what is gone is a hole, what is stuck is not; an idler knows its lost teeth", () => {
  const faults = [{fault: "carry pin gone", part: "carrypin/+/3"}, {fault: "number pin stuck out", part: "pin/1/2"},
    {fault: "idler tooth lost", part: "idler/4", place: 4, tooth: 7}];
  assert.deepEqual([isGone(faults, "carrypin/+/3"), isGone(faults, "pin/1/2"), isGone(faults, "carrypin/-/3")], [true, false, false]);
  assert.deepEqual([lostTeeth(faults, 4), lostTeeth(faults, 5)], [[7], []]);
});

test("the seat of a lost tooth lies before the pin that finds nothing to push", () => {
  assert.equal(seatOf(6, 6, 1), 0.5);      // an additive turn at 6: the tooth below the line should be pushed on
  assert.equal(seatOf(6, 7, -1), -0.5);    // a subtractive one at 7: the tooth above it should be pushed back
  assert.equal(seatOf(6, 5, 1), -0.5);
  assert.equal(seatOf(6, 16, 1), 0.5);
  assert.equal(seatOf(0, 9, 1), -0.5);
});

test("a moment at which a fault acts points at its letters; the player goes from one to the next", () => {
  const at = faultsOf(every);
  assert.ok(at.length > 8);
  const player = newPlayer(every, 0, {});
  const first = reduce(player, {type: "fault", direction: 1});
  assert.equal(first.travel, at[0]);
  assert.equal(reduce(reduce(first, {type: "fault", direction: 1}), {type: "fault", direction: -1}).travel, at[0]);
  assert.ok(lettersOf(every, momentAt(every, at[0])).every((letter) => /^[A-Z]$/.test(letter)));
  assert.deepEqual(actionOf("d", false), {time: {type: "fault", direction: 1}});
  assert.deepEqual(actionOf("D", false), {time: {type: "fault", direction: -1}});
});
