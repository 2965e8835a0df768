// Watertight solids as triangles: nine numbers a corner pair, in the order x y z, normal, place in the digit sheet.
// Pure. Outlines are lists of [z, y]; everything is drawn out along x.

const NONE = -1;   // a corner that no digit is printed on

// A growing list of triangles.
export class Mesh {
  constructor() { this.data = []; }

  get triangles() { return this.data.length / 24; }

  append(other) {
    for (const value of other.data) this.data.push(value);
    return this;
  }

  // One triangle; it is turned round if it does not face along `normal`. normals: one, or one for each corner.
  face(a, b, c, normals, uv) {
    const [na, nb, nc] = Array.isArray(normals[0]) ? normals : [normals, normals, normals];
    const mean = [na[0] + nb[0] + nc[0], na[1] + nb[1] + nc[1], na[2] + nb[2] + nc[2]];
    const [u, v] = [minus(b, a), minus(c, a)];
    const facing = dot(cross(u, v), mean) >= 0;
    const corners = [[a, na, uv?.[0]], [b, nb, uv?.[1]], [c, nc, uv?.[2]]];
    if (!facing) corners.reverse();
    for (const [at, normal, print] of corners) this.data.push(...at, ...normal, ...(print ?? [NONE, NONE]));
    return this;
  }

  quad(a, b, c, d, normals, uv) {
    const four = Array.isArray(normals[0]) ? normals : [normals, normals, normals, normals];
    this.face(a, b, c, [four[0], four[1], four[2]], uv && [uv[0], uv[1], uv[2]]);
    return this.face(a, c, d, [four[0], four[2], four[3]], uv && [uv[0], uv[2], uv[3]]);
  }

  // An outline that is seen whole from `centre`, drawn out from x0 to x1.
  prism(outline, x0, x1, centre = [0, 0]) {
    const [cz, cy] = centre;
    outline.forEach(([z, y], i) => {
      const [nextZ, nextY] = outline[(i + 1) % outline.length];
      this.face([x1, cy, cz], [x1, y, z], [x1, nextY, nextZ], [1, 0, 0]);
      this.face([x0, cy, cz], [x0, y, z], [x0, nextY, nextZ], [-1, 0, 0]);
      this.#wall([z, y], [nextZ, nextY], x0, x1, centre, 1);
    });
    return this;
  }

  // The same between two outlines with as many corners: a ring.
  ring(outer, inner, x0, x1, centre = [0, 0]) {
    outer.forEach(([z, y], i) => {
      const j = (i + 1) % outer.length;
      const [[z2, y2], [iz, iy], [iz2, iy2]] = [outer[j], inner[i], inner[j]];
      for (const [x, way] of [[x1, 1], [x0, -1]]) {
        this.face([x, y, z], [x, y2, z2], [x, iy2, iz2], [way, 0, 0]);
        this.face([x, y, z], [x, iy2, iz2], [x, iy, iz], [way, 0, 0]);
      }
      this.#wall([z, y], [z2, y2], x0, x1, centre, 1);
      this.#wall([iz, iy], [iz2, iy2], x0, x1, centre, -1);
    });
    return this;
  }

