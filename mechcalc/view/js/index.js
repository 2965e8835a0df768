// The widget: wires a view to its model and cleans up after it.

import {openView} from "./view.js";

// anywidget's entry. The model holds `scene` (Python's data), `travel` (where the playhead rests), `answers` (what was
// foretold), `large`, `waits` and `level`.
export function render({model, el}) {
  const root = el.ownerDocument.createElement("div");
  el.appendChild(root);
  const live = model.get("scene").live;
  const report = {
    operate: (operation, argument) => model.send({operation, argument}),
    seek(travel) {
      if (live || Math.abs(model.get("travel") - travel) < 1e-6) return;
      model.set("travel", travel);
      model.save_changes();
    },
    answer(answers) {
      model.set("answers", answers);
      model.save_changes();
    },
  };
  const given = {data: model.get("scene"), travel: live ? undefined : model.get("travel"), large: model.get("large"),
    level: model.get("level"), answers: model.get("answers"), waits: model.get("waits")};
  const view = openView(root, given, report);
  const taken = () => view.take(model.get("scene"));
  const heard = (message) => view.heard(message);
  const sought = () => view.goTo(model.get("travel"));
  const enlarged = () => view.enlarge(model.get("large"));
  const answered = () => view.answered(model.get("answers"));
  const heeds = [["change:scene", taken], ["msg:custom", heard], ["change:travel", sought], ["change:large", enlarged],
    ["change:answers", answered]];
  for (const [event, listener] of heeds) model.on(event, listener);
  return () => {
    for (const [event, listener] of heeds) model.off(event, listener);
    view.remove();
    root.remove();
  };
}
