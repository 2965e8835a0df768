"""Movements that are only tried."""

from __future__ import annotations

import pytest

from mechcalc.classroom import ready
from mechcalc.classroom.refusals import ALLOWED, refusal
from mechcalc.errors import InputError


class TestRefusal:
    def test_it_says_what_the_machine_would_say_and_moves_nothing(self):
        machine = ready("slate", setting=13, result=182)
        machine.crank(100)
        before = machine.strokes
        assert refusal(machine, "back transfer") == ("no back transfer while the crank is off rest, at 100 degrees of "
                                                     "an additive turn. Finish the turn.")
        assert machine.strokes == before

    def test_a_long_one_is_broken_into_lines(self):
        machine = ready("slate", result=182)
        machine.engage_transfer()
        said = refusal(machine, "shift", 1)
        assert max(map(len, said.splitlines())) <= 100
        assert " ".join(said.split()) == ("no shift while back transfer is engaged: number wheels and pinwheels are "
                                          "geared together. Disengage it: put the back-transfer lever up.")

    def test_what_is_allowed_is_not_done_either(self):
        machine = ready("slate", result=182)
        assert refusal(machine, "back transfer") == ALLOWED
        assert (machine.result, machine.strokes) == (182, ())

    @pytest.mark.parametrize("attempt", [("fly", None), ("shift", 0.5), ("back transfer", 3)])
    def test_what_is_no_movement_is_an_error(self, attempt):
        with pytest.raises(InputError):
            refusal(ready("slate"), *attempt)

    def test_something_that_is_no_machine(self):
        with pytest.raises(InputError, match="a machine refuses, not 'slate'"):
            refusal("slate", "crank", 360.0)
