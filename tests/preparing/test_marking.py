"""Marking a class: nothing is lost, and a wrong answer is traced to what leads to it."""

from __future__ import annotations

import csv
import io
import re
from fractions import Fraction

import pytest
from hypothesis import given, strategies as st

from mechcalc import InputError
from mechcalc.preparing.case import Case
from mechcalc.preparing.class_list import read_class
from mechcalc.preparing.csv_out import csv_bytes
from mechcalc.preparing.marking import MISCONCEPTIONS, mark_answers, write_report
from mechcalc.preparing.marking.slips import answers_of
from mechcalc.preparing.sheets import Item, Sheet, make_worksheets
from mechcalc.preparing.sheets.folder import answers_csv
from mechcalc.preparing.wishes import Wish
from tests.preparing.test_sheets import NUMBERS

CLASS = read_class("name;id\nAda;1\nŁukasz;2\n李;3\nBea;4\nBea;5\n".encode())
ITEMS = [Item(method="multiply", numbers=[(347, 26), (583, 47)], predict=("turns",), ask=("result", "counter")),
         Item(method="divide", numbers=(355, 113), places=2, predict=(), ask=("answer", "remainder"))]
MADE = make_worksheets(Sheet(title="Trial", machine="bench", items=ITEMS), CLASS, seed=1)
ADA, LUKASZ, LI, BEA, BEA_TOO = MADE.variants
LABELS = ("1a", "1b", "1c", "2a", "2b")  # Ada's answers, by hand: 8, 9022, 26, 3.14, 0.18


def mark(text: str):
    return mark_answers(text.encode(), MADE)


class TestShapes:
    """The two shapes of a file, and how learners and questions may be called."""

    def test_wide(self):
        report = mark(f"code,name,1a,1b,1c,2a,2b\n{ADA.code},Ada,8,9022,26,3.14,0.18\n")
        assert [one.verdict for one in report.marks] == ["right"] * 5
        assert {report.state(LUKASZ, label) for label in LABELS} == {"missing"}
        assert len(report.missing) == 20

    def test_long(self):
        rows = zip(LABELS, ("8", "9022", "26", "3.14", "0.18"), strict=True)
        report = mark("code,item,answer\n" + "".join(f"{ADA.code},{item},{answer}\n" for item, answer in rows))
        assert [(one.label, one.verdict) for one in report.marks] == [(label, "right") for label in LABELS]

    @pytest.mark.parametrize("called", ["1b", "1B", " 1 b", "1.b", "1b)", "1 result", "1 Result"])
    def test_names_of_questions(self, called):
        assert mark(f"name;item;answer\nAda;{called};9022\n").marks[0].label == "1b"
        assert mark(f"name;{called}\nAda;9022\n").marks[0].label == "1b"

    def test_an_answer_by_what_it_is_called(self):
        """2 quotient and 2 answer are the same question."""
        assert [one.label for one in mark("name;2 quotient\nAda;3,14\n").marks] == ["2a"]
        assert [one.label for one in mark("name;2 answer\nAda;3,14\n").marks] == ["2a"]

    @pytest.mark.parametrize("who", [f"code\n{ADA.code}", f"code\n{ADA.code.lower().replace('-', ' ')}", "name\n ada ",
                                     "learner\nAda", "id\n1", f"sheet;name\n{ADA.code};Ada", "code;name\n;Ada",
                                     "name;id\n;1"])
    def test_names_of_learners(self, who):
        head, row = who.split("\n")
        assert mark(f"{head};1b\n{row};9022\n").marks[0].variant is ADA

    def test_the_file_that_comes_with_a_set_can_be_filled_in(self):
        """Every learner and every question has a place in it."""
        rows = list(csv.reader(io.StringIO(answers_csv(MADE).decode("utf-8-sig"))))
        assert rows[0] == ["code", "name", *LABELS]
        filled = [rows[0], *([row[0], row[1], *(str(value) for value in one.key.values())]
                             for row, one in zip(rows[1:], MADE.variants, strict=True))]
        report = mark_answers(csv_bytes(filled[0], filled[1:]), MADE)
        assert report.count("right") == report.entries == 25
        assert report.missing == ()

    @pytest.mark.parametrize(("text", "message"), [
        ("1a,1b\n8,9\n", "these rows: no column says whose answers these are"),
        ("name,item\nAda,1a\n", "there is a column 'item' and none called 'answer'"),
        ("name,itm,answer\nAda,1a,8\n", "there is a column 'answer' and none called 'item'; is 'itm' meant?"),
        ("name,colour\nAda,red\n",
         "there are no columns 'item' and 'answer', and none is called after a question of this set"),
        ("", "holds no row")])
    def test_files_that_hold_no_answers(self, text, message):
        with pytest.raises(InputError) as no:
            mark(text)
        assert message in str(no.value)


