// Keys, plan and labels: small pure things.

import {test} from "node:test";
import assert from "node:assert/strict";
import {KEYS, actionOf} from "../../mechcalc/view/js/keys.js";
import {closeupFor} from "../../mechcalc/view/js/closeup.js";
import {planFor} from "../../mechcalc/view/js/plan.js";
import {chosen, partName, placeOf, wordsFor} from "../../mechcalc/view/js/labels.js";
import {poseAt} from "../../mechcalc/view/js/pose.js";
import {session, sessions} from "./timelines.mjs";

test("a record takes no keys that would move the machine", () => {
  for (const key of ["+", "-", ".", ",", "[", "]", "s", "r", "t", "b", "u"]) {
    assert.equal(actionOf(key, false), null);
    assert.ok(actionOf(key, true).hand, key);
  }
});

test("time's keys work everywhere; other keys are left alone", () => {
  assert.deepEqual(actionOf("ArrowLeft", false), {time: {type: "moment", direction: -1}});
  assert.deepEqual(actionOf(" ", false), {time: {type: "toggle"}});
  for (const key of ["Tab", "Escape", "Enter", "F5", "x", "Shift"]) assert.equal(actionOf(key, true), null);
});

test("keys of strokes, of waiting, of going on and of the question", () => {
  assert.deepEqual(actionOf("n", false), {time: {type: "stroke", direction: 1}});
  assert.deepEqual(actionOf("N", true), {time: {type: "stroke", direction: -1}});
  assert.deepEqual([actionOf("w", false), actionOf("g", false), actionOf("q", true)],
    [{toggle: "wait"}, {on: true}, {toggle: "question"}]);
});

test("no key is taken twice", () => {
  for (const key of "abcdefghijklmnopqrstuvwxyz?+-.,[] ") {
    for (const form of [key, key.toUpperCase()]) assert.ok(KEYS.filter((row) => row.match(form)).length <= 1, form);
  }
});

test("in large type the setting levers can still be moved: their slots stand beside the windows", () => {
  const plan = planFor(session("nines").timeline.machine, {tall: false, large: true});
  assert.ok(plan.slots.pitch > 6);
  assert.ok(plan.slots.bottom <= plan.windows.top + plan.windows.height);
  const right = plan.settingWindow.x + plan.settingWindow.width;
  assert.ok(plan.groove - 0.14 * plan.u > right && plan.groove + 0.13 * plan.u < plan.u / 2);
});

test("windows that the picture makes small are shown close up: the ledger's on a telephone, nobody's on a desk", () => {
  const on = (name, width) => closeupFor(planFor(session(name).timeline.machine, {tall: width < 540, large: false}), width);
  assert.deepEqual([on("ledger 0", 350), on("slate 0", 350), on("ledger 0", 1200)], [true, false, false]);
});

test("every key has words", () => {
  for (const row of KEYS) assert.ok(row.keys && row.words);
});

for (const {name, timeline} of sessions) {
  for (const shape of [{tall: false, large: false}, {tall: true, large: false}, {tall: false, large: true}]) {
    test(`${name}, ${JSON.stringify(shape)}: everything that can be labelled lies on the sheet, at both ends of the shift`, () => {
      const plan = planFor(timeline.machine, shape);
      for (const carriage of [0, timeline.machine.positions - 1]) {
        const pose = {...poseAt(timeline, 0), carriage};
        for (const part of [...Object.keys(pose), "stop/left", "stop/right"]) {
          if (part === "lift" || part === "rang") continue;
          const [x, y] = placeOf(plan, part, pose);
          assert.ok(x >= 0 && x <= plan.width && y >= 0 && y <= plan.height, `${part} at ${x}, ${y} of ${plan.width} x ${plan.height}`);
        }
      }
    });
  }
}

test("a number wheel stands under the drum place that it faces", () => {
  const {timeline} = session("nines");
  const plan = planFor(timeline.machine, {tall: false, large: false});
  const pose = {...poseAt(timeline, 0), carriage: 2};
  assert.equal(placeOf(plan, "wheel/3", pose)[0], placeOf(plan, "idler/1", pose)[0]);
  assert.equal(placeOf(plan, "counter/3", pose)[0], placeOf(plan, "direction", pose)[0]);
});

test("what passes the idler line at a drum angle stands on the line at that angle, above it before an additive turn", () => {
  const plan = planFor(session("nines").timeline.machine, {tall: false, large: false});
  assert.equal(plan.surface(200, 200), plan.drum.line);
  assert.ok(plan.surface(200, 180) < plan.drum.line);
});

test("labels name one part of each kind, in the order of the motion", () => {
  const picks = chosen(["idler/1", "idler/2", "pin/1/3", "pin/2/3", "wheel/1", "wheel/2"]);
  assert.deepEqual(picks.map(({part, count}) => [part, count]), [["pin/1/3", 2], ["idler/1", 2], ["wheel/1", 2]]);
  assert.equal(partName("carrypin/-/4"), "carry pin −, place 4");
  assert.equal(partName("clearing/result"), "result clearing lever");
  assert.equal(partName("pawl"), "pawl");
});

test("a step that goes nowhere is labelled so", () => {
  const words = (...parts) => {
    const picks = chosen(parts);
    return wordsFor(picks.find((pick) => pick.kind === "idler"), picks);
  };
  assert.equal(words("idler/3", "wheel/3"), "idler 3");
  assert.equal(words("idler/9", "pin/9/1"), "idler 9: no wheel opposite");
  assert.equal(words("idler/8", "idler/9", "wheel/13"), "idlers, 1 with no wheel opposite");
});
