"""Products of several factors, powers, factorials and exact growth, with back transfer and without."""

from __future__ import annotations

import math
from dataclasses import replace
from decimal import Decimal, localcontext
from fractions import Fraction

import pytest
from hypothesis import given, strategies as st
from mechanism.machines import specs

from mechcalc import CapacityError, Locked, Machine, MachineSpec, methods

from .helpers import check_lines, machine, refused, trouble

WAYS = ("back transfer", "by hand")
# 21 wheels that all carry; the angles leave room for a reach of 30 (see `mechcalc.layout`).
FINE = {"pin_pitch": 4.0, "gap": 0.5, "helix_step": 4.5, "lever_throw": 0.5, "rest_arc": 12.0}
LONG = MachineSpec(setting_places=11, result_places=21, counter_places=11, carry_reach=21, **FINE)


@st.composite
def chains(draw):
    """A machine with or without back transfer, and up to four factors."""
    spec = replace(draw(specs()), back_transfer=draw(st.booleans()))
    return spec, draw(st.lists(st.integers(0, 10**draw(st.integers(1, 3))), min_size=1, max_size=4))


class TestBackTransfer:
    def test_the_product_goes_home_to_the_levers_and_the_result_is_clear(self):
        working = methods.multiply_chain(machine("slate"), 12, 13, 7)
        said = [(stroke.operation, line.algebra) for stroke, line in zip(working.strokes, working.lines, strict=True)]
        assert said == [
            ("set", "1 × 10 + 2 = 12"), ("crank", "0 + 12 = 12"), ("crank", "12 + 12 = 24"), ("crank", "24 + 12 = 36"),
            ("shift", "12 × 10 = 120"), ("crank", "36 + 12 × 10 = 156"), ("shift", "12 × 10⁰ = 12"),
            ("clear setting", "12 − 12 = 0"), ("back transfer", "0 + 156 = 156"), ("clear counter", "13 − 13 = 0"),
            *(("crank", f"{156 * n} + 156 = {156 * (n + 1)}") for n in range(7))]
        assert (working.answer, working.transfers, working.settings, working.shifts) == (1092, 1, 1, 2)
        check_lines(working)

    def test_with_the_carriage_out_the_last_digits_are_dropped(self):
        """What `Hand.bring_back` says: 156 with the carriage at 1 brings back 15."""
        worked = machine("slate")

        def method(hand):
            yield from hand.set(156)
            yield from hand.turn(1)
            yield from hand.shift_to(1)
            yield from hand.bring_back()
            return hand.machine.setting, ""

        working = methods.work(worked, "156", method)
        assert working.lines[-1].algebra == "0 + ⌊156 / 10⌋ = 15"
        assert working.lines[-1].words.endswith("The last 1 digit is dropped.")
        assert (working.answer, worked.result) == (15, 0)
        check_lines(working)

    def test_what_stands_above_the_levers_is_lost_and_the_algebra_says_so(self):
        worked = machine("slate")

        def method(hand):
            yield from hand.set(1234)
            yield from hand.shift_to(1)
            yield from hand.turn(1)
            yield from hand.shift_to(0)
            yield from hand.bring_back()
            return hand.machine.setting, ""

        working = methods.work(worked, "12340", method)
        assert working.lines[-1].algebra == "0 + 12340 mod 10⁴ = 2340"
        check_lines(working)


