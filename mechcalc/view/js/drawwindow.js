// A number wheel behind its window, and the shutter that may cover it.

import {add, put, move, mark, write} from "./svg.js";

const APART = 0.74;   // of the window's height, from one digit to the next
const SLAT = 6;       // height of a slat of the shutter

const wrapped = (value) => ((value % 10) + 10) % 10;

// A drum with digits behind a window around (x, y is its top); it rolls down by a whole digit a step. Returns
// draw(pose, cover); a wheel that is covered shows nothing at all, and no attribute tells what it shows.
export function buildWindow(parent, {name, x, y, width, height, size, shade, small, tagged = "data-part"}) {
  const group = add(parent, "g", {class: `wheel ${small ? "small" : ""}`, [tagged]: name});
  add(group, "rect", {x: x - width / 2, y, width, height, rx: 4, class: "wheel-body"});
  const box = add(group, "svg", {x: x - width / 2, y, width, height, viewBox: `0 0 ${width} ${height}`});
  const tape = add(box, "g", {});
  const digits = [1, 0, -1].map((i) => add(tape, "text", {x: width / 2, y: height / 2 - i * height * APART, class: "numeral",
    "font-size": Math.round(size * 10) / 10}));
  add(box, "rect", {width, height, fill: shade});
  buildShutter(box, width, height, size);
  add(group, "rect", {x: x - width / 2, y, width, height, rx: 4, class: "wheel-rim"});
  return (pose, cover) => {
    const covered = cover.has(name);
    const value = covered ? 0 : pose[name];
    const whole = Math.floor(value + 0.5);
    digits.forEach((digit, i) => write(digit, covered ? "" : wrapped(whole + 1 - i)));
    move(tape, 0, (value - whole) * height * APART);
    mark(group, "covered", covered);
    put(group, "data-value", covered ? "covered" : value);
    put(group, "data-shows", covered ? "covered" : wrapped(whole));
  };
}

// Slats that hang before the window, and are drawn up out of sight while it is open.
function buildShutter(box, width, height, size) {
  const shutter = add(box, "g", {class: "shutter"});
  shutter.style.setProperty("--up", `${-height - 2}px`);
  add(shutter, "rect", {width, height, class: "shutter-body"});
  let path = "";
  for (let y = SLAT; y < height; y += SLAT) path += `M0 ${y}H${width}`;
  add(shutter, "path", {d: path, class: "shutter-slats"});
  add(shutter, "circle", {cx: width / 2, cy: height / 2, r: Math.min(width, height) * 0.36, class: "shutter-plate"});
  add(shutter, "text", {x: width / 2, y: height / 2, class: "shutter-sign", "font-size": Math.round(Math.min(size, width) * 0.62)}, "?");
}
