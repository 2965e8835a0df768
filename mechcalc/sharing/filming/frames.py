"""A film's frames: the title card, and the machine with a heading above it and words under it.

Only this file lays a frame out. The picture of the machine comes from a `Camera`; `FlatCamera` takes the flat view's
still. Lengths are those of a frame 1080 pixels high, and go with its height.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Protocol, runtime_checkable

from mechcalc.sharing.filming.canvas import Canvas, measured, wrapped
from mechcalc.sharing.filming.signs import SIGNS, UNROLLED, facts, sign
from mechcalc.view.drawing import INK, PAPER, PLATE, QUIET, Words, box, draw, line
from mechcalc.view.pose import stroke_at

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from mechcalc.sharing.filming.script import Cue, Script
    from mechcalc.view.timeline import Timeline

CREAM, BRASS = "#f3e9d2", "#c9a44c"
FULL = 1080.0
EDGE = 44.0                 # from the frame's side to the words
HEADING, BAND = 84.0, 860.0  # where the picture begins, and where the words under it do


class Camera(Protocol):
    """What takes the picture of the machine at a travel."""

    def aim(self, timeline: Timeline, width: int, height: int) -> None:
        """Be told what is filmed, and how many pixels there are."""

    def shoot(self, canvas: Canvas, travel: float, left: int, top: int) -> None:
        """Paint the machine at `travel` on the canvas, in the field whose corner is (left, top)."""

    def close(self) -> None:
        """Give back whatever was opened."""


@runtime_checkable
class MovingCamera(Camera, Protocol):
    """A camera that moves while the film runs, also while the machine stands still, and has words of its own.

    Attributes
    ----------
    facts : str
        What the title card says of the picture.
    signs : tuple
        The picture's signs with their meanings.
    """

    facts: str
    signs: tuple[tuple[str, str], ...]

    def rehearse(self, travels: Sequence[float], fps: int, first: int) -> None:
        """Be told the travel of every frame from the frame `first` on, before any is shot."""

    def moves(self, number: int) -> bool:
        """Whether it stands elsewhere in a frame than in the one before."""

    def go_to(self, number: int) -> None:
        """Stand where it stands in a frame; that one is shot next."""


class FlatCamera:
    """The flat view: the drum's surface unrolled, levers, wheels, crank."""

    def aim(self, timeline: Timeline, width: int, height: int) -> None:
        """See `Camera`."""
        sheet = draw(timeline, 0.0, words=False)
        self.timeline = timeline
        self.scale = min(width / sheet.width, height / sheet.height)
        self.left, self.top = (width - sheet.width * self.scale) / 2, (height - sheet.height * self.scale) / 2

    def shoot(self, canvas: Canvas, travel: float, left: int, top: int) -> None:
        """See `Camera`."""
        items = draw(self.timeline, travel, words=False).items
        canvas.paint(items, self.scale, left + self.left, top + self.top)

    def close(self) -> None:
        """There is nothing to give back."""


