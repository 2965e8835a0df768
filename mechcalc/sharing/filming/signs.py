"""The signs of the flat and the solid view, each with its meaning, and a machine in a few words: a title card.

Only this file words the card. A sign is drawn around (0, 0), in the units of a still.
"""

from __future__ import annotations

from typing import Any

from mechcalc.view.drawing import CARRY, INK, IVORY, LEVER, Shape, box

SIGNS = (("pin out", "number pin, out: it moves the idler one tooth"),
         ("carry pin +", "carry pin of the additive helix"),
         ("pin in", "number pin, in: it passes by"),
         ("carry pin -", "carry pin of the subtractive helix"),
         ("lever out", "carry lever, out: it pushes the next carry pin over"),
         ("idler", "idler: it drives the number wheel below it"),
         ("lever home", "carry lever, home"),
         ("wheel", "number wheel in its window"))
SOLID_SIGNS = (("action", "striped, with a dark outline: a part in action"),
               ("aside", "pale: a part that takes no part in it"),
               ("glass", "seen through: it stands before the action"),
               ("way", "an arrow: where a part is going"))
UNROLLED = "The surface of the drum is drawn unrolled; it passes the line of idlers from above."


def _stripe(x: float) -> Shape:
    return Shape(points=((x - 5, 8.0), (x + 5, -8.0)), closed=False, stroke=IVORY, pen=2.0)


SOLID: dict[str, tuple[Shape, ...]] = {
    "action": (box(0, 0, 28, 20, fill=LEVER, stroke=INK, pen=3.0), _stripe(-5), _stripe(5)),
    "aside": (box(0, 0, 28, 20, fill="#dcd8cd", stroke="#dcd8cd"),),
    "glass": (box(-4, -3, 20, 14, fill=LEVER, stroke=LEVER), box(3, 3, 22, 14, fill="#d8ccb4", stroke="#b3a88f")),
    "way": (Shape(points=((-12.0, 0.0), (12.0, 0.0), (5.0, -6.0), (12.0, 0.0), (5.0, 6.0)), closed=False, stroke=CARRY,
                  pen=2.6),),
}


def sign(name: str) -> tuple[Shape, ...]:
    """The shapes of a sign.

    >>> all(sign(name) for name, _ in (*SIGNS, *SOLID_SIGNS))
    True
    """
    if name.startswith("pin"):
        out = name == "pin out"
        return (box(0, 0, 20 if out else 12, 7, fill=INK if out else IVORY, stroke=INK if out else "#85775a"),)
    if name.startswith("carry pin"):
        to = 1 if name.endswith("+") else -1
        points = ((-5.0, -5.0 * to), (5.0, -5.0 * to), (1.6, 5.0 * to), (-1.6, 5.0 * to))
        return (Shape(points=points, fill=CARRY if to > 0 else IVORY, stroke=CARRY, pen=1.5),)
    if name.startswith("lever"):
        out = name == "lever out"
        return (Shape(points=((5.0, -11.0), (-6.0, 0.0), (5.0, 11.0)), fill=LEVER if out else "#e7dcc0",
                      stroke="#5e2300" if out else "#74664a"),)
    if name in SOLID:
        return SOLID[name]
    if name == "idler":
        return (box(0, 0, 26, 24, fill="#d9ccab", stroke="#6f6144"),)
    return (box(0, 0, 24, 24, fill=IVORY, stroke=INK, pen=1.5),)


def facts(machine: dict[str, Any], about: str = UNROLLED) -> list[str]:
    """A timeline's machine in two lines, the second `about` the picture.

    >>> from mechcalc import load_spec
    >>> from mechcalc.view.timeline import machine_data
    >>> facts(machine_data(load_spec("slate")))
    ['Slate: 4 setting levers, 6 number wheels, a counter of 3, carries through 6 places.', \
'The surface of the drum is drawn unrolled; it passes the line of idlers from above.']
    """
    name = f"{machine['name']}: " if machine["name"] else ""
    return [f"{name}{machine['settingPlaces']} setting levers, {machine['resultPlaces']} number wheels, a counter of "
            f"{machine['counterPlaces']}, carries through {machine['carryReach']} places.",
            about]
