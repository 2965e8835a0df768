"""Every lesson goes through the gate: run from top to bottom, it says what it said when it was committed."""

from __future__ import annotations

import copy
import re
from pathlib import Path

import pytest

from mechcalc.classroom.course import INDEX, LESSONS, lesson_named
from mechcalc.classroom.exercises import exercises_of
from mechcalc.classroom.form import asked, faults_of_form, faults_of_index, faults_of_page
from mechcalc.classroom.gate import code_cells, executed, leaning_sections, read, reasons
from mechcalc.classroom.pages import PAGES

from .damage import WAYS

pytestmark = pytest.mark.lessons

FOLDER = Path(__file__).resolve().parents[2] / "lessons"
FILES = {path.stem: path for path in sorted(FOLDER.glob("*.ipynb"))}
each = pytest.mark.parametrize("name", [name for name in FILES if name not in (INDEX, *PAGES)])
each_page = pytest.mark.parametrize("name", PAGES)
_RUNS: dict[str, object] = {}


def run_of(name):
    """One fresh run a lesson, shared by the tests of a session."""
    if name not in _RUNS:
        _RUNS[name] = executed(read(FILES[name]), FOLDER)
    return _RUNS[name]


def test_every_lesson_with_exercises_is_there_and_the_other_way_round():
    assert set(FILES) == {*LESSONS, INDEX, *PAGES}


@each
class TestEachLesson:
    """Each lesson"""

    def test_says_what_it_said(self, name):
        assert reasons(read(FILES[name]), run_of(name)) == []

    def test_is_written_in_the_form_of_the_house(self, name):
        assert faults_of_form(read(FILES[name])) == []

    def test_is_headed_as_the_course_names_it_and_names_what_it_builds_on(self, name):
        """The first line is its title; the opening text names each lesson before it by its own title."""
        opening = read(FILES[name]).cells[0].source
        lesson = lesson_named(name)
        assert opening.splitlines()[0] == f"# {lesson.title}"
        assert [one for one in lesson.after if lesson_named(one).title not in " ".join(opening.split())] == []

    def test_has_sections_that_stand_alone(self, name, monkeypatch):
        monkeypatch.setenv("MPLBACKEND", "agg")
        assert leaning_sections(read(FILES[name])) == []

    def test_asks_its_exercises_word_for_word(self, name):
        lesson = read(FILES[name])
        text = plain(" ".join(cell.source for cell in lesson.cells if cell.cell_type == "markdown"))
        for exercise in exercises_of(name):
            assert plain(exercise.question) in text
        labels = [label for cell in code_cells(lesson) for label in asked(cell)]
        assert set(labels) == {exercise.label for exercise in exercises_of(name)}

    def test_is_noticed_when_damaged(self, name):
        """Everything of these kinds that the lesson has is damaged in turn, and each time the gate says so."""
        lesson, done = read(FILES[name]), 0
        for way, damage in WAYS.items():
            damaged = copy.deepcopy(lesson)
            if damage(damaged) is not False:
                done += 1
                assert reasons(damaged, run_of(name)), way
        assert done >= 12

    def test_is_saved_without_the_machine_it_was_made_on(self, name):
        text = FILES[name].read_text(encoding="utf-8")
        assert not re.search(r"/(work|tmp|home|Users)/|https?://localhost|127\.0\.0\.1", text)
        assert '"version": "3' not in text
        assert len(text) < 1_000_000


class TestTheIndex:
    """The page that leads to the lessons"""

    def test_says_what_it_said(self):
        """Where this fails because a lesson has come or changed its minutes: refresh the page."""
        assert reasons(read(FILES[INDEX]), run_of(INDEX)) == []

    def test_is_written_as_such_a_page_is(self, monkeypatch):
        assert faults_of_index(read(FILES[INDEX])) == []
        monkeypatch.chdir(FOLDER)
        assert leaning_sections(read(FILES[INDEX])) == []

    def test_links_to_what_is_there(self):
        assert [name for name in LESSONS if not (FOLDER / f"{name}.ipynb").is_file()] == []

    def test_shows_no_learners_progress(self):
        text = FILES[INDEX].read_text(encoding="utf-8")
        assert "Nothing yet." in text
        assert not re.search(r"/(work|tmp|home|Users)/", text)

    def test_is_noticed_when_damaged(self):
        done = 0
        for way, damage in WAYS.items():
            damaged = copy.deepcopy(read(FILES[INDEX]))
            if damage(damaged) is not False:
                done += 1
                assert reasons(damaged, run_of(INDEX)), way
        assert done >= 5


@each_page
class TestEachPage:
    """A page to work with, which is no lesson"""

    def test_says_what_it_said(self, name):
        assert reasons(read(FILES[name]), run_of(name)) == []

    def test_is_written_as_such_a_page_is(self, name, monkeypatch):
        monkeypatch.setenv("MPLBACKEND", "agg")
        assert faults_of_page(read(FILES[name])) == []
        assert leaning_sections(read(FILES[name])) == []

    def test_is_reached_from_the_index_and_leads_back(self, name):
        there, back = (" ".join(cell.source for cell in read(FILES[one]).cells if cell.cell_type == "markdown")
                       for one in (INDEX, name))
        assert f"]({name}.ipynb)" in there
        assert f"]({INDEX}.ipynb)" in back

    def test_is_noticed_when_damaged(self, name):
        done = 0
        for way, damage in WAYS.items():
            damaged = copy.deepcopy(read(FILES[name]))
            if damage(damaged) is not False:
                done += 1
                assert reasons(damaged, run_of(name)), way
        assert done >= 10

    def test_is_saved_without_the_machine_it_was_made_on(self, name):
        text = FILES[name].read_text(encoding="utf-8")
        assert not re.search(r"/(work|tmp|home|Users)/|https?://localhost|127\.0\.0\.1", text)
        assert len(text) < 1_000_000


def plain(text: str) -> str:
    """Text without line breaks, emphasis and the marks of code."""
    return re.sub(r"\s+", " ", re.sub(r"[*_`>]|\bno-break\b", "", text.replace("\u00a0", " ")))
