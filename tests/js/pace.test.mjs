// pace.js says what pace.py says: a film goes as fast as the live view.

import {test} from "node:test";
import assert from "node:assert/strict";
import {advance, paceAt, slowPieces} from "../../mechcalc/view/js/pace.js";
import {sessions} from "./timelines.mjs";

for (const {name, timeline, samples} of sessions) {
  test(`${name}: the pace is that of Python, and so is where it leads in a tenth of a second`, () => {
    const pieces = slowPieces(timeline);
    let slow = 0;
    for (const {travel, pace, later} of samples) {
      const found = paceAt(pieces, travel);
      assert.ok(Math.abs(found - pace) < 1e-9, `at ${travel}: ${found}, not ${pace}`);
      assert.ok(Math.abs(advance(pieces, travel, 0.1, 1, 1) - later) < 1e-6, `from ${travel}`);
      slow += pace < 30 ? 1 : 0;
    }
    if (name === "nines") assert.ok(slow > 3);
  });
}
