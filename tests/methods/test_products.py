"""Multiplying by shifting, plainly and by the short cut."""

from __future__ import annotations

from decimal import Context

import pytest
from hypothesis import given, strategies as st

from mechcalc import CapacityError, Machine, MachineSpec, methods
from mechcalc.methods.capacity import places

from .helpers import check_lines, machine, numbers, products, refused

DECIMAL = Context(prec=60)


def wheels_would_show(spec, multiplicand, digits, order):
    """The result by whole numbers: each turn adds modulo 10^q on wheels 1..q and leaves the wheels above alone."""
    result = 0
    for place in sorted((k for k, d in enumerate(digits) if d), reverse=order == "highest first"):
        if place >= spec.positions:
            return None
        block = 10**spec.wheels_in_reach(place)
        for _ in range(abs(digits[place])):
            sign = 1 if digits[place] > 0 else -1
            result = result // block * block + (result + sign * multiplicand * 10**place) % block
    return result


class TestMultiply:
    def test_a_turn_for_every_unit_of_every_digit(self):
        working = methods.multiply(machine(), 347, 26)
        assert [line.algebra for line in working.lines] == [
            "3 × 10² + 4 × 10 + 7 = 347",
            "0 + 347 = 347", "347 + 347 = 694", "694 + 347 = 1041", "1041 + 347 = 1388", "1388 + 347 = 1735",
            "1735 + 347 = 2082", "347 × 10 = 3470", "2082 + 347 × 10 = 5552", "5552 + 347 × 10 = 9022"]
        assert working.lines[-1].words == "Turn 2 of 2: add 347 × 10."
        assert (working.answer, working.turns, working.shifts, working.settings) == (9022, 8, 1, 1)
        assert working.remark == "The result shows 9022. The counter shows 26, the multiplier."

    def test_highest_first_the_carriage_comes_down(self):
        working = methods.multiply(machine(), 347, 206, order="highest first")
        carriages = [stroke.reading.carriage for stroke in working.strokes if stroke.operation == "crank"]
        assert carriages == [2, 2, 0, 0, 0, 0, 0, 0]
        assert working.shifts == 4

    def test_noughts_at_the_end_are_shifted_past(self):
        working = methods.multiply(machine(), 12, 3000)
        assert (working.answer, working.turns, working.shifts) == (36_000, 3, 3)

    @pytest.mark.parametrize(("multiplicand", "multiplier"), [(0, 0), (0, 12), (12, 0)])
    def test_nought(self, multiplicand, multiplier):
        for method in (methods.multiply, methods.multiply_short_cut):
            working = method(machine(), multiplicand, multiplier)
            assert working.answer == 0
            assert working.start == machine().state
            assert str(working)

    def test_a_sum_of_products(self):
        worked = machine()
        methods.multiply(worked, 12, 12)
        working = methods.multiply(worked, 35, 35, keep=True)
        assert (working.answer, working.title, worked.counter) == (1369, "144 + 35 × 35", 35)

    def test_without_counter_carry_the_counter_shows_the_multiplier_all_the_same(self):
        worked = machine("plain")
        methods.multiply(worked, 347, 9099)
        assert worked.counter == 9099

    def test_repunit_squares(self):
        """1, 121, 12321, ...: OEIS A002477, from memory."""
        squares = {1: 1, 2: 121, 3: 12321, 4: 1234321, 5: 123454321, 6: 12345654321}
        for ones, square in squares.items():
            repunit = int("1" * ones)
            assert methods.multiply(machine("ledger"), repunit, repunit).answer == square
            assert methods.multiply_short_cut(machine("ledger"), repunit, repunit).answer == square

    def test_factorials(self):
        """n! from 1 to 12: OEIS A000142, from memory; each product is brought back into the setting."""
        table = [1, 2, 6, 24, 120, 720, 5040, 40320, 362880, 3628800, 39916800, 479001600]
        worked, product, found = machine(), 1, []
        for factor in range(1, 13):
            product = methods.multiply_short_cut(worked, product, factor).answer
            found.append(product)
        assert found == table

    def test_the_multiples_of_the_cyclic_number(self):
        """142857 times 1 to 6 turns its digits round, times 7 gives nines (common knowledge, from memory)."""
        products = [methods.multiply(machine(), 142857, factor).answer for factor in range(1, 8)]
        assert products == [142857, 285714, 428571, 571428, 714285, 857142, 999999]

    @given(products(), st.sampled_from(["units first", "highest first"]))
    def test_on_any_machine_the_product_is_right_or_it_is_refused_for_a_reason(self, case, order):
        """Oracle: Python's integers and decimal; refused exactly where a register or the carry reach is short."""
        spec, a, b = case
        worked = Machine(spec)
        fits = (a < 10**spec.setting_places and b < 10**spec.positions and a * b < 10**spec.result_places
                and wheels_would_show(spec, a, methods.plain_digits(b), order) == a * b)
        try:
            working = methods.multiply(worked, a, b, order=order)
        except CapacityError:
            assert not fits
            assert worked.strokes == ()
            return
        assert fits
        assert working.answer == worked.result == a * b == DECIMAL.multiply(a, b)
        assert worked.counter == b
        assert working.turns == sum(map(int, str(b)))
        assert working.shifts <= places(b) * 2
        check_lines(working)

    @given(numbers, numbers, st.integers(1, 8))
    def test_units_first_needs_a_carry_one_place_beyond_the_setting_and_no_more(self, a, b, setting):
        a, b = a % 10**setting, b % 10**6
        spec = MachineSpec(setting_places=setting, result_places=setting + 6, counter_places=6,
                           carry_reach=setting + 1)
        assert methods.multiply(Machine(spec), a, b).answer == a * b


