"""The picture: timelines, poses, and the ways to show them (a live view, a still, a page to take home).

Only this file lists the public names; each loads its own room when it is first used.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from mechcalc.view.counter_scheme import counter_gears
    from mechcalc.view.division_plots import remainder_paths, turns_for_each_figure
    from mechcalc.view.explain import moment_text
    from mechcalc.view.naming import named_parts
    from mechcalc.view.plotting import plotted
    from mechcalc.view.root_plots import gnomons
    from mechcalc.view.short_cut_plots import digit_paths, turns_compared
    from mechcalc.view.still import still, still_svg
    from mechcalc.view.subject import timeline_of
    from mechcalc.view.takehome import take_home
    from mechcalc.view.turn_charts import turn_chart
    from mechcalc.view.widget import MachineView, show

_HOME = {"show": "widget", "MachineView": "widget", "take_home": "takehome", "still": "still", "still_svg": "still",
         "moment_text": "explain", "timeline_of": "subject", "named_parts": "naming", "turn_chart": "turn_charts",
         "counter_gears": "counter_scheme", "digit_paths": "short_cut_plots",
         "turns_compared": "short_cut_plots", "remainder_paths": "division_plots",
         "turns_for_each_figure": "division_plots", "plotted": "plotting", "gnomons": "root_plots"}

__all__ = ["MachineView", "counter_gears", "digit_paths", "gnomons", "moment_text", "named_parts", "plotted",
           "remainder_paths", "show", "still", "still_svg", "take_home", "timeline_of", "turn_chart", "turns_compared",
           "turns_for_each_figure"]


def __getattr__(name: str) -> Any:
    if name not in _HOME:
        raise AttributeError(f"module 'mechcalc.view' has no attribute {name!r}")
    value = getattr(import_module(f"mechcalc.view.{_HOME[name]}"), name)
    globals()[name] = value
    return value


def __dir__() -> list[str]:
    return sorted({*globals(), *_HOME})
