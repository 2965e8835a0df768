"""The map and the paths: drawn from the table, readable without colour and without eyes."""

from __future__ import annotations

import re
from itertools import pairwise
from xml.etree import ElementTree

import pytest
from hypothesis import given, strategies as st

from mechcalc.classroom.course import COURSE, PATHS, Lesson
from mechcalc.classroom.course_map import BOX, CourseMap, _boxes, arranged, columns, course_map, crossings
from mechcalc.classroom.logbook import Entry
from mechcalc.classroom.progress import Progress
from mechcalc.classroom.route import Route, route
from mechcalc.view.drawing import INK, IVORY, PAPER, QUIET

SVG, XHTML = "{http://www.w3.org/2000/svg}", "{http://www.w3.org/1999/xhtml}"
NOBODY = Progress(())


def lesson(name: str, *after: str, **more: object) -> Lesson:
    return Lesson(name=name, title=f"About {name}", idea="One idea.", after=after, **more)


@st.composite
def courses(draw):
    """Up to nine lessons, each building on any of those before it."""
    many = draw(st.integers(1, 9))
    names = [f"lesson{number}" for number in range(many)]
    return tuple(lesson(name, *draw(st.lists(st.sampled_from(names[:number]), unique=True, max_size=3)
                                    if number else st.just([]))) for number, name in enumerate(names))


class TestLayout:
    """Columns, order, crossings."""

    @given(courses())
    def test_every_lesson_stands_to_the_right_of_what_it_builds_on(self, course):
        column = columns(course)
        for one in course:
            assert all(column[name] < column[one.name] for name in one.after)
            assert column[one.name] == 0 or any(column[name] == column[one.name] - 1 for name in one.after)

    @given(courses())
    def test_every_lesson_is_there_once_and_arrows_go_from_column_to_column(self, course):
        sheet = arranged(course)
        there = [box.lesson.name for column in sheet for box in column if box.lesson]
        assert sorted(there) == sorted(one.name for one in course)
        for left, right in pairwise(sheet):
            assert {key for box in right for key in box.before} <= {box.key for box in left}

    @given(courses())
    def test_arranging_never_adds_crossings(self, course):
        assert crossings(arranged(course)) <= crossings(_boxes(course))

    def test_an_arrow_over_a_column_is_led_past_its_boxes(self):
        """a to c passes the column of b."""
        sheet = arranged([lesson("a"), lesson("b", "a"), lesson("c", "b", "a")])
        assert [[box.key for box in column] for column in sheet] == [["a"], ["b", "a>c@1"], ["c"]]
        assert sheet[2][0].before == ("b", "a>c@1")

    @given(courses())
    def test_no_two_boxes_overlap_and_all_are_on_the_sheet(self, course):
        drawn = CourseMap(course, frozenset(), NOBODY)
        boxes = [box for column in drawn._sheet for box in column if box.lesson]
        corners = [(drawn._at[box.key][0], drawn._at[box.key][1] - box.height / 2, box.height) for box in boxes]
        for number, (x, y, height) in enumerate(corners):
            assert 0 < x < x + BOX < drawn.width
            assert 0 < y < y + height < drawn.height
            for other_x, other_y, other_height in corners[:number]:
                assert abs(x - other_x) > BOX or y + height < other_y or other_y + other_height < y

    def test_lessons_at_the_end_that_lead_on_from_one_another_hang_below_each_other(self):
        """c and d share b, so they stay beside it; e and f only lead on from d, and hang below it."""
        drawn = CourseMap([lesson("a"), lesson("b", "a"), lesson("c", "b"), lesson("d", "b"), lesson("e", "d"),
                           lesson("f", "e")], frozenset(), NOBODY)
        assert [[box.key for box in column] for column in drawn._sheet] == [["a", "b"], ["c", "d", "e", "f"]]
        assert drawn._down == {"b", "e", "f"}

    def test_the_course_itself_is_as_clear_as_it_can_be(self):
        """Subtraction and multiplication both lead to the short cut and to division: one crossing at least."""
        assert crossings(arranged(COURSE)) == 1


