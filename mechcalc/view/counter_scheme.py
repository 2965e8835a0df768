"""A scheme of how a counter comes by its direction: a plate with three small wheels between two large ones.

Only this file draws it. Between the crank's wheel and the counter's goes one wheel, or a pair, or none, as the
machine's counter direction says. Which way the last wheel turns then follows from the meshing alone: each mesh turns
the direction round. It is one way to build such a counter (common practice, no source); the mechanism of this kit
models what it does, not its wheels. matplotlib is loaded when a scheme is drawn.
"""

from __future__ import annotations

from itertools import pairwise
from math import atan2, cos, pi, sin
from typing import TYPE_CHECKING

from mechcalc.errors import InputError
from mechcalc.machine import Machine
from mechcalc.numbers import shown
from mechcalc.view.drawing import CARRY, INK, LEVER, PLATE, QUIET, Point
from mechcalc.view.plotting import SMALLEST, sheet

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

LARGE, SMALL = 24, 12     # teeth
PITCH = 0.5               # pitch radius of a wheel, for each tooth
TOOTH = 1.5               # height of a tooth
LIFT = 20.0               # how far the plate goes from one position to the other
CRANK, COUNTER = (0.0, 0.0), (2 * (LARGE + SMALL) * PITCH, 0.0)
SINGLE: Point = ((LARGE + SMALL) * PITCH, 0.0)
RISE = ((LARGE + SMALL)**2 - LARGE**2)**0.5 * PITCH  # of the pair, when it is in mesh
PAIR: tuple[Point, Point] = ((LARGE * PITCH, RISE), (LARGE * PITCH + 2 * SMALL * PITCH, RISE))
BUSY, IDLE, PLANK = "#e3d4ae", "#fffdf6", "#b9ae97"  # a wheel in mesh, one that is not, the plate
SAYS = {None: "direction free", 1: "additive turns count up", -1: "subtractive turns count up"}


def train(counter_direction: int | None) -> tuple[Point, ...]:
    """The centres of the wheels in mesh, from the crank's to the counter's; the crank's alone while it is free.

    >>> [len(train(direction)) for direction in (None, 1, -1)]
    [1, 3, 4]
    """
    if counter_direction is None:
        return (CRANK,)
    return (CRANK, SINGLE, COUNTER) if counter_direction > 0 else (CRANK, *PAIR, COUNTER)


def turned_round(turning: int, wheels: int) -> int:
    """Which way the last of so many wheels in a row turns, if the first turns so: each mesh turns it round.

    >>> turned_round(1, 3), turned_round(1, 4), turned_round(-1, 4)
    (1, -1, 1)
    """
    return turning * (-1)**(wheels - 1)


def counter_gears(*machines: Machine) -> Figure:
    """The scheme for one or more machines side by side, as they stand after their last turn.

    Parameters
    ----------
    machines : Machine
        What is drawn is the direction of each one's counter, and which way its last turn went; under it, what the
        counter shows.

    Raises
    ------
    InputError
        No machine, or something that is none.

    Examples
    --------
    >>> from mechcalc.classroom import ready
    >>> m = ready("slate")
    >>> _ = m.turn(-1)
    >>> counter_gears(m).axes[0].get_title()
    'subtractive turns\\ncount up'
    """
    if not machines or not all(isinstance(machine, Machine) for machine in machines):
        raise InputError(f"the scheme is drawn for one machine or more, not for {shown(machines)}")
    with sheet(3.3 * len(machines), 5.2, columns=len(machines)) as (figure, axes):
        for ax, machine in zip(axes, machines, strict=True):
            _scheme(ax, machine)
    return figure


def last_turn(machine: Machine) -> int:
    """The direction of the last turn: 1, -1, or 0 where there is none."""
    return next(((1 if stroke.argument > 0 else -1) for stroke in reversed(machine.strokes)
                 if stroke.operation == "crank"), 0)


