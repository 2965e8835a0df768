"""The account of a division: read from the windows, and true after every turn."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from mechcalc import CapacityError, Machine, MachineSpec, methods
from mechcalc.methods.accounts import division_account

from .helpers import machine, trouble
from .test_division import METHODS, divisions, put_in


class TestTheAccount:
    """counter × divisor + remainder is the dividend, before the first turn and after each."""

    def test_without_putting_back(self):
        """Worked by hand: 2165 - 6 × 370 = -55, -55 + 37 = -18, -18 + 37 = 19."""
        account = division_account(methods.divide(machine("slate"), 2165, 37, method="without putting back"))
        assert [str(entry) for entry in account] == [
            "turn  0: 0 × 37 + 2165 = 2165", "turn  1: 10 × 37 + 1795 = 2165", "turn  2: 20 × 37 + 1425 = 2165",
            "turn  3: 30 × 37 + 1055 = 2165", "turn  4: 40 × 37 + 685 = 2165", "turn  5: 50 × 37 + 315 = 2165",
            "turn  6: 60 × 37 − 55 = 2165", "turn  7: 59 × 37 − 18 = 2165", "turn  8: 58 × 37 + 19 = 2165"]
        assert [(entry.carriage, entry.direction) for entry in account] == [(1, 0), *[(1, -1)] * 6, *[(0, 1)] * 2]

    @given(divisions(), st.sampled_from(METHODS))
    def test_on_any_machine_that_carries_in_its_counter(self, division, method):
        """Oracle: integer arithmetic, the counter modulo its wheels; sympy for each line that is said to be true."""
        spec, dividend, divisor, places = division
        try:
            working = methods.divide(Machine(spec), dividend, divisor, places=places, method=method)
        except CapacityError:
            return
        if working.turns == put_in(working):  # compared first, and it never went
            assert (method, working.answer) == ("compare first", 0)
            return
        account = division_account(working)
        assert [entry.turn for entry in account] == list(range(working.turns - put_in(working) + 1))
        lost = 10**spec.counter_places
        for entry in account:
            left = entry.dividend - entry.remainder
            assert left % divisor == 0
            if spec.counter_carry:
                assert entry.counter == left // divisor % lost
            assert entry.balanced == (entry.counter * divisor == left) == entry.equality.holds()
        assert account[-1].remainder % 10**places == working.remainder % 10**places
        assert 0 <= account[-1].remainder < divisor * 10**account[-1].carriage

    def test_a_counter_that_does_not_carry_is_found_out_at_its_first_borrow(self):
        working = methods.divide(machine("plain"), 2165, 37, method="without putting back")
        account = division_account(working)
        assert [entry.counter for entry in account][-3:] == [60, 69, 68]
        assert [entry.turn for entry in account if not entry.balanced] == [7, 8]
        assert str(account[-1]) == "turn  8: 68 × 37 + 19 = 2165  is not true"

    def test_a_counter_too_short_for_ten_turns_is_out_until_the_borrow_comes(self):
        spec = MachineSpec(setting_places=2, result_places=5, counter_places=2, carry_reach=5)
        account = division_account(methods.divide(Machine(spec), 97, 1, method="without putting back"))
        assert [(entry.counter, entry.balanced) for entry in account][-5:] == [
            (90, True), (0, False), (99, True), (98, True), (97, True)]

    def test_the_dividend_may_stand_there_already(self):
        worked = machine("slate")
        methods.add(worked, 100, 22)
        assert str(division_account(methods.divide(worked, None, 7))[-1]) == "turn 12: 17 × 7 + 3 = 122"

    def test_a_dividend_of_nought(self):
        assert [str(entry) for entry in division_account(methods.divide(machine(), 0, 7))] == [
            "turn  0: 0 × 7 + 0 = 0", "turn  1: 1 × 7 − 7 = 0", "turn  2: 0 × 7 + 0 = 0"]


class TestRefusals:
    @pytest.mark.parametrize("other", [
        lambda m: methods.multiply(m, 12, 11), lambda m: methods.square_root(m, 54756),
        lambda m: methods.divide_building_up(m, 22, 7), lambda m: methods.divide_by_reciprocal(m, 22, 7),
        lambda m: methods.divide(m, 0, 7, method="compare first")])
    def test_what_was_not_worked_by_taking_one_divisor_away(self, other):
        worked = machine()
        working = other(worked)
        assert trouble(worked, lambda: division_account(working)) == (
            f"{working.title} was not worked by taking one divisor away: there is no account to keep")

    def test_what_is_no_working(self):
        worked = machine()
        assert trouble(worked, lambda: division_account(worked)).startswith("an account is kept of a Working, not of ")
