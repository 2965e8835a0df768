"""One pair of wheels, exhaustively: every digit, every number of pins, with a carry in and without, both ways."""

from __future__ import annotations

from itertools import product

import pytest

from mechcalc import Kind, MachineSpec
from mechcalc.parts import SOUND
from mechcalc.state import State
from mechcalc.turning import crank

from .machines import ANGLES

SPEC = MachineSpec(setting_places=3, result_places=4, counter_places=1, carry_reach=4, counter_carry=False, **ANGLES)


def stepped(digit: int, steps: int, direction: int) -> tuple[int, int]:
    """What a wheel shows after `steps`, and whether it passed between 9 and 0."""
    moved = digit + direction * steps
    return moved % 10, int(not 0 <= moved <= 9)


@pytest.mark.parametrize("direction", [1, -1])
@pytest.mark.parametrize("carry_in", [0, 1])
def test_every_pair(direction, carry_in):
    """Wheels 2 and 3 with all digits and pins; wheel 1 carries into them or not; wheel 4 takes what they pass on.

    The oracle goes wheel by wheel, as one does on paper; 10,000 turns in each of the four cases.
    """
    units = 9 if direction > 0 else 0
    for low, high, pins, more in product(range(10), repeat=4):
        state = State(setting=(carry_in, pins, more), result=(units, low, high, 5), counter=(0,), levers=(False,) * 4)
        after, events = crank(SPEC, SOUND, state, 360.0, direction)
        first, into_2 = stepped(units, carry_in, direction)
        second, into_3 = stepped(low, pins + into_2, direction)
        third, into_4 = stepped(high, more + into_3, direction)
        fourth, _ = stepped(5, into_4, direction)
        assert into_2 == carry_in
        assert after.result == (first, second, third, fourth), (low, high, pins, more)
        assert after.levers == (False,) * 4
        assert not after.bell
        kinds = [event.kind for event in events]
        assert kinds.count(Kind.NUMBER_STEP) == carry_in + pins + more
        for kind in (Kind.LEVER_OUT, Kind.PIN_DEFLECTED, Kind.CARRY_STEP, Kind.LEVER_HOME):
            assert kinds.count(kind) == into_2 + into_3 + into_4


@pytest.mark.parametrize("direction", [1, -1])
def test_every_top_wheel(direction):
    """The last wheel under the drum: its carry has nowhere to go, and the bell rings exactly then."""
    for digit, carry_in, pins in product(range(10), (0, 1), range(10)):
        spec = MachineSpec(setting_places=2, result_places=2, counter_places=1, carry_reach=2, **ANGLES)
        units = 9 if direction > 0 else 0
        state = State(setting=(carry_in, pins), result=(units, digit), counter=(0,), levers=(False, False))
        after, events = crank(spec, SOUND, state, 360.0, direction)
        shown, passed = stepped(digit, pins + carry_in, direction)
        assert after.result[1] == shown
        assert after.bell == bool(passed)
        assert [event.angle for event in events if event.kind == Kind.BELL] == [360.0] * passed
        assert after.levers == (False, False)
