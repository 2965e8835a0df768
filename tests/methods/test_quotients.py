"""Quotients without taking anything away: building up, and the reciprocal."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import mpmath
import pytest
from hypothesis import given, strategies as st

from mechcalc import CapacityError, Machine, MachineSpec, methods
from mechcalc.methods import algebra

from .helpers import check_lines, machine, refused
from .test_division import WIDE, divisions


class TestBuildingUp:
    def test_the_divisor_is_added_until_the_dividend_is_there(self):
        worked = machine("slate")
        working = methods.divide_building_up(worked, 9022, 26)
        assert [line.algebra for line in working.lines if "Turn" in line.words][:5] == [
            "0 + 26 × 10² = 2600", "2600 + 26 × 10² = 5200", "5200 + 26 × 10² = 7800",
            "7800 + 26 × 10 = 8060", "8060 + 26 × 10 = 8320"]
        assert (working.answer, working.remainder, worked.result, worked.counter) == (347, 0, 9022, 347)
        assert working.turns == 3 + 4 + 7
        assert worked.counter_direction == 1
        assert str(algebra.turns_as_sum(working)) == "26 × 3 × 10² + 26 × 4 × 10 + 26 × 7 = 9022"
        check_lines(working)

    def test_the_dividend_need_not_fit_the_levers(self):
        working = methods.divide_building_up(machine("slate"), 999_999, 1001)
        assert (working.answer, working.remainder, working.settings) == (*divmod(999_999, 1001), 1)

    def test_what_is_missing_is_worked_on_paper(self):
        working = methods.divide_building_up(machine(), 22, 7, places=2)
        assert working.remark == (
            "The result has come up to 21.98, and one turn more would pass 22. The counter shows 314: the quotient is "
            "3.14. What is missing, 22 − 21.98, is the remainder: 0.02.")

    @given(divisions())
    def test_on_any_machine_it_is_right_or_refused_for_a_reason(self, case):
        """Oracle: divmod."""
        spec, dividend, divisor, places = case
        worked = Machine(spec)
        quotient, remainder = divmod(dividend * 10**places, divisor)
        fits = (divisor < 10**spec.setting_places and max(quotient * divisor, divisor) < 10**spec.result_places
                and len(str(quotient)) <= min(spec.positions, spec.counter_places))
        try:
            working = methods.divide_building_up(worked, dividend, divisor, places=places)
        except CapacityError as no:
            assert worked.strokes == ()
            assert (no.register == "carry reach") == fits  # noqa: PT017 (it need not be refused)
            assert not fits or spec.carry_reach < spec.result_places
            return
        assert fits
        assert (working.answer, working.remainder) == (quotient, remainder)
        assert working.turns == sum(map(int, str(quotient)))
        check_lines(working, by_sympy=False)


class TestReciprocal:
    def test_of_seven(self):
        """1/7 = 0.142857 142857 …: common knowledge, from memory."""
        working = methods.reciprocal(machine("ledger"), 7, places=10)
        assert working.headline == "1 ÷ 7 = 0.1428571428, remainder 0.0000000004"

    def test_is_found_first_and_multiplied_then(self):
        worked = machine()
        working = methods.divide_by_reciprocal(worked, 355, 113, places=2)
        titles = [line.words for line in working.lines if line.words.startswith(("Set", "Clear"))]
        assert titles == ["Set 1 on the levers.", "Clear the counter; its direction is free again.",
                          "Set 113 on the levers.", "Clear the result.",
                          "Clear the counter; its direction is free again.", "Set 884 on the levers."]
        assert (working.answer, working.places) == (884 * 355, 5)
        assert working.value == Fraction("3.1382")
        assert working.error_bound == Fraction(355, 10**5)
        assert str(algebra.turns_as_sum(working)) == "884 × 5 + 884 × 5 × 10 + 884 × 3 × 10² = 313820"
        check_lines(working)

    def test_a_reciprocal_without_remainder_gives_the_exact_quotient(self):
        working = methods.divide_by_reciprocal(machine(), 355, 8, reciprocal_places=3)
        assert (working.value, working.error_bound) == (Fraction(355, 8), 0)
        assert working.remark.endswith("There is no remainder, so the quotient is exact.")

    def test_more_places_of_the_reciprocal_make_the_bound_smaller(self):
        bounds = [methods.divide_by_reciprocal(Machine(WIDE), 22, 7, reciprocal_places=r).error_bound
                  for r in (2, 4, 8)]
        assert bounds == [Fraction(22, 10**2), Fraction(22, 10**4), Fraction(22, 10**8)]

    @given(st.integers(0, 9999), st.integers(1, 999), st.integers(0, 3))
    def test_the_bound_is_honoured(self, dividend, divisor, places):
        """Oracle: exact fractions, and mpmath at 50 digits."""
        working = methods.divide_by_reciprocal(Machine(WIDE), dividend, divisor, places=places)
        missing = Fraction(dividend, divisor) - working.value
        assert 0 <= missing <= working.error_bound < Fraction(1, 10**places)
        assert missing < working.error_bound or working.error_bound == 0
        with mpmath.workdps(50):
            exact = mpmath.mpf(dividend) / divisor
            assert abs(exact - mpmath.mpf(working.answer) / 10**working.places) < mpmath.mpf(10)**-places
        check_lines(working, by_sympy=False)

    def test_the_reciprocals_from_2_to_25_to_six_places(self):
        """Oracle: decimal's quotient, cut off."""
        for number in range(2, 26):
            found = methods.reciprocal(machine(), number, places=6, method="compare first")
            assert found.value == Fraction(Decimal(1) / number // Decimal("1e-6") * Decimal("1e-6"))


class TestRefusals:
    @pytest.mark.parametrize(("attempt", "message"), [
        (lambda m: methods.divide_building_up(m, 22, 0),
         "22 cannot be divided by 0: a turn takes nothing away, the bell never rings, and the machine would be turned "
         "for ever"),
        (lambda m: methods.divide_by_reciprocal(m, 22, 0),
         "22 cannot be divided by 0: a turn takes nothing away, the bell never rings, and the machine would be turned "
         "for ever"),
        (lambda m: methods.divide_by_reciprocal(m, 22, 7000, reciprocal_places=3),
         "the reciprocal of 7000 has only noughts in 3 places: give it more"),
        (lambda m: methods.divide_by_reciprocal(m, 22, 7, reciprocal_places=-1),
         "a number of decimals of the reciprocal cannot be -1: it goes from 0 to 40"),
        (lambda m: methods.divide_building_up(m, "22", 7), "a dividend must be a whole number, not '22' (str)")])
    def test_bad_input(self, attempt, message):
        worked = machine()
        assert str(refused(worked, lambda: attempt(worked), ValueError)) == message

    @pytest.mark.parametrize(("attempt", "register", "short_by", "reason"), [
        (lambda m: methods.divide_by_reciprocal(m, 22, 7, reciprocal_places=6), "setting", 1,
         "22 × (1 ÷ 7) does not fit this machine: the setting is short by 1 place (10000 takes 5 levers of 4)"),
        (lambda m: methods.divide_by_reciprocal(m, 22, 7, places=2), "counter", 1,
         "the reciprocal takes 4 counter wheels of 3"),
        (lambda m: methods.divide_building_up(m, 9999, 7), "counter", 1, "the quotient takes 4 counter wheels of 3")])
    def test_which_register_and_by_how_much(self, attempt, register, short_by, reason):
        worked = machine("slate")
        no = refused(worked, lambda: attempt(worked))
        assert (no.register, no.short_by) == (register, short_by)
        assert reason in str(no)

    def test_a_carry_that_does_not_reach(self):
        worked = Machine(MachineSpec(setting_places=2, result_places=6, counter_places=3, carry_reach=2, positions=3))
        no = refused(worked, lambda: methods.divide_building_up(worked, 10_098, 99))
        assert str(no) == (
            "10098 ÷ 99 does not fit this machine: the carry reach is short by 3 places (10098 takes a carry into "
            "wheel 5, but with the carriage at 0 carries reach wheel 2, and 9998 would be shown)")
        assert (no.register, no.short_by) == ("carry reach", 3)