class TestSetAside:
    """Each entry that cannot be marked, and why."""

    @pytest.mark.parametrize(("row", "kind", "reason"), [
        (f"{ADA.code};;1b;x", "unreadable", "it is no number"),
        (f"{ADA.code};;1b;9,0,2", "unreadable", "its points and commas stand where no number has them"),
        (f"{ADA.code};;1b;", "blank", ""),
        (f"{ADA.code};;9z;12", "unknown question", "'9z' is no question of this set"),
        (f"{ADA.code};;;12", "unknown question", "no question is named"),
        (";;1b;12", "unknown learner", "neither code, name nor id"),
        (";Eve;1b;12", "unknown learner", "nobody in this set is called Eve"),
        (";Bea;1b;12", "unknown learner", "2 learners of this set are called Bea: write the code"),
        (f"{ADA.code[:-1]}?;;1b;12", "unknown learner", "is no code of a sheet"),
        (f"{ADA.code};Łukasz;1b;12", "unknown learner",
         f"the code {ADA.code} is that of Ada, and the name says Łukasz"),
        ("K7M-07-5;;1b;12", "unknown learner",
         f"K7M-07-5 is a proper code, but the set is {MADE.tag}, and this is of another"),
        (f"{ADA.code};;1b;12;13", "unreadable", "the row has more cells than the head has columns (5 of 4)"),
    ])
    def test_reason(self, row, kind, reason):
        report = mark(f"code;name;item;answer\n{row}\n")
        (one,) = report.aside
        assert (one.kind, report.marks, report.entries) == (kind, (), 1)
        assert reason in one.reason
        assert one.entry.line == 2

    def test_an_id_and_a_name_that_disagree(self):
        (one,) = mark("id;name;1b\n2;Ada;9022\n").aside
        assert (one.kind, one.reason) == ("unknown learner", "the id 2 is that of Łukasz, and the name says Ada")

    def test_a_second_answer(self):
        """The first counts, unless it cannot be read."""
        report = mark("name;item;answer\nAda;1b;9022\nAda;1b;9023\n")
        assert [(one.kind, one.reason) for one in report.aside] == [("second answer", "the first stands in line 2")]
        again = mark("name;item;answer\nAda;1b;x\nAda;1b;9022\n")
        assert [one.kind for one in again.aside] == ["unreadable"]
        assert again.state(ADA, "1b") == "right"

    def test_columns_that_are_no_questions_are_told(self):
        report = mark("name;remarks;1b;7x\nAda;late;9022;5\n")
        assert report.notes == ("not used: the column 'remarks'",)
        assert [(one.kind, one.entry.item) for one in report.aside] == [("unknown question", "7x")]

    def test_an_unquoted_decimal_comma_spoils_its_row_and_no_other(self):
        report = mark("name,1b,2a\nAda,9022,3,14\nŁukasz,27401,3.14\n")
        assert [(one.kind, one.entry.line) for one in report.aside] == [("unreadable", 2)]
        assert report.count("right") == 2

    cell = st.one_of(st.sampled_from(["", "8", "9022", "9 022", "3,14", "x", "12 or 13", "1b", "Ada", ADA.code]),
                     st.text(alphabet="0123456789.,- ;\"'x", max_size=8))

    people, questions = st.sampled_from([ADA.code, "Ada", "Bea", "", "?"]), st.sampled_from([*LABELS, "9z", ""])

    @given(st.lists(st.tuples(people, questions, cell), max_size=25), st.booleans())
    def test_nothing_is_lost(self, rows, extra):
        """Whatever stands in a long file: as many entries as rows, and each line of the file in one place."""
        rows = [(f"r{place}" if not any(row) else row[0], *row[1:], *(["more"] if extra and place % 5 == 0 else []))
                for place, row in enumerate(rows)]
        report = mark_answers(csv_bytes(("code", "item", "answer"), rows), MADE)
        assert report.entries == len(rows) == len(report.marks) + len(report.aside)
        lines = sorted([one.entry.line for one in (*report.marks, *report.aside)])
        assert lines == list(range(2, 2 + len(rows)))

    @given(st.lists(st.lists(cell, min_size=5, max_size=5), max_size=6))
    def test_nothing_is_lost_in_a_wide_file(self, rows):
        report = mark_answers(csv_bytes(("name", *LABELS), [("Ada", *row) for row in rows]), MADE)
        assert report.entries == 5 * len(rows) == len(report.marks) + len(report.aside)
        texts = sorted(one.entry.text for one in (*report.marks, *report.aside))
        data = csv_bytes(("name", *LABELS), [("Ada", *row) for row in rows])
        written = csv.reader(io.StringIO(data.decode("utf-8-sig")))
        assert texts == sorted(cell.strip() for row in list(written)[1:] for cell in row[1:])


