// Where each named part of the solid view stands, against a reading of the timeline of its own, and whether parts meet.

import {test} from "node:test";
import assert from "node:assert/strict";
import {solidScene} from "../../mechcalc/view/solid/js/solidscene.js";
import {LANES, PLAY, READ} from "../../mechcalc/view/solid/js/solidsizes.js";
import {circle, gearOutline} from "../../mechcalc/view/solid/js/solids.js";
import {angleOf, apart, inside, machines, read, readAll, session, sessions, standing, travels} from "./readings.mjs";

// The middle of a mesh's corners that lie farthest from its axis, among those within a lane.
function farthest({data}, [from, to]) {
  const corners = [];
  for (let at = 0; at < data.length; at += 8) if (data[at] >= from - 1e-9 && data[at] <= to + 1e-9) corners.push(data.slice(at, at + 3));
  const most = Math.max(...corners.map(([, y, z]) => Math.hypot(y, z)));
  const tips = corners.filter(([, y, z]) => Math.hypot(y, z) > most - 1e-6);
  return [0, 1, 2].map((k) => tips.reduce((sum, corner) => sum + corner[k], 0) / tips.length);
}

const turningAt = (timeline, travel) => {
  const [before, after] = [read(timeline, "crank", travel - 0.01), read(timeline, "crank", travel)];
  return Math.sign(after - before) || 1;
};

for (const {name, timeline} of sessions) {
  const {machine} = timeline;
  const scene = solidScene(machine);
  const {sizes} = scene;

  test(`${name}: a number pin stands as many degrees before the idler line as the timeline has it to go`, () => {
    for (const travel of travels(timeline, 13)) {
      const values = readAll(timeline, travel);
      for (let place = 1; place <= machine.settingPlaces; place += 1) {
        machine.numberPins.forEach((contact, i) => {
          const part = scene.where(`pin/${place}/${i + 1}`, values);
          const tip = standing(part, [0, 0, sizes.tip]);
          assert.ok(apart(angleOf(tip), values.crank - contact - machine.pitch / 2) < 1e-6);
          const reach = Math.hypot(tip[1], tip[2]) - sizes.R;
          assert.ok(read(timeline, `pin/${place}/${i + 1}`, travel) === 1 ? Math.abs(reach - 0.1) < 1e-9 : reach < 0.1);
        });
      }
    }
  });

  test(`${name}: wheels show at the reading angle what the register holds, and move along with the carriage`, () => {
    for (const stroke of timeline.strokes) {
      const values = readAll(timeline, stroke.to);
      let number = 0n;
      for (let wheel = machine.resultPlaces; wheel >= 1; wheel -= 1) {
        const {x, turn} = scene.where(`wheel/${wheel}`, values, 1, "rim");
        const digit = [...Array(10).keys()].find((one) => apart(READ - 36 * one + turn, READ) < 1e-6);
        assert.notEqual(digit, undefined, `wheel ${wheel} after "${stroke.words}"`);
        number = 10n * number + BigInt(digit);
        assert.ok(Math.abs(x - sizes.x(wheel) - stroke.reading.carriage * sizes.U) < 1e-9 || read(timeline, "lift", stroke.to) > 0);
      }
      if (stroke.reading.result < 2 ** 53 && !timelineIsPartWay(timeline, stroke.to)) assert.equal(number, BigInt(stroke.reading.result));
    }
  });

  test(`${name}: no pin that passes goes through a tooth of its idler`, () => {
    const teeth = gearOutline(10, 0.7, 1.06);
    for (const travel of travels(timeline)) {
      const values = readAll(timeline, travel);
      for (let place = 1; place <= machine.carryReach; place += 1) {
        const idler = scene.where(`idler/${place}`, values);
        const names = [...machine.numberPins.keys()].filter(() => place <= machine.settingPlaces).map((i) => `pin/${place}/${i + 1}`);
        for (const sign of place > 1 ? ["+", "-"] : []) names.push(`carrypin/${sign}/${place}`);
        for (const part of names) {
          const at = scene.where(part, values);
          const lane = part.startsWith("pin") ? LANES.pin : LANES.carryPin;
          const [left, right] = lane.map((edge) => edge + at.x - idler.x);
          if (right <= LANES.idler[0] || left >= LANES.idler[1]) continue;
          for (const side of [-0.05, 0, 0.05]) {
            const tip = standing(at, [0, side, sizes.tip - 0.01]);
            const [, y, z] = standing({x: 0, y: 0, z: 0, turn: -idler.turn}, [0, tip[1] - idler.y, tip[2] - idler.z]);
            assert.ok(!inside([z, y], teeth), `${part} at travel ${travel}`);
          }
        }
      }
    }
  });
}

