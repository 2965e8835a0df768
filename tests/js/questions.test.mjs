// What is asked, what is covered, when a shutter opens: 9999 + 1 on the slate, two turns, four carries.

import {test} from "node:test";
import assert from "node:assert/strict";
import {awaited, coverAt, coverInHand, holdsOf, openingAt, outcomes, outcomeWords, pauseAt, questionAt, readableTo,
  readPrediction} from "../../mechcalc/view/js/questions.js";
import {poseAt} from "../../mechcalc/view/js/pose.js";
import {partsOf, registerAt, spoken} from "../../mechcalc/view/js/registers.js";
import {session} from "./timelines.mjs";

const {scene: result} = session("asked for result");
const {scene: counter} = session("asked for counter");
const {scene: carry} = session("asked for carry");
const [whole] = result.questions;
const answer = (question, foretold, opened = false) => ({[question.id]: {foretold, opened}});

test("windows are open before the first turn, and covered from there on, until the end is met with an answer", () => {
  const wheels = partsOf(result.timeline.machine, "wheel");
  assert.equal(coverAt(result.questions, {}, whole.from).size, 0);
  assert.deepEqual([...coverAt(result.questions, {}, whole.from + 1)], wheels);
  assert.deepEqual([...coverAt(result.questions, {}, whole.to)], wheels);
  assert.deepEqual([...coverAt(result.questions, answer(whole, "10000"), whole.to)], wheels);
  assert.equal(coverAt(result.questions, answer(whole, "10000", true), whole.to).size, 0);
});

test("an answer is met at the end and not before; without one the shutter stays", () => {
  assert.deepEqual(openingAt(result.questions, answer(whole, "10000"), whole.to - 1), []);
  assert.deepEqual(openingAt(result.questions, answer(whole, "10000"), whole.to), [whole.id]);
  assert.deepEqual(openingAt(result.questions, {}, whole.to), []);
  assert.deepEqual(openingAt(result.questions, answer(whole, "10000", true), whole.to), []);
});

test("a question without an end yet does not open", () => {
  assert.deepEqual(openingAt([{...whole, to: null}], answer(whole, "10000"), 1e9), []);
});

test("the working may be read up to where the windows are covered", () => {
  assert.equal(readableTo(result.questions, {}, whole.to), whole.from);
  assert.equal(readableTo(result.questions, answer(whole, "10000", true), 0), Infinity);
  assert.equal(readableTo(carry.questions, {}, 100), 100);
});

test("turn by turn, one question after another; the second waits until the first is opened", () => {
  const [first, second] = counter.questions;
  assert.equal(questionAt(counter.questions, {}, 0).id, first.id);
  assert.equal(questionAt(counter.questions, answer(first, "1"), 0), null);
  assert.deepEqual(awaited(counter.questions, answer(first, "1")).map(({id}) => id), [first.id]);
  assert.equal(questionAt(counter.questions, answer(first, "1", true), first.to).id, second.id);
});

test("playing pauses before what is asked, and where an answer is met", () => {
  const [first, second] = counter.questions;
  assert.deepEqual(holdsOf(counter.questions, {}, [], false), [first.from, second.from]);
  assert.deepEqual(holdsOf(counter.questions, answer(first, "1"), [], false), [first.to, second.from]);
  assert.deepEqual(holdsOf([], {}, carry.carries, true), carry.carries.map(({at}) => at));
});

test("a picture that rests before a turn or a carry asks; elsewhere it does not", () => {
  const [, second] = counter.questions;
  assert.match(pauseAt(counter.questions, {}, [], false, second.from).ask, /^Turn 2 of 2 comes next/);
  assert.equal(pauseAt(counter.questions, {}, [], false, second.from + 1), null);
  const stop = carry.carries[0];
  assert.deepEqual(pauseAt([], {}, carry.carries, true, stop.at), {ask: stop.ask, parts: stop.parts});
  assert.equal(pauseAt([], {}, carry.carries, false, stop.at), null);
  assert.deepEqual(pauseAt(carry.questions, {}, carry.carries, false, stop.at).parts, stop.parts);
});