class TestShortCut:
    def test_98_times_is_100_times_less_2_times(self):
        working = methods.multiply_short_cut(machine(), 347, 98)
        assert [line.algebra for line in working.lines if "Turn" in line.words] == [
            "0 + 347 × 10² = 34700", "34700 − 347 = 34353", "34353 − 347 = 34006"]
        assert (working.turns, working.shifts) == (3, 4)

    def test_the_first_turn_is_additive_so_the_counter_ends_on_the_multiplier(self):
        worked = machine()
        working = methods.multiply_short_cut(worked, 7, 1997)
        readings = [stroke.reading.counter for stroke in working.strokes if stroke.operation == "crank"]
        assert readings == [1000, 2000, 1999, 1998, 1997]
        assert worked.counter_direction == 1

    def test_a_counter_without_carry_shows_the_turns_of_each_place(self):
        worked = machine("plain")
        working = methods.multiply_short_cut(worked, 347, 98)
        assert worked.counter == 108
        assert working.remark == (
            "The result shows 34006. The counter shows 108: the turns of each place (+1, 0, −2), without a carry "
            "between them.")
        check_lines(working)

    def test_where_the_carriage_ends_the_fewest_turns_that_it_allows(self):
        """98 is 100 - 2, but there is no third position; 18 is 20 - 2, which takes two."""
        spec = MachineSpec(setting_places=3, result_places=6, counter_places=2, carry_reach=6)
        assert methods.multiply_short_cut(Machine(spec), 347, 98).turns == 17
        assert methods.multiply_short_cut(Machine(spec), 347, 18).turns == 4

    def test_where_the_result_ends_a_detour_over_it_is_not_taken(self):
        """89 is 100 - 10 - 1, but 11 x 100 does not fit three wheels; 11 x 90 does."""
        spec = MachineSpec(setting_places=2, result_places=3, counter_places=3, carry_reach=3)
        working = methods.multiply_short_cut(Machine(spec), 11, 89)
        assert (working.answer, working.turns, methods.turns_of(methods.signed_digits(89))) == (979, 10, 3)

    @given(products())
    def test_on_any_machine_it_is_right_and_never_takes_more_turns_than_plain(self, case):
        spec, a, b = case
        worked = Machine(spec)
        if not (a < 10**spec.setting_places and b < 10**spec.positions and a * b < 10**spec.result_places):
            assert refused(worked, lambda: methods.multiply_short_cut(worked, a, b)).register != "carry reach"
            return
        try:
            working = methods.multiply_short_cut(worked, a, b)
        except CapacityError as no:
            assert "carry reach is short by" in str(no)  # noqa: PT017 (it need not be refused)
            assert worked.strokes == ()
            return
        assert working.answer == worked.result == a * b == DECIMAL.multiply(a, b)
        assert methods.turns_of(methods.signed_digits(b)) <= working.turns <= sum(map(int, str(b)))
        if spec.counter_carry:
            assert worked.counter == b
        check_lines(working)

    @given(numbers, numbers)
    def test_with_carries_all_along_it_is_never_refused_where_plain_is_not(self, a, b):
        spec = MachineSpec(setting_places=8, result_places=12, counter_places=8, carry_reach=12)
        worked = Machine(spec)
        try:
            methods.multiply(worked, a, b)
        except CapacityError:
            return
        assert methods.multiply_short_cut(Machine(spec), a, b).answer == a * b
