"""The drum's timetable as a drawing: a row a place, degrees of an additive turn to the right.

Only this file draws it for paper. The angles are those of `mechcalc.layout`. What is what is told by form: number pins
are ruled boxes, the helix that follows is filled, the one that leads is open, the throw of a lever is a bar with a
head, the rest arc is hatched.
"""

from __future__ import annotations

from collections.abc import Iterator

from mechcalc.layout import layout
from mechcalc.spec import MachineSpec
from mechcalc.view.drawing import CARRY, INK, IVORY, LEVER, QUIET, Drawing, Shape, Words, line

DEGREE, LEFT, TOP = 2.6, 46.0, 46.0  # units: a degree, room for the places and for the heads
ALL, TALLEST = 280.0, 27.0            # units: all rows together, and one row at most
FOOT = 34.0
Item = Shape | Words


def timetable_drawing(spec: MachineSpec) -> Drawing:
    """Rows from place 1, at the bottom, to the carry reach.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> drawing = timetable_drawing(load_spec("slate"))
    >>> [item.text for item in drawing.items if isinstance(item, Words)][:4]
    ['place 1', '2', '3', '4']
    """
    chart = _Chart(spec)
    return Drawing(LEFT + 360 * DEGREE + 16, chart.bottom + FOOT, tuple(chart.items()))


class _Chart:
    def __init__(self, spec: MachineSpec) -> None:
        self.spec, self.drum = spec, layout(spec)
        self.rows = max(spec.carry_reach, spec.setting_places)
        self.row = min(ALL / self.rows, TALLEST)
        self.bottom = TOP + self.rows * self.row

    def x(self, angle: float) -> float:
        return LEFT + angle * DEGREE

    def y(self, place: int) -> float:
        return self.bottom - (place - 0.5) * self.row

    def bar(self, begin: float, end: float, place: int, **look: object) -> Shape:
        top, low = self.y(place) - self.row * 0.34, self.y(place) + self.row * 0.34
        return Shape(points=((self.x(begin), top), (self.x(end), top), (self.x(end), low), (self.x(begin), low)),
                     **look)  # type: ignore[arg-type]

    def items(self) -> Iterator[Item]:
        yield from self._frame()
        yield from self._rest()
        for place in range(1, self.spec.setting_places + 1):
            for passing in self.drum.number_pins:
                yield self.bar(passing.contact, passing.end, place, fill="#e3e0d8", pen=0.6)
        for place, passing in enumerate(self.drum.leading, start=2):
            yield self.bar(passing.contact, passing.end, place, fill=IVORY, stroke=CARRY, pen=1.3)
        for place, passing in enumerate(self.drum.following, start=2):
            yield self.bar(passing.contact, passing.end, place, fill=CARRY, stroke=CARRY)
            yield from self._throw(passing.end, passing.thrown, place)
        last = self.drum.number_pins[-1]
        yield from self._throw(last.end, last.thrown, 1)
        yield from self._heads()

    def _frame(self) -> Iterator[Item]:
        for place in range(1, self.rows + 1):
            yield Words(at=(LEFT - 8, self.y(place)), text=f"place {place}" if place == 1 else str(place), size=11,
                        align="end")
        for row in range(self.rows + 1):
            y = self.bottom - row * self.row
            yield line((self.x(0), y), (self.x(360), y), stroke="#b5b0a4", pen=0.4)
        for angle in range(0, 361, 30):
            yield line((self.x(angle), TOP), (self.x(angle), self.bottom + 5), stroke="#b5b0a4", pen=0.4)
            yield Words(at=(self.x(angle), self.bottom + 13), text=f"{angle}°", size=11)
        yield Words(at=(self.x(180), self.bottom + 27), text="degrees of crank in an additive turn; a subtractive turn "
                    "meets the same from the right", size=11, color=QUIET, slanted=True)

    def _rest(self) -> Iterator[Item]:
        half = self.spec.rest_arc / 2
        for begin, end in ((0.0, half), (360.0 - half, 360.0)):
            left, right = self.x(begin), self.x(end)
            yield Shape(points=((left, TOP), (right, TOP), (right, self.bottom), (left, self.bottom)), fill="#efece4",
                        stroke=QUIET, pen=0.6)
            y = TOP
            while y < self.bottom:
                low = min(y + (right - left), self.bottom)
                yield line((left, y), (left + low - y, low), stroke=QUIET, pen=0.5)
                y += 7.0

    def _throw(self, begin: float, end: float, place: int) -> Iterator[Item]:
        """From the end of a step until the lever that it pushed is out."""
        y, left, right = self.y(place), self.x(begin), self.x(end)
        yield line((left, y), (right, y), stroke=LEVER, pen=2.0)
        yield Shape(points=((right, y - 3.5), (right - 5, y), (right, y + 3.5)), fill=LEVER, stroke=INK, pen=0.5)

    def _heads(self) -> Iterator[Item]:
        drum = self.drum
        pins = (drum.number_pins[0].contact, drum.number_pins[-1].end)
        yield from self._over(*pins, f"number pins 1 to 9: {pins[1] - pins[0]:g}°")
        if drum.following:
            yield from self._over(drum.leading[-1].contact, drum.leading[0].end, "the helix that leads")
            yield from self._over(drum.following[0].contact, drum.following[-1].end, "the helix that follows")

    def _over(self, begin: float, end: float, words: str) -> Iterator[Item]:
        y = TOP - 10
        yield line((self.x(begin), y + 6), (self.x(begin), y), (self.x(end), y), (self.x(end), y + 6), pen=0.9)
        yield Words(at=(self.x((begin + end) / 2), y - 12), text=words, size=13)