# Worked by hand, with no method of the kit: (method, numbers, places, question, wrong answer, misconception).
BY_HAND = [
    ("add", (347, 268), 0, "result", 505, "carries forgotten"),  # 7+8→5, 4+6→0, 3+2→5
    ("add", (347, 268, 95), 0, "result", 347 + 95, "a number left out"),
    ("add", (347, 26), 0, "result", 347 + 260, "numbers lined up at the head"),
    ("subtract", (502, 47), 0, "answer", 565, "borrows forgotten"),  # 12-7, 10-4, 5
    ("subtract", (502, 47), 0, "answer", 545, "smaller figure taken from the larger"),  # |2-7|, |0-4|, 5
    ("subtract", (502, 47), 0, "answer", 549, "added instead of taken away"),
    ("subtract", (47, 502), 0, "answer", 99999999545, "complement read as number"),  # 10^11 - 455
    ("subtract", (47, 502), 0, "result", 455, "amount written for the complement"),
    ("subtract", (47, 502), 0, "answer", 455, "sign lost"),
    ("subtract by complement", (502, 47), 0, "setting", 999999952, "nine’s complement taken"),  # nine levers
    ("subtract by complement", (502, 47), 0, "setting", 47, "number set instead of its complement"),
    ("subtract by complement", (502, 47), 0, "setting", 53, "number set instead of its complement"),
    ("subtract by complement", (502, 47), 0, "answer", 1000000455, "complement read as number"),  # the 1 not struck off
    ("multiply", (347, 26), 0, "result", 347 * 8, "shift forgotten"),
    ("multiply", (347, 26), 0, "result", 347 * 62, "multiplier turned round"),
    ("multiply", (347, 206), 0, "result", 347 * 26, "nought in the multiplier passed over"),
    ("multiply", (347, 26), 0, "result", 347 * 36, "one turn too many or too few"),
    ("multiply", (347, 26), 0, "result", 347 * 25, "one turn too many or too few"),
    ("multiply", (28, 34), 0, "result", 622, "carries forgotten in the product"),  # 8·4→2, 8·3+2·4=32→2, 2·3→6: 622
    ("multiply", (347, 26), 0, "counter", 8, "turns counted, places not"),
    ("multiply", (347, 26), 0, "turns", 26, "as many turns as the multiplier says"),
    ("multiply", (347, 26), 0, "shifts", 0, "not shifted at all"),
    ("multiply", (347, 26), 0, "shifts", 2, "positions counted, not shifts"),
    ("multiply", (347, 26), 0, "result", 26, "counter read instead"),
    ("multiply", (347, 26), 0, "counter", 347, "setting read instead"),
    ("multiply", (347, 26), 0, "result", 2209, "digits reversed"),
    ("multiply", (347, 26), 0, "result", 9202, "two digits swapped"),
    ("multiply", (347, 26), 0, "result", 90220, "a nought too many or too few"),
    ("multiply", (347, 26), 0, "turns", 9, "one off"),
    ("multiply by short cut", (347, 98), 0, "result", 347 * 102, "subtractive turns made additive"),
    ("multiply by short cut", (347, 98), 0, "turns", 17, "turns of the plain way"),
    ("chain", (12, 34, 56), 0, "result", 408, "last factor left out"),
    ("chain", (12, 34, 56), 0, "result", 12 * 56, "levers left at the first factor"),
    ("chain", (12, 34, 56), 0, "result", 408 * 57, "result not cleared between factors"),
    ("divide", (3556, 47), 0, "answer", 86, "one too many in every place"),
    ("divide", (3556, 47), 0, "answer", 76, "one too many not put back"),  # 3556 = 75 · 47 + 31
    ("divide", (3556, 47), 0, "remainder", -16, "overdraft read as remainder"),
    ("divide", (3556, 47), 0, "remainder", 16, "overdraft read as remainder"),
    ("divide", (3556, 47), 0, "remainder", 10**11 - 16, "overdraft read as remainder"),
    ("divide", (5000, 47), 0, "answer", 16, "nought in the answer left out"),  # 106
    ("divide", (355, 113), 2, "answer", 314, "point forgotten"),
    ("divide", (355, 113), 2, "answer", Fraction(31, 100), "dividend and divisor changed places"),
    ("divide", (3556, 47), 0, "turns", 16, "turn that puts the number in not counted"),  # 1 + (7 + 2) + (5 + 2) = 17
    ("divide", (3556, 47), 0, "turns", 15, "putting back not counted"),
    ("divide", (3556, 47), 0, "bells", 2, "only one bell of each pair"),  # two figures: four rings
    ("square root", (5476,), 0, "answer", 147, "last odd number read as root"),  # 74: 2 · 74 - 1
    ("square root", (5476,), 0, "answer", 2738, "half taken for the root"),
]


