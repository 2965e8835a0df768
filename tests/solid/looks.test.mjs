// What is hidden, glass, marked; where the camera goes; what follows the carry; what a fault looks like.

import {test} from "node:test";
import assert from "node:assert/strict";
import {COPY, plainLook, rgb, solidScene} from "../../mechcalc/view/solid/js/solidscene.js";
import {eyeOf, glideBetween, matricesOf, orbit, project, viewpoints, zoom} from "../../mechcalc/view/solid/js/solidcamera.js";
import {changed, firstState, lookOf, planeOf, solidKey} from "../../mechcalc/view/solid/js/solidstate.js";
import {placeOfPhase, shotFor} from "../../mechcalc/view/solid/js/follow.js";
import {partOfFault} from "../../mechcalc/view/solid/js/solidfaults.js";
import {momentAt} from "../../mechcalc/view/js/pose.js";
import {faulty, readAll, session} from "./readings.mjs";

const nines = session("nines");
const scene = solidScene(nines.machine);
const rest = readAll(nines, 0);

function counts() {
  return Object.fromEntries(scene.lists.map(({mesh, solid, glass, marked}) => [mesh, {solid, glass, marked}]));
}

const atRest = scene.parts.filter((part) => !part.shows).length;

test("all parts are shown at first, each once", () => {
  assert.equal(scene.fill(rest, 1), atRest);
  assert.equal(counts().rim.solid, nines.machine.resultPlaces);
});

test("a group that is taken away is not drawn, one of glass is drawn apart, and a part in action is always solid", () => {
  scene.fill(rest, 1, [], {...plainLook, away: ["wheels"], glass: ["levers"]});
  assert.deepEqual([counts().rim.solid, counts().lever.solid, counts().lever.glass], [0, 0, nines.machine.resultPlaces]);
  scene.fill(rest, 1, ["lever/2"], {...plainLook, glass: ["levers"]});
  assert.deepEqual(counts().lever, {solid: 1, glass: nines.machine.resultPlaces - 1, marked: 1});
});

test("a part in action is marked by outline and stripe as well as colour, and the others grow pale", () => {
  scene.fill(rest, 1, ["wheel/3"]);
  const list = scene.lists.find(({mesh}) => mesh === "rim");
  const copy = (i) => [...list.copies.slice(i * COPY, (i + 1) * COPY)];
  const marked = copy(list.solid - 1);
  assert.deepEqual([marked[6], marked[7], marked[13]], [1, 0, 1]);
  assert.deepEqual([copy(0)[6], copy(0)[7], copy(0)[13]], [0, 1, 0]);
  const light = ([r, g, b]) => 0.2126 * r ** 2.2 + 0.7152 * g ** 2.2 + 0.0722 * b ** 2.2;
  const ratio = (light(rgb("#fffaf0")) + 0.05) / (light(marked.slice(8, 11)) + 0.05);
  assert.ok(ratio > 3, `it differs from ivory in greyscale too: ${ratio}`);
});

test("one place alone leaves that place, and what is shared", () => {
  const look = {...plainLook, only: 2};
  assert.equal(scene.seen("wheel/2", rest, look), "solid");
  assert.equal(scene.seen("wheel/3", rest, look), "away");
  assert.equal(scene.seen("wheel/3", {...rest, carriage: 1}, look), "solid", "a shifted wheel stands before another place");
  assert.equal(scene.seen("crank", rest, look), "solid");
});

test("while a carry pin is pushed over, a pale copy stands where it would have passed", () => {
  const pushed = {...rest, "carrypin/+/3": 1};
  assert.equal(scene.seen("straight/+/3", rest, plainLook), "away");
  assert.equal(scene.seen("straight/+/3", pushed, plainLook), "glass");
  assert.equal(scene.where("straight/+/3", pushed).x, scene.where("carrypin/+/3", rest).x);
});

test("a wheel whose window is covered shows no digits", () => {
  const look = {...plainLook, covered: new Set(["wheel/1"])};
  assert.equal(scene.fill(rest, 1, [], look), atRest - 1);
});

test("the point looked at is in the middle of the picture, nearer things are larger, and up is up", () => {
  const [home] = viewpoints(scene.sizes);
  const size = [800, 400];
  const seen = matricesOf(home.camera, size);
  const [x, y] = project(seen, home.camera.at, size);
  assert.ok(Math.abs(x - 400) < 0.01 && Math.abs(y - 200) < 0.01);
  const wide = (camera) => {
    const found = matricesOf(camera, size);
    return project(found, [home.camera.at[0] + 1, home.camera.at[1], home.camera.at[2]], size)[0] - 400;
  };
  assert.ok(wide(zoom(home.camera, 0.5)) > 1.6 * wide(home.camera));
  assert.ok(eyeOf(orbit(home.camera, 0, 500)).every(Number.isFinite));
});

test("every viewpoint has the whole of a shown machine in the picture, or looks at one place", () => {
  for (const {id, camera} of viewpoints(scene.sizes).slice(0, 2)) {
    const seen = matricesOf(camera, [1000, 480]);
    for (const name of ["wheel/1", `wheel/${nines.machine.resultPlaces}`, "counter/1", "crank", "setting/4"]) {
      const {x, y, z} = scene.where(name, rest);
      const [px, py] = project(seen, [x, y, z], [1000, 480]);
      assert.ok(px > 0 && px < 1000 && py > 0 && py < 480, `${name} from ${id}: ${px}, ${py}`);
    }
  }
});

