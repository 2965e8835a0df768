// Pointers and keys on the drawing itself: the crank, the setting levers, the small levers.

import {between} from "./dragging.js";

// Listens on `scene.svg`; calls on.grab() and then on.crank(delta), on.release(), on.lever(place, digit), on.press(operation).
export function listenToHands(scene, live, on, signal) {
  const {svg, plan} = scene;
  let held = null;
  const toPlan = (event) => {
    const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
    return [point.x, point.y];
  };
  const angleOf = (event) => {
    const [x, y] = toPlan(event);
    return Math.atan2(x - plan.disc.x, plan.disc.y - y) * 180 / Math.PI;
  };
  const digitAt = (event) => {
    const digit = Math.round((toPlan(event)[1] - plan.slots.top) / plan.slots.pitch);
    return digit < 0 || digit > 9 ? null : digit;
  };
  const grab = (event) => {
    const node = event.target.closest("[data-hand]");
    if (!node || event.button) return;
    const {hand} = node.dataset;
    if (hand === "crank") {
      held = {hand, angle: angleOf(event)};
      on.grab();
    }
    else if (!live) return;
    else if (hand === "lever") {
      node.focus();
      held = {hand, place: Number(node.dataset.place), digit: null};
      pull(event);
    } else {
      on.press(hand);
      return;
    }
    svg.setPointerCapture(event.pointerId);
    event.preventDefault();
  };
  const pull = (event) => {
    if (!held) return;
    if (held.hand === "crank") {
      const angle = angleOf(event);
      on.crank(between(held.angle, angle));
      held.angle = angle;
    } else {
      const digit = digitAt(event);
      if (digit !== null && digit !== held.digit) {
        held.digit = digit;
        on.preview(held.place, digit);
      }
    }
  };
  const release = () => {
    if (!held) return;
    const was = held;
    held = null;
    if (was.hand === "crank") on.release();
    else if (was.digit !== null) on.lever(was.place, was.digit);
  };
  svg.addEventListener("pointerdown", grab, {signal});
  svg.addEventListener("pointermove", pull, {signal});
  svg.addEventListener("pointerup", release, {signal});
  svg.addEventListener("pointercancel", release, {signal});
}

// Keys on a setting lever: a digit sets it and goes on to the right; arrows move it or the focus. Returns whether used.
export function leverKey(event, scene, on) {
  const slot = event.target.closest?.("[data-hand=lever]");
  if (!slot) return false;
  const place = Number(slot.dataset.place);
  const go = (to) => {
    const other = scene.node(`setting/${to}`);
    if (other && other.dataset.hand === "lever") {
      slot.setAttribute("tabindex", "-1");
      other.setAttribute("tabindex", "0");
      other.focus();
    }
  };
  const digit = Number(slot.getAttribute("aria-valuenow"));
  if (/^[0-9]$/.test(event.key)) {
    on.lever(place, Number(event.key));
    if (place > 1) go(place - 1);
  } else if (event.key === "ArrowUp" || event.key === "ArrowDown") {
    on.lever(place, digit + (event.key === "ArrowUp" ? 1 : -1));
  } else if (event.key === "ArrowLeft") go(place + 1);
  else if (event.key === "ArrowRight") go(place - 1);
  else return false;
  return true;
}
