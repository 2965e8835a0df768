// What a view shows now, and saying it. `view` is the record that view.js makes.

import {momentAt, poseAt, strokeAt, turningAt} from "./pose.js";
import {stopIndex} from "./player.js";
import {NEAR, isHeld, keyOf, shownBy} from "./dragging.js";
import {awaited, coverAt, coverInHand, outcomes, pauseAt, questionAt, readableTo} from "./questions.js";
import {spoken} from "./registers.js";
import {lettersOf} from "./faults.js";

// Timeline, travel, pose, moment; the questions on it; the parts that are covered; what is asked where it pauses, or null.
export function nowIn(view) {
  const {data, player, answers} = view;
  const turned = underTheHand(view) ?? beforeTheHand(view);
  const {timeline, travel, carries, questions} = turned ?? {...data, travel: player.travel};
  const asked = turned ? [...questions, ...data.questions.filter(({passing}) => !passing)] : questions;
  const pose = poseAt(timeline, travel);
  for (const [part, value] of view.preview) pose[part] = value;
  const cover = coverAt(data.questions, answers, player.travel);
  if (turned) for (const part of coverInHand(data.questions, questions, answers, travel)) cover.add(part);
  const pause = (turned ? turned.held : !player.playing) ? pauseAt(questions, answers, carries, view.waits, travel) : null;
  return {timeline, travel, questions, asked, pose, cover, pause, moment: worded(timeline, momentAt(timeline, travel), cover, pause)};
}

// What a hand that holds the crank turns through now; null while none does.
function underTheHand(view) {
  const {data, drag} = view;
  const shown = shownBy(drag, data.ahead);
  return shown && {...data.ahead[keyOf(drag.sign)], travel: shown.travel, held: isHeld(drag, holdsInHand(view))};
}

// A live machine whose crank was let go right before a carry: what comes next, at that point; otherwise null.
export function beforeTheHand(view) {
  const {data, player, drag, answers} = view;
  if (!data.live || drag.sign || player.playing || player.travel < player.length) return null;
  const sign = keyOf(turningAt(data.timeline, player.travel));
  const way = data.ahead[sign];
  const stop = way.carries?.find(({at}) => at <= NEAR);
  const asked = stop && way.questions.some(({id}) => id === stop.id && !answers[id]);
  return stop && (view.waits || asked) ? {...way, sign, travel: stop.at, held: true} : null;
}

// A moment with the words that may be said, and with the parts that are about to act where it pauses.
function worded(timeline, moment, cover, pause) {
  if (pause?.parts.length) return {...moment, words: pause.ask, parts: pause.parts, active: true};
  if (pause) return {...moment, words: pause.ask, active: false};
  if (!cover.size) return moment;
  const stroke = moment.kinds.length || moment.stroke === null ? null : timeline.strokes[moment.stroke];
  const words = stroke ? stroke.covered : moment.covered;
  return words ? {...moment, words: `${words.slice(0, 1).toUpperCase()}${words.slice(1)}${/[.!?]$/.test(words) ? "" : "."}`} : moment;
}

// Where a hand on the crank is stopped, either way: before carries, and before what is asked of them.
export function holdsInHand(view) {
  const holds = {"+": [], "-": []};
  for (const sign of ["+", "-"]) {
    const {carries, questions} = view.data.ahead?.[sign] ?? {};
    const asked = (questions ?? []).filter(({id}) => !view.answers[id]).map(({from}) => from);
    holds[sign] = [...(view.waits ? (carries ?? []).map(({at}) => at) : []), ...asked].sort((a, b) => a - b);
  }
  return holds;
}

// Draw what is shown now.
export function drawView(view) {
  const {shell, player, data} = view;
  const {timeline, travel, questions, asked, pose, moment, cover, pause} = nowIn(view);
  shell.scene.draw(pose, turningAt(timeline, travel), moment, cover);
  shell.closeup?.draw(pose, cover);
  if (!shell.refusal.showing) shell.caption.show(moment.words, moment.active, pause !== null, pause ? [] : lettersOf(timeline, moment));
  shell.working.open(readableTo(data.questions, view.answers, player.travel), player.travel);
  shell.working.at(strokeAt(data.timeline, player.travel));
  shell.asking?.show({question: questionAt(asked, view.answers, travel), waiting: awaitedBy(view, asked),
    results: outcomesIn(view, timeline, questions)});
  shell.time.show({playing: player.playing, index: stopIndex(player), count: player.stops.length - 1, words: moment.words});
}

// What has been foretold and not yet been met, with the digits.
function awaitedBy(view, asked) {
  return awaited(asked, view.answers).map((question) => ({...question, foretold: view.answers[question.id].foretold}));
}

// Predictions beside what came; of a turn in hand too.
function outcomesIn(view, timeline, questions) {
  const {data, answers} = view;
  const done = outcomes(data.timeline, data.questions, answers, data.past);
  return timeline === data.timeline ? done : outcomes(timeline, questions, answers, done);
}

// Say what is shown now, for those who do not see it.
export function sayView(view) {
  const {timeline, pose, moment, cover, pause} = nowIn(view);
  const letters = pause ? [] : lettersOf(timeline, moment);
  const fault = letters.length ? `Fault ${letters.join(" and ")}. ` : "";
  view.shell.caption.say(`${fault}${moment.words} ${spoken(timeline.machine, pose, cover)}`);
}
