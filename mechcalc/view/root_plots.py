"""The picture of a square root: a square that grows by one strip for each turn.

Only this file draws it. Each strip is one turn of the working; its area is what that turn took away.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from textwrap import fill
from typing import TYPE_CHECKING

from mechcalc.errors import InputError
from mechcalc.methods.gnomons import Gnomon, gnomons_of
from mechcalc.methods.working import Working
from mechcalc.view.drawing import INK, PAPER
from mechcalc.view.plotting import SMALLEST, TYPE_SIZE, sheet

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

LOOKS = ({"facecolor": "white"}, {"facecolor": "0.72"})
MOST_CELLS = 40  # beyond this the unit squares are not drawn
THIN = 0.08      # of the side: a narrower strip has its number outside
MOST_TOLD = 8    # such numbers; of more, the first and the last are told
FINE = 0.01      # and one that is no wider than this has fine outlines


def gnomons(working: Working) -> Figure:
    """A square root as a square of strips, one a turn, the first at the lower left.

    Parameters
    ----------
    working : Working
        What `square_root` returned.

    Raises
    ------
    InputError
        Another method's working, or a root of nought.

    Examples
    --------
    >>> from mechcalc import Machine, load_spec
    >>> from mechcalc.methods import square_root
    >>> figure = gnomons(square_root(Machine(load_spec("slate")), 529))
    >>> figure.axes[0].get_title(loc="left")
    '23² = 100 + 300 + 41 + 43 + 45'
    """
    strips = gnomons_of(working)
    if not strips:
        raise InputError(f"{working.title} has no turns to draw")
    root = strips[-1].side + strips[-1].width
    with sheet(7.4, 6.6) as (figure, (ax,)):
        ax.set_aspect("equal")
        ax.set_xlim(-0.02 * root, (1.24 if strips[-1].width < THIN * root else 1.02) * root)
        ax.set_ylim(-0.02 * root, 1.02 * root)
        ax.set_title(fill(f"{root}² = {_sum(strips)}", 56), loc="left")
        for number, strip in enumerate(strips):
            _draw(ax, strip, root, number)
        _cells(ax, root)
        _numbers(ax, strips, root)
        ax.spines[["left", "bottom"]].set_visible(False)
        ax.set_xticks(_corners(strips))
        ax.set_yticks(_corners(strips))
    return figure


def _sum(strips: Sequence[Gnomon]) -> str:
    """The areas, added up; in the middle of a long row only dots."""
    areas = [str(strip.area) for strip in strips]
    return " + ".join(areas if len(areas) <= 9 else [*areas[:5], "…", *areas[-2:]])


def _corners(strips: Sequence[Gnomon]) -> list[int]:
    """Where a strip of another width begins, and the ends; what would be written over its neighbour is left out."""
    root = strips[-1].side + strips[-1].width
    inner = [after.side for before, after in pairwise(strips) if before.width != after.width]
    return [0, *(side for side in inner if root - side > THIN * root), root]


def _draw(ax: Axes, strip: Gnomon, root: int, number: int) -> None:
    from matplotlib.patches import Polygon

    a, b = strip.side, strip.side + strip.width
    ax.add_patch(Polygon([(a, 0), (b, 0), (b, b), (0, b), (0, a), (a, a)], closed=True, edgecolor=INK,
                         linewidth=2 if strip.width > FINE * root else 0.4, gid=f"strip/{number}", **LOOKS[number % 2]))


def _cells(ax: Axes, root: int) -> None:
    """The unit squares, where they can be counted."""
    if root > MOST_CELLS:
        return
    for at in range(1, root):
        ax.plot([at, at], [0, root], color="0.5", linewidth=0.6)
        ax.plot([0, root], [at, at], color="0.5", linewidth=0.6)


def _numbers(ax: Axes, strips: Sequence[Gnomon], root: int) -> None:
    """The area in the strip's corner; a thin strip's at the right, with a line to it."""
    thin = [strip for strip in strips if strip.width < THIN * root]
    for strip in strips:
        if strip not in thin:
            middle = strip.side + strip.width / 2
            ax.text(middle, middle, str(strip.area), ha="center", va="center", fontsize=TYPE_SIZE, weight="bold",
                    bbox={"facecolor": PAPER, "edgecolor": "none", "pad": 2})
    told = thin if len(thin) <= MOST_TOLD else [*thin[:MOST_TOLD // 2], *thin[-MOST_TOLD // 2:]]
    for number, strip in enumerate(told):
        x, y = strip.side + strip.width / 2, (0.3 + 0.075 * number) * root
        ax.annotate(str(strip.area), (x, y), (1.06 * root, y + 0.02 * root * (number + 1)), va="center",
                    fontsize=SMALLEST, weight="bold", arrowprops={"arrowstyle": "-", "color": INK, "linewidth": 1.2})
        ax.plot(x, y, "o", color=INK, markersize=4)
