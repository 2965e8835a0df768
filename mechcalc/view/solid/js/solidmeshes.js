// What each kind of part looks like, as a solid in its own frame: its axis is x, and its angle 0 faces along z.
// Only this file shapes parts; where they stand is solidparts.js.

import {Mesh, circle, gearOutline, ray} from "./solids.js";
import {LANES, READ, SWING, TILT} from "./solidsizes.js";

// Every kind of mesh for a machine of these sizes.
export function meshesFor(sizes) {
  return {...drumMeshes(sizes), ...gearMeshes(sizes), ...leverMeshes(sizes), ...counterMeshes(sizes), ...crankMeshes(sizes), ...frameMeshes(sizes)};
}

function scaled(point, radius) {
  return point.map((part) => part * radius);
}

// A ring on spokes about a hub.
function spoked(outer, inner, [x0, x1], sides) {
  const mesh = new Mesh().ring(circle(outer, sides), circle(inner, sides), x0, x1).bar(0.75, x0, x1, {sides: 16});
  for (let spoke = 0; spoke < 4; spoke += 1) mesh.arm(scaled(ray(45 + 90 * spoke), 0.6), scaled(ray(45 + 90 * spoke), inner + 0.05), 0.34, x0 + 0.06, x1 - 0.06);
  return mesh;
}

function drumMeshes({R, pitch, left, right, tip}) {
  const sides = Math.round(Math.min(72, 24 + 6 * R));
  const pinOutline = [[R - 0.8, -0.11], [R - 0.05, -0.11], [tip, -0.06], [tip, 0.06], [R - 0.05, 0.11], [R - 0.8, 0.11]];
  const carryOutline = [[R - 0.5, -0.13], [R - 0.1, -0.13], [tip, -0.06], [tip, 0.06], [R - 0.1, 0.13], [R - 0.5, 0.13]];
  const step = (angle, radius) => scaled(ray(angle), radius);
  const raised = 9.6 * pitch;
  const ring = new Mesh().ring(circle(R - 0.5, sides), circle(R - 1, sides), ...LANES.ring);
  for (let i = 0; i < 10; i += 1) {
    const [a, b] = [raised * i / 10, raised * (i + 1) / 10];
    ring.prism([step(a, R - 0.52), step(b, R - 0.52), step(b, R - 0.28), step(a, R - 0.28)], ...LANES.ring, step((a + b) / 2, R - 0.4));
  }
  const low = R - 0.4;
  const camShape = (way) => [step(0, low), step(-way * pitch / 3, tip), step(-way * 0.9 * pitch, tip), step(-way * 1.15 * pitch, low)];
  const [c0, c1] = LANES.carryPin;
  return {
    shaft: new Mesh().bar(0.42, left - 0.4, right + 0.9),
    disc: spoked(R - 0.3, R - 1.05, LANES.disc, sides),
    carryDisc: spoked(R - 0.4, R - 0.95, LANES.carryDisc, sides),
    camDisc: new Mesh().ring(circle(R - 0.36, sides), circle(R - 0.7, sides), ...LANES.cam),
    ring,
    setLever: new Mesh().arm([R - 0.55, 0], [R + 0.72, 0], 0.16, ...LANES.ring).ball(0.17, [-0.54, 0, R + 0.74]),
    pin: new Mesh().prism(pinOutline, ...LANES.pin, [R - 0.4, 0]),
    carryPin: new Mesh().prism(carryOutline, c0, c1, [R - 0.2, 0]).box([c0 - 0.03, -0.2, R - 0.6], [c1 + 0.03, 0.2, R - 0.42]),
    cam: new Mesh().prism(camShape(1), ...LANES.cam, step(-0.55 * pitch, R - 0.1)),
    camBack: new Mesh().prism(camShape(-1), ...LANES.cam, step(0.55 * pitch, R - 0.1)),
  };
}

const IDLER = [0.7, 1.06];    // low enough that a pin on its way in or out passes the next tooth
const WHEEL = [0.72, 1.12];

