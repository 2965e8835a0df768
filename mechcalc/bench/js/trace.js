// The page of a tracing session: draws what Python sends, keeps what is typed, and says what is asked for.
// Nothing of the mechanism or of the reasoning is known here.

let pages = 0;

function tag(parent, name, {text, on, ...attributes} = {}) {
  const node = parent.ownerDocument.createElement(name);
  for (const key in attributes) {
    if (attributes[key] !== false && attributes[key] !== null) node.setAttribute(key, attributes[key] === true ? "" : attributes[key]);
  }
  if (text !== undefined) node.textContent = text;
  for (const event in on) node.addEventListener(event, on[event]);
  parent.appendChild(node);
  return node;
}

// Steps, numbered through, each to be ticked off.
function drawSteps(parent, steps, start, draft, offset) {
  const list = tag(parent, "ol", {start, class: "steps"});
  steps.forEach((words, index) => {
    const label = tag(tag(list, "li"), "label");
    const box = tag(label, "input", {type: "checkbox", on: {change: () => { draft.ticks[offset + index] = box.checked; }}});
    box.checked = Boolean(draft.ticks[offset + index]);
    tag(label, "span", {text: ` ${words}`});
  });
}

function drawDigits(parent, field, id, entry) {
  const box = tag(parent, "div", {class: "field"});
  tag(box, "label", {for: id, text: field.label});
  const ruler = Array.from({length: field.places}, (_, place) => (field.places - place) % 10).join("");
  tag(box, "span", {class: "ruler", text: ruler, "aria-hidden": "true"});
  const input = tag(box, "input", {type: "text", id, inputmode: "numeric", autocomplete: "off", spellcheck: "false", class: "digits",
    style: `width: ${field.places * 1.35 + 1.5}ch`, "aria-describedby": `${id}-hint ${id}-problem`,
    on: {input: () => { entry[field.key] = input.value; }}});
  input.value = entry[field.key] ?? "";
  tag(box, "span", {class: "hint", id: `${id}-hint`, text: `${field.places} digits, from left to right; leave empty what you did not read`});
  tag(box, "p", {class: "problem", id: `${id}-problem`, hidden: true});
}

function drawAnswer(parent, field, id, entry) {
  const box = tag(parent, "fieldset", {class: "field answer"});
  tag(box, "legend", {text: field.label});
  for (const [value, words] of [["yes", "yes"], ["no", "no"], ["", "not noticed"]]) {
    const label = tag(box, "label");
    const radio = tag(label, "input", {type: "radio", name: id, value, on: {change: () => { entry[field.key] = value; }}});
    radio.checked = (entry[field.key] ?? "") === value;
    tag(label, "span", {text: ` ${words}`});
  }
}

// The windows of the simulated machine.
function drawWindows(parent, fields, windows) {
  const box = tag(parent, "div", {class: "windows", role: "group", "aria-label": "The machine's windows"});
  for (const field of fields) {
    const shows = windows[field.key];
    if (shows === "") continue;
    const row = tag(box, "div", {"data-window": field.key});
    tag(row, "span", {class: "name", text: `${field.label} `});
    const value = tag(row, "span", {class: "value"});
    if (field.kind === "digits") {
      tag(value, "span", {class: "unseen", text: [...shows].join(" ")});
      for (const digit of shows) tag(value, "b", {text: digit, "aria-hidden": "true"});
    } else {
      tag(value, "span", {text: shows});
    }
  }
}

