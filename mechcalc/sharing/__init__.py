"""Material that leaves the notebook: a film, a poster, a working or a lesson on paper, slides, a kiosk.

Only this file lists the public names; each loads its own room when it is first used.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from mechcalc.sharing.film import film

_HOME = {"film": "film"}

__all__ = ["film"]


def __getattr__(name: str) -> Any:
    if name not in _HOME:
        raise AttributeError(f"module 'mechcalc.sharing' has no attribute {name!r}")
    value = getattr(import_module(f"mechcalc.sharing.{_HOME[name]}"), name)
    globals()[name] = value
    return value


def __dir__() -> list[str]:
    return sorted({*globals(), *_HOME})
