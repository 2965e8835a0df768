"""Slides: stills of chosen angles as SVG, the parts in action named, in a folder with an index.

Only this file chooses the angles and writes the folder.
"""

from __future__ import annotations

from collections.abc import Iterable
from html import escape
from math import isfinite
from os import PathLike
from pathlib import Path
from typing import Any

from mechcalc.errors import InputError
from mechcalc.numbers import shown
from mechcalc.printing.web_page import web_page
from mechcalc.sharing.slideshow.labelled import labelled
from mechcalc.spec import MachineSpec
from mechcalc.view.drawing_svg import drawing_svg
from mechcalc.view.explain import moment_text
from mechcalc.view.subject import timeline_of
from mechcalc.view.timeline import Timeline
from mechcalc.whole_files import write_whole

__all__ = ["slides"]
CHOICES = ("carries", "strokes")
MOST = 200
STYLE = """
:root { color-scheme: light; } body { margin: 0; padding: 16px; background: #e9e0cb; color: #251f19;
  font: 16px/1.45 "Palatino Linotype", Palatino, serif; } main { max-width: 1100px; margin: 0 auto; }
figure { margin: 0 0 32px; background: #f7f1e3; padding: 12px; } img { width: 100%; height: auto; }
figcaption { white-space: pre-line; } code { font-size: 14px; }
"""


def slides(what: Any, folder: str | PathLike[str], at: Iterable[float] | str | None = None, *,
           spec: MachineSpec | None = None, title: str | None = None, replace: bool = False) -> tuple[Path, ...]:
    """Write stills as SVG files, and a page that shows them with their words.

    Parameters
    ----------
    what : Machine, Working, Stroke or sequence of Stroke
        As `mechcalc.view.show` takes it.
    folder : path
        Where to; made if it is not there.
    at : numbers, "carries" or "strokes", optional
        Degrees of travel since the beginning; or the moments at which a carry has moved a wheel; or the ends of the
        strokes. Carries unless given, or strokes where nothing carries.
    spec : MachineSpec, optional
        For bare strokes.
    title : str, optional
        The heading; the working's, or the machine's name, unless given.
    replace : bool
        Whether an index that is there may be written over.

    Returns
    -------
    tuple of Path
        The slides in order, and the index at the end. Each slide's alternative text is its ``title`` element.

    Raises
    ------
    InputError
        Nothing to show; travels that are none; too many; an index that is there; a folder that cannot be written.
    """
    told = timeline_of(what, spec=spec, title=title)
    travels = chosen(told, at)
    folder = Path(folder)
    index = folder / "index.html"
    if index.exists() and not replace:
        raise InputError(f"{index} is there already: choose another folder, or say that it may be replaced")
    written, figures = [], []
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for number, travel in enumerate(travels, start=1):
            path, words = folder / f"slide-{number:03}.svg", moment_text(told, travel)
            write_whole(path, drawing_svg(labelled(told, travel), words).encode())
            written.append(path)
            figures.append((path.name, words))
        write_whole(index, _index(told, figures).encode())
    except OSError as error:
        raise InputError(f"{folder} cannot be written to: {error.strerror}") from None
    return (*written, index)


def chosen(told: Timeline, at: Iterable[float] | str | None) -> list[float]:
    """The travels that are meant.

    >>> from mechcalc import Machine, load_spec
    >>> m = Machine(load_spec("slate"))
    >>> _ = m.set(99); _ = m.turn(2)
    >>> chosen(timeline_of(m), "strokes"), chosen(timeline_of(m), "carries")
    ([60.0, 420.0, 780.0], [653.5, 665.5])
    """
    carries = [moment["at"] for moment in told["moments"] if "carry step" in moment["kinds"]]
    ends = [stroke["to"] for stroke in told["strokes"]]
    if at is None:
        travels = carries or ends
    elif isinstance(at, str):
        if at not in CHOICES:
            raise InputError(f"slides are of {' or of '.join(CHOICES)}, or of degrees of travel, not of {shown(at)}")
        travels = carries if at == "carries" else ends
    else:
        travels = [_travel(one, told["length"]) for one in at]
    if not 0 < len(travels) <= MOST:
        raise InputError(f"there is nothing to make slides of: {'no carry' if at == 'carries' else 'no stroke'}"
                         if not travels else f"{len(travels)} slides are too many: {MOST} at most")
    return travels


def _travel(value: Any, length: float) -> float:
    if isinstance(value, bool) or not isinstance(value, (int, float)) or not isfinite(value) or not (
            0 <= value <= length):
        raise InputError(f"a slide shows a travel from 0 to {length:g} degrees, not {shown(value)}")
    return float(value)


def _index(told: Timeline, figures: list[tuple[str, str]]) -> str:
    title = told["title"] or told["machine"]["name"] or "A calculating machine"
    shown_all = "\n".join(f'<figure><img src="{name}" alt="{escape(words)}"><figcaption><code>{name}</code>\n'
                          f'{escape(words)}</figcaption></figure>' for name, words in figures)
    return web_page(f"{title}: slides", STYLE, f"<h1>{escape(title)}</h1>\n{shown_all}\n", images="'self' file:")