class TestMisconceptions:
    """Each leads to the answer that it leads to by hand."""

    @pytest.mark.parametrize(("method", "numbers", "places", "asked", "wrong", "name"), BY_HAND,
                             ids=[f"{row[5]}, {row[0]}, {row[3]}" for row in BY_HAND])
    def test_by_hand(self, method, numbers, places, asked, wrong, name):
        item = Item(method=method, numbers=numbers, places=places, ask=(asked,), predict=())
        one = make_worksheets(Sheet(title="x", machine="bench", items=[item]), ["Ada"])
        text = f"{float(wrong):.2f}" if places and wrong != 314 else wrong
        report = mark_answers(csv_bytes(("name", "1a"), [("Ada", text)]), one)
        (made,) = report.marks
        assert made.verdict == "misconception"
        assert name in made.fits

    def test_every_row_is_tried(self):
        assert {row[5] for row in BY_HAND} | {"result read instead"} == set(MISCONCEPTIONS)

    @pytest.mark.parametrize("method", NUMBERS)
    def test_the_slips_that_numbers_are_chosen_for_are_known(self, method):
        """The finder picks numbers that tell usual slips from the right answer; marking knows them all."""
        item = Item(method=method, numbers=NUMBERS[method], ask=("answer",), predict=())
        (variant,) = make_worksheets(Sheet(title="x", machine="bench", items=[item]), 1).variants
        case = Case(Wish(method, digits=tuple(f"={number}" for number in NUMBERS[method])), NUMBERS[method])
        values = {slip.name: slip.comes_to(case) for slip in item.task.slips}
        known = answers_of(variant.problems[0], "1a")
        assert {name for name, value in values.items()
                if value is not None and value != case.exact.answer and value not in known} == set()

    @pytest.mark.parametrize("method", NUMBERS)
    def test_none_takes_a_right_answer_for_a_slip(self, method):
        """And none leads to a number that no window shows."""
        places = 2 if method in ("divide", "square root", "cube root") else 0
        names = ("answer", "result", "counter", "setting", "turns", "shifts", "bells", "figures")
        item = Item(method=method, numbers=NUMBERS[method], places=places, ask=names, predict=())
        (variant,) = make_worksheets(Sheet(title="x", machine="bench", items=[item]), 1).variants
        for one in variant.problems[0].keyed:
            known = answers_of(variant.problems[0], one.label)
            assert one.right.exact not in known
            assert one.right.places or all(value.denominator == 1 for value in known)
            assert {name for names in known.values() for name in names} <= set(MISCONCEPTIONS)

    def test_an_answer_that_fits_two_is_counted_under_both_and_said_to_be_uncertain(self):
        """One shift; two is one more than there are, and as many as there are positions."""
        item = Item(method="multiply", numbers=(347, 26), ask=("shifts",), predict=())
        one = make_worksheets(Sheet(title="x", machine="bench", items=[item]), ["Ada"])
        report = mark_answers(b"name;1a\nAda;2\n", one)
        rows = {row[0]: row[1:4] for row in report.by_misconception()}
        assert rows == {"positions counted, not shifts": [1, 0, 1], "one off": [1, 0, 1]}


