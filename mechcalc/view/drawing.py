"""A still picture as plain shapes, so that matplotlib and an SVG file draw the same thing.

Only this file decides how a still looks. The layout is the live view's: one column a drum place, units at the right;
setting levers, the drum's surface at the line of idlers, number wheels in the carriage, counter, crank.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, floor, radians, sin
from textwrap import wrap
from typing import Any

from mechcalc.view.pose import Pose, moment_at, pose, turning_at
from mechcalc.view.timeline import Timeline

INK, QUIET, PAPER, IVORY, PLATE = "#251f19", "#5f5546", "#f7f1e3", "#fffaf0", "#2b3432"
CARRY, LEVER, DRIVE, ACT = "#0063a0", "#b34700", "#006b4f", "#f0b429"
COLUMN = 46.0
WINDOW = 190.0   # height of the drum's window
LINE = 104.0     # how far below its top the idlers stand
DROP = 50.0      # how far below the idler line a carry lever rests
Point = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """A filled or open polygon; `closed` ones are outlined all round."""

    points: tuple[Point, ...]
    fill: str = "none"
    stroke: str = INK
    pen: float = 1.0
    closed: bool = True
    dashed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """A text around a point. `align`: ``"middle"``, ``"start"`` or ``"end"``."""

    at: Point
    text: str
    size: float
    color: str = INK
    align: str = "middle"
    bold: bool = False
    slanted: bool = False


@dataclass(frozen=True, slots=True)
class Drawing:
    """Shapes and words from back to front, y downwards, on a sheet of `width` by `height`."""

    width: float
    height: float
    items: tuple[Shape | Words, ...]


def box(x: float, y: float, width: float, height: float, **look: Any) -> Shape:
    """A rectangle around (x, y); `pen` is the width of its outline."""
    half, tall = width / 2, height / 2
    corners = ((x - half, y - tall), (x + half, y - tall), (x + half, y + tall), (x - half, y + tall))
    return Shape(points=corners, **look)


def line(*points: Point, **look: Any) -> Shape:
    """An open line."""
    return Shape(points=points, closed=False, **look)


def ring(x: float, y: float, radius: float, **look: Any) -> Shape:
    """A circle as a polygon of 48 sides."""
    return Shape(points=tuple((x + radius * sin(radians(a)), y - radius * cos(radians(a)))
                              for a in range(0, 360, 8)), **look)


def draw(told: Timeline, travel: float, *, words: bool = True) -> Drawing:
    """The machine at a travel, with the title above it, the moment in words and what the marks of faults mean under
    it, or without words."""
    return _Sheet(told, travel).draw(words)


class _Sheet:
    """Coordinates of one still, and its shapes as they are put down."""

    def __init__(self, told: Timeline, travel: float) -> None:
        self.told, self.travel, self.machine = told, travel, told["machine"]
        self.pose: Pose = pose(told, travel)
        self.moment = moment_at(told, travel)
        self.lit = set(self.moment["parts"]) if self.moment["active"] else set()
        machine = self.machine
        self.columns = max(machine["carryReach"], machine["resultPlaces"], machine["counterPlaces"])
        self.right = 40 + self.columns * COLUMN
        self.width = self.right + max((machine["positions"] - 1) * COLUMN + 16, 200.0)
        self.top = 128.0
        self.middle = self.top + LINE
        self.scale = 11.5 / machine["pitch"]
        self.items: list[Shape | Words] = []

    def x(self, place: float) -> float:
        return self.right - (place - 0.4) * COLUMN

    def lane(self, place: int) -> float:
        return self.x(place) + 0.47 * COLUMN

    def draw(self, words: bool = True) -> Drawing:
        from mechcalc.view.drawing_extras import fault_marks, levers_at_work

        self._setting()
        self._drum()
        self._carriage()
        self._crank()
        self.items += [*levers_at_work(self), *fault_marks(self)]
        if words:
            self._caption()
        return Drawing(self.width, self.top + WINDOW + (206 + self._legend() if words else 140), tuple(self.items))

    def _setting(self) -> None:
        self.items.append(Words(at=(self.x(self.machine["settingPlaces"]) - 34, 32), text="setting", size=12,
                                color=QUIET, align="end", slanted=True))
        for place in range(1, self.machine["settingPlaces"] + 1):
            x, digit = self.x(place), self.pose[f"setting/{place}"]
            hot = f"setting/{place}" in self.lit
            self.items += [
                box(x, 32, 34, 34, fill=ACT if hot else IVORY, pen=1.5),
                Words(at=(x, 32), text=str(floor(digit + 0.5)), size=24, bold=True),
                line((x, 58), (x, 112), pen=4, stroke=PLATE), box(x, 58 + 6 * digit, 20, 6, fill="#c9a44c")]

    def _drum(self) -> None:
        reach = self.machine["carryReach"]
        left, right = self.x(reach) - 0.55 * COLUMN, self.x(1) + 0.6 * COLUMN
        self.items.append(box((left + right) / 2, self.top + WINDOW / 2, right - left, WINDOW, fill="#f1e7cf", pen=1.5))
        for place in range(1, reach + 1):
            self.items.append(box(self.x(place), self.top + WINDOW / 2, 21, WINDOW, fill=IVORY,
                                  stroke="#cdbd97", pen=0.8))
            hot = f"idler/{place}" in self.lit
            self.items.append(box(self.x(place), self.middle, 26, 34, fill="#8fd6bd" if hot else "#d9ccab",
                                  stroke=DRIVE if hot else "#6f6144", pen=2.2 if hot else 1))
        self._rest(left, right)
        self._pins()
        self.items.append(line((left - 8, self.middle), (right + 44, self.middle), dashed=True))
        turned = self.pose["crank"] % 360
        self.items.append(Words(at=(right + 8, self.middle - 9), text=f"{turned:.4g}°", size=12, color=QUIET,
                                align="start"))

    def _y(self, contact: float) -> float | None:
        """Where on the sheet something with this contact angle is; None while it is out of the window."""
        ahead = (contact + self.machine["pitch"] / 2 - self.pose["crank"] + 180) % 360 - 180
        y = self.middle - ahead * self.scale
        return y if self.top + 6 < y < self.top + WINDOW - 6 else None

    def _rest(self, left: float, right: float) -> None:
        ahead = (-self.pose["crank"] + 180) % 360 - 180
        half = self.machine["rest"] / 2
        top = max(self.middle - (ahead + half) * self.scale, self.top)
        bottom = min(self.middle - (ahead - half) * self.scale, self.top + WINDOW)
        if bottom - top > 8:
            self.items.append(box((left + right) / 2, (top + bottom) / 2, right - left, bottom - top, fill="#e0d2ac",
                                  stroke="#8a7851", pen=0.8))
            self.items.append(Words(at=(left + 6, (top + bottom) / 2), text="rest", size=11, align="start",
                                    slanted=True))

    def _pins(self) -> None:
        tall = 11.5 * 0.6
        for place in range(1, self.machine["settingPlaces"] + 1):
            for pin, contact in enumerate(self.machine["numberPins"], start=1):
                y, out = self._y(contact), self.pose[f"pin/{place}/{pin}"]
                if y is not None:
                    hot = f"pin/{place}/{pin}" in self.lit
                    fill = ACT if hot else INK if out > 0.5 else IVORY
                    self.items.append(box(self.x(place), y, 12 + 8 * out, tall, fill=fill,
                                          stroke=INK if out > 0.5 else "#85775a"))
        for sign, pins in self.machine["carryPins"].items():
            for place, contact in pins:
                y = self._y(contact)
                if y is not None:
                    over = self.pose[f"carrypin/{sign}/{place}"]
                    x = self.lane(place) + over * (self.x(place) - self.lane(place))
                    self.items.append(_wedge(x, y, sign))

    def _carriage(self) -> None:
        shifted = self.pose["carriage"] * COLUMN
        down = self.pose["lift"] * 9
        top = self.top + WINDOW + 12 + down
        wide = max(self.machine["resultPlaces"], self.machine["counterPlaces"])
        left, right = self.x(wide) - 0.6 * COLUMN + shifted, self.x(1) + 0.6 * COLUMN + shifted
        self.items.append(box((left + right) / 2, top + 50, right - left, 100, fill=PLATE, pen=1.5))
        for wheel in range(1, self.machine["resultPlaces"] + 1):
            self._lever(wheel, shifted, top)
            self._window(f"wheel/{wheel}", self.x(wheel) + shifted, top + 32, 46, 26)
        for wheel in range(1, self.machine["counterPlaces"] + 1):
            self._window(f"counter/{wheel}", self.x(wheel) + shifted, top + 79, 32, 20)
        under = top + 112 - down
        self.items.append(Words(at=(self.x(1), under + 6), text="▲", size=13))
        way = {1: "counts additive turns up", -1: "counts subtractive turns up", 0: "counter's direction free"}
        at = self.pose["carriage"]
        position = f"carriage at {at:g}" if at == round(at) else f"carriage between {int(at)} and {int(at) + 1}"
        self.items.append(Words(at=(self.x(1) - 14, under + 8), text=f"{way[int(self.pose['direction'])]}; {position}",
                                size=12, color=QUIET, align="end", slanted=True))

    def _window(self, name: str, x: float, y: float, height: float, size: float) -> None:
        """A wheel behind its window: one digit, or two where it stands between them."""
        value = self.pose[name]
        hot = name in self.lit
        self.items.append(box(x, y, 34, height, fill=IVORY, stroke="#58d6ae" if hot else INK, pen=3 if hot else 1))
        low = floor(value + 1e-9)
        share = value - low
        if share < 0.02 or share > 0.98:
            self.items.append(Words(at=(x, y), text=str(floor(value + 0.5) % 10), size=size, bold=True))
            return
        for digit, offset in ((low % 10, share), ((low + 1) % 10, share - 1)):
            at = y + offset * height * 0.6
            if abs(at - y) < height * 0.42:
                self.items.append(Words(at=(x, at), text=str(digit), size=size * 0.62, bold=True))

    def _lever(self, wheel: int, shifted: float, top: float) -> None:
        out = self.pose[f"lever/{wheel}"]
        x, y = self.x(wheel + 1) + 0.6 * COLUMN + shifted, self.middle + (1 - out) * DROP
        hot = out > 0.5
        color = LEVER if hot else "#8a7c60"
        self.items.append(line((x, y), (x, top), stroke=color, pen=3 if hot else 1.6))
        self.items.append(Shape(points=((x + 2, y - 11), (x - 9, y), (x + 2, y + 11)), fill=LEVER if hot else "#e7dcc0",
                                stroke="#5e2300" if hot else "#74664a"))

    def _crank(self) -> None:
        x, y, radius = self.right + 0.5 * (self.width - self.right) + 22, self.top + 84, 60.0
        turned = radians(self.pose["crank"] % 360)
        grip = (x + 42 * sin(turned), y - 42 * cos(turned))
        turning = turning_at(self.told, self.travel)
        angle = round((-self.pose["crank"] if turning < 0 else self.pose["crank"]) % 360, 2)
        rest = self.pose["pawl"] == 0 and angle == 0
        words = "crank at rest" if rest else f"{angle:g}°, {'subtractive' if turning < 0 else 'additive'}"
        self.items += [ring(x, y, radius, fill=IVORY, pen=1.5), box(x, y - radius, 16, 10, fill=PLATE),
                       line((x, y), grip, pen=6, stroke="#9c8a5d"), ring(*grip, 10, fill="#6e3b1d"),
                       ring(x, y, 7, fill=PLATE), Words(at=(x, y + radius + 16), text=words, size=14, bold=True)]
        if self.pose["rang"] or self.pose["bell"]:
            self.items.append(Words(at=(x, y - radius - 16), text="the bell rang", size=13, color=LEVER, bold=True))

    def _caption(self) -> None:
        at = self.top + WINDOW + 152
        for number, words in enumerate(wrap(self.moment["words"], int(self.width / 8.4))[:3]):
            self.items.append(Words(at=(14, at + 20 * number), text=words, size=14, align="start"))
        if self.told["title"]:
            self.items.append(Words(at=(14, 20), text=self.told["title"], size=14, color=QUIET, align="start",
                                    slanted=True))

    def _legend(self) -> float:
        """A line for each fault, under everything else; how much height that takes."""
        at = self.top + WINDOW + 214
        for number, fault in enumerate(self.told.get("faults", [])):
            self.items += [Words(at=(14, at + 20 * number), text=fault["letter"], size=14, align="start", bold=True),
                           Words(at=(44, at + 20 * number), text=fault["words"], size=14, align="start")]
        return 20.0 * len(self.told.get("faults", []))


def _wedge(x: float, y: float, sign: str) -> Shape:
    """A carry pin: filled and pointing down on the additive helix, open and pointing up on the subtractive one."""
    to = 1 if sign == "+" else -1
    points = ((x - 5, y - 5 * to), (x + 5, y - 5 * to), (x + 1.6, y + 5 * to), (x - 1.6, y + 5 * to))
    return Shape(points=points, fill=CARRY if sign == "+" else IVORY, stroke=CARRY, pen=1.5)
