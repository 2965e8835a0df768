"""How many turns a division takes: derived, listed exhaustively, and cranked."""

from __future__ import annotations

from fractions import Fraction
from typing import ClassVar

import pytest

from mechcalc import Machine, MachineSpec, methods
from mechcalc.methods.division_turns import METHODS

from .helpers import trouble
from .test_division import put_in

SMALL = MachineSpec(setting_places=2, result_places=4, counter_places=3, carry_reach=4)


class TestAverage:
    """Dividend uniform on 0 .. B 10^k - 1: compare first 4.5 k, restoring 6.5 k, without putting back 5.5 k + (k mod
    2). Recomputed outside the project, exhaustively for k up to 4 and B = 1, 7, 13."""

    FIGURES: ClassVar = {"compare first": (4.5, 9, 13.5, 18), "restoring": (6.5, 13, 19.5, 26),
               "without putting back": (6.5, 11, 17.5, 22)}  # k = 1..4

    @pytest.mark.parametrize("method", METHODS)
    def test_closed_form_is_the_average_over_all_quotients(self, method):
        for k in range(1, 5):
            turns = sum(methods.division_turns(quotient, k, method) for quotient in range(10**k))
            assert methods.average_division_turns(k, method) == Fraction(turns, 10**k) == self.FIGURES[method][k - 1]

    @pytest.mark.parametrize("method", METHODS)
    @pytest.mark.parametrize(("k", "divisor"), [(1, 1), (1, 7), (1, 13), (2, 1)])
    def test_cranked_for_every_dividend(self, method, k, divisor):
        turns = 0
        for dividend in range(divisor * 10**k):
            working = methods.divide(Machine(SMALL), dividend, divisor, method=method, quotient_places=k)
            turns += working.turns - put_in(working)
        assert Fraction(turns, divisor * 10**k) == methods.average_division_turns(k, method)


class TestRefusals:
    def test_bad_input(self):
        worked = Machine(SMALL)
        assert trouble(worked, lambda: methods.division_turns(100, 2)) == (
            "a quotient cannot be 100: it goes from 0 to 99")
        assert trouble(worked, lambda: methods.average_division_turns(0)) == (
            "a number of quotient places cannot be 0: it goes from 1 to 40")
        assert trouble(worked, lambda: methods.average_division_turns(2, "fast")) == (
            "the method is 'restoring', 'without putting back', 'compare first', not 'fast'")
