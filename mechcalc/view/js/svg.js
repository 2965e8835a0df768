// Making SVG nodes, and changing only what has changed.

const SVG = "http://www.w3.org/2000/svg";

// A new node inside `parent` with attributes; children are added by handing the node on.
export function add(parent, tag, attributes, text) {
  const node = parent.ownerDocument.createElementNS(SVG, tag);
  for (const name in attributes) node.setAttribute(name, attributes[name]);
  if (text !== undefined) node.textContent = text;
  parent.appendChild(node);
  return node;
}

// Set an attribute if it differs from what was set last.
export function put(node, name, value) {
  const now = typeof value === "number" ? Math.round(value * 100) / 100 : value;
  const last = (node.lastPut ??= {});
  if (last[name] === now) return;
  last[name] = now;
  node.setAttribute(name, now);
}

// Move a node from where it was built.
export function move(node, x, y) {
  put(node, "transform", `translate(${Math.round(x * 100) / 100} ${Math.round(y * 100) / 100})`);
}

// Change a node's words if they differ.
export function write(node, text) {
  const now = String(text);
  if (node.lastText === now) return;
  node.lastText = now;
  node.textContent = now;
}

// Add or take away a class.
export function mark(node, name, on) {
  const last = (node.lastMark ??= {});
  if (last[name] === on) return;
  last[name] = on;
  node.classList.toggle(name, on);
}

// A polygon's points from pairs.
export function points(...pairs) {
  return pairs.map(([x, y]) => `${Math.round(x * 100) / 100},${Math.round(y * 100) / 100}`).join(" ");
}