function gearMeshes({machine}) {
  const meshes = {
    idler: new Mesh().prism(gearOutline(10, ...IDLER), ...LANES.idler),
    wheelGear: wheelGear(),
    rim: rim(1.3, LANES.rim),
    wheelWindow: windowFrame(1.46, LANES.rim),
  };
  meshes.idlerLost5 = new Mesh().prism(gearOutline(10, ...IDLER, 0, 5), ...LANES.idler);
  if (machine.backTransfer) {
    meshes.transferSmall = new Mesh().prism(gearOutline(6, 0.36, 0.74), -0.3, 0.26);
    meshes.transferLarge = new Mesh().prism(gearOutline(8, 0.56, 0.94, 22.5), -0.66, -0.1);
  }
  return meshes;
}

// The wheel's gear of ten teeth, a gap towards the idler at every whole step, and the lug that trips its carry lever.
function wheelGear() {
  const lug = 180 - 36 * 9.5;
  const mesh = new Mesh().prism(gearOutline(10, ...WHEEL, 18), ...LANES.idler).bar(0.26, LANES.lug[0], LANES.rim[0], {sides: 12});
  return mesh.prism([scaled(ray(lug - 40), 0.25), scaled(ray(lug - 7), 1.22), scaled(ray(lug + 7), 1.22), scaled(ray(lug + 40), 0.25)], ...LANES.lug, scaled(ray(lug), 0.6));
}

// A rim with the digits 0 to 9 printed round it: digit d is at the reading angle when the wheel has made d steps.
function rim(radius, [x0, x1], inner = radius - 0.16) {
  const mesh = new Mesh();
  const parts = 4;
  for (let digit = 0; digit < 10; digit += 1) {
    for (let part = 0; part < parts; part += 1) {
      const [s, t] = [part / parts, (part + 1) / parts];
      const [from, to] = [s, t].map((share) => READ - 36 * digit + (share - 0.5) * 36);
      const [a, b] = [ray(from), ray(to)];
      const point = (r, x, [z, y]) => [x, r * y, r * z];
      const out = (r, way) => [0, way * r[1], way * r[0]];
      mesh.quad(point(radius, x0, a), point(radius, x1, a), point(radius, x1, b), point(radius, x0, b), [out(a, 1), out(a, 1), out(b, 1), out(b, 1)],
        [[digit, s], [digit + 1, s], [digit + 1, t], [digit, t]].map(([u, v]) => [u / 10, v]));
      mesh.quad(point(inner, x0, a), point(inner, x1, a), point(inner, x1, b), point(inner, x0, b), [out(a, -1), out(a, -1), out(b, -1), out(b, -1)]);
      for (const [x, way] of [[x1, 1], [x0, -1]]) mesh.quad(point(inner, x, a), point(radius, x, a), point(radius, x, b), point(inner, x, b), [way, 0, 0]);
    }
  }
  for (const spoke of [0, 120, 240]) mesh.arm(scaled(ray(spoke), 0.1), scaled(ray(spoke), inner + 0.03), 0.26, x0 + 0.05, x0 + 0.2);
  return mesh;
}

// The frame round a window at the reading angle.
function windowFrame(radius, [x0, x1], half = 17) {
  const mesh = new Mesh();
  const at = (angle, r) => scaled(ray(READ + angle), r);
  const bar = (from, to, left, right) => mesh.prism([at(from, radius), at(to, radius), at(to, radius + 0.12), at(from, radius + 0.12)], left, right, at((from + to) / 2, radius + 0.06));
  bar(half, half + 7, x0 - 0.12, x1 + 0.12);
  bar(-half - 7, -half, x0 - 0.12, x1 + 0.12);
  for (const [left, right] of [[x0 - 0.12, x0 + 0.02], [x1 - 0.02, x1 + 0.12]]) {
    bar(-half, 0, left, right);
    bar(0, half, left, right);
  }
  return mesh;
}

