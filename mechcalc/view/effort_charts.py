"""Effort over a turn as plots: of one turn, under the turn's timetable, and of one sum on several mechanisms.

Only this file draws them. What asks for effort is told by hatch and shade, so that nothing hangs on colour; each wheel
is a block of its own, and can be counted. matplotlib is loaded when a plot is drawn.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import fields
from itertools import pairwise
from math import nan
from typing import TYPE_CHECKING, Any

from mechcalc.carries import Carrying, Doing, Prices, effort_of, hardest
from mechcalc.errors import InputError
from mechcalc.events import Stroke
from mechcalc.spec import MachineSpec
from mechcalc.view.drawing import INK, LEVER, PAPER, QUIET
from mechcalc.view.drum_charts import legend_patches, timetable
from mechcalc.view.effort_words import done_in
from mechcalc.view.plotting import TYPE_SIZE, sheet

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

SORTS = tuple(field.name for field in fields(Prices))  # from the bottom of a stack to its top
CALLED = {"wheel": "a wheel driven", "lever": "a lever thrown", "home": "a lever pushed home",
          "feel": "a wheel felt for its nine", "counter": "a counter wheel driven"}
FILLS: dict[str, dict[str, Any]] = {
    "wheel": {"facecolor": INK, "edgecolor": PAPER},
    "lever": {"facecolor": "#f0b429", "edgecolor": INK, "hatch": "...."},
    "home": {"facecolor": "white", "edgecolor": LEVER, "hatch": "////"},
    "feel": {"facecolor": "0.85", "edgecolor": INK, "hatch": "xxxx"},
    "counter": {"facecolor": "white", "edgecolor": QUIET, "hatch": "----"},
}
EFFORT = "effort, wheels"
CRANK = "degrees of crank, in the direction being turned"


def effort_chart(what: Stroke | Carrying, spec: MachineSpec | None = None, prices: Prices | None = None) -> Figure:
    """Effort over a turn, stacked by what asks for it.

    Parameters
    ----------
    what : Stroke or Carrying
        A turn of the crank, or an addition of `mechcalc.carries.carried` (its hardest turn).
    spec : MachineSpec, optional
        The machine; needed for a turn.
    prices : Prices, optional
        Those of the model unless given.

    Raises
    ------
    InputError
        Something else.

    Examples
    --------
    >>> from mechcalc.classroom import ready
    >>> machine = ready("slate", setting=1, result=999)
    >>> [text.get_text() for text in effort_chart(machine.turn(), machine.spec).axes[0].texts]
    ['1.3']
    """
    doings, pitch = done_in(what, spec, prices)
    with sheet(9.4, 4.2) as (figure, (axes,)):
        _stack(axes, doings, pitch, prices)
        _turn_axis(axes, (0, 360))
        axes.set_ylim(0, _top(effort_of(doings, pitch, prices).peak))
        axes.set_xlabel(CRANK)
        axes.set_ylabel(EFFORT)
        _legend(figure, [doings])
    return figure


def carries_chart(ways: Sequence[Carrying], prices: Prices | None = None) -> Figure:
    """The same addition on several mechanisms, one above the other on one angle axis and one scale of effort.

    Where it takes several turns, the hardest of them is drawn (the first of those).

    Parameters
    ----------
    ways : sequence of Carrying
        What `mechcalc.carries.carried` gave.
    prices : Prices, optional
        Those of the model unless given.

    Raises
    ------
    InputError
        Nothing to draw.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> from mechcalc.carries import carried
    >>> figure = carries_chart(carried(load_spec("slate"), 999, 1))
    >>> [axes.get_title(loc="left") for axes in figure.axes][2:]
    ['looking ahead: at most 3', 'in the head: at most 1; 4 turns, of which one is drawn']
    """
    if not ways:
        raise InputError("there is nothing to draw: give what `carried` gives")
    turns = [done_in(way, prices=prices)[0] for way in ways]
    angles = [angle for doings in turns for doing in doings for angle in (doing.begin, doing.end)] or [0.0, 360.0]
    with sheet(9.4, 1.0 + 1.75 * len(ways), rows=len(ways)) as (figure, panels):
        for axes, way, doings in zip(panels, ways, turns, strict=True):
            _stack(axes, doings, way.pitch, prices)
            _turn_axis(axes, (10 * (min(angles) // 10 - 1), 10 * (max(angles) // 10 + 2)), 20)
            axes.set_ylim(0, _top(max(hardest(one, prices) for one in ways), 1.3))
            several = f"; {way.turns} turns, of which one is drawn" if way.turns > 1 else ""
            axes.set_title(f"{way.name}: at most {hardest(way, prices):g}{several}", loc="left", fontsize=TYPE_SIZE)
            axes.tick_params(labelbottom=axes is panels[-1])
        panels[-1].set_xlabel(CRANK)
        figure.supylabel(EFFORT, fontsize=TYPE_SIZE)
        _legend(figure, turns)
    return figure


def timetable_with_effort(spec: MachineSpec, *strokes: Stroke, prices: Prices | None = None) -> Figure:
    """For each turn the drum's timetable, and under it how hard the crank was to turn.

    Parameters
    ----------
    spec : MachineSpec
        The machine.
    *strokes : Stroke
        Whole turns that were made on it.
    prices : Prices, optional
        Those of the model unless given.

    Raises
    ------
    InputError
        No turn, or something else.

    Examples
    --------
    >>> from mechcalc.classroom import ready
    >>> machine = ready("slate", setting=1, result=999)
    >>> figure = timetable_with_effort(machine.spec, machine.turn(), machine.turn(-1))
    >>> [axes.get_title(loc="left") for axes in figure.axes][1:3]
    ['effort in this turn: 999 + 1', 'subtractive turn: the subtractive helix follows']
    """
    if not strokes:
        raise InputError("there is no turn to draw: give a stroke of the crank at least")
    turns = [done_in(stroke, spec)[0] for stroke in strokes]
    high = 0.55 + 0.30 * spec.carry_reach
    with sheet(9.4, 1.5 + len(strokes) * (high + 1.75), rows=2 * len(strokes), heights=[high, 1.2] * len(strokes)
               ) as (figure, panels):
        for number, (stroke, doings) in enumerate(zip(strokes, turns, strict=True)):
            upper, lower = panels[2 * number:2 * number + 2]
            timetable(upper, spec, 1 if stroke.argument > 0 else -1)
            upper.tick_params(labelbottom=False)
            _stack(lower, doings, spec.pin_pitch, prices)
            _turn_axis(lower, (0, 360))
            lower.set_ylim(0, _top(max(effort_of(turn, spec.pin_pitch, prices).peak for turn in turns), 1.45))
            lower.set_title(f"effort in this turn: {_sum(stroke)}", loc="left", fontsize=TYPE_SIZE)
            lower.set_ylabel("wheels")
        panels[-1].set_xlabel(CRANK)
        _legend(figure, turns, legend_patches(), told=("lever", "counter"))
    return figure


def _sum(stroke: Stroke) -> str:
    before = stroke.before.reading
    return f"{before.result} {'+' if stroke.argument > 0 else '−'} {before.setting}"


def _stack(axes: Axes, doings: Sequence[Doing], pitch: float, prices: Prices | None) -> None:
    """Effort as steps, each part that asks for some on top of the one before; the peak is written at its place."""
    total = effort_of(doings, pitch, prices)
    base = [0.0] * len(total.levels)
    for sort, block in sorted({_block(doing) for doing in doings}, key=lambda one: (SORTS.index(one[0]), one[1])):
        part = effort_of([doing for doing in doings if _block(doing) == (sort, block)], pitch, prices)
        asked = [part.at(begin) for begin in total.angles[:-1]]
        top = [low + more for low, more in zip(base, asked, strict=True)]
        if any(asked):
            drawn = [high if more else nan for high, more in zip(top, asked, strict=True)]
            axes.stairs(drawn, total.angles, baseline=base, fill=True, linewidth=1.0, gid=f"effort/{sort}/{block}",
                        **FILLS[sort])
        base = top
    for (begin, end), level in zip(pairwise(total.angles), total.levels, strict=True):
        if level and level == total.peak:
            axes.annotate(f"{level:g}", ((begin + end) / 2, level), (0, 3), textcoords="offset points", ha="center",
                          va="bottom", fontsize=TYPE_SIZE, weight="bold")
            return


def _block(doing: Doing) -> tuple[str, int]:
    """What is drawn in one piece: each wheel by itself, so that they can be counted; of the rest each sort."""
    return doing.what, doing.place if doing.what == "wheel" else 0


def _turn_axis(axes: Axes, span: tuple[float, float], step: int = 30) -> None:
    from matplotlib.ticker import MaxNLocator

    axes.set_xlim(*span)
    axes.set_xticks(range(round(span[0]), round(span[1]) + 1, step))
    axes.yaxis.set_major_locator(MaxNLocator(3, integer=True))
    axes.grid(axis="y", color="0.85")
    axes.set_axisbelow(True)


def _top(peak: float, room: float = 1.2) -> float:
    """The end of the scale, with room for the peak's number."""
    return room * max(peak, 1.0)


def _legend(figure: Figure, turns: Sequence[Sequence[Doing]], others: Sequence[Any] = (), told: Sequence[str] = ()
            ) -> None:
    """What the blocks mean; sorts that look as the others do and are `told` by them are left out."""
    from matplotlib.patches import Patch

    there = {doing.what for doings in turns for doing in doings}.difference(told)
    handles = [*others, *(Patch(label=CALLED[sort], **FILLS[sort]) for sort in SORTS if sort in there)]
    if handles:
        figure.legend(handles=handles, loc="outside lower center", ncols=min(3, len(handles)), frameon=False,
                      handlelength=1.6, columnspacing=1.6)


assert set(CALLED) == set(FILLS) == set(SORTS)