  #wall([z, y], [z2, y2], x0, x1, [cz, cy], way) {
    let normal = unit([0, z2 - z, y - y2]);
    const out = normal[1] * ((y + y2) / 2 - cy) + normal[2] * ((z + z2) / 2 - cz);
    if (out * way < 0) normal = normal.map((part) => -part);
    this.quad([x0, y, z], [x1, y, z], [x1, y2, z2], [x0, y2, z2], normal);
  }

  // A round bar or tube along x about [z, y]; its wall is smooth.
  bar(radius, x0, x1, {sides = 24, at = [0, 0], inner = 0} = {}) {
    const [cz, cy] = at;
    for (let i = 0; i < sides; i += 1) {
      const [a, b] = [ray(360 * i / sides), ray(360 * (i + 1) / sides)];
      const point = (r, x, [z, y]) => [x, cy + r * y, cz + r * z];
      const out = ([z, y]) => [0, y, z];
      this.quad(point(radius, x0, a), point(radius, x1, a), point(radius, x1, b), point(radius, x0, b), [out(a), out(a), out(b), out(b)]);
      for (const [x, way] of [[x1, 1], [x0, -1]]) {
        if (!inner) this.face([x, cy, cz], point(radius, x, a), point(radius, x, b), [way, 0, 0]);
        else this.quad(point(inner, x, a), point(radius, x, a), point(radius, x, b), point(inner, x, b), [way, 0, 0]);
      }
      if (inner) {
        const within = (r) => r.map((part) => -part);
        this.quad(point(inner, x0, a), point(inner, x1, a), point(inner, x1, b), point(inner, x0, b),
          [within(out(a)), within(out(a)), within(out(b)), within(out(b))]);
      }
    }
    return this;
  }

  ball(radius, [x, y, z], rings = 6, sides = 10) {
    const at = (i, k) => {
      const [tilt, turn] = [Math.PI * i / rings, 2 * Math.PI * k / sides];
      return [Math.cos(tilt), Math.sin(tilt) * Math.sin(turn), Math.sin(tilt) * Math.cos(turn)];
    };
    const place = (n) => [x + radius * n[0], y + radius * n[1], z + radius * n[2]];
    for (let i = 0; i < rings; i += 1) {
      for (let k = 0; k < sides; k += 1) {
        const [a, b, c, d] = [at(i, k), at(i, k + 1), at(i + 1, k + 1), at(i + 1, k)];
        if (i < rings - 1) this.face(place(b), place(c), place(d), [b, c, d]);
        if (i > 0) this.face(place(a), place(b), place(d), [a, b, d]);
      }
    }
    return this;
  }

  // A box from [x0, y0, z0] to [x1, y1, z1].
  box([x0, y0, z0], [x1, y1, z1]) {
    return this.prism([[z0, y0], [z1, y0], [z1, y1], [z0, y1]], x0, x1, [(z0 + z1) / 2, (y0 + y1) / 2]);
  }

  // An outline of [x, y] drawn out along z: what slopes sideways.
  slope(outline, z0, z1) {
    const [cx, cy] = [0, 1].map((k) => outline.reduce((sum, point) => sum + point[k], 0) / outline.length);
    outline.forEach(([x, y], i) => {
      const [x2, y2] = outline[(i + 1) % outline.length];
      this.face([cx, cy, z1], [x, y, z1], [x2, y2, z1], [0, 0, 1]);
      this.face([cx, cy, z0], [x, y, z0], [x2, y2, z0], [0, 0, -1]);
      let normal = unit([y2 - y, x - x2, 0]);
      if (normal[0] * ((x + x2) / 2 - cx) + normal[1] * ((y + y2) / 2 - cy) < 0) normal = normal.map((part) => -part);
      this.quad([x, y, z0], [x, y, z1], [x2, y2, z1], [x2, y2, z0], normal);
    });
    return this;
  }

  // A straight arm from one point [z, y] to another, `wide` across.
  arm([z0, y0], [z1, y1], wide, x0, x1) {
    const length = Math.hypot(z1 - z0, y1 - y0);
    const [sz, sy] = [-(y1 - y0) / length * wide / 2, (z1 - z0) / length * wide / 2];
    return this.prism([[z0 + sz, y0 + sy], [z1 + sz, y1 + sy], [z1 - sz, y1 - sy], [z0 - sz, y0 - sy]], x0, x1,
      [(z0 + z1) / 2, (y0 + y1) / 2]);
  }
}

// A mesh as the stage keeps it: each different corner once, and which three make a triangle.
export function indexed({data}) {
  const known = new Map();
  const corners = [];
  const index = new Uint32Array(data.length / 8);
  for (let at = 0; at < data.length; at += 8) {
    const corner = data.slice(at, at + 8);
    const key = corner.map((part) => Math.round(part * 1e5)).join();
    if (!known.has(key)) {
      known.set(key, known.size);
      corners.push(...corner);
    }
    index[at / 8] = known.get(key);
  }
  return {corners: new Float32Array(corners), index};
}

// The unit vector [z, y] at an angle.
export function ray(angle) {
  const turn = angle * Math.PI / 180;
  return [Math.cos(turn), Math.sin(turn)];
}

// A circle, or a piece of one, as an outline.
export function circle(radius, sides, from = 0, to = 360) {
  const whole = to - from === 360;
  return Array.from({length: sides + (whole ? 0 : 1)}, (_, i) => ray(from + (to - from) * i / sides).map((part) => part * radius));
}

// A gear's outline: `teeth` of them, one at angle `offset`. Given by root and tip; `lost` leaves a tooth out.
export function gearOutline(teeth, root, tip, offset = 0, lost = null) {
  const outline = [];
  const pitch = 360 / teeth;
  for (let tooth = 0; tooth < teeth; tooth += 1) {
    const at = offset + tooth * pitch;
    const shape = tooth === lost ? [[-0.5, root], [0, root]]
      : [[-0.5, root], [-0.27, root], [-0.11, tip], [0.11, tip], [0.27, root]];
    for (const [share, radius] of shape) outline.push(ray(at + share * pitch).map((part) => part * radius));
  }
  return outline;
}

const minus = (a, b) => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const dot = (a, b) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a, b) => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
function unit(a) {
  const length = Math.hypot(...a) || 1;
  return a.map((part) => part / length);
}