// The carry lever hangs on its rod: one leg ends in the wedge that pushes the pin of the next place over, the other in
// the nose that its wheel's lug trips. As drawn it is out; the rod is the origin.
function leverMeshes({R, U, rod, wheel}) {
  const [drum, centre] = [[-rod.z, -rod.y], [wheel.z - rod.z, -rod.y]];
  const head = [drum[0] + R + 0.42, drum[1]];
  const nose = [centre[0] - 1.24, centre[1]];
  const wedge = [[-0.56, 0.62], [-0.36, 0.28], [0.36, 0.28], [0.56, 0.62]].map(([y, x]) => [x - U, y + drum[1]]);
  const out = (point) => turned(point, SWING);
  const mesh = new Mesh().bar(0.24, -U + 0.62, LANES.lug[1], {sides: 16});
  mesh.slope(wedge, drum[0] + R - 0.1, drum[0] + R + 0.5);
  mesh.prism([[head[0] - 0.24, head[1] - 0.3], [head[0] - 0.1, head[1] + 0.42], [head[0] + 0.12, head[1] + 0.5], [head[0] + 0.1, head[1] - 0.34]], -U + 0.6, -U + 0.88, head);
  mesh.arm([0.04, 0.1], [head[0] - 0.02, head[1] + 0.1], 0.3, -U + 0.66, -U + 0.84);
  const tip = out(nose);
  mesh.arm([0, 0.05], [tip[0] - 0.22, tip[1] + 0.05], 0.28, ...LANES.lug);
  mesh.prism([[tip[0] - 0.34, tip[1] - 0.22], [tip[0] - 0.08, tip[1] - 0.16], tip, [tip[0] - 0.08, tip[1] + 0.16], [tip[0] - 0.34, tip[1] + 0.24]], ...LANES.lug, [tip[0] - 0.2, tip[1]]);
  return {lever: mesh};
}

function turned([z, y], angle) {
  const [c, s] = ray(-angle);
  return [z * c - y * s, z * s + y * c];
}

function counterMeshes() {
  const finger = new Mesh().prism([[0.15, -0.2], [0.62, -0.1], [0.8, 0], [0.62, 0.1], [0.15, 0.2]], -0.2, 0.14, [0.4, 0]);
  return {
    counterGear: new Mesh().prism(gearOutline(10, 0.46, 0.76, 18), -0.22, 0.16).bar(0.18, -0.22, 0.35, {sides: 10}),
    counterRim: rim(0.84, [0.34, 0.98], 0.7),
    counterWindow: windowFrame(0.98, [0.34, 0.98], 16),
    finger: finger.bar(0.22, -0.2, 0.14, {sides: 10}),
    directionGear: new Mesh().prism(gearOutline(12, 0.42, 0.6), -0.1, 0.1),
    directionDrive: new Mesh().prism(gearOutline(16, 0.6, 0.78), -0.34, 0.34),
  };
}

function crankMeshes({handle, R}) {
  const ratchet = [];
  for (let tooth = 0; tooth < 36; tooth += 1) {
    const at = tooth * 10;
    if (tooth === 0) ratchet.push(scaled(ray(-4.9), 1.5), scaled(ray(-4), 1.12), scaled(ray(4), 1.12), scaled(ray(4.9), 1.5));
    else ratchet.push(scaled(ray(at - 5), 1.5), scaled(ray(at), 1.36), scaled(ray(at + 4.9), 1.5));
  }
  return {
    crankArm: new Mesh().arm([0, 0], [handle, 0], 0.6, 0, 0.26).bar(0.62, -0.1, 0.4, {sides: 20}).bar(0.38, -0.02, 0.28, {at: [handle, 0], sides: 16}),
    grip: new Mesh().bar(0.32, 0.3, 1.9, {sides: 20}).bar(0.4, 0.3, 0.46, {sides: 20}).bar(0.36, 1.76, 1.98, {sides: 20}).bar(0.11, -0.75, 0.3, {sides: 10}),
    ratchet: new Mesh().prism(ratchet, -0.12, 0.12),
    pawl: new Mesh().arm([0, 0], [0.9, 0.1], 0.2, -0.1, 0.1).prism([[0.72, 0.1], [1, 0.2], [0.98, -0.32], [0.84, -0.3]], -0.1, 0.1, [0.88, -0.05]).bar(0.18, -0.14, 0.14, {sides: 12}),
    socket: new Mesh().bar(0.3, -0.06, 0.16, {sides: 16, inner: 0.13}),
    clearing: new Mesh().arm([0, 0], [0.2, 1.7], 0.26, 0, 0.16).ball(0.26, [0.08, 1.8, 0.21]).bar(0.28, -0.05, 0.22, {sides: 14}),
    transferHandle: new Mesh().arm([0, 0], [0.1, 1.5], 0.24, -0.3, -0.14).ball(0.22, [-0.22, 1.6, 0.1]).bar(0.24, -0.32, -0.1, {sides: 14}),
    bell: bell(),
    clapper: new Mesh().arm([0, 0], [0, 0.75], 0.09, -0.04, 0.04).ball(0.15, [0, 0.82, 0]),
  };
}

