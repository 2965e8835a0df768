"""A sheet for a plot, with type that can be read from the back of a room.

Only this file decides how large a plot's type is. What is on it is drawn elsewhere; how it gets into a notebook,
`figures` knows. matplotlib is loaded when a sheet is asked for; pyplot and its windows are not used.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

from mechcalc.view.drawing import PAPER
from mechcalc.view.figures import in_notebook

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

TYPE_SIZE = 15.0  # points; nothing on a sheet should be smaller than SMALLEST
SMALLEST = 14.0
MARGIN = 0.12  # inches around each part


@contextmanager
def sheet(width: float = 10.0, height: float = 5.0, *, rows: int = 1, columns: int = 1,
          heights: Sequence[float] | None = None) -> Iterator[tuple[Figure, list[Axes]]]:
    """A figure and its axes, with large type as long as they are drawn on.

    Parameters
    ----------
    width, height : float
        Inches.
    rows, columns : int
        How many axes; they come in one list, row by row.
    heights : sequence of float, optional
        How high the rows are beside one another; all the same unless given.

    Examples
    --------
    >>> with sheet(columns=2) as (figure, axes):
    ...     _ = axes[0].set_title("left")
    >>> len(axes), axes[0].title.get_fontsize()
    (2, 16.0)
    """
    from matplotlib import rc_context
    from matplotlib.figure import Figure
    from matplotlib.layout_engine import ConstrainedLayoutEngine

    with rc_context({"font.size": TYPE_SIZE, "axes.titlesize": TYPE_SIZE + 1, "axes.labelsize": TYPE_SIZE,
                     "xtick.labelsize": SMALLEST, "ytick.labelsize": SMALLEST, "legend.fontsize": SMALLEST,
                     "axes.spines.top": False, "axes.spines.right": False, "hatch.linewidth": 0.6,
                     "axes.facecolor": PAPER, "legend.facecolor": PAPER}):
        figure = Figure(figsize=(width, height), facecolor=PAPER,
                        layout=ConstrainedLayoutEngine(w_pad=MARGIN, h_pad=MARGIN))
        axes = figure.subplots(rows, columns, squeeze=False, height_ratios=heights)
        yield in_notebook(figure), [one for row in axes for one in row]


def plotted(draw: Callable[[Axes], Any], *, width: float = 10.0, height: float = 5.0) -> Figure:
    """A sheet with what `draw` draws on its axes.

    Examples
    --------
    >>> from mechcalc.methods import compare, ways_of_dividing
    >>> plotted(compare("slate", ways_of_dividing(2165, 37)).plot).axes[0].get_title()
    'Slate, answer 58'
    """
    with sheet(width, height) as (figure, (axes,)):
        draw(axes)
    return figure
