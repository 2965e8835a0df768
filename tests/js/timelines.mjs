// The timelines that Python wrote for this run; MECHCALC_TIMELINES names their file.

import {readFileSync} from "node:fs";

const path = process.env.MECHCALC_TIMELINES;
if (!path) throw new Error("MECHCALC_TIMELINES is not set: run these tests through pytest (tests/view/test_javascript.py)");

// [{name, timeline, samples: [{travel, pose, moment, stroke, turning}], ahead?}]
export const sessions = JSON.parse(readFileSync(path, "utf8"));

export function session(name) {
  return sessions.find((candidate) => candidate.name === name);
}
