"""The machine with its parts named, as a drawing: for a poster, where it stands still for good.

Only this file places the names. The still is that of `mechcalc.view`, and most points are those of its `naming`.
"""

from __future__ import annotations

from dataclasses import replace

from mechcalc.layout import layout
from mechcalc.machine import Machine
from mechcalc.spec import MachineSpec
from mechcalc.view.drawing import COLUMN, INK, PAPER, WINDOW, Drawing, Point, Shape, Words, _Sheet, line, ring
from mechcalc.view.naming import anchors
from mechcalc.view.subject import timeline_of

LEFT, RIGHT, APART = 150.0, 122.0, 22.0  # units: room at the left, from the crank's middle, between two names
ASIDE = 426.0  # units right of the drum at least, so that names fit between it and the crank
SIZE = 15.0
AT_RIGHT = ("additive carry pin", "number pin, in", "number pin, out", "subtractive carry pin",
            "number wheel", "counter wheel")


def shown_machine(spec: MachineSpec) -> tuple[Machine, float]:
    """A machine in the middle of its second turn of some number, and the degrees at which it stands.

    The wheels are between two digits, pins of every kind are under the window, and a carry lever is out.
    """
    machine = Machine(spec)
    machine.set(347 % 10**spec.setting_places)
    machine.turn()
    third = layout(spec).number_pins[2]
    machine.crank(third.thrown + spec.pin_pitch * 0.45)
    return machine, machine.state.angle


def named_drawing(spec: MachineSpec) -> Drawing:
    """The machine, with a name and a leader for each kind of part.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> words = [item.text for item in named_drawing(load_spec("slate")).items if isinstance(item, Words)]
    >>> "carry lever" in words, "number pin, out" in words, "idler" in words
    (True, True, True)
    """
    machine, _ = shown_machine(spec)
    told = timeline_of(machine)
    sheet = _Sheet(told, told["length"])
    sheet.width = max(sheet.width, sheet.right + ASIDE)
    drawing, points = sheet.draw(False), _points(sheet)
    places = _left({name: at for name, at in points.items() if name not in (*AT_RIGHT, "crank")})
    places |= _right({name: points[name] for name in AT_RIGHT if name in points}, sheet.right, sheet.top)
    items: list[Shape | Words] = list(drawing.items)
    for name, (x, y, align) in places.items():
        items += pointed(name, (x, y), align, points[name])
    crank = points["crank"]
    items.append(Words(at=(crank[0] + 70, crank[1] + 65), text="crank", size=SIZE, align="start", bold=True))
    aside = tuple(moved(item, LEFT) for item in items)
    return Drawing(LEFT + max(drawing.width, crank[0] + RIGHT), drawing.height, aside)


def _points(sheet: _Sheet) -> dict[str, Point]:
    """The point of each part, on the sheet."""
    found = anchors(sheet)
    found = {{"pin, out": "number pin, out", "pin, in": "number pin, in"}.get(name, name): at
             for name, at in found.items()}
    highest = sheet.machine["resultPlaces"]
    found["carry lever"] = (sheet.x(highest + 1) + 0.6 * COLUMN, sheet.top + WINDOW - 6)
    for sign, words in (("+", "additive carry pin"), ("-", "subtractive carry pin")):
        seen = [(place, y) for place, contact in sheet.machine["carryPins"][sign]
                if (y := sheet._y(contact)) is not None]
        if seen:
            place, y = min(seen)
            found[words] = (sheet.lane(place) + 5, y)
    return found


def _left(points: dict[str, Point]) -> dict[str, tuple[float, float, str]]:
    """Names at the left, from the top down in the order of their points, none too near another."""
    placed: dict[str, tuple[float, float, str]] = {}
    lowest = -1e9
    for name, (_, y) in sorted(points.items(), key=lambda item: item[1][1]):
        lowest = max(y, lowest + APART)
        placed[name] = (-22.0, lowest, "end")
    return placed


def _right(points: dict[str, Point], right: float, top: float) -> dict[str, tuple[float, float, str]]:
    heights = {"additive carry pin": top - 20, "number pin, in": top + 4,
               "number pin, out": top + WINDOW - 12, "subtractive carry pin": top + WINDOW + 11}
    return {name: (right + 26, heights.get(name, y), "start") for name, (_, y) in points.items()}


def pointed(name: str, at: Point, align: str, to: Point) -> list[Shape | Words]:
    """A name, a leader that is seen on dark parts too, and a dot at its end."""
    x = at[0] + (6 if align == "end" else -6)
    return [line((x, at[1]), to, stroke=PAPER, pen=4.0), line((x, at[1]), to, stroke=INK, pen=1.3),
            ring(*to, 2.6, fill=INK, stroke=PAPER, pen=0.8),
            Words(at=at, text=name, size=SIZE, align=align, bold=True)]


def moved(item: Shape | Words, by: float) -> Shape | Words:
    """An item of a drawing, `by` units further to the right."""
    if isinstance(item, Words):
        return replace(item, at=(item.at[0] + by, item.at[1]))
    return replace(item, points=tuple((x + by, y) for x, y in item.points))
