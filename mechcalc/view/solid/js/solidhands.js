// Pointers on the solid picture: one turns it, with Shift or two fingers it slides and zooms, a wheel zooms.

// Listen on `canvas`; change(action) takes what solidstate.js knows.
export function listenToPulls(canvas, change, signal) {
  const held = new Map();
  const spread = () => {
    const [a, b] = [...held.values()];
    return Math.hypot(a.x - b.x, a.y - b.y);
  };
  canvas.addEventListener("pointerdown", (event) => {
    canvas.setPointerCapture(event.pointerId);
    held.set(event.pointerId, {x: event.clientX, y: event.clientY});
  }, {signal});
  canvas.addEventListener("pointermove", (event) => {
    const was = held.get(event.pointerId);
    if (!was) return;
    const [dx, dy] = [event.clientX - was.x, event.clientY - was.y];
    const before = held.size === 2 ? spread() : 0;
    held.set(event.pointerId, {x: event.clientX, y: event.clientY});
    if (held.size === 2) change({type: "zoom", factor: before / Math.max(1, spread())});
    if (held.size === 2 || event.shiftKey || event.buttons === 2 || event.buttons === 4) {
      const size = canvas.clientHeight * (held.size === 2 ? 2 : 1);
      change({type: "slide", right: dx / size, up: dy / size});
    } else change({type: "orbit", turn: -dx * 0.4, rise: dy * 0.4});
  }, {signal});
  for (const end of ["pointerup", "pointercancel"]) canvas.addEventListener(end, (event) => held.delete(event.pointerId), {signal});
  canvas.addEventListener("contextmenu", (event) => event.preventDefault(), {signal});
  // The wheel zooms once the picture has the focus, so that a page can be scrolled past it.
  canvas.addEventListener("wheel", (event) => {
    if (canvas.ownerDocument.activeElement !== canvas && canvas.getRootNode().activeElement !== canvas) return;
    event.preventDefault();
    change({type: "zoom", factor: Math.exp(Math.max(-60, Math.min(60, event.deltaY)) * 0.003)});
  }, {signal, passive: false});
}