// The page in `root`; send(message) goes to Python. Returns take(page), heard(message).
function openPage(root, send) {
  const own = `trace-${++pages}`;
  const drafts = new Map();
  const draftOf = (name) => {
    if (!drafts.has(name)) drafts.set(name, {ticks: [], entries: []});
    return drafts.get(name);
  };
  const status = tag(root, "p", {role: "status", class: "status"});
  const body = tag(root, "div", {class: "body"});
  let page = null;
  let cautions = true;  // unfolded, until somebody folds them

  const busy = (is) => {
    root.setAttribute("aria-busy", String(is));
    for (const button of body.querySelectorAll("button")) {
      if (is) button.setAttribute("aria-disabled", "true");
      else button.removeAttribute("aria-disabled");
    }
  };
  const ask = (message) => {
    if (root.getAttribute("aria-busy") === "true") return;
    busy(true);
    status.textContent = "One moment: it is being worked out.";
    send(message);
  };
  const button = (parent, name, words, message, main) => tag(parent, "button", {type: "button", "data-act": name, text: words,
    class: main ? "main" : null, on: {click: () => ask(message())}});
  const section = (parent, name, words) => {
    const box = tag(parent, "section", {class: name, "aria-labelledby": `${own}-${name}`});
    tag(box, "h3", {id: `${own}-${name}`, text: words, tabindex: "-1"});
    return box;
  };

  // For a machine on the table: what can hurt, before the first step.
  function drawCautions(parent) {
    if (!page.cautions?.length) return;
    const box = tag(parent, "details", {class: "cautions", open: cautions, on: {toggle: () => { cautions = box.open; }}});
    tag(box, "summary", {text: "Cautions"});
    const list = tag(box, "ul");
    for (const words of page.cautions.slice(0, -1)) tag(list, "li", {text: words});
    tag(box, "p", {class: "small", text: page.cautions.at(-1)});
  }

  function drawTest(parent) {
    const test = page.test;
    const box = section(parent, "test", test ? `Next test: ${test.name}` : "No further test");
    tag(box, "p", {class: "why", text: page.advice});
    if (!test) return;
    const draft = draftOf(test.name);
    if (test.looksAt) tag(box, "p", {text: `It looks at: ${test.looksAt}.`});
    tag(box, "p", {class: "small", text: test.before});
    if (page.coupled) {
      const act = button(box, "machine", page.windows ? "The machine has done it" : "Do it on the machine", () => ({do: "machine"}), !page.windows);
      act.disabled = Boolean(page.windows);
    }
    let offset = 0;
    test.parts.forEach((part, reading) => {
      drawSteps(box, part.steps, offset + 1, draft, offset);
      offset += part.steps.length;
      const entry = (draft.entries[reading] ??= {});
      const fields = tag(box, "div", {class: "reading", role: "group", "aria-label": `Reading ${reading + 1} of ${test.parts.length}`});
      tag(fields, "p", {class: "ask", text: test.parts.length > 1 ? `Reading ${reading + 1} of ${test.parts.length}. What do the windows show?` : "What do the windows show?"});
      if (page.windows) drawWindows(fields, part.fields, page.windows[reading]);
      for (const field of part.fields) {
        const id = `${own}-${reading}-${field.key}`;
        (field.kind === "digits" ? drawDigits : drawAnswer)(fields, field, id, entry);
      }
    });
    tag(box, "p", {class: "small", text: `Afterwards: ${test.after}`});
    const row = tag(box, "div", {class: "row"});
    button(row, "record", "Record", () => ({do: "record", test: test.name, entries: draft.entries}), true);
    if (page.windows) tag(row, "button", {type: "button", "data-act": "fill", text: "Fill in for me", on: {click: () => {
      draft.entries = page.windows.map((shows) => ({...shows}));
      draw();
      status.textContent = "Filled in. Look it over, and record it.";
      root.querySelector("[data-act=record]").focus();
    }}});
  }

  function drawChoice(parent) {
    const row = tag(parent, "div", {class: "row choice"});
    tag(row, "label", {for: `${own}-choice`, text: "Another test "});
    const select = tag(row, "select", {id: `${own}-choice`});
    for (const test of page.tests) tag(select, "option", {value: test.name, text: test.words, selected: page.test?.name === test.name});
    button(row, "choose", "Take this test", () => ({do: "choose", test: select.value}));
  }

  function drawLeft(parent) {
    const box = section(parent, "left", "What explains everything that was read");
    tag(box, "p", {class: page.left.count ? "count" : "count none", text: page.left.words});
    const list = page.left.groups.length ? tag(box, "ol", {class: "groups"}) : null;
    page.left.groups.forEach((group, number) => {
      const item = tag(list, "li");
      const line = tag(item, "div", {class: "share"});
      tag(line, "span", {class: "percent", text: group.percent});
      const bar = tag(line, "span", {class: "bar", "aria-hidden": "true"});
      tag(bar, "span", {style: `width: ${Math.max(0.5, 100 * group.share)}%`});
      if (group.alike) tag(item, "p", {class: "small", text: "No test tells these apart:"});
      for (const words of group.words) tag(item, "p", {class: "said", text: words});
      if (page.judged) button(item, "judge", "This is my answer", () => ({do: "judge", group: number})).setAttribute("aria-label", `This is my answer: ${group.words[0]}`);
    });
    if (page.left.more) tag(box, "p", {text: page.left.more});
    if (page.left.closest.length) {
      tag(box, "p", {text: "Closest, and where each differs:"});
      const near = tag(box, "ul", {class: "closest"});
      for (const one of page.left.closest) tag(near, "li", {text: one.words});
      tag(box, "p", {text: "Look the readings over: take back what may have been misread. Or something is wrong that the kit does not know."});
    }
    tag(box, "p", {class: "verdict", "data-verdict": "", hidden: true});
  }

  function drawDone(parent) {
    const box = section(parent, "done", "Done so far");
    if (!page.done.length) {
      tag(box, "p", {text: "Nothing yet."});
      return;
    }
    const list = tag(box, "ol");
    for (const test of page.done) {
      const item = tag(list, "li");
      tag(item, "span", {text: `${test.name} (${test.steps})`});
      for (const reading of test.readings) tag(item, "p", {class: "said", text: reading});
    }
    button(box, "back", "Take the last one back", () => ({do: "back"}));
  }

  function draw() {
    body.replaceChildren();
    tag(body, "h2", {text: `Tracing a fault: ${page.machine}`});
    if (page.told) tag(body, "p", {text: page.told});
    if (page.file) tag(body, "p", {class: "small", text: `Kept in ${page.file}`});
    drawCautions(body);
    const columns = tag(body, "div", {class: "columns"});
    const one = tag(columns, "div");
    drawTest(one);
    drawChoice(one);
    const other = tag(columns, "div");
    drawLeft(other);
    drawDone(other);
  }

  function problems(found) {
    for (const node of body.querySelectorAll(".problem")) node.hidden = true;
    for (const node of body.querySelectorAll("[aria-invalid]")) node.removeAttribute("aria-invalid");
    for (const {reading, field, says} of found) {
      const id = `${own}-${reading}-${field}`;
      const input = body.querySelector(`#${id}`);
      const words = body.querySelector(`#${id}-problem`);
      if (!input || !words) continue;
      input.setAttribute("aria-invalid", "true");
      words.textContent = says;
      words.hidden = false;
    }
    body.querySelector("[aria-invalid]")?.focus();
  }

  return {
    take(given) {
      const first = page === null;
      page = given;
      if (page.recorded) drafts.delete(page.recorded);
      if (page.draft) drafts.set(page.draft.test, {ticks: [], entries: page.draft.entries.map((entry) => ({...entry}))});
      draw();
      busy(false);
      status.textContent = page.said;
      if (!first) (body.querySelector(page.windows ? ".digits" : ".test h3"))?.focus();
    },
    heard(message) {
      busy(false);
      status.textContent = message.said;
      problems(message.problems);
      const verdict = body.querySelector("[data-verdict]");
      if (message.verdict && verdict) {
        verdict.textContent = message.verdict;
        verdict.hidden = false;
        root.ownerDocument.activeElement?.closest(".mechcalc-trace .groups > li")?.append(verdict);  // in sight of the button
      }
    },
  };
}

// anywidget's entry. The model holds `page`.
function render({model, el}) {
  const root = tag(el, "div", {class: "mechcalc-trace", "data-lm-suppress-shortcuts": "true"});
  const still = new AbortController();
  root.addEventListener("keydown", (event) => event.stopPropagation(), {signal: still.signal});
  const page = openPage(root, (message) => model.send(message));
  const taken = () => page.take(model.get("page"));
  const heard = (message) => page.heard(message);
  model.on("change:page", taken);
  model.on("msg:custom", heard);
  taken();
  return () => {
    model.off("change:page", taken);
    model.off("msg:custom", heard);
    still.abort();
    root.remove();
  };
}

export default {render};
