"""A plot of a table and its differences, one order below the other.

Only this file draws them. Every number comes from `mechcalc.methods.differencing`; heights and numbers carry the
meaning, colours only help.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from mechcalc.methods.differencing import differences_of, order_name
from mechcalc.numbers import whole
from mechcalc.view.drawing import ACT, CARRY, INK, QUIET
from mechcalc.view.plotting import SMALLEST, sheet

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

MOST_ORDERS = 6


def difference_plot(values: Sequence[int], orders: int, *, start: int = 0, step: int = 1,
                    mark: int | None = None) -> Figure:
    """The entries of a table, and below them its differences, order by order.

    A difference of even order stands at the middle one of its entries, one of odd order between two. The last order
    has its numbers written beside it, where they are not nought.

    Parameters
    ----------
    values : sequence of int
        The entries.
    orders : int
        How many orders of differences, 1 to 6.
    start, step : int
        The first argument, and how far apart they are.
    mark : int, optional
        An argument to mark with a band through all orders.

    Raises
    ------
    InputError
        As for `mechcalc.methods.differencing.differences_of`.

    Examples
    --------
    >>> figure = difference_plot([0, 1, 4, 9, 61, 25, 36, 49, 64], 3, mark=4)
    >>> [text.get_text() for text in figure.axes[3].texts]
    ['third differences', '45', '−135', '135', '−45']
    """
    from matplotlib.ticker import MaxNLocator

    orders = whole(orders, "a number of orders", 1, MOST_ORDERS)
    start, step = whole(start, "a start"), whole(step, "a step", 1)
    rows = [differences_of(values, order) for order in range(orders + 1)]
    with sheet(10.0, 1.0 + 1.35 * (orders + 1), rows=orders + 1) as (figure, axes):
        for order, (ax, row) in enumerate(zip(axes, rows, strict=True)):
            at = [start + step * (place + order / 2) for place in range(len(row))]
            _stems(ax, at, row)
            if mark is not None:
                ax.axvspan(mark - 0.45 * step, mark + 0.45 * step, color=ACT, alpha=0.35, linewidth=0, zorder=0)
            ax.set_xlim(start - 0.8 * step, start + step * (len(rows[0]) - 0.2))
            ax.text(0.012, 0.97, "entries" if not order else f"{order_name(order)} differences",
                    transform=ax.transAxes, ha="left", va="top")
            ax.xaxis.set_major_locator(MaxNLocator(11, integer=True))
            ax.tick_params(labelbottom=order == orders)
        _numbers(axes[-1], at, rows[-1])
        axes[-1].set_xlabel("x")
    return figure


def _stems(ax: Axes, at: Sequence[float], row: Sequence[int]) -> None:
    """A dot for each number, on a stem from nought; room above for the name of the order."""
    ax.vlines(at, 0, row, colors=CARRY, linewidth=2.5)
    ax.plot(at, row, linestyle="", marker="o", markersize=6, color=INK)
    ax.axhline(0, color=QUIET, linewidth=1)
    low, high = min(0, *row), max(0, *row)
    span = (high - low) or 1
    ax.set_ylim(low - 0.12 * span, high + 0.45 * span)
    ax.set_yticks(sorted({low, 0, high}))


def _numbers(ax: Axes, at: Sequence[float], row: Sequence[int]) -> None:
    """The numbers beside their dots; room for those below the line."""
    low, high = ax.get_ylim()
    ax.set_ylim(low - 0.3 * (high - low) * (min(row) < 0), high)
    for x, number in zip(at, row, strict=True):
        if number:
            ax.annotate(f"{number}".replace("-", "−"), (x, number), xytext=(0, 6 if number > 0 else -6),
                        textcoords="offset points", ha="center", va="bottom" if number > 0 else "top",
                        fontsize=SMALLEST)
