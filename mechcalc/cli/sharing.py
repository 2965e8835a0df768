"""The commands that make something to show elsewhere: a film, a poster, paper, slides, a kiosk.

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
    own.add_argument("--solid", action="store_true", help="in three dimensions, drawn by a browser")
    own.add_argument("--follow", action="store_true", help="in three dimensions, going near wherever a carry happens")
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
                          size=wish.size, solid="follow" if wish.follow else wish.solid))


def add_poster(own: argparse.ArgumentParser) -> None:
    """The options of ``poster``."""
    own.add_argument("machine", metavar="NAME", help="a machine of the catalogue, or the path of a TOML file")
    _file(own, "a .pdf, of size A3")
    own.set_defaults(do=do_poster)


def do_poster(wish: argparse.Namespace) -> int:
    """The poster of a machine."""
    from mechcalc.sharing import poster
    path = wish.file.expanduser()
    _free(wish, path)
    return _written(poster(wish.machine, path))


PAPERS = ("a4", "letter")


def add_print(own: argparse.ArgumentParser) -> None:
    """The options of ``print``."""
    _calculation(own)
    _file(own, "a .pdf or an .html")
    own.add_argument("--paper", choices=PAPERS, default="a4", help="a4 unless given")
    own.set_defaults(do=do_print)


def do_print(wish: argparse.Namespace) -> int:
    """A working as a table on paper."""
    from mechcalc.sharing import working_sheet
    path = wish.file.expanduser()
    _free(wish, path)
    return _written(working_sheet(_worked(wish), path, paper=wish.paper, replace=wish.replace))


def add_handout(own: argparse.ArgumentParser) -> None:
    """The options of ``handout``."""
    own.add_argument("lesson", metavar="LESSON", help="a lesson, or the beginning of its name; or a notebook's path")
    _file(own, "a .pdf, printed by a browser of the Chromium family, or an .html")
    own.add_argument("--solutions", action="store_true", help="with the solutions of the exercises")
    own.add_argument("--teacher", action="store_true", help="with the page for the teacher")
    own.add_argument("--paper", choices=PAPERS, default="a4", help="a4 unless given")
    own.set_defaults(do=do_handout)


def do_handout(wish: argparse.Namespace) -> int:
    """A lesson on paper."""
    from mechcalc.setup.telling import Progress
    from mechcalc.sharing import handout
    path = wish.file.expanduser()
    _free(wish, path)
    with Progress() as progress:
        progress.show(f"printing {wish.lesson}")
        return _written(handout(wish.lesson, path, solutions=wish.solutions, teacher=wish.teacher, paper=wish.paper))


def add_slides(own: argparse.ArgumentParser) -> None:
    """The options of ``slides``."""
    _calculation(own)
    own.add_argument("folder", type=Path, metavar="FOLDER", help="where the SVG files and their index.html go")
    own.add_argument("--replace", action="store_true", help="write over slides that are there")
    which = own.add_mutually_exclusive_group()
    which.add_argument("--of", choices=("carries", "strokes"), help="a slide for each carry (which is usual) or for "
                       "each stroke")
    which.add_argument("--at", type=float, action="append", metavar="DEGREES",
                       help="a slide at so many degrees of travel since the beginning; may be given several times")
    own.set_defaults(do=do_slides)


def do_slides(wish: argparse.Namespace) -> int:
    """Stills in a folder."""
    from mechcalc.sharing import slides
    *pictures, index = slides(_worked(wish), wish.folder.expanduser(), wish.at or wish.of, replace=wish.replace)
    print(f"{len(pictures)} slide{'s' * (len(pictures) != 1)}")
    return _written(index)


def add_kiosk(own: argparse.ArgumentParser) -> None:
    """The options of ``kiosk``."""
    _calculation(own)
    _file(own, "the .html file")
    own.add_argument("--title", metavar="TITLE", help="the heading (the calculation unless given)")
    own.add_argument("--idle", type=float, default=60.0, metavar="S",
                     help="seconds without use after which the loop comes back (60 unless given)")
    own.add_argument("--large", action="store_true", help="large type")
    own.add_argument("--solid", action="store_true", help="in three dimensions")
    own.set_defaults(do=do_kiosk)


def do_kiosk(wish: argparse.Namespace) -> int:
    """A page that runs by itself."""
    from mechcalc.sharing import kiosk
    path = wish.file.expanduser()
    _free(wish, path)
    return _written(kiosk(_worked(wish), path, title=wish.title, idle=wish.idle, large=wish.large, solid=wish.solid))


COMMANDS: dict[str, tuple[Callable[[argparse.ArgumentParser], None], str, str]] = {
    "film": (add_film, "film a calculation, with captions",
             "Work a calculation and film it, as MP4 or GIF, slow where a carry is under way. The captions stand in "
             "the picture, and in a WebVTT file beside it. An MP4 needs the package av, a solid film "
             "websocket-client (both in mechcalc[film]) and a browser of the Chromium family; it takes a few minutes."),
    "poster": (add_poster, "print the poster of a machine",
               "Write an A3 poster: the machine with its parts named, the drum's timetable, and a carry step by step."),
    "print": (add_print, "print a calculation as a table",
              "Work a calculation and write it as a table on paper, every stroke with its words and its algebra."),
    "handout": (add_handout, "print a lesson",
                "Write a lesson for paper, with the outputs of its notebook; stills stand in for live views."),
    "slides": (add_slides, "draw a calculation as slides",
               "Work a calculation and draw it at chosen angles as SVG files, parts in action named, with an index."),
    "kiosk": (add_kiosk, "write a calculation as a loop for a kiosk",
              "Work a calculation and write it as one HTML file that runs by itself. A visitor takes it over by touch, "
              "keyboard or mouse; it goes back to its loop when nobody is there."),
}
