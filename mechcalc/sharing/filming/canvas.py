"""Shapes and words of a drawing as pixels, fast enough for a film.

Only this file paints frames. It hands polygons to matplotlib's renderer directly, which is three times as fast as a
figure of artists, and keeps each text that it has rendered: most words of a frame are those of the frame before.
The fonts are matplotlib's own, so a film looks the same on every computer.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np
from matplotlib.backends.backend_agg import RendererAgg
from matplotlib.colors import to_rgb
from matplotlib.font_manager import FontProperties, findfont, get_font
from matplotlib.path import Path
from matplotlib.transforms import Affine2D

from mechcalc.view.drawing import Shape, Words

if TYPE_CHECKING:
    from collections.abc import Iterable

    from numpy.typing import NDArray

FAMILIES = ("DejaVu Serif", "DejaVu Sans")  # both come with matplotlib
DOTS = 72.0  # an inch: one point of type is one pixel
_rgb = lru_cache(maxsize=256)(to_rgb)


class Canvas:
    """A frame to paint on.

    Parameters
    ----------
    width, height : int
        Pixels.
    """

    def __init__(self, width: int, height: int) -> None:
        self.width, self.height = width, height
        self._renderer = RendererAgg(width, height, DOTS)
        self._pixels = np.asarray(self._renderer.buffer_rgba())

    def clear(self, color: str) -> None:
        """One colour all over."""
        np.copyto(self._pixels, _sheet(self.width, self.height, color))

    def copy(self) -> NDArray[np.uint8]:
        """What is painted: rows from the top, columns from the left; red, green, blue and 255."""
        return self._pixels.copy()

    def image(self, picture: NDArray[np.uint8], left: int, top: int) -> None:
        """Put a picture (height, width, 3 or 4) on the frame."""
        height, width = picture.shape[:2]
        self._pixels[top:top + height, left:left + width, :3] = picture[:, :, :3]

    def paint(self, items: Iterable[Shape | Words], scale: float = 1.0, left: float = 0.0, top: float = 0.0) -> None:
        """Paint items of a drawing `scale` times as large, its corner at (`left`, `top`)."""
        onto = Affine2D().scale(scale, -scale).translate(left, self.height - top)
        pen = self._renderer.new_gc()
        for item in items:
            if isinstance(item, Shape):
                points = (*item.points, item.points[0]) if item.closed else item.points
                pen.set_foreground(item.stroke)
                pen.set_linewidth(item.pen * scale)
                pen.set_dashes(0, (7 * scale, 4 * scale) if item.dashed else None)
                fill = None if item.fill == "none" else _rgb(item.fill)
                self._renderer.draw_path(pen, Path(points, closed=item.closed), onto, fill)
            else:
                self._text(item, scale, left + item.at[0] * scale, top + item.at[1] * scale)

    def _text(self, item: Words, scale: float, x: float, y: float) -> None:
        if not item.text.strip():
            return
        cover, baseline = _rendered(item.text, round(item.size * scale, 2), item.bold, item.slanted)
        height, width = cover.shape
        left = round(x - {"start": 0.0, "middle": 0.5, "end": 1.0}[item.align] * width)
        top = round(y - baseline)
        right, bottom = min(left + width, self.width), min(top + height, self.height)
        cover = cover[max(-top, 0):bottom - top, max(-left, 0):right - left, None]
        under = self._pixels[max(top, 0):bottom, max(left, 0):right, :3]
        ink = np.array([255 * share for share in _rgb(item.color)], dtype=np.float32)
        under[:] = under + (ink - under) * cover


@lru_cache(maxsize=2)
def _sheet(width: int, height: int, color: str) -> NDArray[np.uint8]:
    """A sheet of one colour; copying it is much faster than filling pixel by pixel."""
    pixels = np.empty((height, width, 4), dtype=np.uint8)
    pixels[:] = (*(round(255 * share) for share in _rgb(color)), 255)
    return pixels


@lru_cache(maxsize=600)
def _rendered(text: str, size: float, bold: bool, slanted: bool) -> tuple[NDArray[np.float32], float]:
    """How far each pixel is covered by a text, from 0 to 1, and how far below its top its middle is."""
    font, text = _font(size, bold, slanted), writable(text)
    width, height, descent = _measurer().get_text_width_height_descent(text, font, ismath=False)
    _, tall, low = _measurer().get_text_width_height_descent("0", font, ismath=False)
    edge = 4
    renderer = RendererAgg(int(width) + 2 * edge, int(height) + 2 * edge, DOTS)
    renderer.draw_text(renderer.new_gc(), edge, edge + height - descent, text, font, 0)
    cover = np.asarray(renderer.buffer_rgba())[:, edge:-edge, 3] / np.float32(255)
    return cover.astype(np.float32), edge + height - descent - (tall - low) / 2


@lru_cache(maxsize=4000)
def measured(text: str, size: float, bold: bool = False) -> float:
    """How many pixels wide a text is.

    >>> measured("347", 30) < measured("9022", 30) < measured("9022", 30, bold=True)
    True
    """
    return float(_measurer().get_text_width_height_descent(writable(text), _font(size, bold, False), ismath=False)[0])


def wrapped(text: str, size: float, width: float) -> list[str]:
    """A text in lines no wider than `width` pixels; its own line ends stay, and a word that is too long is cut.

    >>> wrapped("one two three", 20, 90)
    ['one two', 'three']
    """
    lines: list[str] = []
    for part in text.split("\n"):
        line = ""
        for word in part.split():
            while measured(word, size) > width and len(word) > 1:
                fits = next((n for n in range(len(word) - 1, 1, -1) if measured(word[:n], size) <= width), 1)
                lines += [line] if line else []
                lines, line, word = [*lines, word[:fits]], "", word[fits:]
            longer = f"{line} {word}".strip()
            if line and measured(longer, size) > width:
                lines.append(line)
                line = word
            else:
                line = longer
        lines += [line] if line else []
    return lines


@lru_cache(maxsize=4000)
def writable(text: str) -> str:
    """A text in which every character that the fonts lack is written as its number, and none becomes an empty box.

    >>> writable("Đặng × 2"), writable("李 2")
    ('Đặng × 2', '[U+674E] 2')
    """
    return "".join(mark if _has(ord(mark)) else f"[U+{ord(mark):04X}]" for mark in text)


@lru_cache(maxsize=4000)
def _has(mark: int) -> bool:
    return any(get_font(findfont(FontProperties(family=family))).get_char_index(mark) for family in FAMILIES)


@lru_cache(maxsize=1)
def _measurer() -> RendererAgg:
    return RendererAgg(8, 8, DOTS)


@lru_cache(maxsize=64)
def _font(size: float, bold: bool, slanted: bool) -> FontProperties:
    return FontProperties(family=list(FAMILIES), size=size, weight="bold" if bold else "normal",
                          style="italic" if slanted else "normal")
