// The end of the form: how the machine stands, its drum, what fits it, and the file.

import {tag} from "./html.js";

// Gives file(), fill(file), show(found) and say({words, good}).
export function buildOutcome(root, told, {prefix, changed, ask, signal}) {
  const box = tag(root, "fieldset", {class: "step outcome"});
  tag(box, "legend", {text: "How it stands"});
  const standing = tag(box, "p", {class: "standing", role: "status"});
  const open = tag(box, "ul", {class: "open"});
  const drum = tag(box, "div", {class: "drum"});
  const budget = tag(box, "p", {class: "budget"});
  const more = tag(box, "details", {class: "fits"});
  const fits = tag(more, "summary", {text: told.fitsLater});
  const table = tag(more, "div", {class: "table"});

  const save = tag(root, "fieldset", {class: "step saving"});
  tag(save, "legend", {text: "Its file"});
  tag(save, "label", {for: `${prefix}-file`, text: told.fileAsk});
  const file = tag(save, "input", {id: `${prefix}-file`, type: "text", autocomplete: "off", spellcheck: "false",
    maxlength: 400, "aria-describedby": `${prefix}-file-how`, on: {input: changed}, signal});
  tag(save, "p", {class: "how", id: `${prefix}-file-how`, text: told.fileHow});
  const over = tag(save, "label", {class: "over", for: `${prefix}-over`});
  const replace = tag(over, "input", {id: `${prefix}-over`, type: "checkbox"});
  over.append(" write over a file of this name");
  const buttons = tag(save, "p", {class: "buttons"});
  tag(buttons, "button", {type: "button", "data-act": "save", text: "Save", signal,
    on: {click: () => ask({act: "save", replace: replace.checked})}});
  tag(buttons, "button", {type: "button", "data-act": "anew", text: "Begin anew", signal,
    on: {click: () => ask({act: "anew"})}});
  const said = tag(save, "div", {class: "said", role: "status"});

  return {
    file: () => file.value,
    fill(name) {
      if (file.value !== name && file !== file.ownerDocument.activeElement) file.value = name;
    },
    show(found) {
      if (standing.textContent !== found.verdict) standing.textContent = found.verdict;  // it is read out when it changes
      const lines = JSON.stringify(found.lines);
      if (open.dataset.lines !== lines) {
        open.dataset.lines = lines;
        open.textContent = "";
        for (const line of found.lines) tag(open, "li", {text: line});
        open.hidden = !found.lines.length;
      }
      drum.innerHTML = found.drum;
      budget.textContent = found.budget;
      fits.textContent = found.fits || told.fitsLater;
      table.innerHTML = found.table;
    },
    say({words, good}) {
      said.textContent = "";
      said.classList.toggle("good", good);
      for (const line of words) tag(said, line.startsWith("    ") ? "pre" : "p", {text: line.trim()});
      replace.checked = false;
    },
  };
}