def _scheme(ax: Axes, machine: Machine) -> None:
    direction, turning = machine.counter_direction, last_turn(machine)
    wheels = train(direction)
    phases = meshed(wheels)
    up = {None: LIFT / 2, 1: LIFT, -1: 0.0}[direction]
    small = [(SINGLE[0], SINGLE[1] - LIFT + up), *((x, y + up) for x, y in PAIR)]
    ax.plot(*zip(small[1], small[0], small[2], small[1], strict=True), color=PLANK, linewidth=10, zorder=1,
            solid_joinstyle="round")
    for centre in small:
        _wheel(ax, centre, SMALL, phases.get(centre, 0.0), busy=centre in wheels)
    for centre, name in ((CRANK, "crank"), (COUNTER, "counter")):
        _wheel(ax, centre, LARGE, phases.get(centre, pi / LARGE), busy=centre in wheels)
        ax.text(centre[0], centre[1] - 5.2, name, ha="center", va="center", fontsize=SMALLEST)
    steps = turned_round(turning, len(wheels)) if direction is not None else 0
    _arrow(ax, CRANK, turning, LEVER)
    _arrow(ax, COUNTER, steps, CARRY)
    turn = {1: "an additive turn\n", -1: "a subtractive turn\n", 0: "no turn yet\n"}[turning]
    counts = {1: "counts up: ", -1: "counts down: ", 0: ""}[steps]
    ax.set_title(SAYS[direction].replace(" count", "\ncount"))
    ax.set_xlabel(f"{turn}{counts}counter {machine.counter:0{machine.spec.counter_places}d}")
    ax.set_xlim(CRANK[0] - 13.5, COUNTER[0] + 13.5)
    ax.set_ylim(-LIFT - SMALL * PITCH - 1, RISE + LIFT + SMALL * PITCH + 1)
    ax.set_aspect("equal")
    ax.set_xticks([])
    ax.set_yticks([])
    ax.spines[:].set_visible(False)


def meshed(wheels: tuple[Point, ...]) -> dict[Point, float]:
    """For each wheel of a train the angle at which one of its teeth stands, so that teeth fall into gaps."""
    teeth = [SMALL if index not in (0, len(wheels) - 1) else LARGE for index in range(len(wheels))]
    phases = {wheels[0]: 0.0}
    for index, ((x, y), (x2, y2)) in enumerate(pairwise(wheels)):
        towards = atan2(y2 - y, x2 - x)
        past = ((towards - phases[wheels[index]]) * teeth[index] / (2 * pi)) % 1
        phases[wheels[index + 1]] = towards + pi - (0.5 - past) * 2 * pi / teeth[index + 1]
    return phases


def outline(centre: Point, teeth: int, phase: float) -> list[Point]:
    """The corners of a toothed wheel, a tooth at the angle `phase`."""
    inner, outer, step = teeth * PITCH - TOOTH / 2, teeth * PITCH + TOOTH / 2, 2 * pi / teeth
    corners = []
    for tooth in range(teeth):
        for share, radius in ((-0.32, inner), (-0.14, outer), (0.14, outer), (0.32, inner)):
            angle = phase + (tooth + share) * step
            corners.append((centre[0] + radius * cos(angle), centre[1] + radius * sin(angle)))
    return corners


def _wheel(ax: Axes, centre: Point, teeth: int, phase: float, busy: bool) -> None:
    """A wheel; one that is in mesh is darker and has a bolder outline."""
    from matplotlib.patches import Circle, Polygon

    ax.add_patch(Polygon(outline(centre, teeth, phase), facecolor=BUSY if busy else IDLE,
                         edgecolor=INK if busy else QUIET, linewidth=1.8 if busy else 1.0, zorder=3))
    ax.add_patch(Circle(centre, 1.1, facecolor=PLATE, edgecolor=INK, zorder=4))


def _arrow(ax: Axes, centre: Point, turning: int, color: str) -> None:
    """An arrow round a wheel's middle: clockwise for 1, none for 0."""
    from matplotlib.patches import FancyArrowPatch

    if not turning:
        return
    radius = LARGE * PITCH * 0.68
    ends = [(centre[0] - turning * side * radius * sin(1.1), centre[1] + radius * cos(1.1)) for side in (1, -1)]
    ax.add_patch(FancyArrowPatch(*ends, connectionstyle=f"arc3,rad={-0.5 * turning}", arrowstyle="-|>",
                                 mutation_scale=30, linewidth=3.5, color=color, zorder=5))
