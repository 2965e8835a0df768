"""Reckoned courses against cranked ones, and both against written addition."""

from __future__ import annotations

import pytest
from hypothesis import given, settings, strategies as st
from mechanism.machines import specs

from mechcalc import CapacityError, InputError, Machine, load_spec
from mechcalc.methods import add, subtract
from mechcalc.preparing.course import course_of
from mechcalc.preparing.reckoning import Reckoner, runs_by_digits
from mechcalc.preparing.replaying import full_reach, replay
from mechcalc.preparing.tasks import TASKS

from . import oracle

PLANNED = [name for name, row in TASKS.items() if row.plan]
numbers = st.one_of(st.integers(1, 99), st.integers(1, 10**6), st.integers(1, 10**10),
                    st.sampled_from([1, 9, 10, 55, 98, 99, 100, 101, 999, 1000, 99_999, 900_000, 999_999]))


def cranked(row, spec, given_numbers, places):
    """The course on the machine; None where it has no room."""
    try:
        return course_of(row.work(Machine(spec), given_numbers, places))
    except (CapacityError, InputError):
        return None


def reckoned(row, spec, given_numbers, places):
    """The same, reckoned."""
    hand = Reckoner(spec)
    try:
        row.plan(hand, given_numbers, places)
    except CapacityError:
        return None
    return hand.course()


@st.composite
def calculations(draw, name: str):
    """Numbers for a task, now and then too long for the machine."""
    row, spec = TASKS[name], draw(specs())
    count = draw(st.integers(len(row.slots), len(row.slots) + (2 if row.further else 0)))
    width = draw(st.integers(1, spec.setting_places + draw(st.sampled_from([0, 0, 1]))))
    found = tuple(draw(numbers) % 10**width or 1 for _ in range(count))
    return spec, found, draw(st.integers(0, 2)) if row.decimals else 0


@pytest.mark.parametrize("name", PLANNED)
def test_what_is_reckoned_is_what_the_machine_does(name):
    """Turn by turn, on any machine: values, bells, carries, shifts; and no room here is no room there."""
    row = TASKS[name]

    @settings(max_examples=40)
    @given(calculations(name))
    def check(calculation):
        spec, given_numbers, places = calculation
        here, there = cranked(row, spec, given_numbers, places), reckoned(row, spec, given_numbers, places)
        assert (here is None) == (there is None)
        if here is not None:
            for what in ("turns", "shifts", "worked_from", "shows", "runs"):
                assert getattr(here, what) == getattr(there, what), what

    check()


@pytest.mark.parametrize("machine", ["bench", "short", "slate", "plain"])
@pytest.mark.parametrize("name", PLANNED)
def test_on_machines_of_the_catalogue(name, machine):
    """A few of each kind, most of which have room there."""
    row, spec = TASKS[name], load_spec(machine)
    sets = {1: [(2,), (144,), (54_756,)], 2: [(1000, 1), (347, 26), (9801, 99), (12, 34)]}
    here = [cranked(row, spec, given_numbers, 0) for given_numbers in sets[len(row.slots)]]
    there = [reckoned(row, spec, given_numbers, 0) for given_numbers in sets[len(row.slots)]]
    assert [course and course.runs for course in here] == [course and course.runs for course in there]
    assert len(list(filter(None, here))) >= 2


class TestRuns:
    """How far a carry runs."""

    @given(st.integers(1, 9), st.data())
    def test_by_written_addition(self, wheels, data):
        """The longest run, the nines it crosses, and all carries, against columns on paper."""
        before = data.draw(st.one_of(st.integers(0, 10**wheels - 1), st.just(10**wheels - 1), st.just(0)))
        amount = data.draw(st.one_of(st.integers(0, 10**wheels - 1), st.integers(0, 9)))
        for direction in (1, -1):
            runs = runs_by_digits(before, amount, direction, 0, wheels)
            assert max((run.wheels for run in runs), default=0) == oracle.ripple(before, amount, direction, wheels)
            assert max((run.nines for run in runs), default=0) == oracle.crossed(before, amount, direction, wheels)
            assert sum(run.wheels - 1 for run in runs) == oracle.carries(before, amount, direction, wheels)

    @given(st.integers(0, 9999), st.integers(0, 9999))
    def test_events_by_written_addition(self, one, other):
        """The same of a turn that was cranked."""
        for method, direction in ((add, 1), (subtract, -1)):
            if direction > 0 or one >= other:
                runs = course_of(method(Machine(load_spec("slate")), one, other)).runs[-1]
                assert max((run.wheels for run in runs), default=0) == oracle.ripple(one, other, direction, 6)
                assert sum(run.wheels - 1 for run in runs) == oracle.carries(one, other, direction, 6)

    def test_a_wheel_that_its_own_pins_take_past_9_begins_anew(self):
        """199 + 91: wheel 1 carries into wheel 2, which 9 + 9 takes past 9 already: that is a carry of its own."""
        assert [(run.first, run.last) for run in runs_by_digits(199, 91, 1, 0, 6)] == [(1, 2), (2, 3)]

    def test_a_carry_that_runs_off_the_end(self):
        """999999 + 1 on six wheels: through all six, and the bell has the rest."""
        (run,) = runs_by_digits(999_999, 1, 1, 0, 6)
        assert (run.first, run.last, run.nines) == (1, 6, 5)


class TestShortReach:
    """What a short machine makes of strokes that are right on a longer one."""

    @given(st.integers(100_000, 999_999), st.integers(100, 999))
    def test_by_whole_numbers(self, multiplicand, multiplier):
        """Each turn adds modulo 10^q, and the wheels above stand still: worked here by plain integers."""
        spec = load_spec("short")
        row = TASKS["multiply by short cut"]
        working = replay(spec, lambda machine: row.work(machine, (multiplicand, multiplier), 0))
        result = 0
        for stroke in working.strokes:
            if stroke.operation == "crank":
                modulus = 10**min(12, 7 + stroke.before.carriage)
                amount = (1 if stroke.argument > 0 else -1) * multiplicand * 10**stroke.before.carriage
                result = result // modulus * modulus + (result + amount) % modulus
                assert stroke.reading.result == result
        assert working.answer == result
        hand = Reckoner(spec, check=False)
        row.plan(hand, (multiplicand, multiplier), 0)
        assert hand.course().shows == result

    def test_every_line_says_what_the_machine_shows(self):
        working = replay(load_spec("short"), lambda machine: TASKS["multiply by short cut"].work(
            machine, (922_611, 109), 0))
        for stroke, line in zip(working.strokes, working.lines, strict=True):
            if stroke.operation == "crank":
                assert line.equality.right == stroke.reading.result
        assert working.answer == 564_599
        assert working.remark == ("The result shows 564599. With carries that reach every wheel it would show "
                                  "100564599.")

    @given(specs())
    def test_every_machine_has_a_twin(self, spec):
        """As wide, and with carries that reach its end."""
        twin = full_reach(spec)
        assert twin.carry_reach >= twin.result_places == spec.result_places
