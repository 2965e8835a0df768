"""How carries grow, as plots: the peak of effort against the nines, the drum's angle against the places.

Only this file draws them. A line is told by its mark, its stroke, and the name and number at its end, so that nothing
hangs on colour. matplotlib is loaded when a plot is drawn.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

from mechcalc.carries import Prices, angles_by_places, peaks_by_nines
from mechcalc.carries.mechanisms import NAMES
from mechcalc.numbers import whole
from mechcalc.spec import MOST_PLACES, MachineSpec
from mechcalc.view.drawing import CARRY, INK, LEVER, PAPER
from mechcalc.view.plotting import TYPE_SIZE, sheet

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

# Mark, stroke, colour, face of the mark.
LINES = dict(zip(NAMES, (("o", "-", INK, INK), ("s", "--", CARRY, "white"), ("^", "-.", LEVER, "white"),
                         ("D", ":", INK, "white")), strict=True))
LABEL = {"facecolor": PAPER, "edgecolor": "none", "pad": 3}
HIGHEST = 430  # degrees at which the sheet of angles ends


def peaks_chart(spec: MachineSpec, prices: Prices | None = None) -> Figure:
    """The peak of 99...9 + 1 against the number of nines, a line for each mechanism.

    Parameters
    ----------
    spec : MachineSpec
        A machine whose carries reach all its number wheels.
    prices : Prices, optional
        Those of the model unless given.

    Raises
    ------
    InputError
        A machine that cannot be compared.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> peaks_chart(load_spec("plain")).axes[0].get_xlabel()
    'nines in 99…9 + 1'
    """
    peaks = peaks_by_nines(spec, prices)
    with sheet(9.4, 5.2) as (figure, (axes,)):
        axes.set_ylim(0, 1.08 * max(1.0, *map(max, peaks.values())))
        _lines(axes, range(spec.result_places), peaks)
        axes.set_xticks(range(spec.result_places))
        axes.set_xlabel("nines in 99…9 + 1")
        axes.set_ylabel("peak effort, wheels")
    return figure


def angles_chart(spec: MachineSpec, most: int = 14) -> Figure:
    """The drum's angle, for turns either way, against the places through which it carries; the turn's end is drawn.

    Parameters
    ----------
    spec : MachineSpec
        Whose angles are taken.
    most : int
        The most places, 2 to 40.

    Raises
    ------
    InputError
        Another number of places.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> [text.get_text() for text in angles_chart(load_spec("slate")).axes[0].texts][-1]
    'full with 11 places'
    """
    places = range(1, whole(most, "the most places drawn", 2, MOST_PLACES) + 1)
    room, last = 360 - spec.rest_arc, spec.largest_carry_reach
    with sheet(9.4, 5.2) as (figure, (axes,)):
        axes.set_ylim(0, HIGHEST)
        axes.axhspan(room, HIGHEST, facecolor="0.93", edgecolor="0.6", hatch="//", linewidth=0)
        axes.axhline(room, color=INK, linewidth=2)
        drawn = {name: [angle for angle in angles if angle <= HIGHEST] for name, angles in
                 angles_by_places(spec, most).items()}
        _lines(axes, places, drawn, "°")
        axes.text(1, room + 14, f"more than a turn: {room:g}° and the rest arc", va="bottom", bbox=LABEL)
        if 1 < last <= most:
            axes.annotate(f"full with {last} places", (last, drawn[NAMES[1]][last - 1]), (26, -40),
                          textcoords="offset points", va="top", bbox=LABEL,
                          arrowprops={"arrowstyle": "-|>", "color": INK, "linewidth": 1.5})
        axes.set_xticks(places)
        axes.set_xlabel("places through which carries go")
        axes.set_ylabel("degrees of drum, either way")
    return figure


def _lines(axes: Axes, sizes: Sequence[int], rows: Mapping[str, Sequence[float]], unit: str = "") -> None:
    """A line for each mechanism, its name and last value at its end; two that are the same all along are one line."""
    together: dict[tuple[float, ...], list[str]] = {}
    for name, row in rows.items():
        together.setdefault(tuple(row), []).append(name)
    least = 0.075 * axes.get_ylim()[1]
    heights = _apart([row[-1] for row in together], least)
    for (row, names), height in zip(together.items(), heights, strict=True):
        mark, stroke, color, face = LINES[names[0]]
        axes.plot(sizes[:len(row)], row, marker=mark, linestyle=stroke, color=color, markerfacecolor=face, markersize=9,
                  linewidth=2.4, markeredgewidth=1.8, label=names[0])
        end = sizes[len(row) - 1]
        axes.text(end + 0.03 * (sizes[-1] - sizes[0]), height + (0.4 * least if names[1:] else 0),
                  f"{row[-1]:g}{unit} " + ",\n".join(names), color=color, va="top" if names[1:] else "center",
                  fontsize=TYPE_SIZE, bbox=LABEL)
    axes.set_xlim(sizes[0] - 0.3, sizes[-1] + 0.44 * (sizes[-1] - sizes[0]))  # room for the names
    axes.grid(color="0.88")
    axes.set_axisbelow(True)


def _apart(values: Sequence[float], least: float) -> list[float]:
    """Heights for names at lines' ends: as the values, but moved apart where two come closer than `least`.

    >>> _apart([10, 1.3, 9, 1.0], 0.5)
    [10.0, 1.4, 9.0, 0.9]
    """
    heights = [float(value) for value in values]
    order = sorted(range(len(heights)), key=heights.__getitem__)
    for below, above in pairwise(order):
        lacking = least - (heights[above] - heights[below])
        if lacking > 0:
            heights[below] -= lacking / 2
            heights[above] += lacking / 2
    return [round(height, 9) for height in heights]