class TestWays:
    def test_by_hand_costs_settings_instead_of_transfers_and_spares_shifts(self):
        by_gears, by_hand = (methods.multiply_chain(machine(), 12, 34, 56, way=way) for way in WAYS)
        assert by_gears.answer == by_hand.answer == 12 * 34 * 56
        assert by_gears.turns == by_hand.turns
        assert (by_gears.transfers, by_gears.settings, by_gears.shifts, by_gears.clearings) == (1, 1, 3, 2)
        assert (by_hand.transfers, by_hand.settings, by_hand.shifts, by_hand.clearings) == (0, 2, 2, 2)

    def test_a_machine_without_the_gears_is_set_again(self):
        working = methods.multiply_chain(machine("plain"), 12, 34, 5)
        assert [line.words for line in working.lines if "Read" in line.words] == [
            "Read 408 off the result and set it on the levers."]
        check_lines(working)

    def test_without_the_gears_back_transfer_is_refused(self):
        worked = machine("plain")
        no = refused(worked, lambda: methods.multiply_chain(worked, 2, 3, 4, way="back transfer"), Locked)
        assert str(no) == "this machine has no back-transfer lever. Set the number by hand."

    def test_a_product_that_has_no_room_on_the_levers(self):
        worked = machine("slate")
        no = refused(worked, lambda: methods.multiply_chain(worked, 99, 110, 2))
        assert str(no) == ("99 × 110 × 2 does not fit this machine: the setting is short by 1 place (10890 takes 5 "
                           "levers of 4)")
        assert methods.multiply_chain(worked, 99, 101, 2).answer == 19_998

    def test_bad_input(self):
        worked = machine()
        assert trouble(worked, lambda: methods.multiply_chain(worked)) == (
            "there is nothing to multiply: give at least one factor")
        assert trouble(worked, lambda: methods.multiply_chain(worked, 2, -3)) == (
            "a factor cannot be -3: it goes from 0 upwards")
        assert trouble(worked, lambda: methods.multiply_chain(worked, 2, 3.0)) == (
            "a factor must be a whole number, not 3.0 (float)")
        assert trouble(worked, lambda: methods.multiply_chain(worked, 2, 3, way="by foot")) == (
            "the way is 'back transfer' or 'by hand', not 'by foot'")
        assert "the plan is 'one by one' or 'by halves'" in trouble(worked, lambda: methods.power(worked, 2, 3, plan=1))
        assert "the plan is 'one by one' or 'in two halves'" in trouble(
            worked, lambda: methods.factorial(worked, 3, plan="x"))
        assert trouble(worked, lambda: methods.power(worked, 2, 0)) == "an exponent cannot be 0: it goes from 1 to 1000"

    @given(chains(), st.booleans())
    def test_on_any_machine_the_product_is_right_or_it_is_refused_for_a_reason(self, case, short_cut):
        spec, factors = case
        worked = Machine(spec)
        products = [math.prod(factors[:number]) for number in range(1, len(factors) + 1)]
        room = (max(products[:-1] or products) < 10**spec.setting_places
                and max(products) < 10**spec.result_places
                and all(factor < 10**spec.positions for factor in factors[1:]))
        try:
            working = methods.multiply_chain(worked, *factors, short_cut=short_cut)
        except CapacityError as no:
            assert not room or no.register == "carry reach"  # noqa: PT017 (it need not be refused)
            assert worked.strokes == ()
            return
        assert room
        assert working.answer == worked.result == products[-1]
        if spec.counter_carry:
            assert worked.counter == (factors[-1] if len(factors) > 1 else 1)
        check_lines(working, by_sympy=False)

    @given(st.lists(st.integers(0, 300), min_size=1, max_size=4), st.sampled_from(WAYS), st.booleans())
    def test_where_there_is_room_and_all_wheels_carry_nothing_is_refused(self, factors, way, short_cut):
        worked = Machine(LONG)
        assert methods.multiply_chain(worked, *factors, way=way, short_cut=short_cut).answer == math.prod(factors)


