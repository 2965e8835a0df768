// The playhead, with a clock of the tests' own.

import {test} from "node:test";
import assert from "node:assert/strict";
import {newPlayer, nextMark, rebase, reduce, stopIndex} from "../../mechcalc/view/js/player.js";
import {paceAt, slowPieces} from "../../mechcalc/view/js/pace.js";
import {session} from "./timelines.mjs";

const {timeline} = session("nines");
const begin = (options) => newPlayer(timeline, 0, options);
const does = (player, ...actions) => actions.reduce(reduce, player);

function runOut(player, seconds = 1 / 60) {
  let ticks = 0;
  while (player.playing && ticks < 100000) {
    player = reduce(player, {type: "tick", seconds});
    ticks += 1;
  }
  return {player, time: ticks * seconds};
}

test("playing reaches the end and stops there", () => {
  const {player} = runOut(does(begin(), {type: "play"}));
  assert.equal(player.travel, timeline.length);
  assert.equal(player.playing, false);
});

test("the reducer leaves the player it was handed as it was", () => {
  const player = Object.freeze(begin());
  for (const action of [{type: "play"}, {type: "seek", travel: 5}, {type: "moment", direction: 1}, {type: "end"}]) reduce(player, action);
  assert.equal(player.travel, 0);
});

test("a paused player does not move", () => {
  const player = does(begin(), {type: "play"}, {type: "tick", seconds: 0.1}, {type: "pause"});
  assert.equal(reduce(player, {type: "tick", seconds: 1}).travel, player.travel);
});

test("playing from the end begins again", () => {
  assert.equal(does(begin(), {type: "end"}, {type: "play"}).travel, 0);
});

test("twice the speed takes half the time", () => {
  const once = runOut(does(begin(), {type: "play"})).time;
  const twice = runOut(does(begin(), {type: "speed", speed: 2}, {type: "play"})).time;
  assert.ok(Math.abs(once / twice - 2) < 0.05, `${once} and ${twice}`);
});

test("carries are slow enough to see: at least three quarters of a second each, ten times slower than an empty arc", () => {
  const pieces = slowPieces(timeline);
  const carry = timeline.moments.find((moment) => moment.kinds.includes("carry step"));
  const pace = paceAt(pieces, (carry.from + carry.at) / 2);
  assert.ok((carry.at - carry.from) / pace > 0.65);
  assert.ok(paceAt(pieces, 180) > 6 * pace);
});

test("the same seconds in other frames lead to the same place", () => {
  const coarse = runOut(does(begin(), {type: "play"}), 1 / 20).time;
  const fine = runOut(does(begin(), {type: "play"}), 1 / 120).time;
  assert.ok(Math.abs(coarse - fine) < 0.2, `${coarse} and ${fine}`);
});

test("a step forwards glides to the next stop and rests on it exactly", () => {
  const started = does(begin(), {type: "moment", direction: 1});
  assert.equal(started.playing, true);
  const {player} = runOut(started);
  assert.equal(player.travel, player.stops[1]);
});

test("a second step while gliding goes on to the stop after", () => {
  const {player} = runOut(does(begin(), {type: "moment", direction: 1}, {type: "tick", seconds: 0.01}, {type: "moment", direction: 1}));
  assert.equal(player.travel, player.stops[2]);
});

test("a step back jumps to the stop before; before the first it stays", () => {
  const player = does(begin(), {type: "stop", index: 3}, {type: "moment", direction: -1});
  assert.equal(player.travel, player.stops[2]);
  assert.equal(does(begin(), {type: "moment", direction: -1}).travel, 0);
});

test("next and previous carry go to the pins that are pushed over", () => {
  const first = does(begin(), {type: "carry", direction: 1});
  assert.equal(first.travel, first.carries[0]);
  const third = does(first, {type: "carry", direction: 1}, {type: "carry", direction: 1});
  assert.equal(third.travel, first.carries[2]);
  assert.equal(does(third, {type: "carry", direction: -1}).travel, first.carries[1]);
});

