// A hand on the crank, with what Python said beforehand about turning either way.

import {test} from "node:test";
import assert from "node:assert/strict";
import {answered, atEase, between, dragBy, handGoesOn, isHeld, letGo, shownBy} from "../../mechcalc/view/js/dragging.js";
import {session} from "./timelines.mjs";

const rest = session("at rest").ahead;
const partWay = session("part way").ahead;

function drag(ahead, ...deltas) {
  return deltas.reduce((last, delta) => dragBy(last.drag, delta, ahead), {drag: atEase});
}

test("at rest either way is open", () => {
  assert.equal(drag(rest, 30).drag.shown, 30);
  assert.deepEqual([drag(rest, -30).drag.sign, drag(rest, -30).drag.shown], [-1, 30]);
});

test("a trembling hand turns nothing", () => {
  assert.equal(drag(rest, 1, -1, 1, -1).drag.sign, 0);
});

test("what is shown comes from the timeline for that way, and the crank follows the hand", () => {
  const {timeline, travel} = shownBy(drag(rest, 20, 25).drag, rest);
  assert.equal(timeline, rest["+"].timeline);
  assert.equal(travel, 45);
});

test("part way through an additive turn the pawl refuses the other way, in Python's words", () => {
  const {drag: after, refused} = drag(partWay, -20);
  assert.equal(refused.part, "pawl");
  assert.match(refused.reason, /full-stroke ratchet/);
  assert.equal(after.shown, 0);
});

test("a hand that turns back moves nothing back: what was turned is sent, then the other way is asked for", () => {
  const turned = drag(rest, 90, -3);
  assert.equal(turned.drag.shown, 90);
  const back = dragBy(turned.drag, -5, rest);
  assert.equal(back.commit, 90);
  assert.equal(back.drag.shown, 90);
  const next = dragBy(answered(back.drag), -1, partWay);
  assert.equal(next.refused.part, "pawl");
});

test("at the end of the turn it is sent, and what the hand moved beyond counts for the next", () => {
  const result = drag(rest, 350, 30);
  assert.equal(result.commit, 360);
  assert.equal(result.drag.waiting, true);
  assert.equal(dragBy(answered(result.drag), 5, rest).drag.shown, 25);
});

test("while Python has not answered the hand's movement is kept, not lost", () => {
  const waiting = drag(rest, 350, 30).drag;
  assert.equal(dragBy(waiting, 12, rest).drag.slack, 32);
});

test("letting go sends where the crank stands, in hundredths; near rest it comes home", () => {
  assert.equal(letGo(drag(rest, 100.123456).drag, rest).commit, 100.12);
  assert.equal(letGo(drag(rest, -100).drag, rest).commit, -100);
  assert.equal(letGo(drag(rest, 357).drag, rest).commit, 360);
  assert.equal(letGo(atEase, rest).commit, undefined);
});

test("pointer angles take the shorter way round", () => {
  assert.equal(between(170, -170), 20);
  assert.equal(between(-170, 170), -20);
});

test("before a carry the hand is stopped; it goes on when it is told to", () => {
  const holds = {"+": [40, 90], "-": [10]};
  const {drag: held} = dragBy(dragBy(atEase, 30, rest, holds).drag, 30, rest, holds);
  assert.deepEqual([held.shown, isHeld(held, holds)], [40, true]);
  assert.equal(dragBy(held, 50, rest, holds).drag.shown, 40);
  const on = handGoesOn(held);
  assert.equal(isHeld(on, holds), false);
  assert.equal(dragBy(on, 20, rest, holds).drag.shown, 60);
  assert.equal(dragBy(on, 200, rest, holds).drag.shown, 90);
});

test("a hand that lets go where it was stopped is sent from there, and taken hold of again it goes on", () => {
  const holds = {"+": [40], "-": []};
  const {drag: held} = dragBy(atEase, 60, rest, holds);
  assert.equal(letGo(held, rest).commit, 40);
  const again = {"+": [0.004], "-": []};   // the same stop, in what Python says from there
  assert.equal(dragBy(answered(letGo(held, rest).drag), 25, rest, again).drag.shown, 25);
});
