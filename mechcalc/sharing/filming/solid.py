"""The camera for the solid view: it photographs a page in the system's browser.

Only this file knows that page. The film's clock moves it, frame by frame, so a slow computer gives the same film as a
fast one; a frame is photographed once it is drawn.
"""

from __future__ import annotations

import base64
import io
import json
import time
from collections.abc import Sequence
from math import ceil
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from mechcalc.errors import InputError
from mechcalc.sharing.filming.devtools import Devtools
from mechcalc.sharing.filming.signs import SOLID_SIGNS
from mechcalc.view.takehome import page

if TYPE_CHECKING:
    from mechcalc.sharing.filming.canvas import Canvas
    from mechcalc.view.timeline import Timeline

TALL = 383       # the page's own pixels: its names are then as large in the film as they are meant to be read
PATIENCE = 60.0  # seconds for the page to be ready
FINE, WIDEST = 2.0, 4096  # drawn twice as fine each way, which smooths edges, up to so many pixels
QUALITY = 95     # of the photograph, a JPEG: it takes two thirds of the time of a PNG, and the film keeps less than it
VIEW = 'document.querySelector(".mechcalc").mechcalcSolid'
READY = 'document.querySelector(".mechcalc")?.dataset.solid ?? ""'
# Drawn, and then one frame of the browser's own, so that names over the picture are set too.
TAKE = f"(async () => {{ {VIEW}.take(GIVEN); await new Promise(requestAnimationFrame); return true; }})()"


class SolidCamera:
    """The solid view, from home; it may go where a carry happens.

    Attributes
    ----------
    facts : str
        What the title card says of the picture.
    signs : tuple
        Its signs (`mechcalc.sharing.filming.signs`).

    Parameters
    ----------
    follow : bool
        Whether it goes near for each stroke in which something is carried, and shows it step by step.
    """

    facts = "The whole mechanism in three dimensions; the covers step aside where a carry is looked at."
    signs = SOLID_SIGNS

    def __init__(self, follow: bool = False) -> None:
        self.follow = follow
        self._devtools: Devtools | None = None
        self._moves: list[bool] = []
        self._first = self._number = 0

    def aim(self, timeline: Timeline, width: int, height: int) -> None:
        """See `Camera`. Starts the browser.

        Raises
        ------
        InputError
            No browser, or one that draws no solids.
        """
        scene = {"live": False, "timeline": timeline, "carries": [], "questions": [], "asks": False, "past": []}
        style = Path(__file__).with_name("solidpage.css").read_text(encoding="utf-8")
        text = page(scene, solid=True, around=("filmed", "const filmed = (draw, given) => draw(given);", style, {}))
        self._devtools = Devtools("a solid film")
        self._size = width, height
        fine = height / TALL
        self._devtools.open(text, ceil(width / fine), TALL, fine)
        self._wait()

    def _wait(self) -> None:
        assert self._devtools is not None
        until = time.monotonic() + PATIENCE
        while (told := self._devtools.work_out(READY)) != "ready":
            if told == "none":
                why = self._devtools.work_out('document.querySelector(".nosolid").textContent')
                raise InputError(f"a solid film cannot be made with this browser. {why} Film it flat, or name another "
                                 "browser in MECHCALC_BROWSER")
            if time.monotonic() > until:
                raise InputError(f"the solid view has not come up in the browser within {PATIENCE:.0f} seconds")
            time.sleep(0.05)

    def rehearse(self, travels: Sequence[float], fps: int, first: int) -> None:
        """See `MovingCamera`."""
        assert self._devtools is not None
        self._first = first
        given = f"{json.dumps(list(travels))}, {1 / fps!r}, {json.dumps(self.follow)}"
        self._moves = self._devtools.work_out(f"{VIEW}.rehearse({given})")

    def moves(self, number: int) -> bool:
        """See `MovingCamera`."""
        return number > self._first and self._moves[number - self._first]

    def go_to(self, number: int) -> None:
        """See `MovingCamera`."""
        self._number = number - self._first

    def shoot(self, canvas: Canvas, travel: float, left: int, top: int) -> None:
        """See `Camera`."""
        from PIL import Image
        assert self._devtools is not None
        fine = max(1.0, min(FINE, WIDEST / self._size[0]))
        self._devtools.work_out(TAKE.replace("GIVEN", f"{self._number}, {fine!r}"))
        told = self._devtools.ask("Page.captureScreenshot", format="jpeg", quality=QUALITY)
        with Image.open(io.BytesIO(base64.b64decode(told["data"]))) as picture:
            pixels = np.asarray(picture.convert("RGB"))
        width, height = self._size
        canvas.image(pixels[:height, :width], left, top)

    def close(self) -> None:
        """See `Camera`. Ends the browser."""
        if self._devtools is not None:
            self._devtools.close()
            self._devtools = None
