// The questions of the form, step by step: each with its label, how to count, and room below for what is wrong.

import {tag} from "./html.js";

const CHOICES = {"yes or no": [["yes", "yes"], ["no", "no"], ["yes?", "yes, I think"], ["no?", "no, I think"]],
  choice: [["usual", "take the usual ones"], ["measured", "some were measured"]]};
const USUAL = {choice: "usual"};  // what an unanswered choice stands at
const KEYS = {count: "numeric", angle: "decimal", words: "text"};

// `steps` as Python tells them. Gives answers() by field, fill(answers), show(found) and focus(field).
export function buildSteps(root, steps, {prefix, changed, signal}) {
  const fields = {};
  steps.forEach((step, number) => {
    const box = tag(root, "fieldset", {class: "step"});
    tag(box, "legend", {text: `${number + 1}. ${step.title}`});
    for (const words of step.before) tag(box, "p", {class: "before", text: words});
    const row = tag(box, "div", {class: "side-by-side"});
    const left = tag(row, "div", {class: "questions"});
    for (const question of step.questions) {
      fields[question.field] = buildField(left, question, `${prefix}-${question.field}`, {changed, signal});
    }
    if (step.picture) tag(row, "div", {class: "picture"}).innerHTML = step.picture;
  });
  const asides = Object.values(fields).filter((field) => field.kind === "angle");
  const measured = () => { for (const field of asides) field.box.hidden = fields.angles.value() !== "measured"; };
  root.addEventListener("input", measured, {signal});
  return {
    answers: () => Object.fromEntries(Object.entries(fields).map(([name, field]) => [name, field.value()])),
    fill(answers) {
      for (const name in fields) fields[name].fill(answers[name] ?? USUAL[fields[name].kind] ?? "");
      measured();
    },
    show(found) {
      for (const name in fields) fields[name].show(found.problems[name] ?? [], found.beside[name] ?? "");
    },
    focus: (name) => fields[name]?.focus(),
  };
}

function buildField(parent, question, id, {changed, signal}) {
  const box = tag(parent, "div", {class: "field", "data-field": question.field});
  const answer = question.kind in CHOICES ? buildChoice(box, question, id, {changed, signal})
    : buildText(box, question, id, {changed, signal});
  const wrong = tag(box, "div", {class: "wrong", id: `${id}-wrong`});
  tag(box, "p", {class: "how", id: `${id}-how`, text: question.how});
  return {
    box, kind: question.kind, ...answer,
    show(problems, beside) {
      const lines = [...problems.map((text) => ["Not right: ", text]), ...(beside ? [["See also: ", beside]] : [])];
      const now = JSON.stringify(lines);
      if (wrong.dataset.lines === now) return;
      wrong.dataset.lines = now;
      wrong.textContent = "";
      for (const [head, text] of lines) {
        const line = tag(wrong, "p");
        tag(line, "strong", {text: head});
        line.append(text);
      }
      answer.mark(problems.length > 0);
    },
  };
}

function buildText(box, question, id, {changed, signal}) {
  tag(box, "label", {for: id, text: question.ask});
  const input = tag(box, "input", {id, type: "text", inputmode: KEYS[question.kind], autocomplete: "off",
    spellcheck: question.kind === "words" ? null : "false", class: question.kind, maxlength: 400,
    "aria-describedby": `${id}-wrong ${id}-how`, on: {input: changed}, signal});
  return {
    value: () => input.value,
    fill(text) {
      if (input.value !== text && input !== input.ownerDocument.activeElement) input.value = text;
    },
    mark: (bad) => input.setAttribute("aria-invalid", String(bad)),
    focus: () => input.focus(),
  };
}

function buildChoice(box, question, id, {changed, signal}) {
  tag(box, "div", {class: "label", id: `${id}-ask`, text: question.ask});
  const group = tag(box, "div", {class: "choice", role: "radiogroup", "aria-labelledby": `${id}-ask`,
    "aria-describedby": `${id}-wrong ${id}-how`});
  const radios = CHOICES[question.kind].map(([value, words], number) => {
    const label = tag(group, "label", {for: `${id}-${number}`});
    const radio = tag(label, "input", {id: `${id}-${number}`, type: "radio", name: id, value, on: {input: changed}, signal});
    label.append(` ${words}`);
    return radio;
  });
  return {
    value: () => radios.find((radio) => radio.checked)?.value ?? "",
    fill(text) {
      for (const radio of radios) radio.checked = radio.value === text;
    },
    mark: (bad) => group.setAttribute("aria-invalid", String(bad)),
    focus: () => (radios.find((radio) => radio.checked) ?? radios[0]).focus(),
  };
}
