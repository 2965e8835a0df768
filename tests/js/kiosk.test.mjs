// Who has the kiosk, and when: the reducer, without a clock and without a page.

import {test} from "node:test";
import assert from "node:assert/strict";
import {newLoop, secondsLeft, stepLoop} from "../../mechcalc/sharing/looping/js/loop.js";

const OPTIONS = {idle: 60, warning: 15, rest: 5, still: false};
const after = (loop, ...steps) => steps.reduce(stepLoop, loop);
const tick = (seconds, playing = false) => ({type: "tick", seconds, playing});
const used = {type: "used"};

test("it begins by playing, and begins anew when the end has stood for its time", () => {
  const loop = newLoop(OPTIONS);
  assert.equal(loop.act, "play");
  assert.equal(after(loop, tick(100, true)).act, null);
  assert.equal(after(loop, tick(100, true), tick(4.9)).act, null);
  assert.equal(after(loop, tick(100, true), tick(4.9), tick(0.2)).act, "again");
  assert.equal(after(loop, tick(5), tick(0.1)).act, null);
});

test("a touch takes it over and pauses it; the second touch does nothing more", () => {
  const taken = after(newLoop(OPTIONS), tick(2, true), used);
  assert.deepEqual([taken.mode, taken.act], ["taken", "pause"]);
  assert.deepEqual([after(taken, used).mode, after(taken, used).act], ["taken", null]);
});

test("it goes back after its time without use, and says so for the last seconds", () => {
  const taken = after(newLoop(OPTIONS), used);
  assert.equal(secondsLeft(after(taken, tick(44.9))), null);
  assert.equal(secondsLeft(after(taken, tick(45))), 15);
  assert.equal(secondsLeft(after(taken, tick(58.5))), 2);
  const back = after(taken, tick(59), tick(1));
  assert.deepEqual([back.mode, back.act, secondsLeft(back)], ["loop", "fresh", null]);
});

test("a touch while it warns gives all the time again, and so does a picture that plays", () => {
  for (const step of [used, tick(1, true)]) {
    const kept = after(newLoop(OPTIONS), used, tick(59), step, tick(44));
    assert.deepEqual([kept.mode, secondsLeft(kept)], ["taken", null]);
  }
});

test("what is stopped stays stopped until it is started", () => {
  const stopped = after(newLoop(OPTIONS), {type: "stop"});
  assert.deepEqual([stopped.mode, stopped.act], ["stopped", "pause"]);
  const later = after(stopped, tick(10000), used, tick(10000));
  assert.deepEqual([later.mode, later.act], ["stopped", null]);
  const started = after(later, {type: "start"});
  assert.deepEqual([started.mode, started.act], ["loop", "fresh"]);
});

test("where motion is not wanted nothing plays by itself, and the visitor is served all the same", () => {
  const still = newLoop({...OPTIONS, still: true});
  assert.equal(still.act, null);
  assert.equal(after(still, tick(100)).act, null);
  assert.equal(after(still, used).mode, "taken");
  assert.equal(after(still, used, tick(60)).act, "fresh");
  assert.equal(after(newLoop(OPTIONS), {type: "still", still: true}).act, "pause");
  assert.equal(after(still, {type: "still", still: false}).act, "play");
});
