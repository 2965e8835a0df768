// One view in the page: puts picture, words and controls together and keeps them in step with the playhead.

import {planFor} from "./plan.js";
import {buildScene} from "./scene.js";
import {momentAt, poseAt, strokeAt, turningAt} from "./pose.js";
import {newPlayer, rebase, reduce, stopIndex} from "./player.js";
import {answered, atEase, dragBy, letGo, shownBy} from "./dragging.js";
import {buildCaption, buildWorking, spoken} from "./panel.js";
import {buildHands, buildHelp, buildTime} from "./controls.js";
import {leverKey, listenToHands} from "./hands.js";
import {partName, placeOf} from "./labels.js";
import {actionOf} from "./keys.js";
import {tag} from "./html.js";

const NARROW = 540;

// root: an empty element. given: {data, travel, large, clock}; data is Python's {timeline, live, ahead, from, canUndo}.
// report: {operate(operation, argument), seek(travel)}. Returns {take, heard, goTo, remove}.
export function openView(root, given, report) {
  const stop = new AbortController();
  const {signal} = stop;
  const window = root.ownerDocument.defaultView;
  const quiet = window.matchMedia("(prefers-reduced-motion: reduce)");
  let {data} = given;
  let player = newPlayer(data.timeline, given.travel ?? data.timeline.length, {still: quiet.matches});
  let drag = atEase;
  let sent = null;
  let scene = null;
  let shape = null;
  let large = Boolean(given.large);
  let loop = 0;
  let clock = 0;
  let refusal = null;
  const preview = new Map();

  root.classList.add("mechcalc");
  root.setAttribute("data-lm-suppress-shortcuts", "true");
  root.setAttribute("role", "region");
  root.setAttribute("aria-label", `Calculating machine: ${data.timeline.title || data.timeline.machine.name}`);
  const level = given.level ?? 2;
  const head = tag(root, "div", {class: "head"});
  tag(head, `h${level}`, {text: data.timeline.title || data.timeline.machine.name});
  if (data.timeline.machine.name !== data.timeline.title) tag(head, "p", {text: data.timeline.machine.name});
  const stage = tag(root, "div", {class: "stage", tabindex: 0, role: "group", "aria-label": "Picture of the machine; press ? for its keys"});
  const note = tag(stage, "div", {class: "refusal", hidden: true});
  const caption = buildCaption(root);
  const toggles = {large: () => toggleLarge(), help: () => toggleHelp()};
  const time = buildTime(root, act, toggles, signal);
  const hands = data.live ? buildHands(root, data.timeline.machine, operate, () => operate("undo", null), signal) : null;
  const working = buildWorking(root, `h${level + 1}`, (travel) => act({type: "seek", travel}), signal);
  const help = buildHelp(root, `h${level + 1}`, data.live);

  function now() {
    return shownBy(drag, data.ahead) ?? {timeline: data.timeline, travel: player.travel};
  }

  function draw() {
    const {timeline, travel} = now();
    const pose = poseAt(timeline, travel);
    for (const [part, value] of preview) pose[part] = value;
    const moment = momentAt(timeline, travel);
    scene.draw(pose, turningAt(timeline, travel), moment);
    if (!refusal) caption.show(moment.words, moment.active);
    working.at(strokeAt(data.timeline, player.travel));
    time.show({playing: player.playing, index: stopIndex(player), count: player.stops.length - 1, words: moment.words});
  }

  function say() {
    const {timeline, travel} = now();
    caption.say(`${momentAt(timeline, travel).words} ${spoken(timeline.machine, poseAt(timeline, travel))}`);
  }

  function forgive() {
    if (!refusal) return;
    scene.node(refusal.part).classList.remove("refusing");
    refusal = null;
    note.hidden = true;
  }

  function refuse(reason) {
    forgive();
    refusal = reason;
    const node = scene.node(reason.part);
    node.classList.add("refusing");
    note.textContent = "";
    tag(note, "strong", {text: `${partName(reason.part)}: refused`});
    tag(note, "span", {text: `${reason.reason}.`});
    if (reason.frees) tag(note, "em", {text: `${reason.frees.slice(0, 1).toUpperCase()}${reason.frees.slice(1)}.`});
    note.hidden = false;
    placeNote();
    const words = `${reason.reason}. ${reason.frees ?? ""}`;
    caption.refuse(words);
    caption.say(`Refused at the ${partName(reason.part)}: ${words}`);
  }

  function placeNote() {
    const {timeline, travel} = now();
    const [x, y] = placeOf(scene.plan, refusal.part, poseAt(timeline, travel));
    const point = new window.DOMPoint(x, y).matrixTransform(scene.svg.getScreenCTM());
    const box = stage.getBoundingClientRect();
    const left = Math.min(Math.max(point.x - box.left - note.offsetWidth / 2, 4), box.width - note.offsetWidth - 4);
    const above = point.y - box.top - note.offsetHeight - 22;
    note.classList.toggle("below", above < 0);
    note.style.left = `${left}px`;
    note.style.top = `${above < 0 ? point.y - box.top + 26 : above}px`;
    note.style.setProperty("--tip", `${point.x - box.left - left}px`);
  }

  function act(action) {
    if (action.type === "toggle") action = {type: player.playing ? "pause" : "play"};
    forgive();
    settleDrag();
    const wasPlaying = player.playing;
    player = reduce(player, action);
    run();
    draw();
    if (player.playing || action.type === "speed") return;
    report.seek(player.travel);
    if (wasPlaying || action.type !== "pause") say();
  }

  function settleDrag() {
    if (drag.sign && !drag.waiting) release();
  }

  function run() {
    if (player.playing && !loop) {
      clock = 0;
      loop = window.requestAnimationFrame(frame);
    }
  }

  function frame(at) {
    loop = 0;
    player = reduce(player, {type: "tick", seconds: clock ? (at - clock) / 1000 : 0});
    clock = at;
    draw();
    if (player.playing) loop = window.requestAnimationFrame(frame);
    else {
      report.seek(player.travel);
      say();
    }
  }

  function operate(operation, argument) {
    forgive();
    settleDrag();
    report.operate(operation, argument);
  }

  function atEnd() {
    if (player.travel < player.length - 1e-6 || player.playing) player = reduce(player, {type: "end"});
  }

  function follow(result) {
    drag = result.drag;
    if (result.refused) refuse(result.refused);
    if (result.commit) {
      sent = Math.abs(result.commit);
      report.operate("crank", result.commit);
    }
    draw();
  }

  function crankBy(delta) {
    if (!data.live) {
      forgive();
      player = reduce(player, {type: "seek", travel: player.travel + delta * (turningAt(data.timeline, player.travel) || 1)});
      draw();
      return;
    }
    atEnd();
    const before = drag;
    const result = dragBy(drag, delta, data.ahead);
    if (result.drag.shown > before.shown) forgive();
    follow(result);
  }

  function release() {
    if (!data.live) {
      report.seek(player.travel);
      say();
      return;
    }
    follow(letGo(drag, data.ahead));
  }

  const on = {
    crank: crankBy, release, press: (operation) => operate(operation, null),
    preview(place, digit) {
      atEnd();
      if (data.timeline && poseAt(data.timeline, player.travel).lock > 0.5) return;
      preview.set(`setting/${place}`, digit);
      draw();
    },
    lever(place, digit) {
      atEnd();
      if (poseAt(data.timeline, player.travel)[`setting/${place}`] === digit) {
        preview.clear();
        draw();
        return;
      }
      operate("set lever", [place, digit]);
    },
  };

  function rebuild() {
    const width = stage.clientWidth || 900;
    const beside = width && root.clientWidth - 270 > 640
      && (root.clientWidth - 270) / aspect() > 400 && !large;
    root.classList.toggle("beside", beside);
    const next = {tall: root.clientWidth > 0 && root.clientWidth < NARROW, large};
    if (shape && shape.tall === next.tall && shape.large === next.large) return;
    shape = next;
    root.classList.toggle("large", large);
    root.classList.toggle("tall", next.tall);
    scene?.remove();
    scene = buildScene(stage, planFor(data.timeline.machine, shape), data.live);
    listenToHands(scene, data.live, on, signal);
    draw();
  }

  function aspect() {
    const plan = planFor(data.timeline.machine, {tall: false, large: false});
    return plan.width / plan.height;
  }

  function toggleLarge() {
    enlarge(!large);
  }

  function enlarge(on) {
    large = on;
    time.large.setAttribute("aria-pressed", String(large));
    rebuild();
  }

  function toggleHelp() {
    help.hidden = !help.hidden;
    time.help.setAttribute("aria-expanded", String(!help.hidden));
  }

  function keyed(event) {
    event.stopPropagation();
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    if (!stage.contains(event.target)) return;
    if (data.live && leverKey(event, scene, on)) {
      event.preventDefault();
      return;
    }
    const action = actionOf(event.key, data.live);
    if (!action) return;
    event.preventDefault();
    if (action.time) act(action.time);
    else if (action.toggle) toggles[action.toggle]();
    else {
      atEnd();
      operate(...action.hand);
    }
  }

  root.addEventListener("keydown", keyed, {signal});
  root.addEventListener("keyup", (event) => event.stopPropagation(), {signal});
  quiet.addEventListener("change", () => { player = reduce(player, {type: "still", still: quiet.matches}); }, {signal});
  time.large.setAttribute("aria-pressed", String(large));
  working.show(data.timeline);
  hands?.undoable(data.canUndo);
  rebuild();
  const watcher = new window.ResizeObserver(rebuild);
  watcher.observe(root);
  root.dataset.ready = "true";

  return {
    // New data from Python: play what is new, unless it was done by hand here.
    take(next) {
      const own = sent !== null;
      sent = null;
      preview.clear();
      forgive();
      player = rebase(player, next.timeline, next.from);
      data = next;
      drag = answered(drag);
      player = reduce(player, {type: own || next.jump ? "end" : "follow"});
      working.show(data.timeline);
      hands?.undoable(data.canUndo);
      run();
      draw();
      if (!player.playing) say();
      if (drag.slack) crankBy(0);
    },
    // A message from Python: who refuses, or something to say.
    heard(message) {
      sent = null;
      preview.clear();
      drag = answered(drag);
      player = reduce(player, {type: "end"});
      draw();
      if (message.part) refuse(message);
      else caption.say(message.words);
    },
    enlarge,
    goTo(travel) {
      if (player.playing || Math.abs(travel - player.travel) < 1e-6) return;
      player = reduce(player, {type: "seek", travel});
      draw();
    },
    remove() {
      stop.abort();
      window.cancelAnimationFrame(loop);
      watcher.disconnect();
      caption.stop();
      root.textContent = "";
    },
  };
}
