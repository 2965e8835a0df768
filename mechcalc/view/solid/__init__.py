"""The solid view: the whole mechanism in three dimensions, moved by the same timeline as the flat view.

Only this file lists what the room gives: `SolidView`, which `mechcalc.view.show` makes with ``solid=True``.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from mechcalc.view.solid.widget import SolidView

__all__ = ["SolidView"]


def __getattr__(name: str) -> Any:
    if name not in __all__:
        raise AttributeError(f"module 'mechcalc.view.solid' has no attribute {name!r}")
    return getattr(import_module("mechcalc.view.solid.widget"), name)
