// Making HTML nodes.

// A new element inside `parent`. Attributes by name; `text` for its words; `on` a map of listeners.
export function tag(parent, name, {text, on, signal, ...attributes} = {}) {
  const node = parent.ownerDocument.createElement(name);
  for (const key in attributes) {
    if (attributes[key] !== false && attributes[key] !== null) node.setAttribute(key, attributes[key] === true ? "" : attributes[key]);
  }
  if (text !== undefined) node.textContent = text;
  for (const event in on) node.addEventListener(event, on[event], {signal});
  parent.appendChild(node);
  return node;
}
