"""The picture: timelines, poses, and the ways to show them (a live view, a still, a page to take home).

Only this file lists the public names; each loads its own room when it is first used.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from mechcalc.view.explain import moment_text
    from mechcalc.view.naming import named_parts
    from mechcalc.view.still import still, still_svg
    from mechcalc.view.subject import timeline_of
    from mechcalc.view.takehome import take_home
    from mechcalc.view.turn_charts import turn_chart
    from mechcalc.view.widget import MachineView, show

_HOME = {"show": "widget", "MachineView": "widget", "take_home": "takehome", "still": "still", "still_svg": "still",
         "moment_text": "explain", "timeline_of": "subject", "named_parts": "naming", "turn_chart": "turn_charts"}

__all__ = ["MachineView", "moment_text", "named_parts", "show", "still", "still_svg", "take_home", "timeline_of",
           "turn_chart"]


def __getattr__(name: str) -> Any:
    if name not in _HOME:
        raise AttributeError(f"module 'mechcalc.view' has no attribute {name!r}")
    value = getattr(import_module(f"mechcalc.view.{_HOME[name]}"), name)
    globals()[name] = value
    return value


def __dir__() -> list[str]:
    return sorted({*globals(), *_HOME})
