// The camera: where the eye is, as turn, height, distance and the point looked at; viewpoints; matrices. Pure.

import {TILT} from "./solidsizes.js";

export const GLIDE = 0.8;   // seconds that the camera takes to go somewhere
const FIELD = 28;       // degrees from the top of the picture to its bottom
const [NEAREST, FARTHEST, STEEPEST] = [3, 200, 88];

// A direction of the world (x, y up, z to the reader) in the mechanism's frame.
export function fromWorld([x, y, z]) {
  const turn = TILT * Math.PI / 180;
  return [x, y * Math.cos(turn) - z * Math.sin(turn), z * Math.cos(turn) + y * Math.sin(turn)];
}

// The eye of a camera {turn, rise, far, at: [x, y, z]}, in the mechanism's frame.
export function eyeOf({turn, rise, far, at}) {
  const [t, r] = [turn, rise].map((angle) => angle * Math.PI / 180);
  const away = fromWorld([Math.sin(t) * Math.cos(r), Math.sin(r), Math.cos(t) * Math.cos(r)]);
  return at.map((part, i) => part + far * away[i]);
}

// The viewpoints that have a name.
export function viewpoints(sizes) {
  const {R, left, right, carriage, x, reach} = sizes;
  const wide = carriage.right - Math.min(carriage.left, left);
  const at = [(carriage.right + Math.min(carriage.left, left)) / 2, -1.2, R * 0.42 + 0.9];
  const far = Math.max(wide * 1.4 + 7, R * 4.4 + 18.5);
  return [
    {id: "home", words: "home", camera: {turn: 28, rise: 24, far, at}},
    {id: "front", words: "front", camera: {turn: 0, rise: 16, far: far * 0.95, at}},
    {id: "behind", words: "behind the carriage", camera: {turn: 154, rise: 20, far: far * 0.86, at: [at[0], 0.2, R * 0.6]}, away: ["cover", "frame", "setting", "transfer"], glass: ["drum"]},
    {id: "along", words: "along the drum", camera: {turn: 84, rise: 12, far: R * 4.2 + 9 + (right - left) * 0.2, at: [x(1) - (right - left) * 0.2, -0.4, R * 0.4]}, away: ["frame", "crank"]},
    {id: "above", words: "from above", camera: {turn: 4, rise: 74, far: far * 0.95, at}},
    {id: "place", words: "one place alone", camera: {turn: 62, rise: 14, far: R * 3.3 + 13, at: [x(Math.min(2, reach)), -0.6, R * 0.62]}, away: ["frame", "cover", "crank", "carriage", "transfer"], place: Math.min(2, reach)},
  ];
}

// The camera after a pull by some degrees, kept above and below the poles.
export function orbit(camera, dTurn, dRise) {
  return {...camera, turn: camera.turn + dTurn, rise: Math.min(Math.max(camera.rise + dRise, -STEEPEST), STEEPEST)};
}

export function zoom(camera, factor) {
  return {...camera, far: Math.min(Math.max(camera.far * factor, NEAREST), FARTHEST)};
}

// The camera moved sideways and up by shares of the picture's height.
export function slide(camera, right, up) {
  const size = 2 * camera.far * Math.tan(FIELD * Math.PI / 360);
  const {side, above} = axes(camera);
  return {...camera, at: camera.at.map((part, i) => part - side[i] * right * size + above[i] * up * size)};
}

// Between two cameras; share from 0 to 1, eased at both ends. It turns the shorter way.
export function glideBetween(from, to, share) {
  const s = share * share * (3 - 2 * share);
  const mix = (a, b) => a + (b - a) * s;
  const round = ((to.turn - from.turn + 540) % 360 + 360) % 360 - 180;
  return {turn: from.turn + round * s, rise: mix(from.rise, to.rise), far: Math.exp(mix(Math.log(from.far), Math.log(to.far))), at: from.at.map((part, i) => mix(part, to.at[i]))};
}

function axes(camera) {
  const eye = eyeOf(camera);
  const back = unit3(camera.at.map((part, i) => eye[i] - part));
  const side = unit3(cross3(fromWorld([0, 1, 0]), back));
  return {eye, back, side, above: cross3(back, side)};
}

// What the stage needs: {view, lens}, column by column, for a picture of a width and height.
export function matricesOf(camera, [width, height]) {
  const {eye, back, side, above} = axes(camera);
  const rows = [side, above, back];
  const view = new Float32Array(16);
  rows.forEach((row, i) => {
    for (let k = 0; k < 3; k += 1) view[4 * k + i] = row[k];
    view[12 + i] = -dot3(row, eye);
  });
  view[15] = 1;
  const scale = 1 / Math.tan(FIELD * Math.PI / 360);
  const wide = Math.min(1, width / height / 1.5);     // a narrow picture steps back rather than cutting off
  const [near, far] = [Math.max(0.3, camera.far * 0.08), camera.far * 3 + 60];
  const lens = new Float32Array(16);
  lens[0] = scale * wide * height / width;
  lens[5] = scale * wide;
  lens[10] = (near + far) / (near - far);
  lens[11] = -1;
  lens[14] = 2 * near * far / (near - far);
  return {view, lens};
}

// Where a point of the mechanism's frame is in the picture, in pixels from its top left.
export function project({view, lens}, [x, y, z], [width, height]) {
  const seen = [0, 1, 2].map((i) => view[i] * x + view[4 + i] * y + view[8 + i] * z + view[12 + i]);
  return [width / 2 * (1 + lens[0] * seen[0] / -seen[2]), height / 2 * (1 - lens[5] * seen[1] / -seen[2])];
}

const dot3 = (a, b) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross3 = (a, b) => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
function unit3(a) {
  const length = Math.hypot(...a);
  return a.map((part) => part / length);
}
