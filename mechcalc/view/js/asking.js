// The question under the picture: a place to write what is foretold, and what was foretold beside what came.

import {outcomeWords, readPrediction} from "./questions.js";
import {tag} from "./html.js";

// The band of questions inside `parent`. does.foretell(question, digits) is called when a prediction is confirmed,
// does.toStage() when the focus goes back to the picture. Returns show({question, waiting, results}) and focus(), which
// says whether there was something to write in.
export function buildAsking(parent, does, signal) {
  const box = tag(parent, "section", {class: "asking", "aria-label": "Prediction"});
  const form = buildForm(box, does, signal);
  const wait = tag(box, "p", {class: "awaited", hidden: true});
  const outcome = buildOutcome(box);
  return {
    show({question, waiting, results}) {
      form.put(question);
      wait.hidden = question !== null || !waiting.length;
      const words = waiting.map(({foretold, to}) => `You foretold ${foretold}. ${to === null ? "Now turn: the" : "The"} shutter opens when it is done.`).join(" ");
      if (wait.textContent !== words) wait.textContent = words;
      outcome.put(results);
    },
    focus: form.focus,
  };
}

function buildForm(parent, does, signal) {
  let asked = null;
  const form = tag(parent, "form", {class: "foretelling", hidden: true, signal, on: {submit: (event) => {
    event.preventDefault();
    const {digits, problem: wrong} = readPrediction(entry.value, asked.parts.length);
    problem.textContent = wrong ?? "";
    entry.setAttribute("aria-invalid", String(Boolean(wrong)));
    if (wrong) entry.focus();
    else {
      const question = asked;
      entry.value = "";
      does.toStage();
      does.foretell(question, digits);
    }
  }}});
  const label = tag(form, "label", {});
  const words = tag(label, "span", {class: "question"});
  const problemId = `problem-${Math.random().toString(36).slice(2, 9)}`;
  const entry = tag(label, "input", {type: "text", inputmode: "numeric", autocomplete: "off", size: 8,
    "aria-describedby": problemId, signal, on: {keydown: (event) => {
      if (event.key === "Escape") does.toStage();
    }}});
  tag(form, "button", {type: "submit", text: "foretell", "data-act": "foretell"});
  const problem = tag(form, "span", {class: "problem", id: problemId, role: "alert"});
  return {
    put(question) {
      if (asked?.id === question?.id && asked?.ask === question?.ask) return;
      if (asked?.id !== question?.id) problem.textContent = "";
      asked = question;
      form.hidden = question === null;
      if (question) {
        words.textContent = question.ask;
        entry.size = Math.max(3, question.parts.length);
      }
    },
    focus() {
      if (!asked) return false;
      entry.focus();
      return true;
    },
  };
}

// The latest prediction beside what came, digit under digit; those before it in a list that can be opened.
function buildOutcome(parent) {
  const box = tag(parent, "div", {class: "outcome", hidden: true});
  const rows = tag(box, "div", {class: "rows", "aria-hidden": "true"});
  const words = tag(box, "p", {});
  const more = tag(box, "details", {});
  const summary = tag(more, "summary", {});
  const list = tag(more, "ol", {});
  let shown = "";
  return {
    put(results) {
      const key = results.map(({id}) => id).join();
      if (key === shown) return;
      shown = key;
      box.hidden = !results.length;
      if (!results.length) return;
      const last = results.at(-1);
      words.textContent = outcomeWords(last);
      drawRows(rows, last);
      more.hidden = results.length < 2;
      summary.textContent = `all predictions (${results.length})`;
      list.textContent = "";
      for (const one of results) tag(list, "li", {text: `${one.about}: ${outcomeWords(one)}`});
    },
  };
}

function drawRows(parent, {foretold, happened}) {
  parent.textContent = "";
  const places = Math.max(foretold.length, happened.length);
  const [said, came] = [foretold, happened].map((text) => text.padStart(places, " "));
  for (const [name, digits] of [["foretold", said], ["came", came]]) {
    const row = tag(parent, "div", {class: "row-of-digits"});
    tag(row, "span", {class: "row-name", text: name});
    for (let i = 0; i < places; i += 1) {
      tag(row, "span", {class: said[i] === came[i] ? "figure" : "figure other", text: digits[i]});
    }
  }
}
