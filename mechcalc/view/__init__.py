"""The picture: timelines, poses, and the ways to show them (a live view, a still, a page to take home).

Only this file lists the public names; each loads its own room when it is first used.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from mechcalc.lazily import at_first_use

if TYPE_CHECKING:
    from mechcalc.view.counter_scheme import counter_gears
    from mechcalc.view.division_plots import remainder_paths, turns_for_each_figure
    from mechcalc.view.effort_charts import carries_chart, effort_chart, timetable_with_effort
    from mechcalc.view.effort_words import angles_text, carries_text, effort_text, peaks_text
    from mechcalc.view.explain import moment_text
    from mechcalc.view.growth_charts import angles_chart, peaks_chart
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
         "turns_for_each_figure": "division_plots", "plotted": "plotting", "gnomons": "root_plots",
         **dict.fromkeys(("carries_chart", "effort_chart", "timetable_with_effort"), "effort_charts"),
         **dict.fromkeys(("angles_chart", "peaks_chart"), "growth_charts"),
         **dict.fromkeys(("angles_text", "carries_text", "effort_text", "peaks_text"), "effort_words")}

__all__ = ["MachineView", "angles_chart", "angles_text", "carries_chart", "carries_text", "counter_gears",
           "digit_paths", "effort_chart", "effort_text", "gnomons", "moment_text", "named_parts", "peaks_chart",
           "peaks_text", "plotted", "remainder_paths", "show", "still", "still_svg", "take_home", "timeline_of",
           "timetable_with_effort", "turn_chart", "turns_compared", "turns_for_each_figure"]

__getattr__, __dir__ = at_first_use(__name__, _HOME, globals())
