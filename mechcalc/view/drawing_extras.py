"""What a still shows only where it matters: marks on faulty parts, and the levers that clear and transfer.

Only this file decides how those look in a still. A fault is marked by a striped collar round its part and a lettered
tag; the stripes are black on white, so that they need no colour. What is gone is drawn as an empty hole.
"""

from __future__ import annotations

from math import cos, radians, sin
from typing import Any

from mechcalc.view.drawing import (
    COLUMN,
    DROP,
    INK,
    IVORY,
    PLATE,
    QUIET,
    WINDOW,
    Shape,
    Words,
    _Sheet,
    box,
    line,
    ring,
)
from mechcalc.view.pose import stroke_at

Items = list[Shape | Words]
Spot = tuple[float, float, float, float]  # middle, width, height
GONE = ("carry pin gone", "number pin gone")
AT_WORK = {"clear result": ("clearing/result",), "clear counter": ("clearing/counter",),
           "transfer lever": ("transfer",), "back transfer": ("transfer", "clearing/result")}
ARM = 26.0
STRIPE = 7.0


def spot_of(sheet: _Sheet, part: str) -> Spot | None:
    """Where a part is on a sheet, and how large; None while it is out of sight."""
    kind, _, rest = part.partition("/")
    place = int(rest.split("/")[-1]) if rest else 1
    shifted = sheet.pose["carriage"] * COLUMN
    windows = sheet.top + WINDOW + 12 + sheet.pose["lift"] * 9
    crank = sheet.right + 0.5 * (sheet.width - sheet.right) + 22
    if kind in ("pin", "carrypin"):
        return _pin_spot(sheet, part)
    fixed: dict[str, Spot] = {
        "wheel": (sheet.x(place) + shifted, windows + 32, 41, 53),
        "counter": (sheet.x(place) + shifted, windows + 79, 41, 39), "idler": (sheet.x(place), sheet.middle, 33, 41),
        "setting": (sheet.x(place), 58 + 6 * sheet.pose.get(part, 0), 28, 14),
        "direction": (sheet.x(1), sheet.top + WINDOW + 130, 22, 20), "pawl": (crank, sheet.top + 24, 26, 20),
        "lock": (sheet.x(1), 114, 30, 12)}
    if kind == "lever":
        return (sheet.x(place + 1) + 0.6 * COLUMN + shifted - 3, sheet.middle + (1 - sheet.pose[part]) * DROP, 24, 34)
    return fixed.get(kind)


def _pin_spot(sheet: _Sheet, part: str) -> Spot | None:
    kind, first, last = part.split("/")
    if kind == "pin":
        y = sheet._y(sheet.machine["numberPins"][int(last) - 1])
        return None if y is None else (sheet.x(int(first)), y, 29, 15)
    contact = next(angle for place, angle in sheet.machine["carryPins"][first] if place == int(last))
    y, lane, over = sheet._y(contact), sheet.lane(int(last)), sheet.pose[part]
    return None if y is None else (lane + over * (sheet.x(int(last)) - lane), y, 20, 20)


def fault_marks(sheet: _Sheet) -> Items:
    """Holes, collars and tags for the faults of a timeline."""
    items: Items = []
    taken: dict[str, int] = {}
    for fault in sheet.told.get("faults", []):
        spot = spot_of(sheet, fault["part"])
        if spot and fault["fault"] in GONE:
            items += _hole(spot, round_=fault["fault"] == "carry pin gone")
        if fault["fault"] == "idler tooth lost":
            items += _gap(sheet, fault)
        if spot:
            items += _collar(spot)
        stack = taken[fault["part"]] = taken.get(fault["part"], -1) + 1
        items += _tag(*_tag_place(sheet, fault["part"], spot), fault["letter"], stack)
    return items


def _hole(spot: Spot, *, round_: bool) -> Items:
    x, y, width, height = spot
    size = (width - 8, height - 6)
    return [box(x, y, *size, fill=IVORY, stroke=INK, pen=1, dashed=True),
            ring(x, y, 3.2 if round_ else 2.6, fill=INK)]


