// One view in the page: puts its pieces together, and keeps them in step with Python.

import {newPlayer, reduce} from "./player.js";
import {atEase} from "./dragging.js";
import {frameClock, heartbeat} from "./beat.js";
import {buildShell} from "./shell.js";
import {listenToHands} from "./hands.js";
import {drawView, nowIn, sayView} from "./showing.js";
import {arrive, foretell, goOn, moved, showTimeline, takeData, ticked, toTheEnd} from "./timing.js";
import {crankIn, grabIn, holdLeverIn, keyIn, leverIn, operateIn, releaseIn, settle, timeIn} from "./handling.js";

// root: an empty element. given: {data, travel, large, level, answers, waits}; data is Python's {timeline, live, carries,
// questions, past, ahead, from, canUndo}. report: {operate(operation, argument), seek(travel), answer(answers)}.
// Returns {take, heard, goTo, enlarge, answered, remove}.
export function openView(root, given, report) {
  const stop = new AbortController();
  const view = newView(root, given, report);
  const on = {
    grab: () => grabIn(view), crank: (delta) => crankIn(view, delta), lever: (place, digit) => leverIn(view, place, digit),
    preview: (place, digit) => holdLeverIn(view, place, digit), press: (operation) => operateIn(view, operation, null),
    release: () => releaseIn(view),
  };
  view.shell = buildShell(root, {...given, timeline: view.data.timeline, live: view.data.live, level: given.level ?? 2,
    large: Boolean(given.large), asks: view.data.asks}, doesIn(view, on, stop.signal), stop.signal);
  view.beat = heartbeat(frameClock(view.window), (seconds) => ticked(view, seconds));
  const watcher = new view.window.ResizeObserver(() => view.shell.fit());
  listenTo(view, on, stop.signal);
  showTimeline(view);
  view.shell.hands?.undoable(view.data.canUndo);
  view.shell.wait(view.waits);
  view.shell.fit();
  watcher.observe(root);
  root.dataset.ready = "true";
  return {...fromPython(view), remove() {
    stop.abort();
    view.beat.stop();
    watcher.disconnect();
    view.shell.caption.stop();
    root.textContent = "";
  }};
}

// The record that all the pieces of a view share.
function newView(root, given, report) {
  const {data} = given;
  const window = root.ownerDocument.defaultView;
  const quiet = window.matchMedia("(prefers-reduced-motion: reduce)");
  return {
    root, window, quiet, report, data,
    player: newPlayer(data.timeline, given.travel ?? data.timeline.length, {still: quiet.matches}),
    drag: atEase,          // the hand on the crank
    mine: false,           // whether what Python does next was done by hand here already
    preview: new Map(),    // setting levers that are held, not yet set
    answers: given.answers ?? {}, waits: Boolean(given.waits),
    opened: null,          // what to say of a shutter that has opened
    inHand: false,         // whether a hand draws a record along
    handPassed: null,      // where that hand may go on
    shell: null, beat: null,
  };
}

// What the shell's controls do.
function doesIn(view, on, signal) {
  return {
    act: (action) => timeIn(view, action), operate: (...what) => operateIn(view, ...what),
    seek: (travel) => timeIn(view, {type: "seek", travel}), goOn: () => goOn(view),
    foretell: (question, digits) => foretell(view, question, digits),
    wait() {
      view.waits = !view.waits;
      view.shell.wait(view.waits);
      moved(view, {type: "speed", speed: view.player.speed});
      drawView(view);
      view.shell.caption.say(view.waits ? "Waits before each carry." : "Does not wait before carries.");
    },
    rebuilt(scene) {
      listenToHands(scene, view.data.live, on, signal);
      drawView(view);
    },
  };
}

function listenTo(view, on, signal) {
  const {root, quiet} = view;
  root.addEventListener("keydown", (event) => keyIn(view, on, event), {signal});
  root.addEventListener("keyup", (event) => event.stopPropagation(), {signal});
  quiet.addEventListener("change", () => { view.player = reduce(view.player, {type: "still", still: quiet.matches}); }, {signal});
}

// What Python may tell a view.
function fromPython(view) {
  return {
    enlarge: (large) => view.shell.enlarge(large),
    take(next) {
      if (next.quiet) {   // nothing has moved: only what is asked is new
        view.data = next;
        drawView(view);
        return;
      }
      const own = settle(view);
      view.shell.refusal.clear();
      takeData(view, next, own);
      if (view.drag.slack) crankIn(view, 0);
    },
    // A message: who refuses, or something to say.
    heard(message) {
      settle(view);
      toTheEnd(view);
      drawView(view);
      if (message.part) view.shell.refuse(message, nowIn(view).pose);
      else view.shell.caption.say(message.words);
    },
    goTo(travel) {
      if (view.player.playing || Math.abs(travel - view.player.travel) < 1e-6) return;
      moved(view, {type: "seek", travel});
      if (!arrive(view)) drawView(view);
    },
    // Answers as another view of the same machine, or Python, has them.
    answered(answers) {
      if (JSON.stringify(answers) === JSON.stringify(view.answers)) return;
      view.answers = answers;
      if (!view.player.playing) arrive(view);
      drawView(view);
    },
  };
}