test("under reduced motion nothing glides: a step jumps, and playing goes from stop to stop", () => {
  const step = does(begin({still: true}), {type: "moment", direction: 1});
  assert.deepEqual([step.playing, step.travel], [false, step.stops[1]]);
  let player = does(begin({still: true}), {type: "play"});
  const seen = new Set();
  for (let i = 0; i < 4000 && player.playing; i += 1) {
    player = reduce(player, {type: "tick", seconds: 0.1});
    seen.add(player.travel);
  }
  assert.equal(player.playing, false);
  for (const travel of seen) assert.ok(player.stops.includes(travel), `${travel} is no stop`);
  assert.ok(seen.size > player.stops.length - 3);
});

test("a seek is kept within the timeline", () => {
  assert.equal(does(begin(), {type: "seek", travel: -5}).travel, 0);
  assert.equal(does(begin(), {type: "seek", travel: 1e9}).travel, timeline.length);
  assert.equal(does(begin(), {type: "stop", index: 1e6}).travel, timeline.length);
});

test("the slider counts the stops that have been reached", () => {
  const player = begin();
  player.stops.forEach((travel, index) => assert.equal(stopIndex(reduce(player, {type: "seek", travel})), index));
});

test("a new timeline plays what is new from where the old one ended", () => {
  const {timeline: longer} = session("nines, then one more");
  const at = rebase(does(begin(), {type: "end"}), longer, timeline.length);
  assert.equal(at.travel, timeline.length);
  const behind = rebase(does(begin(), {type: "seek", travel: timeline.length - 50}), longer, timeline.length);
  assert.equal(behind.travel, timeline.length - 50);
  assert.equal(runOut(reduce(at, {type: "follow"})).player.travel, longer.length);
});

test("the next mark is strictly beyond; there is none after the last", () => {
  assert.equal(nextMark([1, 2, 3], 2, 1), 3);
  assert.equal(nextMark([1, 2, 3], 2, -1), 1);
  assert.equal(nextMark([1, 2, 3], 3, 1), null);
});

test("a stroke on glides to its end, a stroke back jumps to where it began, then to the one before", () => {
  const ends = timeline.strokes.map((stroke) => stroke.to);
  const {player} = runOut(does(begin(), {type: "stroke", direction: 1}));
  assert.equal(player.travel, ends[0]);
  const inside = does(begin(), {type: "seek", travel: ends[2] + 200});
  const back = does(inside, {type: "stroke", direction: -1});
  assert.deepEqual([back.travel, back.playing], [ends[2], false]);
  assert.equal(does(back, {type: "stroke", direction: -1}).travel, ends[1]);
});

test("what goes forwards pauses at a hold, and goes on from there when it is told to", () => {
  const holds = [200, 300.5];
  const first = runOut(does(begin(), {type: "holds", holds}, {type: "play"})).player;
  assert.deepEqual([first.travel, first.playing], [200, false]);
  const second = runOut(does(first, {type: "play"})).player;
  assert.equal(second.travel, 300.5);
  assert.equal(runOut(does(second, {type: "play"})).player.travel, timeline.length);
});

test("a hold stops a step forwards and a jump to the next carry, and nothing that goes back", () => {
  const [carry] = begin().carries;
  const held = does(begin(), {type: "holds", holds: [carry - 3]}, {type: "carry", direction: 1});
  assert.equal(held.travel, carry - 3);
  assert.equal(does(held, {type: "carry", direction: 1}).travel, carry);
  assert.equal(does(held, {type: "seek", travel: carry + 5}, {type: "start"}).travel, 0);
  assert.equal(runOut(does(begin(), {type: "holds", holds: [17]}, {type: "stroke", direction: 1})).player.travel, 17);
  assert.equal(does(begin(), {type: "holds", holds: [17]}, {type: "seek", travel: 40}).travel, 40);
});

test("under reduced motion holds are kept too, while playing, stepping and following", () => {
  const still = does(begin({still: true}), {type: "holds", holds: [200]});
  let player = does(still, {type: "play"});
  for (let i = 0; i < 4000 && player.playing; i += 1) player = reduce(player, {type: "tick", seconds: 0.1});
  assert.equal(player.travel, 200);
  assert.equal(does(still, {type: "follow"}).travel, 200);
  assert.equal(does(still, {type: "stroke", direction: 1}, {type: "stroke", direction: 1}).travel, 200);
});
