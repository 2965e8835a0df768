"""What a working holds and how it is shown."""

from __future__ import annotations

import dataclasses
import subprocess
import sys
from html.parser import HTMLParser

import pytest

from mechcalc import methods
from mechcalc.methods import Hand, Working, work
from mechcalc.parts import Parts

from .helpers import check_lines, machine

PRODUCT = """\
347 × 11 = 3817
no.  the hand  algebra                     setting  result  counter  carriage  bell  words
1    set 347   3 × 10² + 4 × 10 + 7 = 347      347       0        0         0        Set 347 on the levers.
2    turn      0 + 347 = 347                   347     347        1         0        Turn: add 347.
3    shift +1  347 × 10 = 3470                 347     347        1         1        Shift the carriage to position 1: a turn now counts 10 times.
4    turn      347 + 347 × 10 = 3817           347    3817       11         1        Turn: add 347 × 10.
The result shows 3817. The counter shows 11, the multiplier."""  # noqa: E501


class Page(HTMLParser):
    """Tags with their attributes, and the text of each cell."""

    def __init__(self, html):
        super().__init__()
        self.tags, self.cells, self.text = [], [], ""
        self.feed(html)

    def handle_starttag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))
        self.text = ""

    def handle_data(self, data):
        self.text += data

    def handle_endtag(self, tag):
        if tag in ("td", "th", "caption"):
            self.cells.append(self.text)


class TestShown:
    def test_as_text(self):
        assert str(methods.multiply(machine("slate"), 347, 11)) == PRODUCT

    def test_its_repr_holds_no_address(self):
        working = methods.subtract(machine("slate"), 12, 34)
        assert repr(working) == "<Working 12 − 34 = −22: 2 turns, 0 shifts, 2 settings>"
        assert repr(working.lines[0]) == "Line('Set 12 on the levers.', '1 × 10 + 2 = 12')"
        assert "0x" not in repr(working.lines)

    def test_as_a_table_with_a_caption_and_headers(self):
        working = methods.multiply(machine("slate"), 347, 11)
        page = Page(working._repr_html_())
        headers = [attrs for tag, attrs in page.tags if tag == "th"]
        assert headers == [{"scope": "col"}] * 9 + [{"scope": "row"}] * 4
        assert page.cells[0] == "347 × 11 = 3817"
        assert page.cells[-9:] == ["4", "turn", "347 + 347 × 10 = 3817", "347", "3817", "11", "1", "",
                                   "Turn: add 347 × 10."]

    def test_as_markdown(self):
        lines = methods.multiply(machine("slate"), 347, 11)._repr_markdown_().splitlines()
        assert lines[2].count("|") == 10
        assert lines[5] == "| 2 | turn | 0 + 347 = 347 | 347 | 347 | 1 | 0 |  | Turn: add 347. |"

    def test_rows_for_others(self):
        row = methods.subtract(machine("slate"), 12, 34).table()[-1]
        assert (row.number, row.hand, row.result, row.bell) == (4, "turn back", 999_978, True)

    def test_the_bell_of_an_earlier_turn_is_not_shown_again(self):
        worked = machine("slate")
        methods.subtract(worked, 12, 34)
        rows = methods.add(worked, 1, keep=True).table()
        assert [row.bell for row in rows] == [False, False]


class TestKept:
    def test_it_cannot_be_changed(self):
        working = methods.add(machine(), 1)
        with pytest.raises(dataclasses.FrozenInstanceError):
            working.answer = 2

    def test_counts(self):
        working = methods.multiply_short_cut(machine(), 347, 98)
        assert (working.turns, working.shifts, working.settings, working.crank_angle) == (3, 4, 1, 1080.0)

    def test_importing_the_methods_leaves_sympy_alone(self):
        code = ("import sys, mechcalc; m = mechcalc.Machine(mechcalc.load_spec('slate'));"
                "w = mechcalc.methods.multiply(m, 3, 4); "
                "str(w), w._repr_html_(); assert 'sympy' not in sys.modules; "
                "assert w.lines[-1].holds()")
        subprocess.run([sys.executable, "-c", code], check=True)


class TestAMachineWithAFault:
    def test_the_answer_is_what_the_wheels_show_and_the_line_where_it_went_wrong_is_found(self):
        class NoThirdCarryPin(Parts):
            def carry_pin(self, place, helix):
                return place != 3

        worked = machine()
        worked._parts = NoThirdCarryPin()
        working = methods.add(worked, 50, 49, 1, 900)
        assert working.answer == 900
        assert working.wrong_lines == (6,)
        assert working.lines[5].algebra == "99 + 1 = 0"
        assert methods.add(machine(), 50, 49, 1, 900).wrong_lines == ()


class TestAMethodOfOnesOwn:
    def test_is_a_generator_over_a_hand(self):
        """Doubling by bringing nothing back: set, turn, turn."""
        def doubled(hand: Hand):
            yield from hand.clear("result")
            yield from hand.set(21)
            yield from hand.turn(2)
            return hand.value, hand.answer()

        working = work(machine(), "21 + 21", doubled)
        assert isinstance(working, Working)
        assert (working.answer, working.remark) == (42, "The result shows 42.")
        check_lines(working)

    def test_that_fails_at_the_machine_leaves_it_as_it_was(self):
        def fails(hand: Hand):
            yield from hand.set(21)
            yield from hand.turn(1)
            if not hand.check:
                raise RuntimeError("the bench was called away")
            return 0, ""

        worked = machine()
        worked.set(5)
        before = worked.strokes
        with pytest.raises(RuntimeError, match="called away"):
            work(worked, "21", fails)
        assert worked.strokes == before