// A gong on its post.
function bell() {
  const mesh = new Mesh().bar(0.08, -0.3, 0.95, {sides: 8});
  const [rings, sides] = [5, 20];
  const at = (i, k, r) => {
    const [tilt, turn] = [Math.PI / 2 * i / rings, 2 * Math.PI * k / sides];
    return [r * 0.62 * Math.cos(tilt), r * Math.sin(tilt) * Math.sin(turn), r * Math.sin(tilt) * Math.cos(turn)];
  };
  for (let i = 0; i < rings; i += 1) {
    for (let k = 0; k < sides; k += 1) {
      for (const [r, way] of [[0.62, 1], [0.56, -1]]) {
        const four = [at(i, k, r), at(i, k + 1, r), at(i + 1, k + 1, r), at(i + 1, k, r)];
        const normals = four.map((point) => point.map((part) => way * part / 0.6));
        if (i > 0) mesh.face(four[0], four[1], four[2], [normals[0], normals[1], normals[2]]);
        mesh.face(four[0], four[2], four[3], [normals[0], normals[2], normals[3]]);
      }
    }
  }
  for (let k = 0; k < sides; k += 1) mesh.quad(at(rings, k, 0.62), at(rings, k + 1, 0.62), at(rings, k + 1, 0.56), at(rings, k, 0.56), [-1, 0, 0]);
  return mesh;
}

// World directions in the mechanism's frame.
export function inFrame(z, y) {
  const [c, s] = ray(TILT);
  return [z * c + y * s, -z * s + y * c];
}

