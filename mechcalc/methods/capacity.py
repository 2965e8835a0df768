"""Whether a calculation fits a machine.

Only this file decides that something is too large, and says which register is short and by how much. It is asked
before the first stroke: the sizes are compared with the spec, and then the calculation is rehearsed on a sound
machine of the same build, where `check_turn` looks at every turn for a carry that had nowhere to go.
"""

from __future__ import annotations

import math
from typing import NoReturn

from mechcalc.errors import CapacityError
from mechcalc.numbers import shown
from mechcalc.spec import MachineSpec
from mechcalc.state import State


def places(number: int) -> int:
    """How many decimal places a number takes, its sign apart; 0 takes one. Any size will do.

    >>> places(0), places(999), places(1000), places(10**5000 - 1)
    (1, 3, 4, 5000)
    """
    number = abs(number)
    guess = max(1, int(number.bit_length() * math.log10(2)) - 1)
    while number >= 10**guess:
        guess += 1
    return guess


def check_sizes(spec: MachineSpec, title: str, *, setting: int = 0, result: int = 0, positions: int = 0,
                counter: int = 0, counted: str = "the multiplier") -> None:
    """Refuse what cannot fit, with everything that is short.

    Parameters
    ----------
    title : str
        The calculation, for the message.
    setting : int
        The largest number that has to be set.
    result : int
        The largest number that the result register has to show.
    positions : int
        How many places the multiplier has: each takes a carriage position and a counter wheel.
    counter : int
        The largest number that the counter has to show, where it is more than the multiplier.
    counted : str
        What the counter shows, if it is not a multiplier.

    Raises
    ------
    CapacityError
        Its `register` and `short_by` are those of the first register named.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> check_sizes(load_spec("slate"), "12345 × 9999", setting=12345, result=12345 * 9999, positions=4)
    Traceback (most recent call last):
        ...
    mechcalc.errors.CapacityError: 12345 × 9999 does not fit this machine: \
the setting is short by 1 place (12345 takes 5 levers of 4); \
the result is short by 3 places (123437655 takes 9 number wheels of 6); \
the counter is short by 1 place (the multiplier takes 4 counter wheels of 3); \
the carriage is short by 1 position (the multiplier takes 4 carriage positions of 3)
    """
    needs = (
        ("setting", places(setting), spec.setting_places, shown(setting), "levers", "place"),
        ("result", places(result), spec.result_places, shown(result), "number wheels", "place"),
        ("counter", positions, spec.counter_places, counted, "counter wheels", "place"),
        ("counter", places(counter), spec.counter_places, shown(counter), "counter wheels", "place"),
        ("carriage", positions, spec.positions, counted, "carriage positions", "position"),
    )
    short = [(register, need - have, f"the {register} is short by {need - have} {unit}{'s' * (need - have > 1)} "
              f"({what} takes {need} {parts} of {have})")
             for register, need, have, what, parts, unit in needs if need > have]
    if short:
        reasons = "; ".join(reason for _, _, reason in short)
        raise CapacityError(f"{title} does not fit this machine: {reasons}", *short[0][:2])


def refuse(title: str, register: str, short_by: int, why: str) -> NoReturn:
    """Refuse a calculation: which register is short, by how much, and why.

    >>> refuse("Σx of 3 numbers", "counter", 2, "the sum 1234 takes 4 counter wheels of 2")
    Traceback (most recent call last):
        ...
    mechcalc.errors.CapacityError: Σx of 3 numbers does not fit this machine: the counter is short by 2 places \
(the sum 1234 takes 4 counter wheels of 2)
    """
    raise CapacityError(f"{title} does not fit this machine: the {register} is short by {short_by} "
                        f"place{'s' * (short_by > 1)} ({why})", register, short_by)


def stands_for(value: int, result: int, reach: int, by_bell: bool = False) -> bool:
    """Whether a result register showing `result` can be read as `value`, carries reaching wheel `reach`.

    A number that is not negative stands there itself. A negative one stands there as its ten's complement in
    `reach` places, and the highest of these wheels is its sign: it must show a 9, unless the operator goes `by_bell`.

    >>> stands_for(78, 78, 6), stands_for(-22, 999978, 6), stands_for(-200000, 800000, 6)
    (True, True, False)
    >>> stands_for(-200000, 800000, 6, by_bell=True)
    True
    """
    if value >= 0:
        return result == value
    return result == 10**reach + value and (by_bell or -value <= 10**(reach - 1))


def check_turn(spec: MachineSpec, title: str, before: State, after: State, value: int, *,
               by_bell: bool = False) -> None:
    """Refuse a turn after which the wheels no longer show what they should.

    Parameters
    ----------
    before, after : State
        The machine around the turn.
    value : int
        What the result should be.
    by_bell : bool
        The operator goes by the bell, and needs no 9 in front to know a complement.

    Raises
    ------
    CapacityError
        Short is the ``"result"``, or the ``"carry reach"`` where there are wheels but no carry gets to them.
    """
    reach, shows = spec.wheels_in_reach(before.carriage), after.reading.result
    if stands_for(value, shows, reach, by_bell):
        return
    wheels, number = spec.result_places, shown(value).replace("-", "−")
    register = "carry reach"
    if value < 0 and by_bell:
        need, have = max(places(shows), reach + 1), reach
        why = (f"{number} stands as {shows}, a complement with nines up to wheel {need}, but with the carriage at "
               f"{before.carriage} carries reach wheel {have}")
    elif value < 0:
        need, have = places(-value - 1) + 1, reach
        register = "result" if reach == wheels else register
        why = f"{number} as a complement, with a 9 in front of it, takes {need} wheels of the {have} that carries reach"
    elif value >= 10**wheels:
        need, have, register = places(value), wheels, "result"
        why = f"{number} takes {need} number wheels of {have}"
    else:
        need, have = _highest_difference(value, shows), reach
        why = (f"{number} takes a carry into wheel {need}, but with the carriage at {before.carriage} carries reach "
               f"wheel {have}, and {shows} would be shown")
    short = need - have
    raise CapacityError(f"{title} does not fit this machine: the {register} is short by {short} "
                        f"place{'s' * (short > 1)} ({why})", register, short)


def _highest_difference(one: int, other: int) -> int:
    """The highest place at which two numbers differ, from 1; 0 where they do not."""
    place = 0
    while one != other:
        place, one, other = place + 1, one // 10, other // 10
    return place
