"""Adding and taking away, at the home position."""

from __future__ import annotations

from decimal import Context
from itertools import accumulate

import pytest
from hypothesis import given, strategies as st
from mechanism.machines import specs

from mechcalc import CapacityError, Machine, MachineSpec, methods

from .helpers import check_lines, machine, numbers, sums

DECIMAL = Context(prec=60)


class TestAdd:
    def test_each_number_is_set_and_turned_in_once(self):
        working = methods.add(machine("slate"), 12, 34, 56)
        assert [line.algebra for line in working.lines] == [
            "1 × 10 + 2 = 12", "0 + 12 = 12", "3 × 10 + 4 = 34", "12 + 34 = 46", "5 × 10 + 6 = 56", "46 + 56 = 102"]
        assert [line.words for line in working.lines[:2]] == ["Set 12 on the levers.", "Turn: add 12."]
        assert (working.answer, working.turns, working.shifts, working.settings) == (102, 3, 0, 3)
        assert working.crank_angle == 3 * 360.0
        assert working.end.reading.counter == 3

    def test_the_same_number_again_is_not_set_again(self):
        working = methods.add(machine(), 7, 7, 7)
        assert (working.answer, working.settings, working.turns) == (21, 1, 3)

    def test_what_was_there_is_cleared_and_the_carriage_goes_home(self):
        worked = machine("slate")
        worked.set(99)
        worked.turn(2)
        worked.shift(2)
        working = methods.add(worked, 5)
        assert [stroke.operation for stroke in working.strokes] == [
            "clear result", "clear counter", "shift", "shift", "set", "crank"]
        assert [line.algebra for line in working.lines][:4] == [
            "198 − 198 = 0", "2 − 2 = 0", "99 × 10 = 990", "99 × 10⁰ = 99"]
        assert working.answer == worked.result == 5
        check_lines(working)

    def test_a_counter_at_nought_with_its_direction_taken_is_cleared_too(self):
        worked = machine("slate")
        worked.turn(1)
        worked.turn(-1)
        assert worked.counter == 0
        assert worked.counter_direction == 1
        working = methods.subtract(worked, 0, 0)
        assert [stroke.operation for stroke in working.strokes] == ["clear counter", "crank", "crank"]

    def test_keeping_goes_on_from_the_register(self):
        worked = machine("slate")
        first = methods.add(worked, 40)
        second = methods.add(worked, 2, keep=True)
        assert (second.answer, second.title, worked.counter) == (42, "40 + 2", 2)
        assert worked.strokes == first.strokes + second.strokes

    def test_keeping_knows_by_the_bell_that_the_register_is_below_nought(self):
        worked = machine("slate")
        methods.subtract(worked, 12, 34)
        working = methods.add(worked, 10, 30, keep=True)
        assert working.title == "−22 + 10 + 30"
        assert [line.algebra for line in working.lines if "Turn" in line.words] == [
            "999978 + 10 = 999988", "(999988 + 30) mod 10⁶ = 18"]
        assert working.lines[1].words == "Turn: add 10. Still a complement; it means −12."
        assert "the borrow is paid back, and the number is plain again" in working.lines[-1].words
        assert working.answer == 18

    def test_a_number_that_looks_like_a_complement_is_kept_as_the_number_it_is(self):
        worked = machine("slate")
        methods.multiply(worked, 9500, 100)
        assert worked.result == 950_000
        assert methods.add(worked, 1, keep=True).answer == 950_001

    @given(sums())
    def test_on_any_machine_the_sum_is_right_or_it_is_refused_for_a_reason(self, case):
        """Oracle: Python's integers and decimal; and what wheels 1..q modulo 10^q would show."""
        spec, summands = case
        worked = Machine(spec)
        reach = spec.wheels_in_reach(0)
        fits = max(summands) < 10**spec.setting_places and sum(summands) < 10**reach
        try:
            working = methods.add(worked, *summands)
        except CapacityError:
            assert not fits
            assert worked.strokes == ()
            return
        assert fits
        exact = 0
        for summand in summands:
            exact = DECIMAL.add(exact, summand)
        assert working.answer == worked.result == sum(summands) == exact
        shown = [stroke.reading.result for stroke in working.strokes if stroke.operation == "crank"]
        assert shown == list(accumulate(summands))
        check_lines(working)


