"""A picture of a class's answers: how each question went, and which misconceptions occur.

Only this file draws it. Every part has a grey and a hatch of its own and its number written in it, so it can be read in
print and without colour. matplotlib is imported here, when a plot is asked for.
"""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from mechcalc.preparing.marking.report import ClassReport

PARTS = {"right": ("0.35", "", "white"), "misconception": ("0.75", "////", "black"),
         "otherwise wrong": ("0.92", "....", "black"), "unreadable": ("1.0", "xxxx", "black"),
         "missing": ("1.0", "", "black")}
MOST = 12  # misconceptions


def figure_of(report: ClassReport) -> Figure:
    """Two panels: bars by question, and bars by misconception.

    Parameters
    ----------
    report : ClassReport
        What to draw.

    Returns
    -------
    matplotlib Figure
        Not attached to any window.
    """
    from matplotlib.figure import Figure
    questions, slips = report.by_question(), report.by_misconception()[:MOST]
    heights = [len(questions) + 1.6, max(len(slips), 1) + 1.2]
    figure = Figure(figsize=(9, 1.0 + 0.42 * sum(heights)), layout="constrained")
    upper, lower = figure.subplots(2, 1, height_ratios=heights)
    _by_question(upper, questions)
    _by_misconception(lower, slips)
    return figure


def _by_question(ax: Axes, rows: list[list[object]]) -> None:
    """A bar a question, its parts written out."""
    ends = [0.0] * len(rows)
    for place, (name, (grey, hatch, ink)) in enumerate(PARTS.items(), start=2):
        lengths = [float(str(row[place])) for row in rows]
        if not any(lengths):
            continue
        ax.barh(range(len(rows)), lengths, left=ends, label=name, color=grey, hatch=hatch, edgecolor="black",
                linewidth=0.8)
        for at, (length, end) in enumerate(zip(lengths, ends, strict=True)):
            if length:
                ax.text(end + length / 2, at, f"{length:.0f}", ha="center", va="center", color=ink, fontsize=9,
                        bbox=None if ink == "white" else {"facecolor": "white", "edgecolor": "none", "pad": 0.8})
        ends = [end + length for end, length in zip(ends, lengths, strict=True)]
    ax.set_yticks(range(len(rows)), [textwrap.fill(f"{row[0]}  {row[1]}", 40) for row in rows])
    ax.invert_yaxis()
    ax.set_xlim(0, max([1.0, *ends]))
    ax.set_xlabel("learners")
    ax.set_title("How the questions went", loc="left")
    ax.legend(loc="upper left", bbox_to_anchor=(1.0, 1.0), frameon=False)
    _plain(ax)


def _by_misconception(ax: Axes, rows: list[list[object]]) -> None:
    """A bar a misconception: what fits it alone, and what fits others as well."""
    ax.set_title("Misconceptions, by the answers that fit", loc="left")
    _plain(ax)
    if not rows:
        ax.set_axis_off()
        ax.text(0, 0.5, "None was found.", transform=ax.transAxes)
        return
    alone = [int(str(row[2])) for row in rows]
    others = [int(str(row[1])) - one for row, one in zip(rows, alone, strict=True)]
    places = range(len(rows))
    ax.barh(places, alone, color="0.35", edgecolor="black", linewidth=0.8, label="fits nothing else")
    ax.barh(places, others, left=alone, color="0.92", hatch="////", edgecolor="black", linewidth=0.8,
            label="fits another too")
    for at, row in enumerate(rows):
        ax.text(int(str(row[1])), at, f" {row[1]} ({row[3]} learner{'s' * (row[3] != 1)})", va="center", fontsize=9)
    ax.set_yticks(places, [textwrap.fill(str(row[0]), 34) for row in rows])
    ax.invert_yaxis()
    most = max(int(str(row[1])) for row in rows)
    ax.set_xlim(0, 1.5 * most)
    ax.set_xticks(range(0, most + 1, max(1, most // 8)))
    ax.set_xlabel("answers")
    ax.legend(loc="upper left", bbox_to_anchor=(1.0, 1.0), frameon=False)


def _plain(ax: Axes) -> None:
    for side in ("top", "right"):
        ax.spines[side].set_visible(False)
    ax.tick_params(axis="y", length=0)
