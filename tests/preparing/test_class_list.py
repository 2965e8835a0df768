"""Class lists as spreadsheets write them: who gets a sheet, and what is said of every row that names nobody."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, strategies as st

from mechcalc import InputError
from mechcalc.preparing.class_list import Learner, class_of, read_class
from mechcalc.preparing.csv_out import csv_bytes

ROOT = Path(__file__).parents[2]
NAMES = ("Łukasz Wierzba", "Đặng Thu Hà", "Ольга Полевая", "李小河")


def read(text: str, coding: str = "utf-8"):
    return read_class(text.encode(coding))


class TestForms:
    """The same list in every form that a spreadsheet saves."""

    @pytest.mark.parametrize("mark", [",", ";", "\t"])
    @pytest.mark.parametrize("coding", ["utf-8", "utf-8-sig", "utf-16"])
    @pytest.mark.parametrize("end", ["\n", "\r\n"])
    def test_separators_codings_and_line_ends(self, mark, coding, end):
        lines = [f"name{mark}group", *(f"{name}{mark}7b" for name in NAMES)]
        assert list(read(end.join(lines), coding)) == [Learner(name, "7b") for name in NAMES]

    def test_quoted_cells_hold_separators_and_quotation_marks(self):
        assert read('name,group\n"Brook, Amalia",7b\n"Maud ""Mo"" Dell",7b\n').learners == \
            (Learner("Brook, Amalia", "7b"), Learner('Maud "Mo" Dell', "7b"))

    def test_comments_a_separator_line_and_columns_in_any_order(self):
        assert read("# invented\nsep=;\nID;Group ;NAME\n7;b;Ada\n").learners == (Learner("Ada", "b", "7"),)

    def test_a_name_written_with_combining_marks_is_the_same_name(self):
        """An e and an accent, and the two in one: Unicode's normal form C."""
        assert read("name\nZoe\u0308\nZo\u00eb\n").bad[0].reason.startswith("the same name and group stand in line 2")

    def test_spaces_are_taken_off_and_drawn_together(self):
        assert read("name\n  Ada   Lane \u00a0\n").learners == (Learner("Ada Lane"),)

    def test_columns_that_are_not_used_and_empty_rows_are_told(self):
        found = read("name,email,id\nAda,a@b,\n\n,,\nBea,,\n")
        assert len(found) == 2
        assert found.notes == ("not used: the column 'email'", "empty: lines 3, 4")

    def test_the_list_that_comes_with_the_kit(self):
        found = read_class(ROOT / "data" / "class" / "class_list.csv")
        assert (len(found), found.bad, found.notes) == (30, (), ())


class TestBadRows:
    """Each is kept with its line and the reason; the others are used."""

    @pytest.mark.parametrize(("row", "reason"), [
        (",7b,", "the name is empty"),
        ("Ada,7b,,x", "it has more cells than the head has columns (4 of 3); a name with a comma in it needs quotation "
                      "marks"),
        ("Bea,7b,", "the same name and group stand in line 2; give both an id if they are two people"),
        ("bea,7B,", "the same name and group stand in line 2; give both an id if they are two people"),
        ("Cleo,7b,1", "the id '1' stands in line 3 already"),
        ("?!,7b,", "the name holds no letter ('?!')"),
        ("Name,group,id", "the head of the list once more"),
        ("A\u202eda,7b,", "the name holds a character that cannot be printed (U+202E)"),
        ("A\x07da,7b,", "the name holds a character that cannot be printed (U+0007)"),
        (f"{'A' * 81},7b,", "the name has 81 characters: 80 at most"),
        ('"Ada\nLane",7b,', "the name goes over several lines: a quotation mark may be one too many"),
    ])
    def test_reason(self, row, reason):
        found = read(f"name,group,id\nBea,7b,\nDora,7b,1\n{row}\nEve,7b,\n")
        assert [(bad.line, bad.reason) for bad in found.bad] == [(4, reason)]
        assert [one.name for one in found] == ["Bea", "Dora", "Eve"]

    def test_two_of_one_name_with_ids_are_two(self):
        assert len(read("name,id\nAda,1\nAda,2\n")) == 2

    def test_lines_are_those_of_the_file(self):
        """A cell over two lines, comments and empty lines counted."""
        found = read('# a\n\nname,group\n"Ada",7\n\n"x\ny",7\n,7\n')
        assert [bad.line for bad in found.bad] == [6, 8]

    def test_cells_left_empty_behind_the_head_are_no_fault(self):
        assert read("name,group\nAda,7b,,,\n").learners == (Learner("Ada", "7b"),)

    @given(st.lists(st.lists(st.text(alphabet="ab ,;\"'é李1\n", max_size=6), min_size=1, max_size=4), max_size=12))
    def test_no_row_is_lost(self, rows):
        """Learners, bad rows and empty rows add up, whatever stands in the cells."""
        found = read_class(csv_bytes(("name", "group", "id"), rows))
        empty = sum(not any(cell.strip() for cell in row) for row in rows)
        assert len(found.learners) + len(found.bad) + empty == len(rows)


class TestRefused:
    """A file that is no class list at all."""

    @pytest.mark.parametrize(("raw", "message"), [
        (b"", "these rows holds no row: the first names the columns"),
        (b"# nothing\n", "these rows holds no row: the first names the columns"),
        (b"nmae,group\nAda,7\n", "these rows: there is no column 'name'; is 'nmae' meant?"),
        (b"who,what\nAda,7\n", "these rows: there is no column 'name'; the columns are 'who', 'what'"),
        (b"name,name\nAda,7\n", "these rows: the column 'name' is there more than once"),
        (b"name\nAda\nZo\xeb\n", 'these rows, line 3: byte 0xeb is no UTF-8: save the file as "CSV UTF-8"'),
        (b'name\nAda\n"Bea\nCleo\n', "these rows, line 3: a quotation mark opens and does not close"),
        (b"name\nA\0da\n", "these rows, line 2: a character 0 stands in it: this is no CSV file, or one in a coding "
                           "without a byte order mark"),
    ])
    def test_message(self, raw, message):
        with pytest.raises(InputError) as no:
            read_class(raw)
        assert str(no.value) == message

    def test_a_file_that_is_not_there(self, tmp_path):
        with pytest.raises(InputError, match=r"none\.csv cannot be read: No such file"):
            read_class(tmp_path / "none.csv")

    def test_names_typed_in(self):
        assert [one.name for one in class_of("Ada", "李")] == ["Ada", "李"]
        with pytest.raises(InputError, match="name 2 \\('Ada'\\): the same name and group"):
            class_of("Ada", "Ada")
        with pytest.raises(InputError, match="a name is a text, not 7"):
            class_of(7)


def test_a_list_shows_itself_without_running_what_it_holds():
    """In a notebook, markup in a name is text."""
    html = read("name\n<script>alert(1)</script>x\n,\n")._repr_html_()
    assert "<script" not in html
    assert "&lt;script&gt;" in html


def test_cells_that_a_spreadsheet_would_run():
    """Texts that begin like a formula get an apostrophe; numbers stay numbers."""
    text = csv_bytes(("a", "b"), [("=HYPERLINK(1)", "-22"), ("@x", "+3.5"), ("−22", -22)]).decode("utf-8-sig")
    assert text.splitlines()[1:] == ["'=HYPERLINK(1),-22", "'@x,+3.5", "−22,-22"]
