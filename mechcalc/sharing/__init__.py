"""Material that leaves the notebook: a film, a poster, a working or a lesson on paper, slides, a kiosk.

Only this file lists the public names; each loads its own room when it is first used.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from mechcalc.sharing.film import film
    from mechcalc.sharing.handout import handout
    from mechcalc.sharing.paper.poster import poster
    from mechcalc.sharing.paper.working import working_sheet
    from mechcalc.sharing.slides import slides

_HOME = {"film": "film", "handout": "handout", "poster": "paper.poster", "slides": "slides",
         "working_sheet": "paper.working"}

__all__ = ["film", "handout", "poster", "slides", "working_sheet"]


def __getattr__(name: str) -> Any:
    if name not in _HOME:
        raise AttributeError(f"module 'mechcalc.sharing' has no attribute {name!r}")
    value = getattr(import_module(f"mechcalc.sharing.{_HOME[name]}"), name)
    globals()[name] = value
    return value


def __dir__() -> list[str]:
    return sorted({*globals(), *_HOME})
