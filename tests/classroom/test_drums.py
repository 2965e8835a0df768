"""Drums built wrong on purpose: what they lose, against the angles worked by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from mechcalc import InputError, load_spec
from mechcalc.classroom import ready
from mechcalc.classroom.drums import lost_carries, turned, without_helix

SLATE = load_spec("slate")


class TestLostCarries:
    """Carries that a drum with too short a gap loses."""

    @pytest.mark.parametrize("turn", ["additive", "subtractive", 1, -1])
    def test_a_sound_drum_loses_none(self, turn):
        assert lost_carries(SLATE, turn) == ()

    @pytest.mark.parametrize(("gap", "throw", "late_pins"), [(3.0, 3.0, 0), (2.0, 3.0, 1), (2.0, 11.0, 1),
                                                             (2.0, 11.1, 2), (2.0, 12.0, 2), (0.0, 27.5, 4)])
    def test_those_that_pass_at_the_last_pins(self, gap, throw, late_pins):
        """By hand: pitch 9, so a lever pushed b pins before the last is out at 220.5 - 9b + throw; the carry pin comes
        at 220.5 + gap, and is missed where 9b < throw - gap. A wheel at d passes at step 10 - d of an additive turn,
        which is pin 10 - d of nine; at step d + 1 of a subtractive one, whose last step is the last of the pins."""
        drum = replace(SLATE, gap=gap, lever_throw=throw, allow_faulty_timing=True)
        pairs = [(d, pins) for d in range(10) for pins in range(10)]
        assert lost_carries(drum, 1) == tuple(
            (d, pins) for d, pins in pairs if d + pins >= 10 and 9 - (10 - d) < late_pins)
        assert lost_carries(drum, -1) == tuple((d, pins) for d, pins in pairs if d < pins and pins - d - 1 < late_pins)


class TestTurned:
    """One turn on a drum of any build."""

    def test_goes_both_ways(self):
        assert turned(SLATE, 1000, 1, "subtractive").reading.result == 999
        assert turned(SLATE, 999, 1).reading.result == 1000

    def test_refuses_what_the_registers_cannot_show(self):
        with pytest.raises(InputError, match="the setting"):
            turned(SLATE, 0, 10_000)
        with pytest.raises(InputError, match="the result"):
            turned(SLATE, 1_000_000, 0)
        with pytest.raises(InputError, match='a turn is "additive" or "subtractive", not True'):
            turned(SLATE, 0, 0, True)


class TestWithoutHelix:
    """A drum with one helix only."""

    @pytest.mark.parametrize(("result", "setting", "turn", "shows"), [
        (999, 1, 1, 990), (1000, 1, -1, 1009), (5203, 78, -1, 5235), (208, 25, 1, 223), (5555, 1234, 1, 6789)])
    def test_every_wheel_works_for_itself_where_the_following_helix_is_missing(self, result, setting, turn, shows):
        """By hand: each digit plus or minus its pins, modulo ten, nothing carried."""
        machine = ready("slate", result=result, setting=setting)
        assert without_helix(machine, turn, turn) == shows
        assert (machine.result, machine.strokes) == (result, ())

    @pytest.mark.parametrize("turn", [1, -1])
    def test_the_leading_helix_is_not_missed(self, turn):
        """No lever is out when it passes."""
        for result, setting in ((999, 1), (1000, 1), (5203, 78)):
            assert without_helix(ready("slate", result=result, setting=setting), -turn, turn) == result + turn * setting
