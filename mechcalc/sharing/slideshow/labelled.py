"""A still with the parts that are in action named on it.

Only this file places these names: one for each kind of part, at the side that is nearer.
"""

from __future__ import annotations

from mechcalc.sharing.paper.named import SIZE, moved, pointed
from mechcalc.view.drawing import (
    COLUMN,
    DROP,
    INK,
    PAPER,
    WINDOW,
    Drawing,
    Point,
    Shape,
    Words,
    _Sheet,
    line,
    ring,
)
from mechcalc.view.timeline import Timeline
from mechcalc.words import listed

MARGIN, ASIDE, APART = 210.0, 290.0, 24.0  # units: at the left, by which the crank moves out of the way, between names
BESIDE = 64.0  # units from the drum to the names at its right: past the degrees
BELOW = ("number wheel", "counter wheel")
NAMES = {"wheel": ("number wheel", "number wheels"), "lever": ("carry lever of wheel", "carry levers of wheels"),
         "carrypin": ("carry pin of place", "carry pins of places"), "idler": ("idler of place", "idlers of places"),
         "counter": ("counter wheel", "counter wheels"), "setting": ("setting lever", "setting levers"),
         "pin": ("number pin of place", "number pins of places")}


def labelled(told: Timeline, travel: float) -> Drawing:
    """The still at a travel, with names.

    >>> from mechcalc import Machine, load_spec
    >>> from mechcalc.view import timeline_of
    >>> m = Machine(load_spec("slate"))
    >>> _ = m.set(9); _ = m.turn(2)
    >>> drawing = labelled(timeline_of(m), 30 + 360 + 233.5)
    >>> [item.text for item in drawing.items if isinstance(item, Words) and item.text.startswith("carry lever")]
    ['carry lever of wheel 1']
    """
    sheet = _Sheet(told, travel)
    sheet.width += ASIDE
    drawing = sheet.draw()
    items: list[Shape | Words] = list(drawing.items)
    middle = sheet.right - sheet.columns * COLUMN / 2
    rows = {"end": -1e9, "start": -1e9}
    for name, to in sorted(_acting(sheet).items(), key=lambda item: item[1][1]):
        if name.startswith(BELOW):
            items += _below(sheet, name, to)
            continue
        side = "end" if to[0] < middle else "start"
        rows[side] = y = max(to[1] - (30 if name.startswith("idler") else 8), rows[side] + APART)
        x = -18.0 if side == "end" else sheet.right + sheet.pose["carriage"] * COLUMN + BESIDE
        items += pointed(name, (x, y), side, to)
    return Drawing(drawing.width + MARGIN, drawing.height, tuple(moved(item, MARGIN) for item in items))


def _below(sheet: _Sheet, name: str, to: Point) -> list[Shape | Words]:
    """A wheel's leader runs under its row of windows, so that it crosses no digit."""
    level = to[1] + 3.5
    x = sheet.right + sheet.pose["carriage"] * COLUMN + BESIDE
    way = (to, (to[0], level), (x - 6, level))
    return [line(*way, stroke=PAPER, pen=3.6), line(*way, stroke=INK, pen=1.3),
            ring(*to, 2.6, fill=INK, stroke=PAPER, pen=0.8),
            Words(at=(x, level), text=name, size=SIZE, align="start", bold=True)]


def _acting(sheet: _Sheet) -> dict[str, Point]:
    """The name of each kind of part in action, and the point of the first of them."""
    found: dict[str, list[tuple[int, Point]]] = {}
    for part in sheet.moment["parts"]:
        kind, *where = part.split("/")
        if kind in NAMES:
            place = int(where[-1] if kind == "carrypin" else where[0])
            to = _point(sheet, kind, where)
            if to is not None and place not in (one for one, _ in found.get(kind, [])):
                found.setdefault(kind, []).append((place, to))
    told = {}
    for kind, places in found.items():
        places.sort()
        one, many = NAMES[kind]
        told[f"{many if len(places) > 1 else one} {listed(place for place, _ in places)}"] = places[0][1]
    return told


def _point(sheet: _Sheet, kind: str, where: list[str]) -> Point | None:
    """Where a part is on the sheet; None while it cannot be seen."""
    shifted = sheet.pose["carriage"] * COLUMN
    windows = sheet.top + WINDOW + 12 + sheet.pose["lift"] * 9
    if kind == "carrypin":
        sign, place = where[0], int(where[1])
        y = sheet._y(dict(map(tuple, sheet.machine["carryPins"][sign]))[place])
        over = sheet.pose[f"carrypin/{sign}/{place}"]
        return None if y is None else (sheet.lane(place) + over * (sheet.x(place) - sheet.lane(place)), y)
    place = int(where[0])
    if kind == "pin":
        y = sheet._y(sheet.machine["numberPins"][int(where[1]) - 1])
        return None if y is None else (sheet.x(place), y)
    out = sheet.pose.get(f"lever/{place}", 0.0)
    return {"wheel": (sheet.x(place) + shifted, windows + 55), "counter": (sheet.x(place) + shifted, windows + 94),
            "lever": (sheet.x(place + 1) + 0.6 * COLUMN + shifted, sheet.middle + (1 - out) * DROP),
            "idler": (sheet.x(place), sheet.middle), "setting": (sheet.x(place), 86.0)}[kind]
