// Hands in a view: on the crank, on the levers, on the keys. What they ask for is done by Python; of a record they move
// the playhead alone.

import {poseAt, turningAt} from "./pose.js";
import {answered, dragBy, letGo} from "./dragging.js";
import {leverKey} from "./hands.js";
import {actionOf} from "./keys.js";
import {drawView, holdsInHand, nowIn, sayView} from "./showing.js";
import {actOn, arrive, goOn, moved, rested, toTheEnd} from "./timing.js";

// Ask Python for an operation.
export function operateIn(view, operation, argument) {
  view.shell.refusal.clear();
  finishDrag(view);
  view.report.operate(operation, argument);
}

// A control of time: the hand lets go of the crank first.
export function timeIn(view, action) {
  finishDrag(view);
  actOn(view, action);
}

// What a hand on the crank has turned is sent, if anything is.
export function finishDrag(view) {
  if (view.data.live && view.drag.sign && !view.drag.waiting) dragged(view, letGo(view.drag, view.data.ahead));
}

function dragged(view, {drag, refused, commit}) {
  const wasHeld = nowIn(view).pause !== null;
  if (drag.shown > view.drag.shown) view.shell.refusal.clear();
  view.drag = drag;
  if (refused) view.shell.refuse(refused, nowIn(view).pose);
  const said = arrive(view);
  if (commit) {
    view.mine = true;
    view.report.operate("crank", commit);
  }
  drawView(view);
  if (said) view.shell.caption.say(said);
  else if (!wasHeld && nowIn(view).pause) sayView(view);
}

// The crank is moved by so many degrees, clockwise positive.
export function crankIn(view, delta) {
  const {data} = view;
  if (data.live) {
    toTheEnd(view);
    dragged(view, dragBy(view.drag, delta, data.ahead, holdsInHand(view)));
    return;
  }
  const way = turningAt(data.timeline, view.player.travel) || 1;
  view.beat.stop();
  const travel = view.player.travel + delta * way;
  const hold = delta * way > 0 ? heldBefore(view, travel) : null;
  const before = view.player.travel;
  moved(view, {type: "seek", travel: hold ?? travel});
  view.opened = arrive(view) ?? view.opened;
  drawView(view);
  if (hold !== null && before !== hold) sayView(view);
}

// The hold that a hand drawing a record along is stopped at before `travel`; taken hold of again it goes on.
function heldBefore(view, travel) {
  return view.player.holds.find((at) => at >= view.player.travel && at <= travel && at !== view.handPassed) ?? null;
}

// A hand takes hold of the crank: where it was stopped before, it may go on now.
export function grabIn(view) {
  view.inHand = true;
  view.handPassed = view.player.travel;
}

// The hand lets go of the crank.
export function releaseIn(view) {
  view.inHand = false;
  if (view.data.live) finishDrag(view);
  else rested(view);
}

// A setting lever is brought to a digit; where it stands there nothing is asked for.
export function leverIn(view, place, digit) {
  toTheEnd(view);
  if (poseAt(view.data.timeline, view.player.travel)[`setting/${place}`] === digit) {
    view.preview.clear();
    drawView(view);
  } else operateIn(view, "set lever", [place, digit]);
}

// A lever is held at a digit and not let go of yet.
export function holdLeverIn(view, place, digit) {
  toTheEnd(view);
  if (poseAt(view.data.timeline, view.player.travel).lock > 0.5) return;
  view.preview.set(`setting/${place}`, digit);
  drawView(view);
}

// A key while the focus is on the picture.
export function keyIn(view, on, event) {
  event.stopPropagation();
  if (event.altKey || event.ctrlKey || event.metaKey || !view.shell.stage.contains(event.target)) return;
  const {live} = view.data;
  const action = live && leverKey(event, view.shell.scene, on) ? {} : actionOf(event.key, live);
  if (!action) return;
  event.preventDefault();
  if (action.time) timeIn(view, action.time);
  if (action.toggle) view.shell.toggles[action.toggle]();
  if (action.on) goOn(view);
  if (action.hand) {
    toTheEnd(view);
    operateIn(view, ...action.hand);
  }
}

// From now on nothing here is waiting for Python's answer; returns whether what it did was done by hand here.
export function settle(view) {
  const own = view.mine;
  view.mine = false;
  view.preview.clear();
  view.drag = answered(view.drag);
  return own;
}
