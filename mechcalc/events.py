"""What can happen inside a stroke, and in which order things at the same angle happen.

Only this file names the kinds of event and orders ties: events are sorted by (angle, kind, place), kinds in the
order in which `Kind` lists them. A step ends before the lever that it pushed is out; a lever that is out deflects
a pin that meets it at that very angle; a pin's step ends before the cam pushes the lever home.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from mechcalc.state import Reading, State


class Kind(StrEnum):
    """The kinds of event, in tie order."""

    COMB_IN = "comb in"
    TRANSFER_DOWN = "transfer lever down"
    CARRIAGE_EASED = "carriage eased"
    NUMBER_STEP = "number step"
    CARRY_STEP = "carry step"
    OVERTHROW = "overthrow"
    CLEARING_STEP = "clearing step"
    LEVER_OUT = "lever out"
    PIN_DEFLECTED = "pin deflected"
    BELL = "bell"
    LEVER_HOME = "lever home"
    DIRECTION_TAKEN = "direction taken"
    COUNTER_STEP = "counter step"
    COUNTER_CLEARING_STEP = "counter clearing step"
    DIRECTION_FREED = "direction freed"
    SETTING_STEP = "setting step"
    CARRIAGE_SEATED = "carriage seated"
    TRANSFER_UP = "transfer lever up"
    COMB_OUT = "comb out"
    PULLED_HOME = "clearing lever home"


TIE_ORDER = {kind: rank for rank, kind in enumerate(Kind)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """One thing that has happened, complete at `angle`.

    Attributes
    ----------
    angle : float
        Degrees from the beginning of the movement at which it is complete: of crank, in the direction being
        turned, for a turn; of the lever, the comb or the carriage's lift for the other strokes.
    kind : Kind
        What happened.
    place : int
        The place it happened at: the drum place for pins, steps and levers; the wheel's own number for the
        counter and for clearing; the lever's for the setting; 0 where there is none.
    start : float
        The angle at which it began.
    wheel : int or None
        The number wheel concerned; None where no wheel stands opposite (the step is lost).
    step : int
        How far the part moved: 1 or -1 wheel steps, or lever positions.
    digit : int or None
        What the wheel or lever shows after it.
    pin : int or None
        Which of the nine number pins drove it.
    helix : int or None
        Which helix the carry pin belongs to: 1 additive, -1 subtractive.
    """

    angle: float
    kind: Kind
    place: int = 0
    start: float = 0.0
    wheel: int | None = None
    step: int = 0
    digit: int | None = None
    pin: int | None = None
    helix: int | None = None

    @property
    def order(self) -> tuple[float, int, int]:
        """The key that events are sorted by."""
        return (self.angle, TIE_ORDER[self.kind], self.place)

    def __repr__(self) -> str:
        parts = [f"angle={self.angle:g}", f"kind={self.kind.value!r}", f"place={self.place}"]
        parts += [f"{name}={getattr(self, name)!r}" for name in ("wheel", "step", "digit", "pin", "helix")
                  if getattr(self, name) not in (None, 0)]
        return f"Event({', '.join(parts)})"


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """One thing that the operator did, and all that it made happen.

    Attributes
    ----------
    operation : str
        Its name, one of `mechcalc.operations.OPERATIONS`.
    argument : object
        What it was done with: a signed number of degrees or places, a number, a register's name; None where
        there is nothing to say.
    before, after : State
        The machine at either end.
    events : tuple of Event
        In the order in which they happened.
    begin, end : float
        The span of angles that the stroke covers; a turn goes from 0 to 360, a part of a turn over its part.
    """

    operation: str
    argument: Any
    before: State
    after: State
    events: tuple[Event, ...] = field(repr=False)
    begin: float = 0.0
    end: float = 0.0

    @property
    def reading(self) -> Reading:
        """What the windows show after it."""
        return self.after.reading
