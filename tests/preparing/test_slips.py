"""Usual slips: what each comes to, by hand and by doing the wrong thing on a machine."""

from __future__ import annotations

import pytest

from mechcalc.classroom.machines import ready
from mechcalc.preparing import TASKS, Wish, find
from mechcalc.preparing.case import Case


def slips(method: str, *numbers: int, machine: str = "bench", places: int = 0) -> dict[str, int | None]:
    """What every slip of a method comes to with these numbers."""
    case = Case(Wish(method, machine, [f"={number}" for number in numbers], places=places), numbers)
    return {slip.name: slip.comes_to(case) for slip in case.task.slips}


@pytest.mark.parametrize(("method", "numbers", "comes_to"), [
    ("add", (278, 65), {"the carries are forgotten": 233, "the numbers are lined up at the head": 278 + 650,
                        "the last number is left out": 278}),
    ("add", (278, 165), {"the carries are forgotten": 333, "the numbers are lined up at the head": None,
                         "the last number is left out": 278}),
    ("subtract", (503, 218), {"in each column the smaller figure is taken from the larger": 315,
                              "the borrows are forgotten": 395, "the crank is turned forwards": 721,
                              "a complement is written down as it stands": None}),
    ("subtract by complement", (503, 218), {"in each column the smaller figure is taken from the larger": 315,
                                            "the nine's complement is set": 284,
                                            "the 1 in front is not struck off": 1_000_000_285}),
    ("multiply", (347, 206), {"the carriage is not shifted": 347 * 8,
                              "a nought in the multiplier is given no place": 347 * 26,
                              "the multiplier is worked from its other end": 347 * 602,
                              "one turn too many is made in the highest place": 347 * 306}),
    ("multiply by short cut", (347, 98), {"a nought in the multiplier is given no place": None,
                                          "the multiplier is worked from its other end": 347 * 89,
                                          "subtractive turns are made forwards": 347 * 102}),
    ("chain", (12, 34, 56), {"the last factor is left out": 12 * 34, "the levers are left at the first factor": 12 * 56,
                             "the result is not cleared between": 12 * 34 * 57}),
    ("divide", (3150, 15), {"the turn that was too many is counted in each place": 321,
                            "a nought in the answer is left out": 21, "the counter is read from the wrong end": 12}),
    ("square root", (54_756,), {"the number is halved": 27_378, "the last odd number is taken for the root": 467,
                                "a nought in the answer is left out": None,
                                "the counter is read from the wrong end": 432})])
def test_by_hand(method, numbers, comes_to):
    """Each worked out on paper."""
    assert slips(method, *numbers) == comes_to


class TestOnTheMachine:
    """The wrong thing, done."""

    def test_without_shifting(self):
        machine = ready("bench", setting=347)
        machine.turn(2 + 0 + 6)
        assert machine.result == slips("multiply", 347, 206)["the carriage is not shifted"]

    def test_forwards_where_it_should_be_back(self):
        machine = ready("bench", setting=347)
        machine.shift_to(2)
        machine.turn(1)
        machine.shift_to(0)
        machine.turn(2)
        assert machine.result == slips("multiply by short cut", 347, 98)["subtractive turns are made forwards"]

    def test_a_complement_as_it_stands(self):
        machine = ready("short", setting=12)
        machine.turn()
        machine.set(34)
        machine.turn(-1)
        assert machine.result == slips("subtract", 12, 34, machine="short")[
            "a complement is written down as it stands"]

    def test_the_one_in_front(self):
        machine = ready("slate", setting=1000)
        machine.turn()
        machine.set(10_000 - 225)
        machine.turn()
        assert machine.result == slips("subtract by complement", 1000, 225, machine="slate")[
            "the 1 in front is not struck off"]

    def test_the_result_left_standing(self):
        """The second product comes on top of the first; both worked without clearing between."""
        machine = ready("bench", setting=12)
        machine.turn(34)
        first = machine.result
        machine.set(first)
        machine.turn(56)
        assert machine.result == slips("chain", 12, 34, 56)["the result is not cleared between"]


class TestExercisesThatDiscriminate:
    """What conditions on slips are for."""

    @pytest.mark.parametrize("method", [name for name, row in TASKS.items() if row.slips])
    def test_slips_show_and_are_told_apart(self, method):
        (found,) = find(Wish(method, conditions=["slips told apart"]), many=1)
        wrong = [number for number in slips(method, *found.numbers).values() if number is not None]
        assert len({*wrong, found.working.answer}) == len(wrong) + 1

    def test_a_slip_that_hides(self):
        """347 × 22 is the same from its other end."""
        (found,) = find(Wish("multiply", digits="=347x=22", conditions=["slips hidden = 1"]), many=1)
        assert slips("multiply", 347, 22)["the multiplier is worked from its other end"] == found.working.answer