function timelineIsPartWay(timeline, travel) {
  return read(timeline, "crank", travel) % 360 !== 0 || read(timeline, "lift", travel) > 0;
}

test("idler and wheel stay in mesh: the wheel has a gap where the idler has a tooth, at whole and at part steps", () => {
  const timeline = session("nines");
  const scene = solidScene(timeline.machine);
  for (const travel of travels(timeline)) {
    const values = readAll(timeline, travel);
    const [idler, wheel] = [scene.where("idler/2", values), scene.where("wheel/2", values, 1, "wheelGear")];
    if (read(timeline, "lift", travel) > 0) continue;
    // Both turn evenly and against one another. In the wheel's own count: a tooth every 36 degrees from 18 on.
    const ahead = ((idler.turn % 36) + 36) % 36;                    // of the idler's tooth nearest the wheel
    const gap = ((180 - 18 - wheel.turn - 18) % 36 + 36) % 36;       // of the wheel's gap nearest the idler
    assert.ok(apart(10 * ahead, 10 * gap) < 1e-6, `at ${travel}: ${ahead} and ${gap}`);
  }
});

test("a carry pin is beside the idler while it is straight, and in its lane while a lever pushes it", () => {
  const timeline = session("nines");
  const {machine} = timeline;
  const scene = solidScene(machine);
  let pushed = 0;
  for (const travel of travels(timeline)) {
    const values = readAll(timeline, travel);
    for (let place = 2; place <= machine.carryReach; place += 1) {
      const aside = scene.sizes.x(place) - scene.where(`carrypin/+/${place}`, values).x;
      assert.ok(Math.abs(aside - PLAY * values[`carrypin/+/${place}`]) < 1e-9);
      if (values[`carrypin/+/${place}`] === 1) pushed += 1;
    }
  }
  assert.ok(pushed > 4);
  assert.ok(LANES.carryPin[0] > LANES.idler[1], "straight: clear of the idler");
  assert.ok(LANES.carryPin[1] - PLAY <= LANES.idler[1], "pushed: wholly in its lane");
});

test("the lug is at the lever's nose between 9 and 0, and away from it at every whole step", async () => {
  const {meshesFor} = await import("../../mechcalc/view/solid/js/solidmeshes.js");
  const timeline = session("nines");
  const scene = solidScene(timeline.machine);
  const tip = farthest(meshesFor(scene.sizes).wheelGear, LANES.lug);
  const {wheel} = scene.sizes;
  const nose = wheel.z - 1.24;
  for (let value = 0; value <= 20; value += 0.5) {
    const values = {...readAll(timeline, 0), "wheel/1": value};
    const gear = scene.where("wheel/1", values, 1, "wheelGear");
    const lug = standing(gear, tip);
    const away = Math.hypot(lug[1], lug[2] - nose);
    if (value % 10 === 9.5) assert.ok(away < 0.05, `${value}: ${away}`);
    else assert.ok(away > 0.3, `${value}: ${away}`);
  }
});

test("a lever at home lets straight pins pass below its wedge; out, it stands in the lane of the next place's carry pins", () => {
  const {machine} = session("nines");
  const scene = solidScene(machine);
  const {R, U, rod, tip} = scene.sizes;
  const foot = [-U + 0.3, -rod.y, R - 0.1 - rod.z];       // the wedge's side that faces the drum, on the line of centres
  const at = (value) => standing(scene.where("lever/1", {...readAll(session("nines"), 0), "lever/1": value}), foot);
  const [home, out] = [at(0), at(1)];
  assert.ok(Math.hypot(home[1], home[2]) > tip, "home: outside the circle of the pins' tips");
  assert.ok(Math.hypot(out[1], out[2]) < tip, "out: inside it");
  const lane = scene.sizes.x(2) + LANES.carryPin[0];
  assert.ok(out[0] < lane && out[0] > lane - PLAY, "its face leaves the pushed pin its room");
});

