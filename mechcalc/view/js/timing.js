// Time in a view: playing, pausing and stepping through what has happened; answers, and shutters that open.

import {rebase, reduce} from "./player.js";
import {handGoesOn, isHeld, keyOf} from "./dragging.js";
import {holdsOf, openingAt, outcomes, outcomeWords} from "./questions.js";
import {lettersOf} from "./faults.js";
import {beforeTheHand, drawView, holdsInHand, nowIn, sayView} from "./showing.js";

// The player after an action, pausing wherever something is asked.
export function moved(view, action) {
  const {questions, carries} = view.data;
  const holds = holdsOf(questions, view.answers, carries, view.waits);
  view.player = reduce(reduce(view.player, {type: "holds", holds}), action);
}

// What a control of time asks for. A hand that is on the crank has let go before.
export function actOn(view, action) {
  view.shell.refusal.clear();
  moved(view, action.type === "toggle" ? {type: view.player.playing ? "pause" : "play"} : action);
  if (!arrive(view)) drawView(view);
  if (view.player.playing) view.beat.start();
  else {
    view.beat.stop();
    if (action.type !== "speed") rested(view);
  }
}

// A tick of the clock; returns whether it goes on.
export function ticked(view, seconds) {
  moved(view, {type: "tick", seconds});
  drawView(view);
  if (!view.player.playing) {
    view.opened = arrive(view);
    rested(view);
  }
  return view.player.playing;
}

// The playhead has come to rest: Python is told where, and what is shown is said.
export function rested(view) {
  view.report.seek(view.player.travel);
  const opened = view.opened;
  view.opened = null;
  if (opened) view.shell.caption.say(opened);
  else sayView(view);
}

// A live machine stands where its strokes have led it: the hand works there.
export function toTheEnd(view) {
  if (view.player.playing || view.player.travel < view.player.length) moved(view, {type: "end"});
  view.beat.stop();
}

// The parts of the shell that are made for a timeline.
export function showTimeline(view) {
  const {shell, player, data: {timeline}} = view;
  shell.working.show(timeline);
  const last = Math.max(1, player.stops.length - 1);
  shell.time.markFaults(timeline.moments.filter((moment) => moment.faults)
    .map((moment) => [player.stops.indexOf(moment.at) / last, lettersOf(timeline, moment).join(", ")]));
}

// New data from Python: play what is new, unless it was done by hand here (`own`).
export function takeData(view, next, own) {
  view.player = rebase(view.player, next.timeline, next.from);
  view.data = next;
  moved(view, {type: own || next.jump ? "end" : "follow"});
  showTimeline(view);
  view.shell.hands?.undoable(next.canUndo);
  const opened = view.player.playing ? null : arrive(view);
  drawView(view);
  if (view.player.playing) view.beat.start();
  else {
    view.beat.stop();
    if (opened) view.shell.caption.say(opened);
    else if (!next.jump) sayView(view);
  }
}

// Shutters that open at what is shown now; returns what to say of it, or null.
export function arrive(view) {
  const {data} = view;
  const {travel} = nowIn(view);
  const inHand = view.drag.sign && data.ahead ? data.ahead[keyOf(view.drag.sign)] : null;
  const {questions, timeline} = inHand ?? data;
  const ids = openingAt(questions, view.answers, travel);
  if (!ids.length) return null;
  for (const id of ids) view.answers = {...view.answers, [id]: {...view.answers[id], opened: true}};
  view.report.answer(view.answers);
  drawView(view);
  const seen = outcomes(timeline, questions, view.answers, []).filter(({id}) => ids.includes(id));
  return seen.map(outcomeWords).join(" ");
}

// A prediction is confirmed. One about a carry lets it go on.
export function foretell(view, question, digits) {
  const pausing = nowIn(view).pause !== null;
  view.answers = {...view.answers, [question.id]: {foretold: digits, opened: false}};
  view.report.answer(view.answers);
  const said = arrive(view);
  drawView(view);
  view.shell.caption.say(said ?? `You foretell ${digits}. The shutter opens when it is done.`);
  if (question.passing && !said && pausing) goOn(view);
}

// On from where it pauses: the hand on the crank, the playhead, or a crank that was let go there, which finishes its turn.
export function goOn(view) {
  const before = beforeTheHand(view);
  if (view.drag.sign) {
    if (isHeld(view.drag, holdsInHand(view))) view.drag = handGoesOn(view.drag);
    drawView(view);
  } else if (before) view.report.operate("turn", before.sign === "+" ? 1 : -1);
  else if (view.inHand) view.handPassed = view.player.travel;
  else if (!view.player.playing && view.player.travel < view.player.length) actOn(view, {type: "play"});
}
