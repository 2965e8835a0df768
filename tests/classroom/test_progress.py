"""What a learner has done, counted from logbooks written by hand; and what is suggested next."""

from __future__ import annotations

import json
import re
from fractions import Fraction

import pytest

from mechcalc.classroom.course import COURSE, PATHS, lesson_named, on_path
from mechcalc.classroom.exercises import exercises_of
from mechcalc.classroom.logbook import FILE, VARIABLE
from mechcalc.classroom.progress import NOT_KEPT, NOTHING, Progress, progress
from mechcalc.classroom.suggesting import next_lesson
from mechcalc.errors import InputError

TENS = [exercise.label for exercise in exercises_of("tens_carry")]


def answer(about: str, given: object, outcome: str, kind: str = "answer", **more: object) -> dict:
    return {"format": 1, "when": "2031-03-04T09:15:02+00:00", "kind": kind, "lesson": None, "about": about,
            "given": given, "outcome": outcome, "slip": None, **more}


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.setenv(VARIABLE, str(tmp_path))
    monkeypatch.chdir(tmp_path)
    return tmp_path


def write(folder, *lines) -> None:
    (folder / FILE).write_text("".join(json.dumps(line) + "\n" if isinstance(line, dict) else line + "\n"
                                       for line in lines), encoding="utf-8")


BY_HAND = [
    answer(TENS[0], 272, "slip"), answer(TENS[0], 272, "slip"), answer(TENS[0], 262, "right"),
    answer(TENS[0], 261, "wrong"),
    answer(TENS[1], "'four'", "unreadable"), answer(TENS[1], 4, "right"),
    answer(TENS[2], [0, 0, 0, 9, 9, 9], "wrong"), answer(TENS[3], "'?'", "unreadable"),
    answer("a lost label", 3, "right"),
    answer("question-run", 990, "wrong", "prediction", lesson="tens_carry", happened=1000),
    answer("question-run", 990, "wrong", "prediction", lesson="tens_carry", happened=1000),
    answer("once", 1, "right", "prediction", lesson="tens_carry", happened=1),
    answer("once", "'x'", "unreadable", "prediction", lesson="tens_carry", happened=1),
    "not a line",
]


class TestCounting:
    """Three exercises tried; one right at once, one right later, one not yet; the rest untouched."""

    @pytest.fixture
    def tens(self, folder):
        write(folder, *BY_HAND)
        return progress().of("tens_carry")

    def test_right_tried_untouched(self, tens):
        assert (tens.right, tens.tried, tens.untouched) == (2, 3, len(TENS) - 3)
        assert tens.open == tuple(TENS[2:])

    def test_an_answer_run_again_is_no_new_try(self, tens):
        """272, 262, 261: what was right once stays right."""
        assert [entry.given for entry in tens.trails[0].tries] == [272, 262, 261]
        assert tens.trails[0].right

    def test_what_cannot_be_read_is_no_try(self, tens):
        """A text where a number was wanted, then the right number: right at the first try."""
        assert tens.trails[1].right_at_first
        assert tens.trails[3].tries == ()

    def test_first_try_rate(self, tens):
        assert (tens.right_at_first, tens.first_try_rate) == (1, Fraction(1, 3))
        assert progress().of(COURSE[-1].name).first_try_rate is None

    def test_predictions_are_counted_once_each(self, tens):
        assert tens.predictions == 2

    def test_an_unknown_lesson(self, folder):
        with pytest.raises(InputError, match="'tens' is no lesson of the course: there are "):
            progress().of("tens")


class TestShowing:
    """In a line, as text, as HTML."""

    def test_a_line(self, folder):
        write(folder, *BY_HAND)
        total = sum(len(exercises_of(lesson.name)) for lesson in COURSE)
        assert repr(progress()) == f"<Progress: 2 of {total} exercises right, 3 tried; right at the first try: 1 of 3>"

    def test_text(self, folder):
        write(folder, *BY_HAND)
        lines = str(progress()).splitlines()
        assert lines[0].split("  ")[0] == "lesson"
        assert lines[1].split()[:6] == ["The", "tens", "carry", "2", "of", str(len(TENS))]
        assert lines[-2] == "1 answer to an exercise that this version of the kit does not ask."
        assert lines[-1] == (f"Line {len(BY_HAND)} cannot be read, and is left as it is: it is no JSON. "
                             f"It says 'not a line'.")

    def test_html_has_the_same_and_is_safe(self, folder):
        write(folder, *BY_HAND, "<script>")
        html = progress()._repr_html_()
        assert re.search('<th scope="row"[^>]*>The tens carry</th><td[^>]*>2 of 5</td>', html)
        assert "<script>" not in html
        assert "&lt;script&gt;" in html
        assert "Subtraction" not in html, "lessons that have not been begun take no room"

    def test_nothing_yet(self, folder, monkeypatch):
        assert (repr(progress()), str(progress())) == ("<Progress: nothing yet>", NOTHING)
        monkeypatch.setenv(VARIABLE, "")
        assert (repr(progress()), str(progress())) == ("<Progress: nothing yet>", NOT_KEPT)
        assert progress()._repr_html_() == f"<p>{NOT_KEPT}</p>\n"

    def test_a_file_of_nothing_but_damage_is_listed(self, folder):
        write(folder, "{")
        assert str(progress()) == (
            f"{NOTHING}\nLine 1 cannot be read, and is left as it is: it is no JSON. It says '{{'.")

    def test_a_file_that_cannot_be_read_is_named(self, folder):
        (folder / FILE).mkdir()
        with pytest.raises(InputError, match=r"^answers\.jsonl cannot be read: Is a directory$"):
            progress()


