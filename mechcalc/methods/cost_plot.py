"""A picture of a comparison: bars of weighted strokes.

Only this file draws costs. Each kind of stroke has its own hatch and grey, so that the picture can be read without
colour; totals and refusals are written out. A picture of its own has the size of a projector's and type that can be
read from the back of a room. matplotlib is imported here, when a plot is asked for.
"""

from __future__ import annotations

from textwrap import fill
from typing import TYPE_CHECKING

from mechcalc.methods.comparing import KINDS, Comparison, Trial
from mechcalc.methods.table import said

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

HATCHES = dict(zip(KINDS, ("", "//", "..", "xx", "\\\\", "oo"), strict=True))
GREYS = dict(zip(KINDS, ("0.35", "0.95", "0.8", "1.0", "0.65", "0.9"), strict=True))
SIZE = (12.8, 7.2)     # inches: 1280 by 720 pixels at 100 to the inch
FAR = 20.0             # points; 28 of 720 lines high
LONG = 26              # letters of a name in a line
INSIDE = 0.05          # of the width: a part that is narrower does not hold its count


def projected(comparison: Comparison) -> Figure:
    """The bars on a figure of their own, for a projector.

    Examples
    --------
    >>> from mechcalc.methods import compare, ways_of_multiplying
    >>> projected(compare("bench", ways_of_multiplying(347, 98))).get_size_inches().tolist()
    [12.8, 7.2]
    """
    from matplotlib import rc_context

    from mechcalc.view.plotting import sheet
    with sheet(*SIZE) as (figure, (ax,)), rc_context({
            "font.size": FAR, "legend.fontsize": FAR - 2, "hatch.linewidth": 1.2}):
        for axis in (ax.xaxis, ax.yaxis):
            axis.set_tick_params(labelsize=FAR, width=1.5)
        bars(comparison, ax)
        ax.title.set_fontsize(FAR + 4)
        ax.xaxis.label.set_fontsize(FAR)
    return figure


def bars(comparison: Comparison, ax: Axes | None = None) -> Axes:
    """One bar a way, the first one on top, with a part for each kind of stroke that occurs.

    Parameters
    ----------
    comparison : Comparison
        What to draw.
    ax : matplotlib Axes, optional
        Where; a new figure (see `projected`) unless given.

    Returns
    -------
    matplotlib Axes
        With labels, a legend, how often each thing is done, and the totals at the ends of the bars.
    """
    if ax is None:
        return projected(comparison).axes[0]
    places = range(len(comparison.trials))
    ends = [0.0] * len(comparison.trials)
    most = 1.3 * max([1.0, *(comparison.total(trial) for trial in comparison.trials if trial.cost)])
    for kind in KINDS:
        lengths = [trial.cost.parts(comparison.weights)[kind] if trial.cost else 0.0 for trial in comparison.trials]
        if not any(lengths):
            continue
        ax.barh(places, lengths, left=ends, label=kind, color=GREYS[kind], edgecolor="black", hatch=HATCHES[kind])
        _counts(ax, comparison, kind, list(zip(places, ends, lengths, strict=True)), most)
        ends = [end + length for end, length in zip(ends, lengths, strict=True)]
    for place, trial, end in zip(places, comparison.trials, ends, strict=True):
        best = comparison.is_best(trial)
        text = f" {end:.1f}{', best' if best else ''}" if trial.cost else " refused"
        ax.text(end, place, text, va="center", ha="left", fontweight="bold" if best else "normal")
    ax.set_yticks(list(places), [fill(_label(comparison, trial), LONG) for trial in comparison.trials])
    ax.invert_yaxis()
    ax.set_xlim(0, most)
    ax.set_xlabel("weighted strokes; in the bars: how many")
    ax.set_title(_title(comparison))
    if any(ends):
        ax.legend(loc="upper left", bbox_to_anchor=(1.0, 1.0), handlelength=1.4)
    return ax


def _label(comparison: Comparison, trial: Trial) -> str:
    """The way; where answers differ, its answer with it."""
    return trial.label if comparison.agree or not trial.cost else f"{trial.label}: {said(trial.answer)}"


def _title(comparison: Comparison) -> str:
    """What was compared, and the answer that all came to."""
    answers = [said(trial.answer) for trial in comparison.trials if trial.cost]
    return f"{comparison.title}, answer {answers[0]}" if answers and comparison.agree else comparison.title


def _counts(ax: Axes, comparison: Comparison, kind: str, row: list[tuple[int, float, float]], most: float) -> None:
    """How often this kind of stroke is made, inside its part of each bar, where the part is wide enough."""
    for (place, start, length), trial in zip(row, comparison.trials, strict=True):
        if trial.cost and length > INSIDE * most:
            ax.text(start + length / 2, place, str(getattr(trial.cost, kind)), va="center", ha="center",
                    bbox={"facecolor": "white", "edgecolor": "none", "pad": 2})
