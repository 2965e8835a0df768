"""What the lessons at the bench show: symptoms side by side, covers with their proof, ways through cases.

That a set of needs of which no two share a test is a bound for every choice of tests is weak duality of packing and
covering (textbooks of linear programming; quoted from memory). It is compared here with trying every choice.
"""

from __future__ import annotations

from itertools import combinations
from math import log2
from random import Random

import pytest

from mechcalc import load_spec
from mechcalc.bench import (
    CarryLeverWeak,
    CarryPinGone,
    NumberPinStuckOut,
    NumberWheelOverthrows,
    every_fault,
)
from mechcalc.bench.cases import GRADES, case
from mechcalc.classroom import covers, symptoms, tracing_steps

SLATE = load_spec("slate")


class TestSymptoms:
    """A faulty machine beside a sound one."""

    @pytest.mark.parametrize("place", range(2, 5))
    def test_a_fault_of_the_drum_spoils_another_wheel_at_each_position(self, place):
        """Worked by hand: place p stands before wheel p + s."""
        found = symptoms.by_position("slate", CarryPinGone(place=place, direction=1), symptoms.FIVES)
        assert found == {shift: (place + shift,) for shift in range(SLATE.positions)}

    @pytest.mark.parametrize("wheel", [1, 2, 3])
    def test_a_fault_of_the_carriage_spoils_the_same_wheel_as_long_as_it_is_reached(self, wheel):
        found = symptoms.by_position("slate", CarryLeverWeak(wheel=wheel), symptoms.FIVES)
        assert set(found.values()) <= {(wheel + 1,), ()}
        assert found[0] == (wheel + 1,)

    def test_both_helices_and_a_lever(self):
        """999 + 1 and 0 - 1, by hand: the pin fails in its direction, the lever in both."""
        faults = [CarryPinGone(place=3, direction=1), CarryPinGone(place=3, direction=-1), CarryLeverWeak(wheel=2)]
        table = symptoms.symptom_table("slate", faults, {"nines": symptoms.NINES, "less": symptoms.LESS_ONE})
        assert [row[1:] for row in table.rows] == [("001000", "999999 bell"), ("000900", "right"), ("right", "000099"),
                                                   ("000900", "000099")]

    def test_the_picture_says_wrong_where_the_list_does(self):
        faults = [NumberPinStuckOut(place=2, pin=9), NumberWheelOverthrows(wheel=2)]
        figure = symptoms.carriage_chart("slate", faults, "set 4444; turn")
        for axes, fault in zip(figure.axes, faults, strict=True):
            marked = {(round(text.get_position()[1]), round(text.get_position()[0]))
                      for text in axes.texts if text.get_text() == "wrong"}
            listed = symptoms.by_position("slate", fault, "set 4444; turn")
            assert marked == {(position, wheel) for position, wheels in listed.items() for wheel in wheels}


class TestCovers:
    """A table, the fewest tests, and why fewer will not do."""

    def test_needs_apart_are_as_many_as_can_be(self):
        chance = Random(4)
        for _ in range(60):
            needs = sorted({chance.randrange(1, 1 << 7) for _ in range(chance.randint(1, 9))})
            found = covers.apart(needs)
            assert all(not one & other for one, other in combinations(found, 2))
            assert len(found) == max(size for size in range(1, len(needs) + 1) for some in combinations(needs, size)
                                     if all(not one & other for one, other in combinations(some, 2)))

    @pytest.mark.parametrize("name", ["slate", "plain", "short"])
    def test_witnesses_never_exceed_the_least_choice_and_no_test_sees_two(self, name):
        witnesses = covers.witnesses(name)
        assert len(witnesses) <= len(covers.best_plan(name, False).tests)
        for one, other in combinations(witnesses, 2):
            assert not set(covers.sees(name, one)) & set(covers.sees(name, other))

    def test_on_slate_they_prove_both_plans(self):
        assert len(covers.witnesses("slate")) == len(covers.best_plan("slate", False).tests) == 7
        assert covers.bound_apart("slate") == len(covers.best_plan("slate", True).tests) == 15

    def test_tests_and_faults_see_each_other(self):
        for fault in Random(1).sample(every_fault(SLATE), 12):
            for test in covers.sees("slate", fault):
                assert fault in covers.revealed_by("slate", test)

    def test_a_stuck_pin_shows_at_digits_below_it(self):
        """Worked by hand: pins 1 to d are out at digit d."""
        assert covers.pin_grid("slate") == {pin: tuple(range(1, pin)) for pin in range(1, 10)}

    @pytest.mark.parametrize(("things", "answers"), [(1, 2), (2, 2), (3, 2), (184, 2), (51, 3), (1000, 10), (1001, 10)])
    def test_the_counting_bound_is_a_logarithm_rounded_up(self, things, answers):
        tests = covers.counting_bound(things, answers)
        assert answers**tests >= things
        assert tests == 0 or answers ** (tests - 1) < things
        assert abs(tests - log2(things) / log2(answers)) < 1

    def test_each_test_of_the_least_plan_is_missed(self):
        for test in covers.best_plan("slate", True).tests:
            assert covers.confused_without("slate", test.name) > 0


class TestWaysThrough:
    """The kit's own way through the cases."""

    @pytest.mark.parametrize("number", range(1, 8))
    def test_it_ends_at_what_is_hidden(self, number):
        assert case(number).verdict(*tracing_steps.by_advice(number)).outcome == "right"
        assert tracing_steps.left_after(number)[-1] == 1

    def test_with_two_faults_it_ends_in_the_class(self):
        for number in (8, 9, 10):
            verdict = case(number).verdict(*tracing_steps.by_advice(number))
            assert verdict.outcome in ("right", "same class")
        assert len(GRADES) == 10

    def test_what_is_left_never_grows(self):
        for number in (1, 6, 10):
            left = tracing_steps.left_after(number)
            assert left == sorted(left, reverse=True)
            assert tracing_steps.way_through(number).column("left") == tuple(left[1:])

    @pytest.mark.parametrize("fault", [CarryPinGone(place=3, direction=1), CarryLeverWeak(wheel=1)])
    def test_a_true_fault_outlives_one_slip(self, fault):
        assert tracing_steps.standing(tracing_steps.with_a_slip("slate", fault), fault) == 1
        assert tracing_steps.standing(tracing_steps.with_a_slip("slate", fault, by=0), fault) == 0

    def test_a_bit_is_a_fair_halving(self):
        bits = tracing_steps.first_bits("slate")
        assert len(bits) == len(covers.book("slate").tests)
        assert 0 < min(bits.values()) < max(bits.values()) < log2(covers.most_answers("slate"))