class TestReport:
    """Tables, plot, page and files."""

    @pytest.fixture
    def report(self):
        """By hand: Ada all right; Łukasz forgets the shift, is one turn off, reads the counter well, leaves two open;
        李 writes two numbers, and a wrong one; the first Bea nothing; somebody unknown.
        """
        return mark(f"""code;name;1a;1b;1c;2a;2b
{ADA.code};Ada;8;9 022;26;3,14;0,18
{LUKASZ.code};;12;{583 * 11};47;;
;李;12 or 13;1234;26;=3.14;0.18
{BEA.code};Bea;;;;;
X;Eve;1;2;3;4;5
""")

    def test_counts(self, report):
        assert repr(report) == ("<ClassReport Trial: 25 entries, 9 right, 2 misconceptions, 1 wrong, 13 set aside>")
        assert len(report.missing) == 2 + 5 + 5

    def test_by_learner(self, report):
        rows = {row[0]: row[3:] for row in report.by_learner()}
        assert rows[ADA.code] == [5, 0, 0, 0, "✓", "✓", "✓", "✓", "✓"]
        assert rows[LUKASZ.code] == [1, 2, 0, 2, "✗", "✗", "✓", "–", "–"]
        assert rows[LI.code] == [3, 1, 1, 0, "?", "✗", "✓", "✓", "✓"]
        assert rows[BEA.code] == rows[BEA_TOO.code] == [0, 0, 0, 5, "–", "–", "–", "–", "–"]

    def test_by_question(self, report):
        """Every row adds up to the class."""
        rows = {row[0]: row[2:] for row in report.by_question()}
        assert rows["1a"] == [1, 1, 0, 1, 2]
        assert rows["1b"] == [1, 1, 1, 0, 2]
        assert all(sum(row) == 5 for row in rows.values())

    def test_by_misconception(self, report):
        assert [[*row[:4], row[5]] for row in report.by_misconception()] == [
            ["shift forgotten", 1, 1, 1, "Łukasz"], ["one off", 1, 1, 1, "Łukasz"]]

    def test_plot(self, report):
        """Its numbers are those of the tables; it is drawn in greys and hatches."""
        figure = report.plot()
        upper, lower = figure.axes
        assert [tick.get_text() for tick in lower.get_yticklabels()] == ["shift forgotten", "one off"]
        assert [[bar.get_width() for bar in bars] for bars in upper.containers] == [
            [float(row[place]) for row in report.by_question()] for place in range(2, 7)]
        colours = [bar.get_facecolor() for axes in (upper, lower) for bars in axes.containers for bar in bars]
        assert all(red == green == blue for red, green, blue, _ in colours)
        assert len({(bars[0].get_facecolor(), bars[0].get_hatch()) for bars in upper.containers}) == 5

    def test_a_plot_without_misconceptions(self):
        assert "None was found." in [text.get_text() for text in mark("name;1a\nAda;8\n").plot().axes[1].texts]

    def test_files(self, report, tmp_path):
        paths = write_report(report, tmp_path / "report")
        tables = {path.stem: list(csv.reader(io.StringIO(path.read_text(encoding="utf-8-sig")))) for path in paths
                  if path.suffix == ".csv"}
        assert len(tables["marks"]) - 1 + len(tables["set_aside"]) - 1 == 25
        assert tables["learners"][0][:7] == ["code", "name", "group", "right", "wrong", "unreadable", "missing"]
        with pytest.raises(InputError, match="is there already"):
            write_report(report, tmp_path / "report")
        assert write_report(report, tmp_path / "report", replace=True) == paths

    def test_page(self, tmp_path):
        """Complete in itself; what was written is text in it."""
        report = mark("name;1b\nAda;<script>alert(1)</script>\n<img src=x>;5\n")
        write_report(report, tmp_path)
        text = (tmp_path / "report.html").read_text(encoding="utf-8")
        assert "<script" not in text
        assert "<img src=x" not in text
        assert "&lt;script&gt;alert(1)&lt;/script&gt;" in text
        assert not re.search(r"https?:|@import|<link", text)
        assert 'src="data:image/png;base64,' in text

    def test_in_a_notebook_and_in_a_terminal(self, report):
        assert report._repr_html_().count("<table>") == 4
        text = str(report)
        assert "25 entries: 12 marked (9 right, 2 explained by a misconception, 1 otherwise wrong), 13 set" in text
        assert "line 4: 李 1a '12 or 13': cannot be read: it may be more than one number" in text
        assert text.rstrip().endswith("Set aside as blank: 7 cells; set_aside.csv lists them too.")
