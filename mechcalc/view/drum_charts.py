"""The drum's timetable as plots: the drum seen from its end, a turn as bars, carry reach against helix step.

Only this file draws them. Everything is told twice, by form and by shade (filled or hatched, full line or broken), so
that the plots can be read in grey. matplotlib is loaded when one is drawn.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from math import ceil, pi
from typing import TYPE_CHECKING, Any

from mechcalc.errors import InputError
from mechcalc.layout import PINS, layout
from mechcalc.spec import MachineSpec
from mechcalc.view.drawing import CARRY, INK, QUIET
from mechcalc.view.drum_spans import HELICES, Span, direction_of, spans
from mechcalc.view.figures import UNITS_AN_INCH, in_notebook

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure
    from matplotlib.projections.polar import PolarAxes

LOOKS: dict[str, dict[str, Any]] = {
    "number pins": {"facecolor": "0.82", "edgecolor": INK},
    "additive": {"facecolor": CARRY, "edgecolor": CARRY},
    "subtractive": {"facecolor": "white", "edgecolor": INK, "hatch": "/////"},
    "lever": {"facecolor": "#f0b429", "edgecolor": INK, "hatch": "...."},
    "rest": {"facecolor": "0.93", "edgecolor": QUIET, "hatch": "xx"},
    "counter": {"facecolor": "white", "edgecolor": QUIET, "hatch": "--"},
}
LINES = ("-", "--", "-.", ":")
MARKS = ("o", "s", "D", "^")
SMALL_TYPE, TYPE, TITLE_TYPE = 14.0, 15.0, 16.0  # points


def _sheet(width: float, height: float) -> Figure:
    """An empty figure of so many pixels."""
    from matplotlib.figure import Figure

    return in_notebook(Figure(figsize=(width / UNITS_AN_INCH, height / UNITS_AN_INCH), layout="constrained"))


def drum_faces(*machines: MachineSpec) -> Figure:
    """Drums seen from the end of their axle, side by side: how the 360 degrees are shared out.

    Degrees of an additive turn go clockwise from the top; a subtractive turn meets everything anticlockwise. Ring 1,
    the innermost, is place 1.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> figure = drum_faces(load_spec("slate"), load_spec("bench"))
    >>> [axes.get_title() for axes in figure.axes]
    ['Slate: 142° to spare', 'Bench: 22° to spare']
    """
    if not machines:
        raise InputError("there is no drum to draw: give at least one spec")
    figure = _sheet(470 * len(machines), 560)
    for axes, spec in zip(figure.subplots(1, len(machines), squeeze=False, subplot_kw={"projection": "polar"})[0],
                          machines, strict=True):
        _face(axes, spec)
    figure.legend(handles=[_patch("number pins", "number pins"), _patch("additive", "additive helix"),
                           _patch("subtractive", "subtractive helix"), _patch("rest", "rest arc")],
                  loc="outside lower center", ncols=4, fontsize=TYPE, frameon=False, handlelength=1.6,
                  columnspacing=1.2)
    return figure


def _face(axes: PolarAxes, spec: MachineSpec) -> None:
    axes.set_theta_zero_location("N")
    axes.set_theta_direction(-1)
    rings = max(spec.carry_reach, spec.setting_places)
    base = max(2.0, 0.4 * rings)  # the axle in the middle
    axes.set_ylim(0, base + rings + 0.7)
    axes.set_yticks([])
    axes.grid(False)
    axes.set_xticks([angle * pi / 180 for angle in range(0, 360, 45)])
    axes.tick_params(labelsize=SMALL_TYPE, pad=6)
    axes.set_title(f"{spec.name}: {spec.spare_arc:g}° to spare", fontsize=TITLE_TYPE, pad=14)
    drum = layout(spec)
    _sector(axes, -spec.rest_arc / 2, spec.rest_arc, base, base + rings + 0.6, "rest")
    for passing in drum.number_pins:
        _sector(axes, passing.contact, spec.pin_pitch, base, base + spec.setting_places, "number pins")
    for helix, passings in (("additive", drum.following), ("subtractive", drum.leading)):
        for ring, passing in enumerate(passings, start=1):
            _sector(axes, passing.contact, spec.pin_pitch, base + ring, base + ring + 1, helix)
    axes.text(0, 0, "+ ↻\n− ↺", ha="center", va="center", fontsize=TITLE_TYPE)
    for ring in range(rings + 1):
        axes.plot([angle * pi / 180 for angle in range(361)], [base + ring] * 361, color="0.6", linewidth=0.5, zorder=1)


def _sector(axes: PolarAxes, begin: float, degrees: float, low: float, high: float, look: str) -> None:
    axes.bar(begin * pi / 180, high - low, degrees * pi / 180, low, align="edge", linewidth=0.8, zorder=2,
             **LOOKS[look])


def _patch(look: str, label: str) -> Any:
    from matplotlib.patches import Patch

    return Patch(label=label, **LOOKS[look])


def timetable_chart(spec: MachineSpec, *turns: str | int) -> Figure:
    """Who acts when in a turn: a row a place, degrees of crank to the right, one panel for each turn.

    After each step stands the time that a pushed lever needs until it is out; the next place's carry pin may come no
    earlier.

    Parameters
    ----------
    spec : MachineSpec
        The machine.
    *turns : str or int
        ``"additive"`` or ``"subtractive"``; both unless given.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> [axes.get_title(loc="left") for axes in timetable_chart(load_spec("slate")).axes]
    ['additive turn: the additive helix follows', 'subtractive turn: the subtractive helix follows']
    """
    directions = [direction_of(turn) for turn in turns or (1, -1)]
    figure = _sheet(940, 140 + len(directions) * (90 + 34 * spec.carry_reach))
    for axes, direction in zip(figure.subplots(len(directions), 1, sharex=True, squeeze=False)[:, 0], directions,
                               strict=True):
        timetable(axes, spec, direction)
    axes.set_xlabel("degrees of crank, in the direction being turned", fontsize=TYPE)
    figure.legend(handles=legend_patches(), loc="outside lower center", ncols=3, fontsize=TYPE, frameon=False,
                  handlelength=1.6, columnspacing=1.6)
    return figure


def legend_patches() -> list[Any]:
    """What the bars of a timetable mean."""
    return [_patch("number pins", "number pins"), _patch("additive", "additive carry pin"),
            _patch("subtractive", "subtractive carry pin"), _patch("lever", "lever goes out"),
            _patch("counter", "counter")]


def timetable(axes: Axes, spec: MachineSpec, direction: int) -> None:
    """Draw the bars of one turn (1 additive, -1 subtractive) on axes."""
    drum, reach = layout(spec), spec.carry_reach
    for span in spans(spec, direction):
        if span.part in ("rest", "counter"):
            _block(axes, span, reach)
    _block(axes, Span(360 - spec.rest_arc / 2, 360, "rest", ""), reach)
    last = drum.number_pins[-1]
    for place in range(1, spec.setting_places + 1):
        for passing in drum.number_pins:
            _bar(axes, place, passing.contact, passing.end, "number pins")
        _bar(axes, place, last.end, last.thrown, "lever")
    for helix, passings in ((direction, drum.following), (-direction, drum.leading)):
        for place, passing in enumerate(passings, start=2):
            _bar(axes, place, passing.contact, passing.end, HELICES[helix])
            if helix == direction:
                _bar(axes, place, passing.end, passing.thrown, "lever")
    axes.set_title(f"{HELICES[direction]} turn: the {HELICES[direction]} helix follows", fontsize=TYPE, loc="left")
    axes.set_xlim(0, 360)
    axes.set_xticks(range(0, 361, 30))
    axes.set_ylim(0.4, reach + 0.6)
    axes.set_yticks(range(1, reach + 1))
    axes.set_ylabel("place", fontsize=TYPE)
    axes.tick_params(labelsize=SMALL_TYPE, labelbottom=True)
    axes.spines[["top", "right"]].set_visible(False)


def _bar(axes: Axes, place: int, begin: float, end: float, look: str) -> None:
    axes.barh(place, end - begin, 0.78, begin, linewidth=0.8, zorder=2, **LOOKS[look])


def _block(axes: Axes, span: Span, reach: int) -> None:
    axes.barh((reach + 1) / 2, span.degrees, reach + 0.2, span.begin, linewidth=0, alpha=0.7, zorder=1,
              **LOOKS[span.part])


def reach_of(spec: MachineSpec, pitch: float, step: float) -> int:
    """The largest carry reach of a drum like that of `spec`, with this pin pitch and helix step, in time or not.

    >>> from mechcalc import load_spec
    >>> reach_of(load_spec("bench"), 9.0, 12.0), reach_of(load_spec("bench"), 6.0, 9.0)
    (11, 17)
    """
    return replace(spec, setting_places=1, result_places=1, counter_places=1, positions=1, carry_reach=1,
                   pin_pitch=pitch, helix_step=step, allow_faulty_timing=True).largest_carry_reach


def reach_chart(spec: MachineSpec, pitches: Iterable[float], steps: tuple[float, float] = (6.0, 20.0)) -> Figure:
    """Carry reach against helix step, a line for each pin pitch; gap, lever throw and rest arc are those of `spec`.

    A line begins where carries are just in time (helix step = pitch + throw); what the spec's own pitch allows is
    shaded, and the spec is marked.

    Parameters
    ----------
    spec : MachineSpec
        The drum to begin with.
    pitches : iterable of float
        Degrees; up to four.
    steps : tuple of two floats
        The helix steps from which to which the plot goes.

    Raises
    ------
    InputError
        No pitch, or more than four.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> chart = reach_chart(load_spec("bench"), (6.0, 7.5, 9.0))
    >>> [line.get_label() for line in chart.axes[0].get_lines()][:3]
    ['pitch 6°', 'pitch 7.5°', 'pitch 9°']
    """
    from matplotlib.ticker import MaxNLocator

    drawn = list(pitches)
    if not 1 <= len(drawn) <= len(LINES):
        raise InputError(f"one to {len(LINES)} pin pitches can be told apart, not {len(drawn)}")
    figure = _sheet(900, 560)
    axes = figure.subplots()
    for number, pitch in enumerate(drawn):
        _reach_line(axes, spec, pitch, steps, number)
    _allowed(axes, spec, steps)
    axes.plot([spec.helix_step], [spec.carry_reach], marker="*", markersize=22, color="#b34700", linestyle="",
              markeredgecolor="black", zorder=4)
    axes.annotate(f"{spec.name} as it is", (spec.helix_step, spec.carry_reach), (-16, -22), ha="right", va="center",
                  textcoords="offset points", fontsize=TYPE)
    axes.set_xlim(*steps)
    axes.set_ylim(0, 1.12 * max(reach_of(spec, pitch, pitch + spec.lever_throw) for pitch in drawn))
    axes.set_xlabel("helix step, degrees", fontsize=TYPE)
    axes.set_ylabel("largest carry reach, places", fontsize=TYPE)
    axes.tick_params(labelsize=SMALL_TYPE)
    axes.yaxis.set_major_locator(MaxNLocator(integer=True))
    axes.grid(color="0.88")
    axes.set_axisbelow(True)
    axes.spines[["top", "right"]].set_visible(False)
    return figure


def _reach_line(axes: Axes, spec: MachineSpec, pitch: float, steps: tuple[float, float], number: int) -> None:
    first = max(steps[0], pitch + spec.lever_throw)
    grid = _grid(first, steps[1])
    reaches = [reach_of(spec, pitch, step) for step in grid]
    axes.plot(grid, reaches, drawstyle="steps-post", color=INK, linewidth=2.6, linestyle=LINES[number],
              marker=MARKS[number], markersize=11, markevery=[0], markeredgecolor="black", markerfacecolor="white",
              label=f"pitch {pitch:g}°", zorder=3)
    axes.annotate(f"pitch {pitch:g}°", (first, reaches[0]), (-16, 0), ha="right", va="center",
                  textcoords="offset points", fontsize=TYPE)


def _allowed(axes: Axes, spec: MachineSpec, steps: tuple[float, float]) -> None:
    """What the spec's own pitch allows: helix steps that are long enough, and no more places than fit."""
    first = spec.pin_pitch + spec.lever_throw
    grid = _grid(first, steps[1])
    axes.fill_between(grid, [reach_of(spec, spec.pin_pitch, step) for step in grid], step="post", facecolor="0.9",
                      edgecolor="0.65", hatch="/", zorder=1)
    paper = {"facecolor": "white", "edgecolor": "none", "pad": 4}
    axes.text((first + steps[1]) / 2, 3.5, f"allowed with pitch {spec.pin_pitch:g}°", fontsize=TYPE, ha="center",
              bbox=paper)
    axes.text((first + steps[0]) / 2, 3.5, f"with pitch {spec.pin_pitch:g}°\ncarries come\ntoo late", fontsize=TYPE,
              ha="center", va="center")


def _grid(first: float, last: float) -> Sequence[float]:
    """Helix steps in twentieths of a degree, `first` included."""
    return [first, *(number / 20 for number in range(ceil(first * 20) + 1, int(last * 20) + 1))]


assert PINS == 9  # the number pins' words say "1 to 9"