class Frames:
    """The frames of a script, one at a time.

    Parameters
    ----------
    script : Script
        What is shown when.
    size : tuple of int
        Width and height in pixels.
    camera : Camera
        Aimed here.
    words : bool
        Whether the captions stand in the picture.
    """

    def __init__(self, script: Script, size: tuple[int, int], camera: Camera, words: bool = True) -> None:
        self.script, self.camera, self.words = script, camera, words
        self.canvas = Canvas(*size)
        self.unit = size[1] / FULL
        self.width = size[0] / self.unit  # in the units of a frame 1080 high
        self.told = script.timeline
        side = round(EDGE * self.unit / 2)
        self.field = (side, round(HEADING * self.unit))
        camera.aim(self.told, size[0] - 2 * side, round((BAND - HEADING - 10) * self.unit))
        self.moving = camera if isinstance(camera, MovingCamera) else None
        if self.moving:
            self.moving.rehearse(script.travels, script.fps, script.card)

    def frame(self, number: int) -> NDArray[np.uint8]:
        """A frame's pixels: (height, width, 4), the fourth always 255."""
        travel, cue = self.script.travel(number), self._cue(number)
        self.canvas.clear(PAPER)
        if travel is None:
            self._card()
        else:
            if self.moving:
                self.moving.go_to(number)
            self.camera.shoot(self.canvas, travel, *self.field)
            self._heading()
            self._band(travel, cue.words if cue and self.words else "")
        return self.canvas.copy()

    def same(self, number: int) -> bool:
        """Whether a frame shows what the one before it showed."""
        if self.moving and self.moving.moves(number):
            return False
        return number > 0 and (self.script.travel(number), self._cue(number)) == (
            self.script.travel(number - 1), self._cue(number - 1))

    def _cue(self, number: int) -> Cue | None:
        return next((cue for cue in self.script.cues if cue.first <= number < cue.end), None)

    def _put(self, *items: object) -> None:
        self.canvas.paint(items, self.unit)  # type: ignore[arg-type]

    def _heading(self) -> None:
        title, name = self.told["title"], self.told["machine"]["name"]
        self._put(*self._line(title or name, 46.0, 42.0, bold=True, room=self.width * 0.72))
        if name and name != title:
            self._put(Words(at=(self.width - EDGE, 46), text=name, size=28, color=QUIET, align="end", slanted=True))

    def _line(self, text: str, y: float, size: float, *, room: float, bold: bool = False) -> list[Words]:
        """One line from the left edge, in smaller type where it would be too long, cut where that is not enough."""
        size = max(size * min(1.0, room / max(measured(text, size, bold), 1.0)), size * 0.6)
        while len(text) > 2 and measured(text, size, bold) > room:
            text = text[:-2].rstrip() + "…"
        return [Words(at=(EDGE, y), text=text, size=size, align="start", bold=bold)]

    def _band(self, travel: float, words: str) -> None:
        height = FULL - BAND
        self._put(box(self.width / 2, BAND + height / 2, self.width + 8, height, fill=PLATE, stroke=PLATE),
                  line((0, BAND), (self.width, BAND), stroke=BRASS, pen=4.0))
        index = stroke_at(self.told, travel) or 0
        stroke = self.told["strokes"][index]
        where = f"{index + 1} of {len(self.told['strokes'])}"
        self._put(Words(at=(EDGE, BAND + 36), text=where, size=26, color=BRASS, align="start"),
                  Words(at=(self.width - EDGE, BAND + 36), text=stroke["algebra"], size=34, color=CREAM, align="end"))
        lines = next(lines for size, most in ((34.0, 3), (30.0, 4), (24.0, 99))
                     if len(lines := [(size, text) for text in wrapped(words, size, self.width - 2 * EDGE)]) <= most)
        for row, (size, text) in enumerate(lines[:5]):
            self._put(Words(at=(EDGE, BAND + 86 + row * size * 1.26), text=text, size=size, color=CREAM, align="start"))

    def _card(self) -> None:
        title = self.told["title"] or self.told["machine"]["name"]
        lines = wrapped(title, 84.0, self.width - 240)[:3]
        for row, text in enumerate(lines):
            self._put(Words(at=(120, 200 + 108 * row), text=text, size=84, align="start", bold=True))
        y = 250.0 + 108 * (len(lines) - 1)
        self._put(line((120, y + 30), (self.width - 120, y + 30), stroke=BRASS, pen=4.0))
        about, signs = (self.moving.facts, self.moving.signs) if self.moving else (UNROLLED, SIGNS)
        for row, text in enumerate(facts(self.told["machine"], about)):
            self._put(Words(at=(120, y + 92 + 52 * row), text=text, size=34, color=QUIET, align="start"))
        for number, (name, words) in enumerate(signs):
            x, at = 120 + (number % 2) * (self.width - 160) / 2, y + 300 + 84 * (number // 2)
            self.canvas.paint(sign(name), 2.4 * self.unit, (x + 30) * self.unit, at * self.unit)
            self._put(Words(at=(x + 96, at), text=words, size=30, color=INK, align="start"))
