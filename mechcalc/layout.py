"""Where everything stands on the drum: the angle at which each pin meets its idler and each cam its lever.

Only this file turns a spec's angles into crank angles. The drum is symmetrical about the middle of the number
pins, which pass the idlers half a turn from rest; so one table serves both directions, read in the direction
being turned. Sums are exact (fractions) and become floats at the very end, so that two things that meet at the
same angle really compare equal.

Angle budget, in degrees, with pitch *p*, gap *g*, helix step *h*, carry reach *K* (common practice, no source)::

    9p + 2(g + (K - 2)h + p) + rest <= 360
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from mechcalc.spec import MachineSpec

PINS = 9


@dataclass(frozen=True, slots=True)
class Passing:
    """One pin going past the idler line, in degrees of crank from rest, in the direction being turned.

    Attributes
    ----------
    contact : float
        The pin meets the idler (if it is out, or deflected).
    end : float
        The step that it drives is complete.
    thrown : float
        A carry lever pushed by that step is fully out, lever throw later. The throw ends at the latest in the
        rest notch, where the lever's own detent completes it (a modelling choice).
    """

    contact: float
    end: float
    thrown: float


@dataclass(frozen=True, slots=True)
class Layout:
    """All passings of one turn.

    Attributes
    ----------
    number_pins : tuple of Passing
        Nine, in the order of passing.
    following : tuple of Passing
        The carry pins of the helix that follows the number pins; index 0 is place 2.
    leading : tuple of Passing
        The same for the helix that goes in front; it passes from the highest place down.
    close : float
        The last carry pin's step is complete.
    comb_arc : float
        How far the crank goes for clearing the setting: up to where the first number pin would act.
    """

    number_pins: tuple[Passing, ...]
    following: tuple[Passing, ...]
    leading: tuple[Passing, ...]
    close: float
    comb_arc: float

    def pin_passing(self, pin: int, direction: int) -> Passing:
        """The passing of pin 1..9: pin 1 comes first in an additive turn and last in a subtractive one."""
        return self.number_pins[pin - 1 if direction > 0 else PINS - pin]


def exact(value: float) -> Fraction:
    """The decimal that was meant: 0.1 becomes one tenth.

    >>> exact(12.3) >= exact(9.1) + exact(3.2)
    True
    """
    return value if isinstance(value, Fraction) else Fraction(str(value))


def helix_arc(spec: MachineSpec) -> Fraction:
    """Degrees from the end of the number pins to the end of one helix; 0 where there are no carry pins."""
    if spec.carry_reach < 2:
        return Fraction(0)
    return exact(spec.gap) + (spec.carry_reach - 2) * exact(spec.helix_step) + exact(spec.pin_pitch)


def used_arc(spec: MachineSpec) -> Fraction:
    """Degrees of the drum that carry pins of any sort: ``9p + 2(g + (K-2)h + p)``."""
    return PINS * exact(spec.pin_pitch) + 2 * helix_arc(spec)


def largest_carry_reach(spec: MachineSpec) -> int:
    """The largest *K* for which ``9p + 2(g + (K-2)h + p) + rest <= 360``; 0 where not even the pins fit."""
    pitch, step = exact(spec.pin_pitch), exact(spec.helix_step)
    room = 360 - exact(spec.rest_arc) - PINS * pitch
    if room < 0:
        return 0
    for_steps = room / 2 - exact(spec.gap) - pitch
    return 1 if for_steps < 0 else 2 + int(for_steps // step)


@lru_cache(maxsize=256)
def layout(spec: MachineSpec) -> Layout:
    """The drum of `spec`, computed once.

    >>> from mechcalc import MachineSpec
    >>> drum = layout(MachineSpec(setting_places=4, result_places=6, counter_places=3, carry_reach=6))
    >>> drum.number_pins[0].contact, drum.number_pins[-1].end
    (153.0, 207.0)
    >>> drum.following[0]
    Passing(contact=209.0, end=215.0, thrown=216.5)
    """
    pitch, step, throw = exact(spec.pin_pitch), exact(spec.helix_step), exact(spec.lever_throw)
    first = 180 - PINS * pitch / 2
    carries = [180 + PINS * pitch / 2 + exact(spec.gap) + index * step for index in range(spec.carry_reach - 1)]

    def passing(contact: Fraction) -> Passing:
        end = contact + pitch
        return Passing(float(contact), float(end), float(min(end + throw, Fraction(360))))

    close = carries[-1] + pitch if carries else 180 + PINS * pitch / 2
    return Layout(
        number_pins=tuple(passing(first + index * pitch) for index in range(PINS)),
        following=tuple(passing(contact) for contact in carries),
        leading=tuple(passing(360 - contact - pitch) for contact in carries),
        close=float(close),
        comb_arc=float(first),
    )
