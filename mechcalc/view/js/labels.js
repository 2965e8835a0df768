// Words on leader lines for the parts in action, and the note at a part that refuses.

import {add} from "./svg.js";

const PART_NAMES = {
  pin: "number pin", idler: "idler", wheel: "number wheel", lever: "carry lever", carrypin: "carry pin",
  counter: "counter wheel", setting: "setting lever", pawl: "pawl", lock: "setting lock", comb: "setting comb",
  transfer: "back-transfer lever", carriage: "carriage", bell: "bell", direction: "counter direction",
  clearing: "clearing lever", crank: "crank", stop: "carriage stop",
};
const MOST = 5;

// What a part is called, from its name in the tracks.
export function partName(part) {
  const [kind, side, place] = part.split("/");
  if (kind === "carrypin") return `carry pin ${side === "+" ? "+" : "−"}, place ${place}`;
  if (kind === "clearing") return `${side} clearing lever`;
  return side && kind !== "stop" && kind !== "pin" ? `${PART_NAMES[kind]} ${side}` : PART_NAMES[kind] ?? part;
}

// One part a kind, in the order in which they hand the motion on.
export function chosen(parts) {
  const order = ["lever", "carrypin", "pin", "idler", "wheel"];
  const seen = new Map();
  for (const part of parts) {
    const kind = part.split("/")[0];
    const sum = seen.get(kind);
    if (sum) sum.count += 1;
    else seen.set(kind, {kind, part, count: 1});
  }
  return [...seen.values()].sort((a, b) => order.indexOf(a.kind) - order.indexOf(b.kind)).slice(0, MOST);
}

// What a label says. Idlers that drive no wheel are in action without one: their steps go nowhere.
export function wordsFor({kind, part, count}, picks) {
  const words = count > 1 ? `${PART_NAMES[kind]}s` : partName(part);
  if (kind !== "idler") return words;
  const lost = count - (picks.find((pick) => pick.kind === "wheel")?.count ?? 0);
  if (lost <= 0) return words;
  return lost === count ? `${words}: no wheel opposite` : `${words}, ${lost} with no wheel opposite`;
}

// Where a part stands on the drawing, from its pose: what the leader points at.
export function placeOf(plan, part, pose) {
  const [kind, second, third] = part.split("/");
  const at = Number(third ?? second);
  const shifted = pose.carriage * plan.u;
  const middle = plan.drum.line;
  const spots = {
    idler: () => [plan.centre(at), middle], pin: () => [plan.centre(Number(second)), middle - plan.tooth * 0.2],
    carrypin: () => [plan.carryLane(at) + (pose[part] ?? 0) * (plan.centre(at) - plan.carryLane(at)), middle - plan.tooth * 0.2],
    lever: () => [plan.centre(at + 1) + 0.62 * plan.u + shifted, middle + (1 - (pose[part] ?? 0)) * plan.drop + 8],
    wheel: () => [plan.centre(at) + shifted, plan.carriage.wheelY + 4],
    counter: () => [plan.centre(at) + shifted, plan.carriage.counterY + plan.carriage.counter - 3],
    setting: () => [plan.centre(at) + plan.groove, plan.slots.top + (pose[part] ?? 0) * plan.slots.pitch],
    pawl: () => [plan.disc.x, plan.disc.y - plan.disc.r - 10], crank: () => [plan.disc.x, plan.disc.y - 20],
    lock: () => [plan.centre(1), plan.slots.bottom + 12], comb: () => plan.top.comb,
    transfer: () => plan.top.transfer,
    bell: () => plan.top.bell,
    carriage: () => [plan.centre(1) + shifted, plan.carriage.top], direction: () => [plan.centre(1), plan.bed + 12],
    clearing: () => [plan.right + 16 + shifted, second === "result" ? plan.carriage.wheelY + 30 : plan.carriage.counterY + 22],
    stop: () => [plan.right + plan.end - 12 + shifted, plan.bed],
  };
  return (spots[kind] ?? spots.crank)();
}

// Where each kind's words stand, above or below the idler line, so that they do not cover one another.
const LIFTS = {carrypin: -64, pin: -64, idler: -34, lever: 52, wheel: 84};

// The layer of labels inside `parent`: show(parts, pose) while parts are in action, refuse(part, words, pose).
export function buildLabels(parent, plan) {
  const layer = add(parent, "g", {class: "labels", "aria-hidden": "true"});
  let shown = "";
  return {
    show(parts, pose) {
      const picks = chosen(parts);
      const places = picks.map(({part}) => placeOf(plan, part, pose));
      const key = picks.map(({part, count}, i) => `${part}:${count}:${Math.round(places[i][0] / 2)},${Math.round(places[i][1] / 2)}`).join();
      if (key === shown) return;
      shown = key;
      layer.textContent = "";
      const right = Math.max(...places.map(([x]) => x), 0);
      picks.forEach(({kind, part, count}, i) => {
        label(layer, plan, kind, wordsFor({kind, part, count}, picks), places[i], kind in LIFTS ? right : places[i][0]);
      });
    },
  };
}

function label(layer, plan, kind, words, [x, y], right) {
  const size = plan.large ? 19 : 12.5;
  const width = words.length * size * 0.64 + 14;
  const height = size + 8;
  const flip = right + 0.62 * plan.u + width > plan.width - 4;
  const left = flip ? Math.max(4, x - 0.7 * plan.u - width) : right + 0.62 * plan.u;
  const top = (kind in LIFTS ? plan.drum.line + LIFTS[kind] : y + 22) - height / 2;
  const edge = flip ? left + width : left;
  add(layer, "path", {d: `M${x} ${y}L${edge} ${top + height / 2}`, class: "leader-back"});
  add(layer, "path", {d: `M${x} ${y}L${edge} ${top + height / 2}`, class: `leader role-${kind}`});
  add(layer, "circle", {cx: x, cy: y, r: 2.6, class: `dot role-${kind}`});
  add(layer, "rect", {x: left, y: top, width, height, rx: 3, class: `chip role-${kind}`});
  add(layer, "text", {x: left + width / 2, y: top + height / 2, class: "chip-word", "font-size": size}, words);
}
