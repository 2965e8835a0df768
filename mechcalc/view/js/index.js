// The widget: wires a view to its model and cleans up after it.

import {openView} from "./view.js";

// anywidget's entry. The model holds `scene` (Python's data), `travel` (where the playhead rests) and `large`.
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
  };
  const given = {data: model.get("scene"), travel: live ? undefined : model.get("travel"), large: model.get("large"),
    level: model.get("level")};
  const view = openView(root, given, report);
  const taken = () => view.take(model.get("scene"));
  const heard = (message) => view.heard(message);
  const sought = () => view.goTo(model.get("travel"));
  const enlarged = () => view.enlarge(model.get("large"));
  const heeds = [["change:scene", taken], ["msg:custom", heard], ["change:travel", sought], ["change:large", enlarged]];
  for (const [event, listener] of heeds) model.on(event, listener);
  return () => {
    for (const [event, listener] of heeds) model.off(event, listener);
    view.remove();
    root.remove();
  };
}
