// What is asked, what is covered, what was foretold. Pure: a function of the questions that Python sent, the answers so
// far ({id: {foretold, opened}}) and the travel. A question covers its parts after `from` until it is opened; one that
// is `passing` covers them only between `from` and `to`.

import {trackValue} from "./pose.js";
import {registerAt} from "./registers.js";

const EXACT = 1e-6;
const CLOSE = 1e-4;   // travels that are told apart by rounding alone

const isOpened = (question, answers) => Boolean(answers[question.id]?.opened);
const isAnswered = (question, answers) => answers[question.id] !== undefined;

function covers(question, answers, travel) {
  if (isOpened(question, answers) || travel <= question.from + EXACT) return false;
  return !question.passing || travel < question.to - EXACT;
}

// The parts whose windows are covered at a travel.
export function coverAt(questions, answers, travel) {
  return new Set(questions.filter((question) => covers(question, answers, travel)).flatMap((question) => question.parts));
}

// The same for a crank in the hand, `ahead` being the questions on what it turns through: what is asked of a live
// machine stays covered until the turn is done.
export function coverInHand(questions, ahead, answers, travel) {
  const asked = questions.filter((question) => !question.passing && !isOpened(question, answers)).flatMap((question) => question.parts);
  return new Set([...(travel > EXACT ? asked : []), ...coverAt(ahead, answers, travel)]);
}

// Up to which travel the lines of the working may be read: beyond it they would tell.
export function readableTo(questions, answers, travel) {
  const waiting = questions.filter((question) => !isOpened(question, answers));
  const lasting = waiting.filter((question) => !question.passing).map((question) => question.from);
  const passing = waiting.some((question) => question.passing && question.to > travel + EXACT) ? [travel] : [];
  return Math.min(Infinity, ...lasting, ...passing);
}

// The question to put now: that of a carry about to happen or under way; else the first that has no answer yet.
export function questionAt(questions, answers, travel) {
  const open = questions.filter((question) => !isAnswered(question, answers));
  const now = open.find((question) => question.passing && question.from <= travel + CLOSE && travel < question.to - EXACT);
  return now ?? open.find((question) => !question.passing && turnOf(question, questions, answers)) ?? null;
}

// Questions are put in order: one on a later turn waits until those before it are opened.
function turnOf(question, questions, answers) {
  return questions.every((other) => other.passing || other.from >= question.from - EXACT || isOpened(other, answers));
}

// Those that have been answered and whose shutter has not opened yet.
export function awaited(questions, answers) {
  return questions.filter((question) => isAnswered(question, answers) && !isOpened(question, answers));
}

// The ids of those whose shutter opens here.
export function openingAt(questions, answers, travel) {
  return awaited(questions, answers).filter(({to}) => to !== null && travel >= to - EXACT).map(({id}) => id);
}

// The travels at which playing pauses: before what is asked, where an answer meets what comes, and before carries.
export function holdsOf(questions, answers, carries, waits) {
  const asked = questions.filter((question) => !isAnswered(question, answers)).map((question) => question.from);
  const met = awaited(questions, answers).map((question) => question.to).filter((to) => to !== null);
  return [...new Set([...asked, ...met, ...(waits ? carries.map(({at}) => at) : [])])].sort((a, b) => a - b);
}

// What a picture that rests at `travel` asks: {ask, parts} of a carry or of a question that begins here; or null.
export function pauseAt(questions, answers, carries, waits, travel) {
  const here = (at) => Math.abs(at - travel) < CLOSE;
  const asked = questions.find((question) => !isAnswered(question, answers) && travel > 0 && here(question.from));
  const stop = carries.find((carry) => here(carry.at) && (waits || carry.id === asked?.id));
  if (stop) return {ask: stop.ask, parts: stop.parts};
  return asked ? {ask: asked.before, parts: []} : null;
}

// What was typed, as digits without needless zeros; or {problem}.
export function readPrediction(text, places) {
  const plain = text.replace(/[\s_'’\u00a0\u2009\u202f]/g, "");
  const digits = /^\d{1,3}(,\d{3})+$/.test(plain) ? plain.replaceAll(",", "") : plain;
  if (/^[-−–]\d+$/.test(digits)) return {problem: "The windows know no minus sign. Write what they will show: 0 or more."};
  if (!/^\d+$/.test(digits)) return {problem: `Write a whole number, such as ${places === 1 ? "7" : "1234".slice(0, places)}.`};
  const number = digits.replace(/^0+(?=\d)/, "");
  if (number.length > places) return {problem: places === 1 ? "A wheel shows one digit: 0 to 9." : `There are ${places} windows: write ${places} digits at most.`};
  return {digits: number};
}

// Predictions beside what came, after those of `past`: {id, about, foretold, happened}, as texts of digits.
export function outcomes(timeline, questions, answers, past) {
  const known = new Set(past.map(({id}) => id));
  const here = questions.filter((question) => isOpened(question, answers) && question.to !== null && !known.has(question.id));
  return [...past, ...here.map(({id, about, parts, to}) => {
    const pose = Object.fromEntries(parts.map((part) => [part, trackValue(timeline.tracks[part], to)]));
    return {id, about, foretold: answers[id].foretold, happened: registerAt(pose, parts).replace(/^0+(?=\d)/, "")};
  })];
}

// A prediction and what came, in a sentence; as asking.py says it.
export function outcomeWords({foretold, happened}) {
  if (foretold === happened) return `You foretold ${foretold}, and ${happened} it is.`;
  return `You foretold ${foretold}; it came to ${happened}. Good: now find out why.`;
}