def _gap(sheet: _Sheet, fault: dict[str, Any]) -> Items:
    """The empty seat of a tooth that is lost, where the idler's turning has brought it."""
    wheel = fault["place"] + round(sheet.pose["carriage"])
    away = (sheet.pose.get(f"wheel/{wheel}", 0.0) - fault["tooth"] + 0.5 + 5) % 10 - 5
    if abs(away) > 1.4:
        return []
    return [box(sheet.x(fault["place"]), sheet.middle + 11 * away, 22, 7, fill=IVORY, stroke=INK, pen=1.2, dashed=True)]


def _collar(spot: Spot) -> Items:
    """A black band with white stripes."""
    x, y, width, height = spot
    left, top, right, bottom = x - width / 2, y - height / 2, x + width / 2, y + height / 2
    sides = (((left, top), (right, top)), ((right, top), (right, bottom)), ((right, bottom), (left, bottom)),
             ((left, bottom), (left, top)))
    stripes: Items = []
    for (x1, y1), (x2, y2) in sides:
        count = max(2, round((abs(x2 - x1) + abs(y2 - y1)) / STRIPE))
        for number in range(count):
            share, done = (number + 0.3) / count, (number + 0.75) / count
            stripes.append(line((x1 + (x2 - x1) * share, y1 + (y2 - y1) * share),
                                (x1 + (x2 - x1) * done, y1 + (y2 - y1) * done), stroke=IVORY, pen=2))
    return [box(x, y, width, height, pen=4.4), *stripes]


def _tag_place(sheet: _Sheet, part: str, spot: Spot | None) -> tuple[float, float]:
    """Tags of pins stand at the top of their lane, whether the pin is in sight or behind the drum."""
    kind = part.split("/")[0]
    if kind == "pin":
        return sheet.x(int(part.split("/")[1])), sheet.top - 9
    if kind == "carrypin":
        return sheet.lane(int(part.split("/")[2])), sheet.top - 9
    x, y, width, height = spot or (0.0, 0.0, 0.0, 0.0)
    return x + width / 2 + 9, y - height / 2 - (0 if kind in ("wheel", "counter") else 4)


def _tag(x: float, y: float, letter: str, stack: int) -> Items:
    x += 19 * stack
    return [box(x, y, 8 + 9 * len(letter), 17, fill=IVORY, stroke=INK, pen=1.8),
            Words(at=(x, y), text=letter, size=13, bold=True)]



def levers_at_work(sheet: _Sheet) -> Items:
    """The clearing levers and the back-transfer lever, where this stroke moves them or they are off their home."""
    index = stroke_at(sheet.told, sheet.travel)
    operation = sheet.told["strokes"][index]["operation"] if index is not None else ""
    busy = {name for name in ("clearing/result", "clearing/counter", "transfer") if sheet.pose[name]}
    busy |= set(AT_WORK.get(operation, ()))
    items: Items = []
    end = sheet.x(1) + 0.6 * COLUMN + sheet.pose["carriage"] * COLUMN
    windows = sheet.top + WINDOW + 12 + sheet.pose["lift"] * 9
    for name, y in (("clearing/result", windows + 40), ("clearing/counter", windows + 84)):
        if name in busy:
            items += [box(end + 12, y - 8, 24, 34, fill=PLATE, pen=1), *_handle(end + 12, y, sheet.pose[name] * 64)]
    if "transfer" in busy:
        x = sheet.x(1) + 78
        items += [*_handle(x, 62, sheet.pose["transfer"] * 70),
                  Words(at=(x, 82), text="back transfer", size=12, color=QUIET, slanted=True)]
    return items


def _handle(x: float, y: float, turned: float) -> Items:
    knob = (x + ARM * sin(radians(turned)), y - ARM * cos(radians(turned)))
    return [line((x, y), knob, pen=4, stroke="#9c8a5d"), ring(*knob, 6, fill="#c9a44c"),
            ring(x, y, 4, fill=IVORY, stroke=INK)]