class TestHandingOnAndClearing:
    """The file belongs to the learner."""

    def test_an_export_is_the_file_line_for_line(self, folder):
        """With what cannot be read, and it can be read as progress again."""
        write(folder, *BY_HAND)
        to = progress().export(folder / "mine.jsonl")
        assert to.read_bytes() == (folder / FILE).read_bytes()
        assert repr(progress(to)) == repr(progress())
        with pytest.raises(InputError, match="is there already, and is not written over"):
            progress().export(to)

    def test_nothing_to_export(self, folder, monkeypatch):
        for _ in range(2):
            with pytest.raises(InputError, match="nothing has been kept yet"):
                progress().export(folder / "mine.jsonl")
            monkeypatch.setenv(VARIABLE, "")
        assert not (folder / "mine.jsonl").exists()

    def test_clearing_puts_the_file_aside(self, folder):
        for number in (1, 2):
            write(folder, *BY_HAND)
            assert progress().clear() == folder / f"answers.set-aside-{number}.jsonl"
        assert repr(progress()) == "<Progress: nothing yet>"
        assert repr(progress(folder / "answers.set-aside-2.jsonl")) != "<Progress: nothing yet>"

    def test_or_deletes_it(self, folder):
        write(folder, *BY_HAND)
        assert progress().clear(keep=False) is None
        assert list(folder.glob("*.jsonl")) == []
        assert progress().clear() is None


class TestPaths:
    """A path can be gone along: each lesson comes after all that it builds on."""

    @pytest.mark.parametrize("path", PATHS)
    def test_prerequisites_come_first(self, path):
        names = [lesson.name for lesson in COURSE if path in lesson.paths]
        for lesson in COURSE:
            if path in lesson.paths:
                assert set(lesson.after) <= set(names[:names.index(lesson.name)]), lesson.name

    def test_every_lesson_is_on_a_path_of_the_course(self):
        assert all(lesson.paths and set(lesson.paths) <= set(PATHS) for lesson in COURSE)
        assert len({lesson.name for lesson in COURSE}) == len(COURSE)

    def test_no_other_path(self):
        with pytest.raises(InputError, match=r"^'term' is no path through the course: there are 'class' and 'alone'$"):
            on_path("term")
        with pytest.raises(InputError, match="'term' is no path"):
            next_lesson("term")


def all_right(name: str) -> list[dict]:
    return [answer(exercise.label, 1, "right") for exercise in exercises_of(name)]


class TestNext:
    """Finish what you are at; then what is new; then what was left open."""

    def named(self, folder, path="class", *lines):
        write(folder, *lines)
        return next_lesson(path)

    def test_at_the_very_beginning(self, folder):
        first = on_path("alone")[0]
        said = next_lesson("alone")
        assert said.lesson == first
        assert str(said) == f"Begin with “{first.title}” ({first.minutes} minutes): {first.idea}"

    def test_the_lesson_that_one_is_at(self, folder):
        """Even if it is not the first that has open exercises."""
        later = on_path("class")[-1].name
        done = answer(exercises_of(later)[0].label, 1, "right")
        said = self.named(folder, "class", answer(TENS[0], 1, "wrong"), done)
        assert said.lesson.name == later
        labels = [exercise.label for exercise in exercises_of(later)][1:]
        assert str(said) == (f"Go on with “{lesson_named(later).title}”: {len(labels)} of {len(labels) + 1} exercises "
                             f"are open ({', '.join(f'“{label}”' for label in labels)}).")

    def test_then_the_first_that_is_untouched(self, folder):
        names = [lesson.name for lesson in on_path("class")]
        said = self.named(folder, "class", answer(exercises_of(names[0])[0].label, 1, "right"), *all_right(names[1]))
        assert said.lesson.name == names[2]
        assert str(said).startswith("Go on to “")

    def test_then_what_was_left_open(self, folder):
        names = [lesson.name for lesson in on_path("class")]
        lines = [line for name in names for line in all_right(name)]
        said = self.named(folder, "class", *lines[1:])
        assert said.lesson.name == names[0]
        assert str(said).startswith("Go back to “")

    def test_then_nothing(self, folder):
        lines = [line for lesson in on_path("alone") for line in all_right(lesson.name)]
        said = self.named(folder, "alone", *lines)
        assert said.lesson is None
        assert repr(said) == "<Suggestion None>"
        assert str(said) == (f"All {len(on_path('alone'))} lessons of the path “a new restorer, studying alone” are "
                             f"done, and every exercise is right.")

    def test_a_lesson_that_is_not_here_is_passed_over(self, folder):
        second = on_path("class")[1].name
        (folder / f"{second}.ipynb").write_text("{}")
        said = next_lesson("class", Progress(()))
        assert said.lesson.name == second
        assert f'<a href="{second}.ipynb"><b>' in said._repr_html_()

    def test_where_no_lesson_is_here_there_is_no_link(self, folder):
        assert "<a" not in next_lesson("class")._repr_html_()