test("the camera glides the shorter way round and ends where it was sent", () => {
  const [from, to] = [{turn: 170, rise: 0, far: 10, at: [0, 0, 0]}, {turn: -170, rise: 20, far: 20, at: [1, 2, 3]}];
  assert.equal(glideBetween(from, to, 0.5).turn, 180);
  const end = glideBetween(from, to, 1);
  assert.ok(Math.abs(end.turn - 190) < 1e-9 && Math.abs(end.far - 20) < 1e-9);
  assert.deepEqual(end.at, [1, 2, 3]);
});

test("following 9999 + 1, the camera goes from place to place as the carries do", () => {
  const seen = [];
  for (const moment of nines.moments.filter(({stroke}) => stroke === nines.moments.at(-1).stroke)) {
    const travel = (moment.from + moment.at) / 2;
    const shot = shotFor(scene.sizes, nines, momentAt(nines, travel), readAll(nines, travel));
    if (shot?.now) seen.push(`${shot.phase} ${shot.place}`);
  }
  assert.deepEqual(seen.slice(0, 4), ["lever out 2", "pin deflected 2", "carry step 2", "pin deflected 3"]);
  assert.ok(seen.includes("carry step 5"));
});

test("a shot looks at the place of the carry, and says what to look at; before it, what comes next", () => {
  const shot = shotFor(scene.sizes, nines, momentAt(nines, 0), rest);
  assert.equal(shot.now, false);
  assert.equal(shot.words, "Next, at place 2: a lug trips its carry lever.");
  assert.equal(shotFor(scene.sizes, nines, momentAt(nines, 0), rest, true), null, "what is asked for is not shown before");
  assert.ok(Math.abs(shot.camera.at[0] - scene.sizes.x(shot.place)) < scene.sizes.U);
  assert.equal(placeOfPhase({parts: ["lever/3"]}, {carriage: 1}), 3);
});

test("keys, controls and Python change a view by the same actions", () => {
  const views = viewpoints(scene.sizes);
  const first = firstState(views, {});
  assert.deepEqual([first.viewpoint, first.picture, first.follow], ["home", "solid", false]);
  assert.equal(firstState(views, {follow: true}).follow, true);
  const key = (name, shiftKey = false) => solidKey({key: name, shiftKey}, views);
  assert.equal(changed(first, key("2"), views).viewpoint, "front");
  assert.equal(changed(first, key("f"), views).follow, true);
  assert.equal(changed(first, key("v"), views).picture, "both");
  assert.equal(changed(first, key("ArrowLeft", true), views).camera.turn, first.camera.turn - 6);
  assert.equal(key("ArrowLeft"), null, "the plain arrows are those of time");
  const cut = changed(first, key("x"), views);
  assert.equal(cut.cut.kind, "across");
  assert.ok(planeOf(cut.cut, scene.sizes, (v) => v));
  assert.equal(planeOf(first.cut, scene.sizes, (v) => v), null);
  const away = lookOf(changed(first, key("y"), views), null).away;
  assert.ok(away.includes("cover") && away.includes("frame"));
});

test("what was chosen for a group holds against what a viewpoint keeps clear", () => {
  const views = viewpoints(scene.sizes);
  let state = firstState(views, {viewpoint: "behind"});
  assert.ok(lookOf(state, null).away.includes("frame") && lookOf(state, null).glass.includes("drum"));
  state = changed(state, {type: "group", id: "frame", how: "glass"}, views);
  assert.ok(!lookOf(state, null).away.includes("frame") && lookOf(state, null).glass.includes("frame"));
});

test("a fault is shown at the part that Python names", () => {
  const elsewhere = {"back-transfer gear out": "transfergear", "counter finger gone": "finger"};
  for (const {fault, part} of faulty.named) {
    const name = partOfFault(fault);
    if (fault.fault === "carry timing late") assert.equal(name, null);
    else assert.equal(name, fault.fault in elsewhere ? part.replace(/^\w+/, elsewhere[fault.fault]) : part);
  }
});

test("a faulty part looks as its fault says, and no other part changes", () => {
  for (const {fault} of faulty.named) {
    const name = partOfFault(fault);
    const broken = solidScene(nines.machine, [fault]);
    const changedParts = broken.parts.filter((part) => part.fault);
    const levers = Array.from({length: nines.machine.resultPlaces}, (_, i) => `lever/${i + 1}`);
    assert.deepEqual([...new Set(changedParts.map((part) => part.name))], name ? [name] : levers);
    broken.fill(rest, 1);
    const striped = broken.lists.flatMap(({copies, solid}) => Array.from({length: solid}, (_, i) => copies[i * COPY + 13])).filter((stripe) => stripe === 2);
    assert.equal(striped.length, changedParts.length, fault.fault);
  }
});

test("a carry pin that is gone stays out of the idler's lane when its lever is out, as its track says", () => {
  const {timeline, fault} = faulty.goneCarryPin;
  const broken = solidScene(timeline.machine, [fault]);
  const name = partOfFault(fault);
  const most = Math.max(...timeline.tracks[name].map(([, value]) => value));
  assert.equal(most, 0);
  const end = readAll(timeline, timeline.length);
  assert.equal(broken.where(name, end).x, broken.sizes.x(fault.place));
  assert.ok(broken.where(name, end).scale < 1);
});

test("the lost tooth of an idler is before the drum when its wheel shows the tooth's digit", () => {
  const broken = solidScene(nines.machine, [{fault: "idler tooth lost", place: 2, tooth: 6}]);
  const gap = (digit) => ((5 * 36 + broken.where("idler/2", {...rest, "wheel/2": digit}).turn) % 360 + 360) % 360;
  assert.equal(gap(6), 180);
  assert.notEqual(gap(7), 180);
});
