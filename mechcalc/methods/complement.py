"""Numbers below nought on wheels that only know 0 to 9: complements, and how they are read.

Only this file decides what a row of nines means. A subtractive turn that takes more than is there runs a borrow up
to the highest wheel that carries reach, *q* = min(n, K + s). There it has nowhere to go: the bell rings, and wheels
1..q show the ten's complement, 10^q less what is missing. Wheels above q stand still. So on a machine with a short
carry reach the nines end at wheel q, and where they end depends on where the carriage stood.
"""

from __future__ import annotations

from dataclasses import dataclass

from mechcalc.errors import InputError
from mechcalc.events import Kind, Stroke
from mechcalc.machine import Machine
from mechcalc.methods.capacity import places as places_of
from mechcalc.numbers import shown, whole
from mechcalc.spec import MOST_PLACES, MachineSpec


def tens_complement(number: int, places: int) -> int:
    """What is missing from `number` to the next power of ten: 10^places - number, and 0 for 0.

    Parameters
    ----------
    number : int
        From 0 to 10^places - 1.
    places : int
        1 to 40.

    Examples
    --------
    >>> tens_complement(225, 4), tens_complement(1827, 8)
    (9775, 99998173)
    """
    return (-_in_places(number, places)) % 10**places


def nines_complement(number: int, places: int) -> int:
    """Each of the `places` digits taken from nine: one less than the ten's complement.

    >>> nines_complement(225, 4), nines_complement(1827, 8)
    (9774, 99998172)
    """
    return 10**places - 1 - _in_places(number, places)


def _in_places(number: int, places: int) -> int:
    places = whole(places, "a number of places", 1, MOST_PLACES)
    number = whole(number, "a number to take the complement of", 0)
    if number >= 10**places:
        raise InputError(f"{shown(number)} has no complement in {places} places: it takes {places_of(number)}")
    return number


@dataclass(frozen=True, slots=True)
class ComplementReading:
    """What the result windows mean.

    Attributes
    ----------
    shown : int
        The digits as they stand.
    value : int
        The number meant; negative where the digits are a complement.
    places : int
        *q*: the wheels that carries reach where the carriage stands; a complement is one to 10^q.
    nines : int
        How many nines stand in front, counted from wheel q down; 0 for a plain number.
    """

    shown: int
    value: int
    places: int
    nines: int

    @property
    def is_complement(self) -> bool:
        """Whether the digits stand for a number below nought."""
        return self.value < 0

    def __str__(self) -> str:
        if not self.is_complement:
            return f"{self.shown} is a plain number."
        nines = "a nine" if self.nines == 1 else f"{self.nines} nines"
        return (f"{self.shown} begins with {nines}: it is the complement of {-self.value} in {self.places} places and "
                f"means −{-self.value}.")


def complement_reading(machine: Machine) -> ComplementReading:
    """What the result means to someone who comes to the machine and sees only its windows.

    The highest wheel that carries reach, wheel q, is taken as the sign: a 9 there, with nothing above it, is a
    complement (common practice of looking for the nines in front; no source). Whoever has heard the bell knows
    more: see `signed_result`.

    Raises
    ------
    InputError
        The windows can be read in two ways: there is a 9 on wheel q and something above it, or the number begins
        with a 9 on the wheel where nines would end with the carriage in another position.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> machine = Machine(load_spec("short"))
    >>> _ = machine.set(22), machine.turn(-1)
    >>> print(complement_reading(machine))
    9999978 begins with 5 nines: it is the complement of 22 in 7 places and means −22.
    >>> _ = machine.shift(1)
    >>> complement_reading(machine)
    Traceback (most recent call last):
        ...
    mechcalc.errors.InputError: 9999978 can be read in two ways: as a plain number, or as a complement made with the \
carriage at 0, where carries reach wheel 7; the carriage is at 1 now. Shift it there to read the complement
    """
    spec, result, reach = machine.spec, machine.result_digits, machine.spec.wheels_in_reach(machine.carriage)
    top = max((wheel for wheel, digit in enumerate(result, start=1) if digit), default=0)
    if top > reach and result[reach - 1] == 9:
        raise InputError(f"{machine.result} can be read in two ways: carries reach wheel {reach}, and the 9 there may "
                         f"be a digit, or a borrow that never came to the wheels above it")
    if top == reach and result[top - 1] == 9:
        nines = next((count for count, digit in enumerate(reversed(result[:top])) if digit != 9), top)
        return ComplementReading(machine.result, machine.result - 10**reach, reach, nines)
    elsewhere = next((position for position in range(spec.positions) if spec.wheels_in_reach(position) == top), None)
    if top and result[top - 1] == 9 and elsewhere is not None:
        raise InputError(f"{machine.result} can be read in two ways: as a plain number, or as a complement made with "
                         f"the carriage at {elsewhere}, where carries reach wheel {top}; the carriage is at "
                         f"{machine.carriage} now. Shift it there to read the complement")
    return ComplementReading(machine.result, machine.result, reach, 0)


def wrapped(spec: MachineSpec, stroke: Stroke) -> int:
    """What a stroke of the crank lost at the top of the register: 10^q if the bell rang, negative for a borrow."""
    if stroke.operation != "crank" or not any(event.kind is Kind.BELL for event in stroke.events):
        return 0
    return (1 if stroke.argument > 0 else -1) * 10**spec.wheels_in_reach(stroke.before.carriage)


def signed_result(machine: Machine) -> int:
    """What the result means to someone who has listened to the bell since the result was last cleared.

    Every bell of a subtractive turn stands for 10^q borrowed, every bell of an additive turn for 10^q paid back;
    wheels 1..q do the rest of the arithmetic. There is nothing to guess, whatever the digits look like.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> machine = Machine(load_spec("slate"))
    >>> _ = machine.set(22), machine.turn(-1)
    >>> machine.result, signed_result(machine)
    (999978, -22)
    >>> _ = machine.turn(2)
    >>> machine.result, signed_result(machine)
    (22, 22)
    """
    owed = 0
    for stroke in reversed(machine.strokes):
        if stroke.operation in ("clear result", "back transfer") or (
                stroke.operation == "pull" and stroke.before.result != stroke.after.result):
            break
        owed += wrapped(machine.spec, stroke)
    return machine.result + owed