test("setting levers stand further down for each digit, by one pin pitch, and go round with the drum", () => {
  const {machine} = session("nines");
  const scene = solidScene(machine);
  const at = (digit, crank) => scene.where("setting/1", {...readAll(session("nines"), 0), "setting/1": digit, crank}).turn;
  for (let digit = 0; digit < 9; digit += 1) assert.ok(Math.abs(at(digit, 0) - at(digit + 1, 0) - machine.pitch) < 1e-9);
  assert.equal(at(3, 50) - at(3, 0), 50);
});

test("counter fingers stand before their wheels while these are moved", () => {
  const timeline = session("nines");
  const scene = solidScene(timeline.machine);
  const {counter, finger} = scene.sizes;
  const towards = Math.atan2(counter.y - finger.y, counter.z - finger.z) * 180 / Math.PI;
  const steps = timeline.moments.filter(({kinds}) => kinds.includes("counter step"));
  assert.ok(steps.length > 1);
  for (const {from, at, parts} of steps) {
    const travel = (from + at) / 2;
    const values = readAll(timeline, travel);
    const number = Number(parts.find((part) => part.startsWith("counter/")).split("/")[1]) - values.carriage;
    const near = scene.parts.filter(({name}) => name === `finger/${number}`).map((part) => {
      const out = {};
      part.pose(out, values, turningAt(timeline, travel));
      return apart(out.turn, towards);
    });
    assert.ok(Math.min(...near) < 0.1, `finger ${number} at ${travel}: ${near}`);
  }
});

test("every catalogue machine keeps to the budget: under 150,000 triangles and 60 draws", async () => {
  const {meshesFor} = await import("../../mechcalc/view/solid/js/solidmeshes.js");
  for (const {name, machine} of machines) {
    const scene = solidScene(machine);
    const meshes = meshesFor(scene.sizes);
    let triangles = 0;
    for (const {mesh, parts} of scene.lists) {
      assert.ok(meshes[mesh], `${mesh} has a shape`);
      triangles += parts.length * meshes[mesh].triangles;
    }
    assert.ok(triangles < 150_000, `${name}: ${triangles}`);
    assert.ok(scene.lists.length < 56, `${name}: ${scene.lists.length} kinds of solid`);
  }
});

test("solids are watertight and face outwards", async () => {
  const {meshesFor} = await import("../../mechcalc/view/solid/js/solidmeshes.js");
  const {sizes} = solidScene(session("nines").machine);
  for (const [name, mesh] of Object.entries(meshesFor(sizes))) {
    if (name === "scale") continue;    // print on the cover
    const edges = new Map();
    let volume = 0;
    const key = (at) => [0, 1, 2].map((k) => Math.round(mesh.data[at + k] * 1e5)).join();
    for (let at = 0; at < mesh.data.length; at += 24) {
      const corners = [0, 8, 16].map((step) => at + step);
      const [a, b, c] = corners.map((corner) => mesh.data.slice(corner, corner + 3));
      volume += (a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2]) + a[2] * (b[0] * c[1] - b[1] * c[0])) / 6;
      const keys = corners.map(key);
      if (new Set(keys).size < 3) continue;
      keys.forEach((from, i) => {
        const [one, back] = [`${from}|${keys[(i + 1) % 3]}`, `${keys[(i + 1) % 3]}|${from}`];
        edges.set(one, (edges.get(one) ?? 0) + 1);
        edges.set(back, (edges.get(back) ?? 0) - 1);
      });
    }
    assert.deepEqual([...edges].filter(([, count]) => count !== 0).slice(0, 2), [], `${name} has a hole`);
    assert.ok(volume > 0.001, `${name} is turned inside out: ${volume}`);
  }
});

test("a circle closes and a piece of one does not", () => {
  assert.equal(circle(1, 12).length, 12);
  assert.equal(circle(1, 12, 0, 90).length, 13);
});
