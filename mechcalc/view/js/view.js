// One view in the page: keeps playhead, hand and drawing in step with one another and with Python.

import {momentAt, poseAt, strokeAt, turningAt} from "./pose.js";
import {newPlayer, rebase, reduce, stopIndex} from "./player.js";
import {answered, atEase, dragBy, letGo, shownBy} from "./dragging.js";
import {frameClock, heartbeat} from "./beat.js";
import {buildShell} from "./shell.js";
import {leverKey, listenToHands} from "./hands.js";
import {spoken} from "./panel.js";
import {actionOf} from "./keys.js";

// root: an empty element. given: {data, travel, large, level}; data is Python's {timeline, live, ahead, from, canUndo}.
// report: {operate(operation, argument), seek(travel)}. Returns {take, heard, goTo, enlarge, remove}.
export function openView(root, given, report) {
  const stop = new AbortController();
  const {signal} = stop;
  const window = root.ownerDocument.defaultView;
  const quiet = window.matchMedia("(prefers-reduced-motion: reduce)");
  let {data} = given;
  let player = newPlayer(data.timeline, given.travel ?? data.timeline.length, {still: quiet.matches});
  let drag = atEase;       // the hand on the crank
  let mine = false;        // whether what Python does next was done by hand here already
  const preview = new Map();   // setting levers that are held, not yet set
  const look = {timeline: data.timeline, live: data.live, level: given.level ?? 2, large: Boolean(given.large)};
  const shell = buildShell(root, look, {
    act, operate, seek: (travel) => act({type: "seek", travel}),
    rebuilt(scene) {
      listenToHands(scene, data.live, on, signal);
      draw();
    },
  }, signal);
  const beat = heartbeat(frameClock(window), (seconds) => {
    player = reduce(player, {type: "tick", seconds});
    draw();
    if (!player.playing) rested();
    return player.playing;
  });

  // What is shown, and saying it.

  function now() {
    const {timeline, travel} = shownBy(drag, data.ahead) ?? {timeline: data.timeline, travel: player.travel};
    const pose = poseAt(timeline, travel);
    for (const [part, value] of preview) pose[part] = value;
    return {timeline, travel, pose, moment: momentAt(timeline, travel)};
  }

  function draw() {
    const {timeline, travel, pose, moment} = now();
    shell.scene.draw(pose, turningAt(timeline, travel), moment);
    if (!shell.refusal.showing) shell.caption.show(moment.words, moment.active);
    shell.working.at(strokeAt(data.timeline, player.travel));
    shell.time.show({playing: player.playing, index: stopIndex(player), count: player.stops.length - 1, words: moment.words});
  }

  function say() {
    const {timeline, pose, moment} = now();
    shell.caption.say(`${moment.words} ${spoken(timeline.machine, pose)}`);
  }

  function rested() {
    report.seek(player.travel);
    say();
  }

  // Time.

  function act(action) {
    if (action.type === "toggle") action = {type: player.playing ? "pause" : "play"};
    shell.refusal.clear();
    finishDrag();
    player = reduce(player, action);
    draw();
    if (player.playing) beat.start();
    else {
      beat.stop();
      if (action.type !== "speed") rested();
    }
  }

  // A live machine stands where its strokes have led it: the hand works there.
  function toTheEnd() {
    if (player.playing || player.travel < player.length) player = reduce(player, {type: "end"});
    beat.stop();
  }

  // Hands.

  function operate(operation, argument) {
    shell.refusal.clear();
    finishDrag();
    report.operate(operation, argument);
  }

  function finishDrag() {
    if (data.live && drag.sign && !drag.waiting) dragged(letGo(drag, data.ahead));
  }

  function dragged({drag: next, refused, commit}) {
    if (next.shown > drag.shown) shell.refusal.clear();
    drag = next;
    if (refused) shell.refuse(refused, now().pose);
    if (commit) {
      mine = true;
      report.operate("crank", commit);
    }
    draw();
  }

  function crankBy(delta) {
    if (data.live) {
      toTheEnd();
      dragged(dragBy(drag, delta, data.ahead));
      return;
    }
    const way = turningAt(data.timeline, player.travel) || 1;
    beat.stop();
    player = reduce(player, {type: "seek", travel: player.travel + delta * way});
    draw();
  }

  function lever(place, digit) {
    toTheEnd();
    if (poseAt(data.timeline, player.travel)[`setting/${place}`] === digit) {
      preview.clear();
      draw();
    } else operate("set lever", [place, digit]);
  }

  function holdLever(place, digit) {
    toTheEnd();
    if (poseAt(data.timeline, player.travel).lock > 0.5) return;
    preview.set(`setting/${place}`, digit);
    draw();
  }

  const on = {
    crank: crankBy, lever, preview: holdLever, press: (operation) => operate(operation, null),
    release: () => (data.live ? finishDrag() : rested()),
  };

  function keyed(event) {
    event.stopPropagation();
    if (event.altKey || event.ctrlKey || event.metaKey || !shell.stage.contains(event.target)) return;
    const action = data.live && leverKey(event, shell.scene, on) ? {} : actionOf(event.key, data.live);
    if (!action) return;
    event.preventDefault();
    if (action.time) act(action.time);
    if (action.toggle) shell.toggles[action.toggle]();
    if (action.hand) {
      toTheEnd();
      operate(...action.hand);
    }
  }

  function refresh() {
    shell.working.show(data.timeline);
    shell.hands?.undoable(data.canUndo);
  }

  // From now on nothing here is waiting for Python's answer.
  function settle() {
    const own = mine;
    mine = false;
    preview.clear();
    drag = answered(drag);
    return own;
  }

  root.addEventListener("keydown", keyed, {signal});
  root.addEventListener("keyup", (event) => event.stopPropagation(), {signal});
  quiet.addEventListener("change", () => { player = reduce(player, {type: "still", still: quiet.matches}); }, {signal});
  refresh();
  shell.fit();
  const watcher = new window.ResizeObserver(() => shell.fit());
  watcher.observe(root);
  root.dataset.ready = "true";

  return {
    enlarge: (large) => shell.enlarge(large),
    // New data from Python: play what is new, unless it was done by hand here.
    take(next) {
      player = rebase(player, next.timeline, next.from);
      data = next;
      const own = settle();
      shell.refusal.clear();
      player = reduce(player, {type: own || next.jump ? "end" : "follow"});
      refresh();
      draw();
      if (player.playing) beat.start();
      else {
        beat.stop();
        if (!next.jump) say();
      }
      if (drag.slack) crankBy(0);
    },
    // A message from Python: who refuses, or something to say.
    heard(message) {
      settle();
      toTheEnd();
      draw();
      if (message.part) shell.refuse(message, now().pose);
      else shell.caption.say(message.words);
    },
    goTo(travel) {
      if (player.playing || Math.abs(travel - player.travel) < 1e-6) return;
      player = reduce(player, {type: "seek", travel});
      draw();
    },
    remove() {
      stop.abort();
      beat.stop();
      watcher.disconnect();
      shell.caption.stop();
      root.textContent = "";
    },
  };
}
