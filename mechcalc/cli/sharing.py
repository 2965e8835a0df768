"""The commands that make something to show elsewhere: a film.

Only this file words these commands; `mechcalc.sharing` does the work.
"""

from __future__ import annotations

import argparse
from collections.abc import Callable
from pathlib import Path
from typing import Any

from mechcalc.errors import InputError

DONE = 0
USUAL_MACHINE = "bench"


def _calculation(own: Any) -> None:
    """A calculation, and how it is worked."""
    from mechcalc.cli.commands import _calculation_options
    own.add_argument("calculation", metavar="CALCULATION", help="for instance: '347 x 26'")
    _calculation_options(own)


def _file(own: argparse.ArgumentParser, words: str) -> None:
    own.add_argument("file", type=Path, metavar="FILE", help=words)
    own.add_argument("--replace", action="store_true", help="write over what is there")


def _free(wish: argparse.Namespace, *paths: Path) -> None:
    """Refuse what would write over a file."""
    for path in paths:
        if path.exists() and not wish.replace:
            raise InputError(f"{path} is there already: choose another name, or add --replace")


def _worked(wish: argparse.Namespace) -> Any:
    from mechcalc.cli.commands import _manner
    from mechcalc.cli.working import work
    return work(wish.calculation, wish.machine, _manner(wish))


def _written(*paths: Path) -> int:
    for path in paths:
        print(f"Written: {path}")
    return DONE


def add_film(own: argparse.ArgumentParser) -> None:
    """The options of ``film``."""
    _calculation(own)
    _file(own, "an .mp4 or a .gif; the captions go beside it, as .vtt")
    own.add_argument("--title", metavar="TITLE", help="on the title card (the calculation unless given)")
    own.add_argument("--speed", type=float, default=1.0, metavar="S",
                     help="times the usual pace, which is slow where a carry is under way (1 unless given)")
    own.add_argument("--size", type=_size, default=(1920, 1080), metavar="WxH",
                     help="width and height in pixels (1920x1080 unless given)")
    own.add_argument("--no-words", action="store_true", help="leave the captions to the player: none in the picture")
    own.set_defaults(do=do_film)


def _size(text: str) -> tuple[int, int]:
    width, cross, height = text.lower().replace("×", "x").partition("x")
    if not (cross and width.isdecimal() and height.isdecimal() and text.isascii() | ("×" in text)):
        raise argparse.ArgumentTypeError(f"a size is a width and a height, such as 1280x720, not {text!r}")
    return int(width), int(height)


def do_film(wish: argparse.Namespace) -> int:
    """Film a calculation."""
    from mechcalc.sharing import film
    path = wish.file.expanduser()
    _free(wish, path, path.with_suffix(".vtt"))
    return _written(*film(_worked(wish), path, title=wish.title, speed=wish.speed, words=not wish.no_words,
                          size=wish.size))


COMMANDS: dict[str, tuple[Callable[[argparse.ArgumentParser], None], str, str]] = {
    "film": (add_film, "film a calculation, with captions",
             "Work a calculation and film it, as MP4 or GIF, slow where a carry is under way. The captions stand in "
             "the picture, and in a WebVTT file beside it. An MP4 needs the package av (mechcalc[film])."),
}
