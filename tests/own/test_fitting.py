"""Which lessons fit is found by working their examples; the examples are the lessons' own."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from hypothesis import given, settings

from mechcalc import InputError, Machine, MachineSpec, load_spec, machine_names, methods
from mechcalc.classroom.course import LESSONS
from mechcalc.own.fits import FORCE, STRETCH, TASKS, VISITORS, fitting
from tests.mechanism.machines import specs

FOLDER = Path(__file__).parents[2] / "lessons"
TRIED = tuple(task.lesson for task in TASKS if task.lesson)
ONE = MachineSpec(setting_places=1, result_places=1, counter_places=1, carry_reach=1)


class TestTasks:
    """Each lesson has one, with numbers that the lesson works."""

    def test_lessons_are_tried_in_course_order(self):
        """All but those that look for faults or compare ways of carrying."""
        tried = [task.lesson for task in TASKS if task.lesson]
        assert tried == [name for name in LESSONS if name in tried]
        assert set(LESSONS) - set(tried) <= {"reading_symptoms", "test_plan", "tracing_a_fault", "carries_compared"}
        assert all(bool(task.lesson) != bool(task.method) for task in TASKS)

    @pytest.mark.parametrize("task", [task for task in TASKS if task.lesson], ids=lambda task: task.lesson)
    def test_its_numbers_stand_in_the_lesson(self, task):
        """In text or code, together in one cell."""
        cells = json.loads((FOLDER / f"{task.lesson}.ipynb").read_text("utf-8"))["cells"]
        wanted = {str(number) for number in (*STRETCH, *FORCE)} if "Σ" in task.words else set(
            re.findall(r"\d+", task.words.partition(" for ")[0].partition(",")[0]))
        assert any(wanted <= set(re.findall(r"\d+", "".join(cell["source"]))) for cell in cells), wanted

    @pytest.mark.parametrize("task", TASKS, ids=lambda task: task.words)
    def test_its_words_say_what_is_worked(self, task):
        """On a machine with room for all, the answer is that of whole numbers."""
        done = task.work(Machine(load_spec("ledger")))
        answers = {"1204 + 352": 1556, "999 + 1": 1000, " + ".join(map(str, VISITORS)): sum(VISITORS),
                   "352 − 500": -148, "347 × 26": 9022, "463 × 298": 463 * 298, "5000 ÷ 16": 312, "2165 ÷ 37": 58,
                   "√54756": 234, "13 × 14 × 6, by back transfer": 1092, "13 × 14 × 6, set again by hand": 1092,
                   "345 + 12": 357, "99 + 1": 100, "∛12167": 23, "1 ÷ 37 to 6 decimals": 27027, "8!": 40320}
        if task.words in answers:
            assert done.answer == answers[task.words]
        elif task.words.startswith("x²"):
            assert done.column("f") == tuple(x * x for x in range(8))
        else:
            assert (done.sum_x, done.sum_xx, done.sum_xy) == (60, 776, 1342)


class TestFitting:
    """A machine is told what it has room for."""

    def test_the_everyday_machine_fits_all(self):
        assert fitting(load_spec("bench")).fits == TRIED
        all_of_them = f"{len(TRIED)} of the {len(TRIED)}"
        assert fitting(load_spec("bench")).verdict == f"The examples of {all_of_them} lessons fit this machine."

    def test_without_back_transfer_one_is_missing_and_told_why(self):
        plain = fitting(load_spec("plain"))
        assert set(TRIED) - set(plain.fits) == {"back_transfer_and_chains"}
        assert ("Back transfer and chains", "13 × 14 × 6, by back transfer",
                "no: this machine has no back-transfer lever. Set the number by hand.") in plain.rows()
        assert ("a chain without back transfer", "13 × 14 × 6, set again by hand", "yes, in 11 turns") in plain.rows()

    def test_a_machine_of_one_wheel_fits_none(self):
        one = fitting(ONE)
        assert one.fits == ()
        assert one.rows()[0][2].startswith("no: the setting is short by 3 places (1204 takes 4 levers of 1); ")

    @settings(max_examples=15)
    @given(specs())
    def test_any_machine_can_be_tried(self, spec):
        """A plain product fits exactly where levers, wheels and positions suffice; it needs no carry beyond them."""
        fits = fitting(spec)
        room = (spec.setting_places >= 3 and spec.result_places >= 4 and spec.counter_places >= 2
                and spec.positions >= 2 and spec.wheels_in_reach(1) >= 4)
        assert ("multiplication_by_shifting" in fits.fits) == room
        assert len(fits.rows()) == len(TASKS)

    @pytest.mark.parametrize("name", machine_names())
    def test_what_it_says_of_sizes(self, name):
        spec = load_spec(name)
        said = fitting(spec).sizes
        assert said.startswith(f"Figures: {spec.setting_places} on the levers, {spec.positions} in a multiplier, ")
        assert ("number wheels carry" in said) == (spec.carry_reach < spec.result_places)

    def test_as_text_and_html(self):
        fits = fitting(load_spec("slate"))
        assert str(fits).count("\n") == len(TASKS) + 1
        assert fits._repr_html_().count('scope="row"') == len(TASKS)

    def test_only_a_spec_can_be_tried(self):
        with pytest.raises(InputError, match="lessons are tried on a MachineSpec, not on 'bench'"):
            fitting("bench")


def test_a_product_is_refused_for_the_same_reason_as_anywhere():
    """The words are those of the method itself."""
    with pytest.raises(ValueError, match="the setting is short") as caught:
        methods.multiply(Machine(ONE), 347, 26)
    row = next(row for row in fitting(ONE).rows() if row[1] == "347 × 26")
    assert str(caught.value).endswith(row[2].removeprefix("no: "))
