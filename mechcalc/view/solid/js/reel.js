// A film's frames, worked out before the first is drawn: what is shown in each, and where the camera stands. Pure.
//
// It goes near for the strokes in which something is carried, and stands back for the others and at the end.

import {momentAt, poseAt, strokeAt, turningAt} from "../../js/pose.js";
import {GLIDE, glideBetween, zoom} from "./solidcamera.js";
import {nextPhase, shotFor} from "./follow.js";

const ROOM = 1.22;   // a film's picture is wider than a page's: the camera stands further back, so that nothing is cut off

// [{detail, camera, shot}], one for each of `travels`, which are `seconds` apart. A camera that rests is the same object.
export function reelOf(sizes, timeline, {travels, seconds, follow, home}) {
  const whole = zoom(home, ROOM);
  let [camera, goal, glide] = [whole, "home", null];
  return travels.map((travel, number) => {
    const detail = {pose: poseAt(timeline, travel), turning: turningAt(timeline, travel), moment: momentAt(timeline, travel)};
    const shot = follow ? shotIn(sizes, timeline, travel, detail) : null;
    const next = shot ? `${shot.phase} ${shot.place}` : "home";
    if (next !== goal) {
      glide = {from: camera, to: shot?.camera ?? whole, since: number - 1};
      goal = next;
    }
    if (glide) {
      const share = number > 0 ? Math.min(1, (number - glide.since) * seconds / GLIDE) : 1;
      camera = glideBetween(glide.from, glide.to, share);
      if (share === 1) glide = null;
    }
    return {detail, camera, shot};
  });
}

// The shot of the carry that is under way or to come in the stroke at `travel`; null where there is none, and at the end.
function shotIn(sizes, timeline, travel, {moment, pose}) {
  if (travel >= timeline.length) return null;
  const next = nextPhase(timeline, moment);
  return next && next.moment.stroke === strokeAt(timeline, travel) ? shotFor(sizes, timeline, moment, pose) : null;
}
