"""A scatter plot with the least-squares line that the sums of a machine give.

Only this file draws it. Points, line and distances differ in form, so that the plot can be read in grey; matplotlib is
loaded when one is drawn.
"""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from mechcalc.methods.paper import Coding, TwoVariables, rounded
from mechcalc.view.drawing import CARRY, INK, LEVER
from mechcalc.view.figures import UNITS_AN_INCH, in_notebook

if TYPE_CHECKING:
    from matplotlib.figure import Figure


def values_of(coding: Coding) -> tuple[Fraction, ...]:
    """The values as they were given, before the offset was taken off.

    >>> from mechcalc.methods.paper import coded
    >>> [str(value) for value in values_of(coded(["2.5", "-1"], "smallest", "x"))]
    ['5/2', '-1']
    """
    return tuple(Fraction(coding.offset) + Fraction(on, 10**coding.point) for on in coding.on)


def distances(sums: TwoVariables) -> tuple[Fraction, ...]:
    """How far each y lies above the line (below it: less than nought), exactly. Together they are nought.

    >>> from mechcalc.classroom import ready
    >>> from mechcalc.methods import sums_of_two
    >>> [str(far) for far in distances(sums_of_two(ready("ledger"), [1, 2, 3, 4], [12, 14, 17, 19]))]
    ['1/10', '-3/10', '3/10', '-1/10']
    """
    return tuple(y - sums.intercept - sums.slope * x
                 for x, y in zip(values_of(sums.x), values_of(sums.y), strict=True))


def scatter(sums: TwoVariables, x: str = "x", y: str = "y") -> Figure:
    """The points, the line through their mean, and each point's distance from the line.

    Parameters
    ----------
    sums : TwoVariables
        Of `mechcalc.methods.sums_of_two`.
    x, y : str
        What the axes are called, units included.

    Raises
    ------
    InputError
        All x are alike: there is no line.

    Examples
    --------
    >>> from mechcalc.classroom import ready
    >>> from mechcalc.methods import sums_of_two
    >>> axes = scatter(sums_of_two(ready("ledger"), [1, 2, 3, 4], [12, 14, 17, 19])).axes[0]
    >>> [text.get_text() for text in axes.get_legend().get_texts()]
    ['measured', 'y = 9.500 + 2.400 x', 'the mean of both', 'distance']
    """
    from matplotlib.figure import Figure
    from matplotlib.ticker import MaxNLocator

    figure = Figure(figsize=(880 / UNITS_AN_INCH, 540 / UNITS_AN_INCH), layout="constrained")
    axes = figure.subplots()
    xs, ys = ([float(value) for value in values_of(coding)] for coding in (sums.x, sums.y))
    slope, intercept = float(sums.slope), float(sums.intercept)
    margin = 0.06 * (max(xs) - min(xs))
    ends = [min(xs) - margin, max(xs) + margin]
    sign = "+" if slope >= 0 else "−"
    line = f"y = {rounded(sums.intercept, 3)} {sign} {abs(rounded(sums.slope, 3))} x".replace("= -", "= −")
    axes.plot(xs, ys, "o", markersize=11, color=CARRY, markeredgecolor="black", label="measured", zorder=4)
    axes.plot(ends, [intercept + slope * end for end in ends], color=INK, linewidth=2.4, label=line, zorder=2)
    axes.plot([float(sums.of_x.mean)], [float(sums.of_y.mean)], "P", markersize=15, color="white",
              markeredgecolor="black", label="the mean of both", zorder=3)
    axes.vlines(xs, [intercept + slope * value for value in xs], ys, color=LEVER, linewidth=2.2, linestyle=":",
                label="distance", zorder=3)
    for axis in (axes.xaxis, axes.yaxis):
        axis.set_major_locator(MaxNLocator(9, steps=[1, 2, 5, 10]))
    axes.set_xlabel(x, fontsize=15)
    axes.set_ylabel(y, fontsize=15)
    axes.tick_params(labelsize=14)
    axes.grid(color="0.88")
    axes.set_axisbelow(True)
    axes.spines[["top", "right"]].set_visible(False)
    axes.legend(fontsize=15)
    return in_notebook(figure)