class TestPower:
    @pytest.mark.parametrize(("name", "exponent"), [("bench", 43), ("ledger", 66)])
    def test_the_largest_power_of_two(self, name, exponent):
        """2^43 has 13 places, 2^44 has 14; 2^66 has 20, 2^67 21 (recomputed: Python's integers)."""
        worked = machine(name)
        working = methods.power(worked, 2, exponent, plan="by halves")
        assert working.answer == worked.result == 2**exponent
        check_lines(working, by_sympy=False)
        no = refused(worked, lambda: methods.power(worked, 2, exponent + 1, plan="by halves"))
        assert "the result is short by 1 place" in str(no)

    def test_an_odd_exponent_takes_the_base_in_before_the_last_doubling(self):
        """2^5 = (2² · 2) · 2²: eight on the levers, four turns."""
        working = methods.power(machine("slate"), 2, 5, plan="by halves")
        sets = [stroke.before.reading.setting for stroke in working.strokes if stroke.operation == "crank"]
        assert sets == [2, 2, 4, 4, 8, 8, 8, 8]
        assert working.title == "2⁵"

    @given(st.integers(0, 40), st.integers(1, 9), st.sampled_from(["one by one", "by halves"]), st.booleans())
    def test_it_agrees_with_python(self, base, exponent, plan, short_cut):
        worked = Machine(LONG)
        try:
            working = methods.power(worked, base, exponent, plan=plan, short_cut=short_cut)
        except CapacityError:
            assert base**(exponent - 1 if plan == "one by one" else exponent - exponent // 2) >= 10**11
            return
        assert working.answer == base**exponent
        check_lines(working, by_sympy=False)


class TestFactorial:
    @pytest.mark.parametrize(("name", "largest", "short"), [("bench", 15, 1), ("ledger", 21, 2)])
    def test_the_largest_in_the_register(self, name, largest, short):
        """Largest n! in 13 places: 15!; in 20 places: 21! (recomputed: math.factorial)."""
        worked = machine(name)
        working = methods.factorial(worked, largest)
        assert working.answer == worked.result == math.factorial(largest)
        assert "was noted on paper" in working.remark
        check_lines(working, by_sympy=False)
        no = refused(worked, lambda: methods.factorial(worked, largest + 1))
        assert f"{largest + 1}! does not fit this machine: " in str(no)
        assert f"the result is short by {short} place" in str(no)

    def test_one_by_one_where_the_levers_are_long_enough(self):
        working = methods.factorial(machine(), 12)
        assert working.answer == 479_001_600
        assert (working.settings, working.transfers) == (1, 9)
        check_lines(working)

    @pytest.mark.parametrize("number", range(1, 13))
    def test_both_plans_agree(self, number):
        for plan in ("one by one", "in two halves"):
            assert methods.factorial(machine("ledger"), number, plan=plan).answer == math.factorial(number)


class TestGrowth:
    def test_five_per_cent_over_ten_periods_to_the_last_place(self):
        """1.05^10 = 1.62889462677744140625 exactly (recomputed: decimal)."""
        answer = methods.growth(Machine(LONG), "0.05", 10, plan="by halves")
        with localcontext() as context:
            context.prec = 40
            assert answer.value == Decimal("1.05")**10 == Decimal("1.62889462677744140625")
        assert str(answer.points) == "points: 10 in the setting, 10 in the counter, 20 in the result"
        check_lines(answer.working)

    def test_one_by_one_it_would_take_longer_levers(self):
        worked = Machine(LONG)
        no = refused(worked, lambda: methods.growth(worked, "0.05", 10))
        assert (no.register, no.short_by) == ("setting", 8)
        assert "takes 19 levers of 11" in str(no)

    def test_what_is_left_when_something_is_taken_off(self):
        assert methods.growth(machine(), "-0.2", 3).value == Decimal("0.512")
        assert methods.growth(machine(), "-0.2", 3).title == "(1 − 0.2)³"
        worked = machine()
        assert trouble(worked, lambda: methods.growth(worked, -1, 3)) == (
            "a rate must be more than -1, not -1: nothing would be left")

    @given(st.integers(0, 99), st.integers(1, 2), st.integers(1, 5))
    def test_it_agrees_with_fractions(self, number, place, periods):
        rate = Decimal(number).scaleb(-place)
        answer = methods.growth(Machine(LONG), rate, periods, plan="by halves")
        assert Fraction(answer.value) == (1 + Fraction(rate))**periods


class TestInterlocks:
    @pytest.mark.parametrize("attempt", [
        lambda m: methods.multiply_chain(m, 2, 3, 4), lambda m: methods.power(m, 2, 5, plan="by halves"),
        lambda m: methods.factorial(m, 5), lambda m: methods.growth(m, "0.05", 3),
        lambda m: methods.sum_of_products(m, (2, 3), (4, 5)), lambda m: methods.sums_of_one(m, [2, 3]),
        lambda m: methods.sums_of_two(m, [2, 3], [4, 5]), lambda m: methods.tabulate(m, "x**2", 4),
        lambda m: methods.multiples(m, 12, [3, 4]), lambda m: methods.percentages(m, 5, [100]),
        lambda m: methods.fibonacci(m, 9), lambda m: methods.interest_table(m, "0.05", 2, places=2, principal=10),
        lambda m: methods.multiply_decimals(m, "1.2", "3.4"), lambda m: methods.add_decimals(m, "1.2", "3.4"),
        lambda m: methods.other_way(m, 12, 34)])
    @pytest.mark.parametrize(("prepare", "part"), [
        (lambda m: m.crank(100), "lock"), (lambda m: m.ease_carriage(1), "carriage"),
        (lambda m: m.pull_clearing_lever("counter"), "clearing/counter")])
    def test_a_machine_that_is_not_at_rest_refuses_and_nothing_has_moved(self, attempt, prepare, part):
        worked = machine()
        worked.set(123)
        worked.turn(1)
        prepare(worked)
        assert refused(worked, lambda: attempt(worked), Locked).part in (part, "crank")

    @pytest.mark.parametrize("attempt", [
        lambda m: methods.multiply_chain(m, 2, 3), lambda m: methods.sum_of_products(m, (2, 3)),
        lambda m: methods.sums_of_one(m, [2]), lambda m: methods.table_by_differences(m, (0, 1), 3),
        lambda m: methods.interest_table(m, "0.05", 2, places=2), lambda m: methods.fibonacci(m, 3)])
    def test_something_that_is_no_machine(self, attempt):
        with pytest.raises(ValueError, match="a method works a Machine, not 'bench'"):
            attempt("bench")

    def test_what_stands_in_the_registers_is_cleared_first(self):
        worked = machine()
        methods.multiply(worked, 999, 98)
        assert methods.multiply_chain(worked, 2, 3, 4).answer == 24
        methods.subtract(worked, 12, 34)
        assert methods.sums_of_one(worked, [2, 3]).sum_xx == 13
        methods.subtract(worked, 12, 34)
        assert methods.fibonacci(worked, 9).rows[-1] == (9, 34)
        methods.subtract(worked, 12, 34)
        worked.shift(2)
        assert methods.interest_table(worked, "0.05", 2, places=2, principal=10).rows[-1][-1] == Decimal("11.02")
