"""A kiosk: the page to take home as a loop that a visitor can take over, in one file.

Only this file writes it. The loop works the page's picture by its own controls, so it stands on whatever the picture
is, flat or solid.
"""

from __future__ import annotations

from functools import cache
from math import isfinite
from os import PathLike
from pathlib import Path
from typing import Any

from mechcalc.errors import InputError
from mechcalc.numbers import shown
from mechcalc.spec import MachineSpec
from mechcalc.view.asking import record_scene
from mechcalc.view.bundle import join
from mechcalc.view.subject import subject_of
from mechcalc.view.takehome import page
from mechcalc.whole_files import write_whole

__all__ = ["kiosk"]
HERE = Path(__file__).parent
IDLE, WARNING, REST = 60.0, 15.0, 5.0  # seconds


def kiosk(what: Any, path: str | PathLike[str], *, title: str | None = None, spec: MachineSpec | None = None,
          idle: float = IDLE, rest: float = REST, large: bool = False, solid: bool | str = False) -> Path:
    """Write a page for a kiosk: it shows `what` over and over, until a visitor takes it over.

    Parameters
    ----------
    what : Machine, Working, Stroke or sequence of Stroke
        As `mechcalc.view.show` takes it.
    path : path
        The HTML file; written in one step. It needs no network, and lets nothing out.
    title : str, optional
        The heading; the working's, or the machine's name, unless given.
    spec : MachineSpec, optional
        For bare strokes.
    idle : float
        Seconds without a touch, a key or a playing picture after which the loop comes back, as if nobody had been
        there. For the last 15 it says so; any touch or key stays that.
    rest : float
        Seconds for which the end stands before it begins anew.
    large : bool
        Large type.
    solid : bool or str
        In three dimensions, as `mechcalc.view.show` takes it.

    Returns
    -------
    Path
        The file written.

    Raises
    ------
    InputError
        Nothing to show; times that cannot be; a file that cannot be written.

    Notes
    -----
    Where motion is not wanted (``prefers-reduced-motion``), nothing moves by itself. What does can be stopped for good
    by a button, as WCAG 2.2, 2.2.2 (Pause, Stop, Hide) asks; a visitor who needs more time touches the page, as
    2.2.1 (Timing Adjustable) asks.
    """
    path = Path(path)
    for name, seconds, least in (("idle", idle, 5.0), ("rest", rest, 1.0)):
        if isinstance(seconds, bool) or not isinstance(seconds, (int, float)) or not isfinite(seconds) or not (
                least <= seconds <= 3600):
            raise InputError(f"{name} is from {least:g} to 3600 seconds, not {shown(seconds)}")
    scene = record_scene(subject_of(what, spec=spec, title=title), None, None)
    if not scene["timeline"]["strokes"]:
        raise InputError("there is no stroke to show")
    times = {"idle": float(idle), "rest": float(rest), "warning": min(WARNING, idle / 2)}
    text = page(scene, large=large, solid=solid, around=("runKiosk", _script(), _styles(), times))
    try:
        write_whole(path, text.encode())
    except OSError as error:
        raise InputError(f"{path} cannot be written: {error.strerror}") from None
    return path


@cache
def _script() -> str:
    """The room's modules as one function of their own, so that no name of theirs can clash with the picture's."""
    modules = {path.stem: path.read_text(encoding="utf-8") for path in sorted((HERE / "js").glob("*.js"))}
    return f"const runKiosk = (() => {{\n{join(modules, 'kiosk')}\nreturn runKiosk;\n}})();"


@cache
def _styles() -> str:
    return (HERE / "kiosk.css").read_text(encoding="utf-8")
