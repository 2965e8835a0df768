// The stage: the only module that knows WebGL. It draws lists of copies of meshes, seen by a camera, and copies the
// picture to the canvas of the view that asked. One stage serves all views of a page.

import {COPY} from "./solidscene.js";
import {indexed} from "./solids.js";

const VERTEX = `#version 300 es
layout(location=0) in vec3 corner;
layout(location=1) in vec3 normal;
layout(location=2) in vec2 print;
layout(location=3) in vec4 spot;
layout(location=4) in vec4 pose;
layout(location=5) in vec4 tint;
layout(location=6) in vec4 extra;
uniform mat4 view, lens;
uniform vec4 cut;
uniform float swell;
out vec3 facing; out float beyond; out vec2 sheet; flat out vec4 colour; flat out vec4 kind;
vec3 turned(vec3 v) { return vec3(v.x, v.y * pose.x + v.z * pose.y, v.z * pose.x - v.y * pose.y); }
void main() {
  vec3 world = turned(corner * spot.w) + spot.xyz;
  vec4 seen = view * vec4(world, 1.0);
  facing = mat3(view) * turned(normal);
  seen.xyz += facing * swell;
  beyond = dot(cut.xyz, world) - cut.w;
  sheet = print; colour = tint; kind = vec4(pose.z, pose.w, extra.x, extra.y);
  gl_Position = lens * seen;
}`;
// Light falls from the left above the reader's shoulder; the eye counts as far away. What is handed from corners to points
// is kept small: where the browser draws in software, that is what costs.
const FRAGMENT = `#version 300 es
precision mediump float;
in vec3 facing; in float beyond; in vec2 sheet; flat in vec4 colour; flat in vec4 kind;
uniform sampler2D digits;
uniform vec3 paper, ink;
uniform bool line;
uniform float grain;
out vec4 paint;
float hatch(float wide) { return fract((gl_FragCoord.x + gl_FragCoord.y) / (wide * grain)); }
void main() {
  if (beyond > 0.0) discard;
  if (line) { paint = vec4(ink, 1.0); return; }
  if (!gl_FrontFacing) {
    paint = vec4(mix(vec3(0.80, 0.42, 0.34), vec3(0.92, 0.64, 0.55), step(0.5, hatch(9.0))), 1.0);
    return;
  }
  vec3 n = normalize(facing);
  vec3 base = colour.rgb;
  if (kind.w > 1.5) base = mix(base, vec3(1.0), 0.55 * step(0.62, hatch(10.0)));
  else if (kind.w > 0.5) base = mix(base, vec3(1.0), 0.30 * step(0.74, hatch(17.0)));
  if (sheet.x >= 0.0) base = mix(base, ink, texture(digits, sheet).r);
  float sky = 0.5 + 0.5 * n.y;
  float key = max(dot(n, vec3(0.36, 0.72, 0.60)), 0.0);
  float shine = max(dot(n, vec3(0.20, 0.40, 0.89)), 0.0);
  shine *= shine; shine *= shine; shine *= shine; shine *= shine; shine *= shine;
  float edge = 1.0 - max(n.z, 0.0);
  edge *= edge * edge;
  vec3 lit = base * (0.40 + 0.26 * sky + 0.52 * key) * mix(vec3(1.0, 0.965, 0.90), vec3(0.93, 0.97, 1.0), sky) + vec3(0.30 * shine - 0.10 * edge);
  if (kind.y > 0.5) lit = mix(lit, paper, 0.42);
  paint = vec4(lit, colour.a < 1.0 ? colour.a + 0.30 * edge + 0.2 * shine : 1.0);
}`;
const SHEET = [1280, 160];

// A stage in `document`, or {why}: the reason why there is none, in words.
export function openStage(document) {
  const canvas = document.createElement("canvas");
  let gl = null;
  try {
    gl = canvas.getContext("webgl2", {antialias: false, alpha: true, premultipliedAlpha: false, preserveDrawingBuffer: false});
  } catch { gl = null; }
  if (!gl) return {why: "this browser gives no WebGL, which draws solids"};
  const stage = new Stage(canvas, gl, document);
  const lost = (event) => {
    event.preventDefault();
    stage.lost = true;
  };
  canvas.addEventListener("webglcontextlost", lost);
  canvas.addEventListener("webglcontextrestored", () => {
    stage.begin();
    for (const view of stage.waiting) view();
  });
  return stage;
}

