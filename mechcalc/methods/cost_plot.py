"""A picture of a comparison: bars of weighted strokes.

Only this file draws costs. Each kind of stroke has its own hatch and grey, so that the picture can be read without
colour; totals and refusals are written out. matplotlib is imported here, when a plot is asked for.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from mechcalc.methods.comparing import KINDS, Comparison

if TYPE_CHECKING:
    from matplotlib.axes import Axes

HATCHES = dict(zip(KINDS, ("", "////", "....", "xxxx", "\\\\\\\\", "oo"), strict=True))
GREYS = dict(zip(KINDS, ("0.35", "0.95", "0.8", "1.0", "0.65", "0.9"), strict=True))


def bars(comparison: Comparison, ax: Axes | None = None) -> Axes:
    """One bar a way, the first one on top, with a part for each kind of stroke that occurs.

    Parameters
    ----------
    comparison : Comparison
        What to draw.
    ax : matplotlib Axes, optional
        Where; a new figure unless given.

    Returns
    -------
    matplotlib Axes
        With labels, a legend and the totals written at the ends of the bars.
    """
    if ax is None:
        from matplotlib.figure import Figure
        ax = Figure(figsize=(8, 1.2 + 0.5 * len(comparison.trials)), layout="constrained").subplots()
    places = range(len(comparison.trials))
    ends = [0.0] * len(comparison.trials)
    for kind in KINDS:
        lengths = [trial.cost.parts(comparison.weights)[kind] if trial.cost else 0.0 for trial in comparison.trials]
        if not any(lengths):
            continue
        ax.barh(places, lengths, left=ends, label=kind, color=GREYS[kind], edgecolor="black", hatch=HATCHES[kind])
        ends = [end + length for end, length in zip(ends, lengths, strict=True)]
    for place, trial, end in zip(places, comparison.trials, ends, strict=True):
        text = f" {end:.1f}{', best' if trial is comparison.best else ''}" if trial.cost else " refused"
        ax.text(end, place, text, va="center", ha="left")
    ax.set_yticks(list(places), [trial.label for trial in comparison.trials])
    ax.invert_yaxis()
    ax.set_xlim(0, 1.25 * max([1.0, *ends]))
    ax.set_xlabel("weighted strokes")
    ax.set_title(comparison.title)
    if any(ends):
        ax.legend(loc="upper left", bbox_to_anchor=(1.0, 1.0))
    return ax
