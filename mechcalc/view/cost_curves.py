"""A picture of how a cost grows: one line a way, against the size of the calculation.

Only this file draws several comparisons in one picture. Lines differ in mark and stroke, and each says its name at
its end, so that colour is never the only sign.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from mechcalc.errors import InputError
from mechcalc.methods.comparing import KINDS, Comparison, Trial
from mechcalc.numbers import shown
from mechcalc.view.drawing import CARRY, INK
from mechcalc.view.plotting import plotted

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

COUNTS = (*KINDS, "total")
SAID = {"levers": "levers moved by hand", "total": "weighted strokes"}
# Mark, stroke, colour, face of the mark.
LOOKS = (("o", "-", INK, INK), ("s", "--", CARRY, "white"), ("^", "-.", INK, "white"), ("D", ":", CARRY, CARRY))


def cost_series(comparisons: Mapping[int, Comparison], kind: str = "total") -> dict[str, dict[int, float]]:
    """What `cost_curves` draws: for each way its counts by size; refused trials are left out.

    Parameters
    ----------
    comparisons : mapping of int to Comparison
        The size of the calculation, and the same ways compared at it.
    kind : str
        What is counted: ``"turns"``, ``"shifts"``, ``"settings"``, ``"levers"``, ``"transfers"``, ``"clearings"``,
        or the weighted ``"total"``.

    Raises
    ------
    InputError
        Nothing to draw, or a kind that is none.

    Examples
    --------
    >>> from mechcalc.methods import compare, ways_of_chaining
    >>> ways = {n: compare("bench", ways_of_chaining(*range(n, 1, -1))) for n in (3, 5)}
    >>> cost_series(ways, "levers")["by hand"], cost_series(ways, "levers")["back transfer"]
    ({3: 1, 5: 4}, {3: 1, 5: 1})
    """
    if not isinstance(kind, str) or kind not in COUNTS:
        raise InputError(f"what is counted is {', '.join(map(repr, COUNTS))}, not {shown(kind)}")
    series: dict[str, dict[int, float]] = {}
    for size in sorted(comparisons):
        for trial in comparisons[size].trials:
            if trial.cost:
                series.setdefault(trial.label, {})[size] = _count(comparisons[size], trial, kind)
    if not series:
        raise InputError("there is nothing to draw: no way was compared, or all were refused")
    return series


def _count(comparison: Comparison, trial: Trial, kind: str) -> float:
    count: float = comparison.total(trial) if kind == "total" else getattr(trial.cost, kind)
    return count


def cost_curves(comparisons: Mapping[int, Comparison], kind: str = "total", *, of: str = "size") -> Figure:
    """One line a way: how often something is done, against the size of the calculation.

    Parameters
    ----------
    comparisons, kind
        As for `cost_series`.
    of : str
        What the size is, for the axis.

    Raises
    ------
    InputError
        As for `cost_series`.

    Examples
    --------
    >>> from mechcalc.methods import compare, ways_of_chaining
    >>> ways = {n: compare("bench", ways_of_chaining(*range(n, 1, -1))[::2]) for n in (3, 4, 5)}
    >>> cost_curves(ways, "levers", of="n").axes[0].get_ylabel()
    'levers moved by hand'
    """
    series = cost_series(comparisons, kind)

    def draw(ax: Axes) -> None:
        for number, (label, counts) in enumerate(series.items()):
            _line(ax, label, counts, number)
        sizes = sorted(comparisons)
        ax.set_xticks(sizes)
        ax.set_xlim(sizes[0] - 0.5, sizes[-1] + 0.3 * (sizes[-1] - sizes[0] + 1))  # room for the names
        ax.set_ylim(bottom=0)
        ax.set_xlabel(of)
        ax.set_ylabel(SAID.get(kind, kind))
        ax.grid(axis="y", color="0.8")

    return plotted(draw, width=8.4, height=4.6)


def _line(ax: Axes, label: str, counts: Mapping[int, float], number: int) -> None:
    """A way's counts, with its name at the end."""
    mark, stroke, color, face = LOOKS[number % len(LOOKS)]
    sizes = list(counts)
    ax.plot(sizes, list(counts.values()), marker=mark, linestyle=stroke, color=color, markerfacecolor=face,
            markersize=8, linewidth=2, label=label)
    ax.annotate(label, (sizes[-1], counts[sizes[-1]]), color=color, va="center", xytext=(12, 0),
                textcoords="offset points")
