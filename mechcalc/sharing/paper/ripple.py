"""The ripple, step by step: one turn in which a carry goes through as many wheels as it can, as a drawing.

Only this file draws it. Each row is read off the strokes of a machine that was cranked: the angle at which a step is
complete, the wheels, the lever that is out, the pin that it will push over. Forms tell them apart, not colours.
"""

from __future__ import annotations

from dataclasses import dataclass

from mechcalc.events import Kind
from mechcalc.machine import Machine
from mechcalc.spec import MachineSpec
from mechcalc.view.drawing import CARRY, INK, IVORY, LEVER, QUIET, Drawing, Shape, Words, box

CELL, ROW, ANGLE, SAID = 24.0, 42.0, 64.0, 250.0  # units: a window, a row, room for the angle and for the words
HEAD = 30.0


@dataclass(frozen=True, slots=True)
class Step:
    """One row.

    Attributes
    ----------
    angle : float
        Degrees of crank at which it is complete.
    digits : tuple of int
        The wheels after it, units first.
    wheel : int
        The wheel that has stepped, from 1 at the units; 0 in the row before the first.
    out : int
        The wheel whose lever is pushed out by this step; 0 if none is.
    words : str
        What happened.
    """

    angle: float
    digits: tuple[int, ...]
    wheel: int
    out: int
    words: str


def ripple_of(spec: MachineSpec) -> tuple[Step, ...]:
    """As many nines as there are levers, and one more: every step of the result register in that turn.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> for step in ripple_of(load_spec("slate"))[:3]:
    ...     print(f"{step.angle:g}°", step.digits, step.words)
    0° (9, 9, 9, 9, 0, 0) The wheels show 9999, and 1 is set.
    148.5° (0, 9, 9, 9, 0, 0) The number pin moves wheel 1 from 9 to 0.
    233.5° (0, 0, 9, 9, 0, 0) The carry moves wheel 2 from 9 to 0.
    """
    machine = Machine(spec)
    machine.set(10**spec.setting_places - 1)
    machine.turn()
    machine.set(1)
    digits = list(machine.result_digits)
    steps = [Step(0.0, tuple(digits), 0, 0, f"The wheels show {machine.result}, and 1 is set.")]
    machine.turn()
    for event in machine.strokes[-1].events:
        if event.kind not in (Kind.NUMBER_STEP, Kind.CARRY_STEP) or event.wheel is None or not event.step:
            continue
        was = digits[event.wheel - 1]
        digits[event.wheel - 1] = is_now = event.digit or 0
        what = "number pin" if event.kind is Kind.NUMBER_STEP else "carry"
        steps.append(Step(event.angle, tuple(digits), event.wheel, event.wheel if (was, is_now) == (9, 0) else 0,
                          f"The {what} moves wheel {event.wheel} from {was} to {is_now}."))
    return tuple(steps)


def ripple_drawing(spec: MachineSpec) -> Drawing:
    """The steps as rows of windows, from above down."""
    steps = ripple_of(spec)
    places = min(spec.result_places, spec.setting_places + 2)  # those above stand still
    width, height = ANGLE + places * CELL + 20 + SAID, HEAD + len(steps) * ROW
    items: list[Shape | Words] = [
        Words(at=(ANGLE - 14, 10), text="crank", size=11, color=QUIET, align="end", slanted=True),
        Words(at=(ANGLE, 10), text="number wheels, units at the right", size=11, color=QUIET, align="start",
              slanted=True)]

    def at(wheel: int) -> float:
        return ANGLE + (places - wheel + 0.5) * CELL

    for number, step in enumerate(steps):
        y = HEAD + (number + 0.5) * ROW
        items.append(Words(at=(ANGLE - 14, y), text=f"{step.angle:g}°", size=14, align="end"))
        for wheel, digit in enumerate(step.digits[:places], start=1):
            hot = wheel == step.wheel
            items += [box(at(wheel), y, 21, 25, fill=IVORY, pen=2.6 if hot else 0.7, stroke=INK if hot else QUIET),
                      Words(at=(at(wheel), y), text=str(digit), size=17, bold=hot)]
        if step.out:
            items += _lever_and_pin(at(step.out), y, step.out < places)
        items.append(Words(at=(ANGLE + places * CELL + 18, y), text=step.words, size=13, align="start"))
    return Drawing(width, height, tuple(items))


def _lever_and_pin(x: float, y: float, onward: bool) -> list[Shape]:
    """Between this row and the next: the lever that is out, and the carry pin that it meets on the way up."""
    below = y + ROW / 2
    shapes = [Shape(points=((x + 7, below - 5), (x - 6, below), (x + 7, below + 5)), fill=LEVER, stroke=INK, pen=0.7)]
    if onward:
        to = x - CELL + 4
        shapes.append(Shape(points=((to - 4, below - 4), (to + 4, below - 4), (to + 1.2, below + 4),
                                    (to - 1.2, below + 4)), fill=CARRY, stroke=INK, pen=0.7))
    return shapes
