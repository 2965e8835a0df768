"""Setting, clearing, shifting and back transfer: what moves, in which order, and what stays."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, strategies as st

from mechcalc import Kind, Machine
from mechcalc.operations import OPERATIONS
from mechcalc.state import cleared

from .machines import TRIAL, do, specs, work
from .oracles import Arithmetic, digits


def with_result(*wheels: int) -> Machine:
    """These digits in the result, units first; nothing else."""
    return Machine(TRIAL, state=replace(cleared(TRIAL), result=wheels))


class TestSetting:
    """Levers go a position at a time."""

    def test_levers_move_one_after_another_from_the_highest_place(self):
        """405 from 0: place 3 to 4, then place 1 to 5; place 2 is not touched."""
        stroke = Machine(TRIAL).set(405)
        assert [(event.place, event.digit) for event in stroke.events] == [
            (3, 1), (3, 2), (3, 3), (3, 4), (1, 1), (1, 2), (1, 3), (1, 4), (1, 5)]
        assert [event.angle for event in stroke.events[3:5]] == [30.0, 36.0]

    def test_a_lever_goes_down_as_well(self):
        """From 5 to 3 in two steps."""
        machine = Machine(TRIAL)
        machine.set_lever(2, 5)
        stroke = machine.set_lever(2, 3)
        assert [(event.step, event.digit) for event in stroke.events] == [(-1, 4), (-1, 3)]
        assert (machine.setting, machine.setting_digits) == (30, (0, 3, 0))

    def test_setting_what_is_set_is_a_stroke_without_events(self):
        """The operator looked, and found it right."""
        machine = Machine(TRIAL)
        machine.set(7)
        stroke = machine.set(7)
        assert stroke.events == ()
        assert len(machine.strokes) == 2


class TestClearing:
    """Every wheel turns back to 0 by as many steps as it shows."""

    @given(st.integers(0, 9999))
    def test_a_wheel_at_d_moves_d_steps(self, number):
        """And nothing else moves."""
        machine = Machine(TRIAL)
        machine.set(number % 1000)
        machine.turn()
        shown = machine.result_digits
        stroke = machine.clear_result()
        for wheel, digit in enumerate(shown, start=1):
            assert [event.digit for event in stroke.events if event.wheel == wheel] == list(range(digit - 1, -1, -1))
        assert stroke.events[-1].kind == Kind.PULLED_HOME
        assert (machine.result, machine.counter, machine.setting) == (0, 1, number % 1000)

    def test_the_direction_of_the_counter_is_freed_right_at_the_end(self):
        """After every wheel's last step."""
        machine = Machine(TRIAL)
        machine.turn(-12)
        stroke = machine.clear_counter()
        assert [(event.angle, event.kind.value, event.place) for event in stroke.events] == [
            (80.0, "counter clearing step", 1), (90.0, "counter clearing step", 1),
            (90.0, "counter clearing step", 2), (90.0, "direction freed", 0), (180.0, "clearing lever home", 0)]

    def test_a_clearing_lever_pulled_not_quite_home_frees_no_direction(self):
        """At 89 degrees the wheels of 9 have gone eight steps, and up is still up."""
        machine = Machine(TRIAL)
        machine.turn(9)
        machine.pull_clearing_lever("counter", 89.0)
        assert (machine.counter, machine.counter_direction) == (1, 1)
        machine.pull_clearing_lever("counter", 90.0)
        assert (machine.counter, machine.counter_direction) == (0, None)

    def test_the_comb_brings_all_levers_home_together(self):
        """The last step of each ends at the same angle."""
        machine = Machine(TRIAL)
        machine.set(952)
        stroke = machine.clear_setting()
        last = {event.place: event.angle for event in stroke.events if event.kind == Kind.SETTING_STEP}
        assert last == {1: 164.0, 2: 164.0, 3: 164.0}

    @given(specs(), work)
    def test_events_of_every_stroke_come_in_order(self, spec, acts):
        """By angle; inside the stroke; and each stroke begins where the one before it left the machine."""
        machine, sums = Machine(spec), Arithmetic(spec)
        for act in acts:
            do(machine, sums, act)
        before = Machine(spec).state
        for stroke in machine.strokes:
            angles = [event.angle for event in stroke.events]
            assert angles == sorted(angles)
            assert all(event.start <= event.angle for event in stroke.events)
            assert stroke.before == before
            assert stroke.reading == stroke.after.reading
            assert stroke.operation in OPERATIONS
            before = stroke.after


class TestBackTransfer:
    """The result goes back into the setting."""

    @given(st.integers(0, 999), st.integers(0, 2))
    def test_pinwheel_j_takes_the_digit_of_wheel_j_plus_s(self, number, position):
        """Places with no wheel opposite keep their setting, wheels with no place opposite are cleared and lost."""
        machine = Machine(TRIAL)
        machine.set(number)
        machine.turn()
        machine.clear_setting()
        machine.shift_to(position)
        machine.set_lever(3, 0 if position < 2 else 7)
        wheels = digits(number, 8)
        machine.back_transfer()
        opposite = [wheels[place + position] for place in range(3)]
        if position == 2:
            opposite[2] = 7
        assert list(machine.setting_digits) == opposite
        assert machine.result == 0

    def test_engaged_by_hand_it_is_the_same(self):
        """Lever down, clear the result, lever up."""
        by_hand, at_once = with_result(4, 3, 2, 1), with_result(4, 3, 2, 1)
        by_hand.shift(1)
        at_once.shift(1)
        by_hand.engage_transfer()
        by_hand.clear_result()
        by_hand.free_transfer()
        at_once.back_transfer()
        assert by_hand.state == at_once.state
        assert by_hand.setting == 123

    def test_the_counter_and_the_carriage_stay(self):
        """Only result and setting change."""
        machine = Machine(TRIAL)
        machine.set(5)
        machine.turn(3)
        machine.clear_setting()
        machine.back_transfer()
        assert (machine.setting, machine.counter, machine.carriage) == (15, 3, 0)


class TestLookingAhead:
    """`would` shows a stroke without making it."""

    def test_would_changes_nothing(self):
        """The same stroke then comes of doing it."""
        machine = Machine(TRIAL)
        machine.set(999)
        before = machine.state
        ahead = machine.would("crank", -360.0)
        assert machine.state is before
        assert machine.perform("crank", -360.0) == ahead

    def test_would_is_refused_as_the_stroke_would_be(self):
        """With the same words."""
        machine = Machine(TRIAL)
        with pytest.raises(Exception, match=r"it stops at 0 and at 2"):
            machine.would("shift", -1)