test("a carry covers the wheel it comes to while it is under way, and is asked for just then", () => {
  const [first] = carry.questions;
  assert.equal(questionAt(carry.questions, {}, 0), null);
  assert.equal(questionAt(carry.questions, {}, first.from).id, first.id);
  assert.deepEqual([...coverAt(carry.questions, {}, (first.from + first.to) / 2)], first.parts);
  assert.equal(coverAt(carry.questions, {}, first.to).size, 0);
  assert.equal(questionAt(carry.questions, {}, first.to), null);
});

test("four carries in the ripple, each from a 9 to a 0", () => {
  assert.deepEqual(carry.questions.map(({about}) => about), ["wheel 2", "wheel 3", "wheel 4", "wheel 5"]);
  const answers = Object.assign({}, ...carry.questions.map((question) => answer(question, "0", true)));
  assert.deepEqual(outcomes(carry.timeline, carry.questions, answers, []).map(({happened}) => happened), ["0", "0", "0", "1"]);
});

test("what came is read from the wheels, without needless zeros; what Python knows already is not told twice", () => {
  const [told] = outcomes(result.timeline, result.questions, answer(whole, "9999", true), []);
  assert.deepEqual(told, {id: whole.id, about: "result", foretold: "9999", happened: "10000"});
  assert.equal(outcomes(result.timeline, result.questions, answer(whole, "9999", true), [told]).length, 1);
  assert.equal(outcomeWords(told), "You foretold 9999; it came to 10000. Good: now find out why.");
  assert.equal(outcomeWords({foretold: "0", happened: "0"}), "You foretold 0, and 0 it is.");
});

test("with the crank in hand a live machine's register is covered as soon as it moves", () => {
  const live = {...whole, from: 960, to: null};
  assert.equal(coverInHand([live], [], {}, 0).size, 0);
  assert.equal(coverInHand([live], [], {}, 5).size, 6);
  assert.equal(coverInHand([live], [], answer(live, "5"), 5).size, 6);
  assert.equal(coverInHand([live], [], answer(live, "5", true), 5).size, 0);
});

test("what is behind a shutter is not said", () => {
  const pose = poseAt(result.timeline, result.timeline.length);
  assert.equal(spoken(result.timeline.machine, pose, new Set()), "Setting 1, result 10000, counter 2, carriage at 0.");
  assert.equal(spoken(result.timeline.machine, pose, new Set(["wheel/3"])),
    "Setting 1, result behind the shutter, counter 2, carriage at 0.");
  assert.equal(registerAt(pose, partsOf(result.timeline.machine, "wheel")), "010000");
});

for (const [text, places, found] of [
  ["9022", 6, "9022"], [" 9 022 ", 6, "9022"], ["1,234", 6, "1234"], ["0042", 6, "42"], ["000", 3, "0"], ["7", 1, "7"],
]) {
  test(`"${text}" is read as ${found}`, () => assert.deepEqual(readPrediction(text, places), {digits: found}));
}

for (const [text, places, problem] of [
  ["", 6, "Write a whole number, such as 1234."], ["many", 6, "Write a whole number, such as 1234."],
  ["4.5", 6, "Write a whole number, such as 1234."], ["1,23", 6, "Write a whole number, such as 1234."],
  ["-22", 6, "The windows know no minus sign. Write what they will show: 0 or more."],
  ["1234567", 6, "There are 6 windows: write 6 digits at most."], ["12", 1, "A wheel shows one digit: 0 to 9."],
  ["x", 1, "Write a whole number, such as 7."],
]) {
  test(`"${text}" is asked for again: ${problem}`, () => assert.deepEqual(readPrediction(text, places), {problem}));
}