function frameMeshes(sizes) {
  const {R, U, left, right, plate, carriage, rod, wheel, counter, reach, machine, x} = sizes;
  const bottom = Math.min(-R - 2.2, -R / 2 - 5.8);
  // Behind and above in the world's directions; in front so that the carriage goes by and idlers and fingers are held.
  const behind = [[1.2, bottom], [-R - 0.4, bottom], [-R - 0.7, -0.4], [-R * 0.75, R * 0.72], [-0.6, R + 0.75], [R * 0.55, R * 0.85]];
  const plateOutline = [[R + 0.35, 1.5], [R + 1.4, 0.6], [R + 1.4, -0.9], [R + 3.3, -2.35], [R + 3.3, -3.3], ...behind.map(([z, y]) => inFrame(z, y))];
  const side = new Mesh().prism(plateOutline, 0, plate, inFrame(0, 0));
  const baseOutline = [[-R - 1.0, bottom], [R + 4.4, bottom], [R + 4.4, bottom - 0.4], [-R - 1.0, bottom - 0.4]].map(([z, y]) => inFrame(z, y));
  const base = new Mesh().prism(baseOutline, Math.min(left, carriage.left) - 0.5, Math.max(right, carriage.right) + 0.7, inFrame(1.7, bottom - 0.2));
  const bar = (at, radius, from, to) => new Mesh().bar(radius, from, to, {at: [at.z, at.y], sides: 14});
  const end = (from) => {
    const shape = [[rod.z - 0.4, rod.y + 0.35], [rod.z + 0.6, rod.y + 0.45], [wheel.z + 1.5, 0.9], [counter.z + 1.0, counter.y + 0.4], [counter.z + 0.5, counter.y - 1.0],
      [counter.z - 0.9, counter.y - 0.5], [wheel.z - 1.0, -1.3], [rod.z - 0.2, 0.9]];
    return new Mesh().prism(shape, from, from + 0.22, [wheel.z, 0]);
  };
  const rails = new Mesh();
  rails.bar(0.12, carriage.left, carriage.right, {at: [rod.z, rod.y], sides: 14});
  rails.bar(0.15, carriage.left, carriage.right, {at: [wheel.z, 0], sides: 14});
  rails.bar(0.12, carriage.left, carriage.right, {at: [counter.z, counter.y], sides: 12});
  const cover = new Mesh();
  const [low, high] = [sizes.leverAt(9) - 16, sizes.leverAt(0) + 16];
  const pieces = 14;
  for (let i = 0; i < pieces; i += 1) {
    const [a, b] = [i, i + 1].map((k) => low + (high - low) * k / pieces);
    cover.prism([ray(a), ray(b)].flatMap((r, k) => (k ? [scaled(r, R + 0.36), scaled(r, R + 0.28)] : [scaled(r, R + 0.28), scaled(r, R + 0.36)])), -0.3, U - 0.78, scaled(ray((a + b) / 2), R + 0.32));
  }
  return {
    side, base, idlerShaft: bar(sizes.idler, 0.1, x(reach) - 1.2, right), cover, scale: scale(sizes),
    fingerShaft: bar({y: 0, z: 0}, 0.12, x(machine.counterPlaces) - 0.8, right),
    carriageEnds: new Mesh().append(end(carriage.left - 0.2)).append(end(carriage.right)), rails,
    comb: comb(sizes), lockBar: lockBar(sizes), transferShafts: new Mesh().bar(0.1, x(machine.settingPlaces) - 0.9, right, {sides: 10}),
    checkRim: rim(0.62, [-0.55, 0.1], 0.5),
  };
}

// The digits beside each slot, on the cover.
function scale({R, leverAt, pitch}) {
  const mesh = new Mesh();
  for (let digit = 0; digit < 10; digit += 1) {
    const half = Math.min(pitch * 0.46, 4.4);
    const [a, b] = [ray(leverAt(digit) - half), ray(leverAt(digit) + half)];
    const [x0, x1] = [-0.28, -0.28 + Math.min(0.5, R * half * 2 * Math.PI / 180)];
    const point = (x, [z, y]) => [x, (R + 0.365) * y, (R + 0.365) * z];
    const normal = [0, a[1] + b[1], a[0] + b[0]].map((part) => part / 2);
    mesh.quad(point(x0, a), point(x1, a), point(x1, b), point(x0, b), normal, [[digit, 0], [digit + 1, 0], [digit + 1, 1], [digit, 1]].map(([u, v]) => [u / 10, v]));
  }
  return mesh;
}

// A bar across all levers with a tooth for each; it swings down on them about the drum's axis.
function comb({R, x, machine}) {
  const [r0, r1] = [R + 1.0, R + 1.2];
  const mesh = new Mesh().box([x(machine.settingPlaces) - 1.2, -0.12, r0], [x(1) + 0.9, 0.12, r1]);
  for (let place = 1; place <= machine.settingPlaces; place += 1) mesh.box([x(place) - 0.78, -0.1, R + 0.5], [x(place) - 0.3, 0.1, r0]);
  return mesh;
}

// A bar with a tooth for each setting ring: it catches them all while the crank is off rest.
function lockBar({R, x, machine}) {
  const mesh = new Mesh().box([x(machine.settingPlaces) - 0.9, -0.14, R + 0.3], [x(1) + 0.4, 0.14, R + 0.5]);
  for (let place = 1; place <= machine.settingPlaces; place += 1) mesh.box([x(place) + LANES.ring[0], -0.08, R - 0.2], [x(place) + LANES.ring[1], 0.08, R + 0.3]);
  return mesh;
}
