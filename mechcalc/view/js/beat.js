// The clock of a view: calls `tick(seconds)` each frame for as long as it returns true.

// clock: {request(callback) -> handle, cancel(handle)}; callbacks get the time in milliseconds.
export function heartbeat(clock, tick) {
  let handle = null;
  let last = null;
  const frame = (at) => {
    const seconds = last === null ? 0 : (at - last) / 1000;
    last = at;
    handle = tick(seconds) ? clock.request(frame) : null;
  };
  return {
    start() {
      if (handle !== null) return;
      last = null;
      handle = clock.request(frame);
    },
    stop() {
      if (handle !== null) clock.cancel(handle);
      handle = null;
    },
  };
}

// The browser's own clock.
export function frameClock(window) {
  return {request: (callback) => window.requestAnimationFrame(callback), cancel: (handle) => window.cancelAnimationFrame(handle)};
}