class Stage {
  constructor(canvas, gl, document) {
    Object.assign(this, {canvas, gl, document, waiting: new Set(), machines: new Map(), calls: 0, triangles: 0});
    this.begin();
  }

  // Everything that a context holds; done anew when one was lost and is given back.
  begin() {
    const {gl} = this;
    this.lost = false;
    this.kinds = new Map();
    const program = gl.createProgram();
    for (const [type, source] of [[gl.VERTEX_SHADER, VERTEX], [gl.FRAGMENT_SHADER, FRAGMENT]]) {
      const shader = gl.createShader(type);
      gl.shaderSource(shader, source);
      gl.compileShader(shader);
      gl.attachShader(program, shader);
    }
    gl.linkProgram(program);
    if (!gl.getProgramParameter(program, gl.LINK_STATUS) && !gl.isContextLost()) throw new Error(gl.getProgramInfoLog(program));
    gl.useProgram(program);
    this.at = Object.fromEntries(["view", "lens", "swell", "digits", "cut", "paper", "ink", "line", "grain"].map((name) => [name, gl.getUniformLocation(program, name)]));
    gl.enable(gl.DEPTH_TEST);
    this.#sheet();
  }

  // The digits 0 to 9 in a row, drawn once.
  #sheet() {
    const {gl} = this;
    const sheet = this.document.createElement("canvas");
    [sheet.width, sheet.height] = SHEET;
    const pen = sheet.getContext("2d");
    pen.fillStyle = "#000";
    pen.fillRect(0, 0, ...SHEET);
    pen.fillStyle = "#fff";
    pen.font = '600 132px "Iowan Old Style", "Palatino Linotype", Palatino, P052, "Book Antiqua", "DejaVu Serif", serif';
    pen.textAlign = "center";
    pen.textBaseline = "middle";
    for (let digit = 0; digit < 10; digit += 1) pen.fillText(String(digit), 128 * digit + 64, 86, 112);
    gl.bindTexture(gl.TEXTURE_2D, gl.createTexture());
    gl.pixelStorei(gl.UNPACK_FLIP_Y_WEBGL, true);
    gl.texImage2D(gl.TEXTURE_2D, 0, gl.RGBA, gl.RGBA, gl.UNSIGNED_BYTE, sheet);
    gl.generateMipmap(gl.TEXTURE_2D);
    gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_MIN_FILTER, gl.LINEAR_MIPMAP_LINEAR);
    gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_WRAP_S, gl.CLAMP_TO_EDGE);
    gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_WRAP_T, gl.CLAMP_TO_EDGE);
  }

  // The meshes of a machine on the card, made when they are first drawn. `key` names the machine.
  #uploaded(key, makeMeshes) {
    if (this.kinds.has(key)) return this.kinds.get(key);
    const {gl} = this;
    if (!this.machines.has(key)) this.machines.set(key, Object.entries(makeMeshes()).map(([name, mesh]) => [name, indexed(mesh)]));
    const kinds = new Map();
    for (const [name, {corners, index}] of this.machines.get(key)) {
      const array = gl.createVertexArray();
      gl.bindVertexArray(array);
      gl.bindBuffer(gl.ARRAY_BUFFER, gl.createBuffer());
      gl.bufferData(gl.ARRAY_BUFFER, corners, gl.STATIC_DRAW);
      gl.bindBuffer(gl.ELEMENT_ARRAY_BUFFER, gl.createBuffer());
      gl.bufferData(gl.ELEMENT_ARRAY_BUFFER, index, gl.STATIC_DRAW);
      [[0, 3, 0], [1, 3, 12], [2, 2, 24]].forEach(([where, size, offset]) => {
        gl.enableVertexAttribArray(where);
        gl.vertexAttribPointer(where, size, gl.FLOAT, false, 32, offset);
      });
      kinds.set(name, {array, corners: index.length, copies: gl.createBuffer()});
    }
    this.kinds.set(key, kinds);
    return kinds;
  }

  #point(kind, first) {
    const {gl} = this;
    gl.bindBuffer(gl.ARRAY_BUFFER, kind.copies);
    for (let i = 0; i < 4; i += 1) {
      gl.enableVertexAttribArray(3 + i);
      gl.vertexAttribPointer(3 + i, 4, gl.FLOAT, false, COPY * 4, first * COPY * 4 + i * 16);
      gl.vertexAttribDivisor(3 + i, 1);
    }
  }

  // Draw a scene at a size in pixels. seen: {view, lens}; cut: [x, y, z, distance] or null. Returns the stage's canvas.
  draw({key, meshes, lists}, {view, lens}, [width, height], {cut, paper, ink}) {
    const {gl, canvas, at} = this;
    if (canvas.width < width || canvas.height < height) [canvas.width, canvas.height] = [Math.max(width, canvas.width), Math.max(height, canvas.height)];
    const kinds = this.#uploaded(key, meshes);
    gl.viewport(0, canvas.height - height, width, height);
    gl.enable(gl.SCISSOR_TEST);
    gl.scissor(0, canvas.height - height, width, height);
    gl.depthMask(true);
    gl.clearColor(0, 0, 0, 0);
    gl.clear(gl.COLOR_BUFFER_BIT | gl.DEPTH_BUFFER_BIT);
    gl.uniformMatrix4fv(at.view, false, view);
    gl.uniformMatrix4fv(at.lens, false, lens);
    gl.uniform4fv(at.cut, cut ?? [0, 0, 0, 1e9]);
    gl.uniform3fv(at.paper, paper);
    gl.uniform1f(at.grain, height / 480);
    gl.uniform3fv(at.ink, ink);
    [this.calls, this.triangles] = [0, 0];
    for (const list of lists) {
      const kind = kinds.get(list.mesh);
      const count = list.solid + list.glass;
      if (!count) continue;
      gl.bindVertexArray(kind.array);
      gl.bindBuffer(gl.ARRAY_BUFFER, kind.copies);
      gl.bufferData(gl.ARRAY_BUFFER, list.copies.subarray(0, count * COPY), gl.DYNAMIC_DRAW);
    }
    this.#pass(kinds, lists, {cull: cut ? null : gl.BACK, first: () => 0, count: (list) => list.solid});
    gl.uniform1i(at.line, 1);
    gl.uniform1f(at.swell, 0.045);
    this.#pass(kinds, lists, {cull: gl.FRONT, first: (list) => list.solid - list.marked, count: (list) => list.marked});
    gl.uniform1i(at.line, 0);
    gl.uniform1f(at.swell, 0);
    gl.enable(gl.BLEND);
    gl.blendFuncSeparate(gl.SRC_ALPHA, gl.ONE_MINUS_SRC_ALPHA, gl.ONE, gl.ONE_MINUS_SRC_ALPHA);
    gl.depthMask(false);
    this.#pass(kinds, lists, {cull: gl.BACK, first: (list) => list.solid, count: (list) => list.glass});
    gl.disable(gl.BLEND);
    gl.bindVertexArray(null);
    return canvas;
  }

  #pass(kinds, lists, {cull, first, count}) {
    const {gl} = this;
    if (cull === null) gl.disable(gl.CULL_FACE);
    else {
      gl.enable(gl.CULL_FACE);
      gl.cullFace(cull);
    }
    for (const list of lists) {
      const copies = count(list);
      if (!copies) continue;
      const kind = kinds.get(list.mesh);
      gl.bindVertexArray(kind.array);
      this.#point(kind, first(list));
      gl.drawElementsInstanced(gl.TRIANGLES, kind.corners, gl.UNSIGNED_INT, 0, copies);
      this.calls += 1;
      this.triangles += copies * kind.corners / 3;
    }
  }
}