class TestSubtract:
    def test_the_borrow_that_has_nowhere_to_go_rings_the_bell_and_leaves_nines(self):
        worked = machine("slate")
        working = methods.subtract(worked, 12, 34)
        assert (working.answer, worked.result, worked.bell) == (-22, 999_978, True)
        assert working.lines[-1].algebra == "(12 − 34) mod 10⁶ = 999978"
        assert working.lines[-1].words == (
            "Turn back: take away 34. The bell rings: the borrow has nowhere to go, and the wheels show a complement; "
            "it means −22.")
        check_lines(working)

    def test_with_a_short_carry_reach_the_nines_end_where_the_carries_end(self):
        worked = machine("short")
        working = methods.subtract(worked, 0, 1)
        assert worked.result_digits == (9,) * 7 + (0,) * 5
        assert (working.answer, working.lines[-1].algebra) == (-1, "(0 − 1) mod 10⁷ = 9999999")

    def test_several_numbers_one_after_another(self):
        working = methods.subtract(machine(), 1000, 1, 20, 300)
        assert (working.answer, working.title) == (679, "1000 − 1 − 20 − 300")

    def test_from_what_is_kept(self):
        worked = machine()
        methods.multiply(worked, 25, 40)
        assert methods.subtract(worked, 1, keep=True).answer == 999
        check_lines(methods.subtract(worked, 1000, keep=True))

    @pytest.mark.parametrize(("subtrahend", "fits"), [(1000, True), (1001, False)])
    def test_as_far_below_nought_as_a_nine_is_left_in_front(self, subtrahend, fits):
        worked = Machine(MachineSpec(setting_places=4, result_places=4, counter_places=4, carry_reach=4))
        if fits:
            assert methods.subtract(worked, 0, subtrahend).answer == -subtrahend
            assert worked.result == 9000
        else:
            with pytest.raises(CapacityError) as no:
                methods.subtract(worked, 0, subtrahend)
            assert str(no.value) == (
                "0 − 1001 does not fit this machine: the result is short by 1 place (−1001 as a complement, with a 9 "
                "in front of it, takes 5 wheels of the 4 that carries reach)")
            assert (no.value.register, no.value.short_by) == ("result", 1)

    @given(sums())
    def test_on_any_machine_the_difference_is_right_or_it_is_refused_for_a_reason(self, case):
        spec, (first, *others) = case
        worked = Machine(spec)
        reach = spec.wheels_in_reach(0)
        differences = list(accumulate(others, lambda a, b: a - b, initial=first))
        fits = (max(first, *others) < 10**spec.setting_places and first < 10**reach
                and differences[-1] >= -10**(reach - 1))
        try:
            working = methods.subtract(worked, first, *others)
        except CapacityError:
            assert not fits
            assert worked.strokes == ()
            return
        assert fits
        assert working.answer == differences[-1] == methods.signed_result(worked)
        assert worked.result == working.answer % 10**reach
        shown = [stroke.reading.result for stroke in working.strokes if stroke.operation == "crank"]
        assert shown == [difference % 10**reach for difference in differences]
        if working.answer < 0:
            assert methods.complement_reading(worked).value == working.answer
        check_lines(working)


class TestSubtractByComplement:
    def test_the_one_in_front_is_struck_off(self):
        working = methods.subtract_by_complement(machine(), 5000, 225, places=4)
        assert [line.algebra for line in working.lines] == [
            "5 × 10³ = 5000", "0 + 5000 = 5000", "9 × 10³ + 7 × 10² + 7 × 10 + 5 = 9775", "5000 + 9775 = 14775"]
        assert working.answer == 4775
        assert working.remark == (
            "The result shows 14775. Strike off the 1 in place 5, the 10⁴ that was lent: the answer is 4775.")

    def test_without_a_one_the_answer_is_below_nought(self):
        working = methods.subtract_by_complement(machine(), 225, 5000, places=4)
        assert working.answer == -4775
        assert working.remark == (
            "The result shows 5225, and no 1 in place 5: it is the complement of 4775 in 4 places; the answer is "
            "−4775.")

    def test_where_no_wheel_takes_the_one_the_bell_rings(self):
        worked = Machine(MachineSpec(setting_places=4, result_places=4, counter_places=4, carry_reach=4))
        working = methods.subtract_by_complement(worked, 5000, 225)
        assert (working.answer, worked.result, worked.bell) == (4775, 4775, True)
        assert working.lines[-1].algebra == "(5000 + 9775) mod 10⁴ = 4775"
        assert "had nowhere to go and rang the bell" in working.remark

    def test_taking_away_nought_strikes_nothing_off(self):
        working = methods.subtract_by_complement(machine(), 17, 0)
        assert working.answer == 17
        assert "nothing is struck off" in working.remark

    @given(specs(), numbers, numbers, st.data())
    def test_it_agrees_with_subtraction(self, spec, a, b, data):
        places = data.draw(st.integers(1, spec.setting_places))
        a, b = a % 10**places, b % 10**places
        if spec.result_places < places:
            return
        try:
            working = methods.subtract_by_complement(Machine(spec), a, b, places=places)
        except CapacityError:
            assert max(a, b) >= 10**spec.result_places
            return
        assert working.answer == a - b
        check_lines(working)