class TestPicture:
    """The SVG."""

    @pytest.fixture
    def drawn(self):
        return CourseMap(COURSE, frozenset(one.name for one in COURSE[:3]), NOBODY)

    @pytest.fixture
    def root(self, drawn):
        return ElementTree.fromstring(drawn.svg())

    def test_each_lesson_has_a_box_a_title_and_its_minutes(self, root):
        words = " ".join(text.text for text in root.iter(f"{SVG}text"))
        for number, one in enumerate(COURSE, start=1):
            assert f"{number} {one.title}" in words
        assert words.count(" min") == len(COURSE)

    def test_each_prerequisite_has_an_arrow(self, root):
        assert len(list(root.iter(f"{SVG}path"))) == sum(len(one.after) for one in COURSE)
        assert len(list(root.iter(f"{SVG}polygon"))) == sum(bool(one.after) for one in COURSE)

    def test_paths_and_bench_are_told_by_outlines(self, root):
        """Broken for a class only, dotted for one alone, doubled at the bench; the key shows one of each kind."""
        boxes = [rect for rect in root.iter(f"{SVG}rect") if rect.get("width") == f"{BOX:g}"]
        for dashes, paths in (("8 5", ("class",)), ("0 6", ("alone",)), (None, ("class", "alone"))):
            assert sum(rect.get("stroke-dasharray") == dashes for rect in boxes) == \
                sum(one.paths == paths for one in COURSE)
        inner = [rect for rect in root.iter(f"{SVG}rect") if rect.get("width") == f"{BOX - 10:g}"]
        assert len(inner) == sum(one.bench for one in COURSE)

    def test_it_needs_no_colour(self, root):
        """Ink on paper, and nothing else; every word contrasts 4.5 to 1 at least (WCAG 2.2, 1.4.3)."""
        used = {node.get(name) for node in root.iter() for name in ("fill", "stroke")} - {None, "none"}
        assert used == {INK, QUIET, IVORY, PAPER}
        assert min(contrast(word, ground) for word in (INK, QUIET) for ground in (IVORY, PAPER)) > 4.5

    def test_words_are_large_and_fit_their_boxes(self, root, drawn):
        """At a thousand pixels no word is smaller than 16; a title's line takes up its box's width at most."""
        sizes = [float(text.get("font-size")) for text in root.iter(f"{SVG}text")]
        assert min(sizes) * 1000 / drawn.width >= 16
        for text in root.iter(f"{SVG}text"):
            assert len(text.text) * float(text.get("font-size")) * 0.5 < BOX

    def test_it_can_be_read_aloud(self, root, drawn):
        """The drawing itself is hidden from readers; a description says all, each link its own line."""
        assert root.get("role") == "group"
        assert root.get("aria-label") == "Map of the course"
        assert root.find(f"{SVG}desc").text == str(drawn)
        assert root.find(f"{SVG}g").get("aria-hidden") == "true"
        links = list(root.iter(f"{XHTML}a"))
        assert [(link.get("href"), link.get("aria-label")) for link in links] == [
            (f"{one.name}.ipynb", line) for one, line in zip(COURSE[:3], str(drawn).splitlines(), strict=False)]

    def test_lessons_that_are_not_here_are_said_to_be(self, drawn):
        lines = str(drawn).splitlines()
        assert lines[3] == (f"4. {COURSE[3].title}: after Addition and the crank; {COURSE[3].minutes} min, "
                            f"not here yet.")
        arrows = sum(len(lesson.after) for lesson in COURSE)
        assert repr(drawn) == f"<CourseMap: {len(COURSE)} lessons, {arrows} arrows, {len(COURSE) - 3} not here>"

    def test_what_has_been_done_stands_in_the_box(self):
        entry = Entry(when="", kind="answer", lesson=None, about="slow levers", given=13, outcome="right")
        drawn = CourseMap(COURSE, frozenset(one.name for one in COURSE), Progress([entry]))
        assert str(drawn).splitlines()[1] == "2. The tens carry: after Wheels and places; 40 min, 1 of 5 right."
        assert "40 min · 1 of 5 right" in drawn.svg()

    def test_the_same_table_gives_the_same_picture(self, drawn):
        again = CourseMap(COURSE, drawn.here, NOBODY)
        assert drawn.svg() == again.svg()

    def test_titles_cannot_break_it(self):
        bad = Lesson(name="x", title='<script> & "quotes"', idea="")
        root = ElementTree.fromstring(CourseMap([bad], frozenset("x"), NOBODY).svg())
        assert not list(root.iter(f"{SVG}script"))

    def test_an_empty_course_has_a_map_too(self):
        assert repr(CourseMap([], frozenset(), NOBODY)) == "<CourseMap: 0 lessons, 0 arrows, 0 not here>"


def contrast(one: str, two: str) -> float:
    """By the formula of WCAG 2.2."""
    def light(colour):
        parts = [int(colour[place:place + 2], 16) / 255 for place in (1, 3, 5)]
        lit = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
        return 0.2126 * lit[0] + 0.7152 * lit[1] + 0.0722 * lit[2]
    bright, dark = sorted((light(one), light(two)), reverse=True)
    return (bright + 0.05) / (dark + 0.05)


class TestRoute:
    """A path as a list."""

    @pytest.mark.parametrize("path", PATHS)
    def test_lessons_in_order_with_the_numbers_of_the_map(self, path, tmp_path, monkeypatch):
        monkeypatch.chdir(tmp_path)
        chosen = route(path, NOBODY)
        assert chosen.lessons == tuple(one for one in COURSE if path in one.paths)
        assert chosen.minutes == sum(one.minutes for one in chosen.lessons)
        lines = str(chosen).splitlines()
        assert [line.split()[0] for line in lines[2:-2]] == [
            str(number) for number, one in enumerate(COURSE, start=1) if path in one.paths]
        assert all(line.endswith("not here yet") for line in lines[2:-2])

    def test_what_is_here_is_linked(self, tmp_path, monkeypatch):
        monkeypatch.chdir(tmp_path)
        (tmp_path / "tens_carry.ipynb").write_text("{}")
        html = route("class", NOBODY)._repr_html_()
        assert re.findall(r'href="([^"]*)"', html) == ["tens_carry.ipynb"]

    @pytest.mark.parametrize(("minutes", "said"), [
        ((40, 40, 41), "3 lessons, 121 minutes in all (2 hours and 1 minute), exercises not counted."),
        ((60,), "1 lesson, 60 minutes in all (1 hour), exercises not counted."),
        ((30, 20), "2 lessons, 50 minutes in all (50 minutes), exercises not counted.")])
    def test_the_time_in_words(self, minutes, said):
        lessons = tuple(lesson(f"l{number}", minutes=one) for number, one in enumerate(minutes))
        assert Route("class", lessons, NOBODY).total == said

    def test_course_map_asks_for_the_learners_own_progress(self, tmp_path, monkeypatch):
        monkeypatch.chdir(tmp_path)
        arrows = sum(len(one.after) for one in COURSE)
        assert repr(course_map()) == f"<CourseMap: {len(COURSE)} lessons, {arrows} arrows, {len(COURSE)} not here>"
