"""How hard a crank is to turn, by angle: a simple model, stated here.

Only this file prices what parts do. Each part that is moved by the crank at an angle asks for its price at that angle,
in units of one number wheel being driven: a wheel one step 1, a carry lever being thrown 0.3, a lever being pushed home
0.3, a wheel felt for its nine by a looking-ahead carry 0.1, a counter wheel 0.5. Effort is the sum of what is asked for
at one moment; work is effort times angle, in units of one wheel driven through one step of the pin pitch. Friction that
is always there, springs' stiffness and the weight of the crank are left out. (Modelling choices of this kit; no source.
The ratios matter, not the figures: they can be changed.)
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, fields
from itertools import pairwise

from mechcalc.errors import InputError
from mechcalc.events import Kind, Stroke
from mechcalc.numbers import finite
from mechcalc.spec import MachineSpec

HOMING = 1 / 3  # of the pin pitch: how long a cam takes to push a lever home, as pictures show it


@dataclass(frozen=True, slots=True, kw_only=True)
class Prices:
    """What each thing asks of the crank while it is being done; one number wheel driven is 1.

    >>> Prices(lever=-1)
    Traceback (most recent call last):
        ...
    mechcalc.errors.InputError: the price of a lever cannot be -1: 0 or more
    """

    wheel: float = 1.0
    lever: float = 0.3
    home: float = 0.3
    feel: float = 0.1
    counter: float = 0.5

    def __post_init__(self) -> None:
        for field in fields(self):
            value = finite(getattr(self, field.name), f"the price of a {field.name}")
            if value < 0:
                raise InputError(f"the price of a {field.name} cannot be {value:g}: 0 or more")


@dataclass(frozen=True, slots=True, order=True)
class Doing:
    """Something that the crank does between two angles.

    Attributes
    ----------
    begin, end : float
        Degrees of crank.
    what : str
        A field of `Prices`.
    place : int
        The wheel, or the wheel whose lever it is, from 1 at the units.
    """

    begin: float
    end: float
    what: str
    place: int


@dataclass(frozen=True, slots=True)
class Effort:
    """Effort over a turn, even between its borders.

    Attributes
    ----------
    angles : tuple of float
        Borders, growing, in degrees of crank.
    levels : tuple of float
        Effort between each border and the next; one fewer.
    pitch : float
        Degrees of one wheel step.
    """

    angles: tuple[float, ...]
    levels: tuple[float, ...]
    pitch: float

    @property
    def peak(self) -> float:
        """The greatest effort; 0 where nothing is done."""
        return max(self.levels, default=0.0)

    @property
    def work(self) -> float:
        """Effort times angle, in wheel steps."""
        return sum(level * (end - begin) for level, (begin, end) in
                   zip(self.levels, pairwise(self.angles), strict=True)) / self.pitch

    def at(self, angle: float) -> float:
        """The effort just after an angle."""
        for level, (begin, end) in zip(self.levels, pairwise(self.angles), strict=True):
            if begin <= angle < end:
                return level
        return 0.0


def effort_of(doings: Iterable[Doing], pitch: float, prices: Prices | None = None) -> Effort:
    """The effort that things being done ask for together.

    >>> effort_of([Doing(0, 6, "wheel", 1), Doing(3, 6, "wheel", 2)], 6.0)
    Effort(angles=(0, 3, 6), levels=(1.0, 2.0), pitch=6.0)
    """
    cost, listed = prices or Prices(), sorted(doings)
    angles = tuple(sorted({angle for doing in listed for angle in (doing.begin, doing.end)}))
    levels = tuple(round(sum(getattr(cost, doing.what) for doing in listed if doing.begin <= begin < doing.end), 9)
                   for begin, _ in pairwise(angles))
    return Effort(angles, levels, pitch)


def doings_of(stroke: Stroke, spec: MachineSpec) -> tuple[Doing, ...]:
    """What the crank does in a turn of this kit's machine, from its events.

    A lever that falls back or a step that is lost asks for nothing more than it moved.
    """
    rows: dict[Kind, str] = {Kind.NUMBER_STEP: "wheel", Kind.CARRY_STEP: "wheel", Kind.OVERTHROW: "wheel",
                             Kind.LEVER_OUT: "lever", Kind.LEVER_HOME: "home", Kind.COUNTER_STEP: "counter"}
    found = []
    for event in stroke.events:
        what = rows.get(event.kind)
        if what is None or (what == "wheel" and not (event.step and event.wheel)):
            continue
        begin = event.angle - spec.pin_pitch * HOMING if event.kind is Kind.LEVER_HOME else event.start
        if begin < event.angle:
            found.append(Doing(begin, event.angle, what, event.wheel or event.place))
    return tuple(sorted(found))


def priced(doings: Sequence[Doing], what: str) -> int:
    """How many things of a sort are done."""
    return sum(doing.what == what for doing in doings)
