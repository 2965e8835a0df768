// One solid view in the page: it listens to the flat view's poses, so that both have one playhead, and draws on demand.

import {poseAt} from "../../js/pose.js";
import {tag} from "../../js/html.js";
import {solidScene} from "./solidscene.js";
import {meshesFor} from "./solidmeshes.js";
import {GLIDE, glideBetween, fromWorld, matricesOf, viewpoints} from "./solidcamera.js";
import {shotFor} from "./follow.js";
import {reelOf} from "./reel.js";
import {anchorsFor, buildCallouts, calloutsFor} from "./callouts.js";
import {buildSolidPanel} from "./solidpanel.js";
import {changed, firstState, lookOf, planeOf, solidKey} from "./solidstate.js";
import {listenToPulls} from "./solidhands.js";

const PAPER = [0.953, 0.925, 0.862];
const INK = [0.145, 0.122, 0.098];
const SHARPEN = 220;    // milliseconds of stillness after which the picture is drawn as sharp as it can be
const LATE = 30;        // milliseconds that a whole picture may take; if it would be more, it is drawn coarse while it moves
const WIDEST = 2600;    // pixels

// root: the flat view's; stage: the page's shared one; data(): Python's scene. Returns {pose(detail), remaking(), set, remove}.
export function openSolid(root, stage, given) {
  const stop = new AbortController();
  const {signal} = stop;
  const window = root.ownerDocument.defaultView;
  const quiet = window.matchMedia("(prefers-reduced-motion: reduce)");
  const flat = root.querySelector(".stage");
  const box = root.ownerDocument.createElement("div");
  box.className = "solid";
  flat.before(box);
  flat.prepend(box);
  const canvas = tag(box, "canvas", {tabindex: 0, role: "img", "aria-label": "The machine as a solid; Shift and the arrows turn it"});
  const callouts = buildCallouts(box);
  const words = tag(box, "p", {class: "look", hidden: true});
  const live = tag(box, "p", {class: "unseen", role: "status", "aria-live": "polite"});
  const {machine} = given.data().timeline;
  const scene = solidScene(machine, given.data().faults ?? given.data().timeline.faults ?? []);
  const views = viewpoints(scene.sizes);
  const anchors = anchorsFor(scene.sizes);
  const source = {key: JSON.stringify(machine), meshes: () => meshesFor(scene.sizes), lists: scene.lists};
  let state = firstState(views, given.state);
  let now = null;          // the last pose heard of
  let shot = null;
  let glide = null;        // {from, to, since}
  let frame = null;
  let coarse = false;
  let sharpen = 0;
  let saying = 0;
  let visible = true;
  let reel = null;         // of a film, which has a clock of its own: the page draws nothing by itself then
  const stats = {frames: 0, script: 0, copy: 0};   // milliseconds of the last frame; copying waits for the drawing

  const panel = buildSolidPanel(root, views, {
    viewpoint: (id) => change({type: "viewpoint", id}), follow: (on) => change({type: "follow", on}),
    cut: (kind, share) => change({type: "cut", kind, share}), group: (id, how) => change({type: "group", id, how}),
    picture: (id) => change({type: "picture", id}),
  }, signal);
  flat.after(root.querySelector(".solidbar"));

  function change(action) {
    const before = state;
    state = changed(state, action, views);
    if (action.type === "viewpoint" || action.type === "follow") goTo(before.camera);
    else if (action.type !== "camera") glide = null;
    apply();
    tell(action);
    ask();
  }

  const covered = () => Boolean(now?.cover?.size);
  const noShot = () => (covered() ? "What comes next is for you to say." : "No carry is to come.");

  // The camera goes to where the state wants it; under reduced motion it is there at once.
  function goTo(from) {
    shot = state.follow && now ? shotFor(scene.sizes, given.data().timeline, now.moment, now.pose, covered()) : null;
    const to = shot?.camera ?? state.camera;
    if (quiet.matches) state = changed(state, {type: "camera", camera: to}, views);
    else glide = {from, to, since: null};
  }

  function apply() {
    box.hidden = state.picture === "flat";
    flat.classList.toggle("solid-alone", state.picture === "solid");
    flat.classList.toggle("solid-both", state.picture === "both");
    panel.show(state);
    given.changed?.(state);
  }

  function tell({type}) {
    const view = views.find(({id}) => id === state.viewpoint);
    const sentences = {
      viewpoint: view && `View: ${view.words}.`, follow: state.follow ? `Following the carry. ${shot?.words ?? noShot()}` : "Not following.",
      picture: `Shown: ${state.picture === "both" ? "solid and flat" : state.picture}.`, cut: state.cut.kind === "none" ? "No cut." : `Cut: ${state.cut.kind}.`,
    };
    if (sentences[type]) say(sentences[type]);
  }

  function say(text) {
    window.clearTimeout(saying);
    saying = window.setTimeout(() => { live.textContent = text; }, 400);
  }

  // A pose of the flat view.
  function heard(detail) {
    now = detail;
    if (state.follow) {
      const next = shotFor(scene.sizes, given.data().timeline, now.moment, now.pose, covered());
      const moved = next && (!shot || next.phase !== shot.phase || next.place !== shot.place);
      shot = next;
      if (moved) {
        goTo(state.camera);
        say(next.words);
      }
    }
    ask();
  }

  function ask() {
    if (frame === null && visible && !reel) frame = window.requestAnimationFrame(draw);
  }

  function step(at) {
    if (!glide) return false;
    glide.since ??= at;
    const share = Math.min(1, (at - glide.since) / 1000 / GLIDE);
    state = changed(state, {type: "camera", camera: glideBetween(glide.from, glide.to, share)}, views);
    if (share === 1) glide = null;
    return glide !== null;
  }

  function draw(at) {
    frame = null;
    if (!now || state.picture === "flat" || !canvas.clientWidth) return;
    const gliding = step(at);
    paint(sharpness(coarse ? 0.5 : 1));
    stats.frames += 1;
    coarse = (stats.script + stats.copy) * (coarse ? 2.5 : 1) > LATE;
    if (gliding) ask();
    window.clearTimeout(sharpen);
    sharpen = window.setTimeout(() => { if (visible && !reel) paint(sharpness(2)); }, SHARPEN);
  }

  // Pixels of the picture for one of the page's, so many times as fine as the screen.
  const sharpness = (fine) => Math.min((window.devicePixelRatio || 1) * fine, 2.5, WIDEST / canvas.clientWidth);

  function paint(ratio) {
    const begun = window.performance.now();
    const box2 = [canvas.clientWidth, canvas.clientHeight];
    const size = box2.map((length) => Math.max(2, Math.round(length * ratio)));
    const parts = now.moment.active ? now.moment.parts : [];
    const look = lookOf(state, state.follow ? shot : null);
    scene.fill(now.pose, now.turning, parts, {...look, covered: now.cover});
    const seen = matricesOf(state.camera, size);
    if (stage.lost) return;
    const picture = stage.draw(source, seen, size, {cut: planeOf(state.cut, scene.sizes, fromWorld), paper: PAPER, ink: INK});
    const drawn = window.performance.now();
    if (canvas.width !== size[0] || canvas.height !== size[1]) [canvas.width, canvas.height] = size;
    const pen = canvas.getContext("2d");
    pen.clearRect(0, 0, ...size);
    pen.drawImage(picture, 0, 0, ...size, 0, 0, ...size);
    const copied = window.performance.now();
    canvas.dataset.drawn = String(stage.calls);
    canvas.dataset.triangles = String(stage.triangles);
    name(parts, look, seen, box2);
    Object.assign(stats, {script: window.performance.now() - copied + drawn - begun, copy: copied - drawn});
  }

  // Names of the parts in action, the sentence of the shot.
  function name(parts, look, seen, size) {
    const {timeline} = given.data();
    const away = (part) => scene.seen(part, now.pose, look, parts) === "away";
    const known = parts.filter((part) => scene.where(part, now.pose, now.turning) && !away(part));
    const moving = timeline.moments.includes(now.moment) || now.moment.from >= 0;
    const [before, after] = moving && known.length ? [poseAt(timeline, now.moment.from), poseAt(timeline, now.moment.at)] : [];
    const faulty = scene.faulty.filter(({name: part}) => !parts.includes(part) && !away(part));
    callouts.show(calloutsFor(scene, anchors, {values: now.pose, before, after, turning: now.turning, parts: known, faulty}, seen, size), size);
    const text = state.follow ? shot?.words ?? noShot() : "";
    words.hidden = !text;
    if (words.textContent !== text) words.textContent = text;
  }

  box.addEventListener("keydown", (event) => {
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    const action = solidKey(event, views);
    if (!action) return;
    event.preventDefault();
    event.stopPropagation();
    change(action);
  }, {signal});
  listenToPulls(canvas, change, signal);
  const watcher = new window.IntersectionObserver(([entry]) => {
    visible = entry.isIntersecting;
    if (visible) ask();
  }, {rootMargin: "200px"});
  watcher.observe(box);
  const sizer = new window.ResizeObserver(ask);
  sizer.observe(box);
  stage.waiting.add(ask);
  apply();
  return {
    heard, change, stats, scene,
    get state() { return state; },
    where: (part) => scene.where(part, now.pose, now.turning),
    // For a film: be told the travel of every frame and the seconds from one to the next. Returns for each whether the camera
    // stands elsewhere than in the frame before it.
    rehearse(travels, seconds, follow) {
      window.cancelAnimationFrame(frame);
      window.clearTimeout(sharpen);
      reel = reelOf(scene.sizes, given.data().timeline, {travels, seconds, follow, home: views[0].camera});
      return reel.map(({camera}, i) => i > 0 && camera !== reel[i - 1].camera);
    },
    // A frame of it, with so many times the page's full resolution each way; it is drawn when this returns.
    take(number, fine = 1) {
      ({detail: now, shot} = reel[number]);
      state = {...state, camera: reel[number].camera, follow: shot !== null};
      if (stage.lost) throw new Error("the browser has lost the picture");
      paint((window.devicePixelRatio || 1) * fine);
      return canvas.getContext("2d").getImageData(0, 0, 1, 1).data.length;   // reading waits for the drawing
    },
    remove() {
      stop.abort();
      watcher.disconnect();
      sizer.disconnect();
      stage.waiting.delete(ask);
      window.cancelAnimationFrame(frame);
      for (const timer of [sharpen, saying]) window.clearTimeout(timer);
    },
  };
}
