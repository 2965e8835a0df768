"""The chart of one turn: what moved which wheel, at which degrees of crank.

Only this file decides how a turn looks as a chart. One row a wheel, the units at the bottom; the marks are read off
the stroke's events, so a chart shows what happened and not what should have. Shapes, not colours, tell the marks
apart. matplotlib is loaded when a chart is drawn.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from mechcalc.errors import InputError
from mechcalc.events import Kind, Stroke
from mechcalc.numbers import shown
from mechcalc.spec import MachineSpec
from mechcalc.view.drawing import CARRY, INK, LEVER, PAPER, PLATE
from mechcalc.view.figures import UNITS_AN_INCH, in_notebook

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

COUNTER = 0  # the counter's row; number wheels have the rows 1, 2, 3, ...
WIDTH, ROW, AROUND = 900.0, 52.0, 130.0  # pixels
NAMES = {Kind.NUMBER_STEP: "step by a number pin", Kind.CARRY_STEP: "step by a carry pin",
         Kind.LEVER_OUT: "carry lever out", Kind.COUNTER_STEP: "step of the counter", Kind.BELL: "bell"}


@dataclass(frozen=True, slots=True)
class Mark:
    """Something that happened in the row of a wheel, from one angle of the turn to another.

    Attributes
    ----------
    row : int
        The number wheel, 1 at the units; 0 for the counter.
    kind : Kind
        A step, a lever that is out (for as long as it is), or the bell.
    begin, end : float
        Degrees of crank from rest, in the direction being turned.
    """

    row: int
    kind: Kind
    begin: float
    end: float


def marks(stroke: Stroke) -> tuple[Mark, ...]:
    """The marks of a turn, or of the part of it that a stroke made, in the order in which they were complete.

    Examples
    --------
    >>> from mechcalc.classroom import ready
    >>> m = ready("slate", setting=2, result=8)
    >>> [(mark.row, mark.kind.value, mark.begin, mark.end) for mark in marks(m.turn())][1:4]
    [(1, 'number step', 148.5, 157.5), (2, 'carry step', 224.5, 233.5), (1, 'lever out', 160.5, 233.5)]
    """
    found: list[Mark] = []
    out = {wheel: stroke.begin for wheel, lever in enumerate(stroke.before.levers, start=1) if lever}
    for event in stroke.events:
        if event.kind is Kind.LEVER_OUT:
            out[event.wheel or 0] = event.angle
        elif event.kind is Kind.LEVER_HOME:
            found.append(Mark(event.wheel or 0, Kind.LEVER_OUT, out.pop(event.wheel or 0), event.angle))
        elif event.kind is Kind.COUNTER_STEP:
            found.append(Mark(COUNTER, event.kind, event.start, event.angle))
        elif event.kind in NAMES and event.wheel is not None:
            found.append(Mark(event.wheel, event.kind, event.start, event.angle))
    return (*found, *(Mark(wheel, Kind.LEVER_OUT, angle, stroke.end) for wheel, angle in out.items()))


def turn_chart(stroke: Stroke, spec: MachineSpec, *, span: tuple[float, float] | None = None,
               counter: bool = True) -> Figure:
    """A chart of one turn of the crank, or of a part of one.

    Parameters
    ----------
    stroke : Stroke
        Of `Machine.turn`, `Machine.crank` or `Machine.finish_turn`.
    spec : MachineSpec
        The machine it was made on.
    span : tuple of float, optional
        The degrees of crank to show; the whole turn unless given.
    counter : bool
        Whether the counter has a row.

    Returns
    -------
    matplotlib.figure.Figure
        Its numbers as text: `mechcalc.classroom.told`.

    Raises
    ------
    InputError
        The stroke is no turn of the crank; a span that is none.

    Examples
    --------
    >>> from mechcalc.classroom import ready
    >>> m = ready("slate", setting=213, result=402)
    >>> [text.get_text() for text in turn_chart(m.turn(), m.spec).axes[0].get_yticklabels()][:2]
    ['counter', 'wheel 1']
    """
    from matplotlib.figure import Figure

    if not isinstance(stroke, Stroke) or stroke.operation != "crank":
        said = stroke.operation if isinstance(stroke, Stroke) else shown(stroke)
        raise InputError(f"a chart is drawn of one turn of the crank, not of {said}")
    begin, end = span or (0.0, 360.0)
    if not 0 <= begin < end <= 360:
        raise InputError(f"a span of a turn goes up from one angle to another within 0 to 360 degrees, not "
                         f"{shown(span)}")
    seen = [mark for mark in marks(stroke) if mark.end > begin and mark.begin <= end and (counter or mark.row)]
    rows = max([spec.setting_places, *(mark.row for mark in seen)])
    lowest = COUNTER if counter else COUNTER + 1
    figure = Figure(figsize=(WIDTH / UNITS_AN_INCH, (AROUND + ROW * (rows + 1 - lowest)) / UNITS_AN_INCH),
                    facecolor=PAPER, layout="constrained")
    ax = figure.subplots()
    _rows(ax, stroke, range(lowest, rows + 1), (begin, end))
    for mark in seen:
        _draw(ax, mark, (begin, end))
    _legend(figure, seen)
    return in_notebook(figure)


def _rows(ax: Axes, stroke: Stroke, rows: range, span: tuple[float, float]) -> None:
    """One lane a row, its name at the left and its digits before and after at the right."""
    ax.set_facecolor("white")
    ax.set_xlim(*span)
    ax.set_ylim(rows.start - 0.5, rows.stop - 0.5)
    way = "an additive" if stroke.argument > 0 else "a subtractive"
    ax.set_xlabel(f"degrees of crank, in {way} turn", fontsize=15, color=INK)
    ax.set_xticks([angle for angle in range(0, 361, 30 if span[1] - span[0] > 180 else 10)
                   if span[0] <= angle <= span[1]])
    ax.tick_params(axis="x", labelsize=14, colors=INK)
    ax.tick_params(axis="y", labelsize=15, colors=INK, length=0)
    ax.set_yticks(list(rows), [f"wheel {row}" if row else "counter" for row in rows])
    digits = ax.twinx()
    digits.set_ylim(ax.get_ylim())
    digits.set_yticks(list(rows), [_digits(stroke, row) for row in rows])
    digits.tick_params(axis="y", labelsize=16, colors=INK, length=0, pad=14)
    for edge in rows[1:]:
        ax.axhline(edge - 0.5, color=INK if edge == 1 else "#b9ae97", linewidth=1.5 if edge == 1 else 0.8)
    if stroke.end < span[1]:
        ax.axvline(stroke.end, color=INK, linestyle="--", linewidth=1.5)


def _digits(stroke: Stroke, row: int) -> str:
    if row == COUNTER:
        return f"{stroke.before.reading.counter} → {stroke.after.reading.counter}"
    return f"{stroke.before.result[row - 1]} → {stroke.after.result[row - 1]}"


def _draw(ax: Axes, mark: Mark, span: tuple[float, float]) -> None:
    """A step as a block of its length, a lever as a line under it, the bell as a star."""
    if mark.kind is Kind.BELL:
        ax.plot([mark.end], [mark.row], marker="*", markersize=22, color=LEVER, markeredgecolor=INK, clip_on=False,
                zorder=4, gid=f"{mark.kind.value}/{mark.row}")
        return
    looks: dict[Kind, tuple[float, float, dict[str, Any]]] = {
        Kind.NUMBER_STEP: (-0.2, 0.3, {"facecolor": INK, "edgecolor": "white"}),
        Kind.CARRY_STEP: (-0.2, 0.3, {"facecolor": "white", "edgecolor": CARRY, "hatch": "////"}),
        Kind.COUNTER_STEP: (-0.2, 0.3, {"facecolor": "0.75", "edgecolor": PLATE, "hatch": "...."}),
        Kind.LEVER_OUT: (-0.4, -0.28, {"facecolor": LEVER, "edgecolor": LEVER}),
    }
    low, high, look = looks[mark.kind]
    begin, end = max(mark.begin, span[0]), min(mark.end, span[1])
    ax.broken_barh([(begin, end - begin)], (mark.row + low, high - low), linewidth=1.5, zorder=3,
                   gid=f"{mark.kind.value}/{mark.row}", **look)


def _legend(figure: Figure, seen: list[Mark]) -> None:
    """The marks that occur, with their names, above the chart."""
    from matplotlib.lines import Line2D
    from matplotlib.patches import Patch

    signs = {
        Kind.NUMBER_STEP: Patch(facecolor=INK), Kind.LEVER_OUT: Line2D([], [], color=LEVER, linewidth=4),
        Kind.CARRY_STEP: Patch(facecolor="white", edgecolor=CARRY, hatch="////"),
        Kind.COUNTER_STEP: Patch(facecolor="0.75", edgecolor=PLATE, hatch="...."),
        Kind.BELL: Line2D([], [], color=LEVER, markeredgecolor=INK, marker="*", markersize=16, linestyle="none")}
    there = [kind for kind in NAMES if any(mark.kind is kind for mark in seen)]
    if there:
        figure.legend([signs[kind] for kind in there], [NAMES[kind] for kind in there], fontsize=14,
                      ncols=min(3, len(there)), loc="outside upper center", frameon=False, labelcolor=INK,
                      handlelength=1.4, columnspacing=1.6)
