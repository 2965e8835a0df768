"""Every exercise that comes with the kit: right, wrong, misconceived, unreadable."""

from __future__ import annotations

import re

import pytest

from mechcalc.classroom import look_over, nudge, worked_out
from mechcalc.classroom.answers import Choice, Number, Several
from mechcalc.classroom.course import LESSONS
from mechcalc.classroom.exercises import FOUND_RIGHT, NOTHING_YET, Exercise, Slip, enter, exercises_of
from mechcalc.errors import InputError

ALL = [exercise for lesson in LESSONS for exercise in exercises_of(lesson)]
by_label = pytest.mark.parametrize("exercise", ALL, ids=lambda exercise: exercise.label)


def filled(slip: Slip, right: object) -> object:
    """The slip's answer, with the right value where any will do."""
    answer = slip.answer()
    if isinstance(answer, tuple) and isinstance(right, tuple):
        return tuple(true if part is ... else part for part, true in zip(answer, right, strict=True))
    return answer


def numbers(text: str) -> list[str]:
    return re.findall(r"\d+", re.sub(r"(?<=\d) (?=\d{3}\b)", "", text))


def test_each_lesson_has_five_exercises_or_more_and_no_label_comes_twice():
    assert all(len(exercises_of(lesson)) >= 5 for lesson in LESSONS)
    labels = [exercise.label for exercise in ALL]
    assert len(labels) == len(set(labels))


@by_label
class TestEach:
    """Each exercise"""

    def test_calls_its_own_answer_right(self, exercise):
        right = exercise.right()
        assert exercise.feedback(right).startswith("Right: ")
        assert exercise.praise in exercise.feedback(right)

    def test_takes_a_right_number_as_text_with_spaces(self, exercise):
        if isinstance(exercise.kind, Number):
            assert exercise.feedback(f"{exercise.right():,}".replace(",", " ")).startswith("Right: ")

    def test_answers_each_misconception_with_its_own_sentence(self, exercise):
        right = exercise.right()
        said = [exercise.feedback(filled(slip, right)) for slip in exercise.slips]
        assert said == [f"Not yet. {slip.says}" for slip in exercise.slips]
        assert len(set(said)) == len(said) >= 2

    def test_can_read_what_each_misconception_leads_to(self, exercise):
        right = exercise.right()
        for slip in exercise.slips:
            answer = filled(slip, right)
            assert exercise.kind.read(answer) == answer

    def test_does_not_give_the_answer_away(self, exercise):
        right = exercise.right()
        parts = right if isinstance(exercise.kind, Several) else (right,)
        for part in parts:
            if isinstance(part, int) and part > 9:
                for text in (*exercise.nudges, *(slip.says for slip in exercise.slips), exercise.question):
                    assert str(part) not in numbers(text)

    def test_says_something_useful_to_an_answer_that_is_merely_wrong(self, exercise):
        wrong = merely_wrong(exercise)
        if wrong is not None:
            said = exercise.feedback(wrong)
            assert said.startswith("Not yet. ")
            assert f'nudge("{exercise.label}")' in said

    @pytest.mark.parametrize("given", [True, 3.5, "what?", (), [1, 2, 3, 4, 5, 6, 7, 8, 9], object(), {"a": 1}])
    def test_tells_wrong_kinds_what_is_wanted(self, exercise, given):
        said = exercise.feedback(given)
        assert said.startswith("Not an answer yet. ") or (given is True and said.startswith(("Not yet", "Right")))

    def test_prints_one_fixed_line_as_the_lesson_comes(self, exercise, capsys):
        look_over(exercise.label, None)
        assert capsys.readouterr().out == NOTHING_YET + "\n"

    def test_has_nudges_and_a_question(self, exercise, capsys):
        for which, text in enumerate(exercise.nudges, start=1):
            nudge(exercise.label, which)
            assert capsys.readouterr().out.startswith(f"Nudge {which} of {len(exercise.nudges)}: {text[:20]}")
        assert len(exercise.nudges) >= 2
        assert exercise.question.endswith((".", "?"))


def merely_wrong(exercise: Exercise) -> object:
    """An answer that is readable, wrong, and no misconception."""
    right = exercise.right()

    def near(value: object, kind: object) -> list:
        if isinstance(value, tuple) and not isinstance(kind, Several):
            return [tuple((digit + step) % 10 for digit in value) for step in range(1, 10)]
        if isinstance(value, int):
            return [value + 7, value + 13, value + 29]
        return [word for word in kind.words if word != value] if isinstance(kind, Choice) else []

    if isinstance(exercise.kind, Several):
        _, kind = exercise.kind.parts[0]
        options = [(other, *right[1:]) for other in near(right[0], kind)]
    else:
        options = near(right, exercise.kind)
    return next((answer for answer in options
                 if not any(slip.matches(answer) for slip in exercise.slips)), None)


class TestLookOver:
    """The function that lessons call."""

    def test_asks_whether_another_label_is_meant(self, capsys):
        look_over("slow lever", 3)
        assert capsys.readouterr().out == "There is no exercise called 'slow lever'. Is \"slow levers\" meant?\n"

    @pytest.mark.parametrize("label", [None, 3, "", ["slow levers"]])
    def test_any_other_label_gets_a_line_and_no_traceback(self, label, capsys):
        look_over(label, 3)
        nudge(label)
        assert capsys.readouterr().out.count("There is no exercise called") == 2

    @pytest.mark.parametrize("which", [0, 3, "1", True, None])
    def test_a_nudge_too_many_says_how_many_there_are(self, which, capsys):
        nudge("slow levers", which)
        assert capsys.readouterr().out == (
            'There are 2 nudges for this exercise: nudge("slow levers", 2) is the last.\n')

    def test_a_folded_solution_is_found_right_without_being_told(self, capsys):
        for exercise in ALL:
            worked_out(exercise.label, exercise.right())
        assert set(capsys.readouterr().out.splitlines()) == {FOUND_RIGHT}

    def test_a_folded_solution_that_is_wrong_is_told_so(self, capsys):
        worked_out("slow levers", 12)
        worked_out("slow lever", 12)
        said = capsys.readouterr().out
        assert said.startswith("Not yet. That is slate's own helix step")
        assert "There is no exercise called 'slow lever'" in said

    def test_says_which_parts_are_right(self):
        lost = next(exercise for exercise in ALL if exercise.label == "lost at the end")
        assert lost.feedback((123, "yes")) == (
            'Not yet. Right already: bell. The rest needs another look. There is help: nudge("lost at the end").')

    def test_lines_are_no_wider_than_a_page(self, capsys):
        for exercise in ALL:
            look_over(exercise.label, exercise.right())
        assert max(len(line) for line in capsys.readouterr().out.splitlines()) <= 100


class TestOwnExercises:
    """A teacher can add exercises, but not take over the kit's."""

    own = Exercise(label="our own sum", question="1 + 1?", kind=Number(), right=lambda: 2, praise="Yes.",
                   slips=(Slip(answer=lambda: 11, says="Add, do not write side by side."),), nudges=("Two hands.",))

    def test_own_exercises_are_found(self, capsys):
        enter(self.own)
        look_over("our own sum", 11)
        assert capsys.readouterr().out == "Not yet. Add, do not write side by side.\n"

    def test_a_label_of_the_kit_is_taken(self):
        with pytest.raises(InputError, match="'slow levers' is taken"):
            enter(Exercise(label="slow levers", question="?", kind=Number(), right=lambda: 1, praise="", slips=(),
                           nudges=()))
