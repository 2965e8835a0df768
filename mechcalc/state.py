"""The machine between two instants: every wheel, lever, pin and catch, and nothing that could be derived.

Only this file lists what a state holds. States are immutable; digit tuples are units first.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from mechcalc.numbers import from_digits

if TYPE_CHECKING:
    from mechcalc.spec import MachineSpec


@dataclass(frozen=True, slots=True, order=True)
class UnderWay:
    """Something that has begun and ends at a later crank angle: a deflected pin's step, a lever being thrown.

    Attributes
    ----------
    angle : float
        Degrees of crank at which it is complete.
    what : str
        ``"carry"``, ``"throw"`` or ``"counter"``.
    place : int
        The drum place of the pin, or the number of the wheel (``"throw"``, ``"counter"``).
    side : int
        The helix of the pin, 1 additive and -1 subtractive; the step of a counter wheel; 0 for a throw.
    start : float
        Degrees of crank at which it began.
    """

    angle: float
    what: str
    place: int
    side: int
    start: float


@dataclass(frozen=True, slots=True)
class Reading:
    """What the windows show.

    Attributes
    ----------
    setting, result, counter : int
        The three registers.
    carriage : int
        The carriage's position, 0 at home.
    bell : bool
        Whether the bell rang in the last turn.
    """

    setting: int
    result: int
    counter: int
    carriage: int
    bell: bool


@dataclass(frozen=True, slots=True)
class State:
    """The machine at one instant.

    Attributes
    ----------
    setting, result, counter : tuple of int
        Digits, units first.
    levers : tuple of bool
        Carry lever of wheel 1..n (index 0 is wheel 1): True while it is out.
    carriage : int
        Position *s*; wheel *w* stands before drum place *w - s*.
    easing : int
        0 while the carriage is seated; 1 or -1 while it stands between this position and the next in that
        direction.
    angle : float
        Degrees of crank from rest in the direction being turned; 0 at rest.
    direction : int
        Of the turn under way: 1 additive, -1 subtractive, 0 at rest.
    counter_direction : int or None
        The direction in which turns count up; None until the first turn after the counter was cleared.
    bell : bool
        It rang in the last turn.
    under_way : tuple of UnderWay
        What has begun and is not complete, in the order in which it will be.
    pulled_result, pulled_counter : float
        Degrees by which a clearing lever is off its home; 0 at home.
    transfer : bool
        The back-transfer lever is down: pinwheels and number wheels are geared together.
    turned_back : float
        Where a worn ratchet let the crank be turned back, the angle of that, in the direction being turned now: pins
        that were half past by then do nothing more. 0 in an ordinary turn.
    """

    setting: tuple[int, ...]
    result: tuple[int, ...]
    counter: tuple[int, ...]
    levers: tuple[bool, ...]
    carriage: int = 0
    easing: int = 0
    angle: float = 0.0
    direction: int = 0
    counter_direction: int | None = None
    bell: bool = False
    under_way: tuple[UnderWay, ...] = ()
    pulled_result: float = 0.0
    pulled_counter: float = 0.0
    transfer: bool = False
    turned_back: float = 0.0

    @property
    def reading(self) -> Reading:
        """What the windows show, as whole numbers."""
        return Reading(from_digits(self.setting), from_digits(self.result), from_digits(self.counter),
                       self.carriage, self.bell)

    @property
    def deflected(self) -> tuple[tuple[int, int], ...]:
        """The carry pins that a lever is holding in their idler's path now, as (helix, place)."""
        return tuple((item.side, item.place) for item in self.under_way if item.what == "carry")


def cleared(spec: MachineSpec) -> State:
    """The state of a machine of this spec with everything at zero and at home.

    >>> from mechcalc import MachineSpec
    >>> cleared(MachineSpec(setting_places=4, result_places=6, counter_places=3, carry_reach=6)).reading
    Reading(setting=0, result=0, counter=0, carriage=0, bell=False)
    """
    return State(
        setting=(0,) * spec.setting_places,
        result=(0,) * spec.result_places,
        counter=(0,) * spec.counter_places,
        levers=(False,) * spec.result_places,
    )


def fits(spec: MachineSpec, state: object) -> bool:
    """Whether this is a state with as many levers and wheels as `spec` has."""
    model = cleared(spec)
    return isinstance(state, State) and all(
        len(getattr(state, name)) == len(getattr(model, name)) for name in ("setting", "result", "counter", "levers"))
