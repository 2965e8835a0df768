"""What a learner may write down, and what is said to what cannot be read."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import numpy
import pytest
import sympy

from mechcalc.classroom.answers import YES_OR_NO, Choice, Digits, Number, Several, Unreadable, plainly

NO_NUMBERS = [True, False, 9022.0, 9022.5, float("nan"), float("inf"), -1, "-1", "−12", "", "  ", "nine", "1.5",
              "9 0,22", "1e3", "٣", None, [9022], (1, 2), {"a": 1}, object(), Decimal(3), Fraction(7, 2), 3j, b"12",
              "9" * 400]


class TestNumbers:
    """A number is read however it is plainly written."""

    @pytest.mark.parametrize("given", [9022, "9022", "9 022", " 9022 ", "9,022", "9_022", "9\u202f022", "9\u00a0022",
                                       "009022", numpy.int64(9022), sympy.Integer(9022)])
    def test_plain_meanings_are_read(self, given):
        assert Number().read(given) == 9022

    @pytest.mark.parametrize("given", NO_NUMBERS, ids=lambda given: str(given)[:20])
    def test_anything_else_gets_one_line_that_says_what_is_wanted(self, given):
        with pytest.raises(Unreadable) as refused:
            Number().read(given)
        line = str(refused.value)
        assert "\n" not in line
        assert "Write" in line
        assert len(line) < 200

    def test_a_whole_float_is_told_how_to_write_itself(self):
        with pytest.raises(Unreadable, match=r"^Write it without a decimal point: 9022\.$"):
            Number().read(9022.0)

    def test_no_minus_sign_is_known_to_the_windows(self):
        with pytest.raises(Unreadable, match="know no minus sign"):
            Number().read("−5")


class TestDigits:
    """Digits come units first, one for each place."""

    @pytest.mark.parametrize("given", [(7, 4, 3), [7, 4, 3], numpy.array([7, 4, 3]), ("7", "4", "3"), range(7, 1, -3)])
    def test_rows_are_read(self, given):
        assert Digits(len(list(given))).read(given) == tuple(int(digit) for digit in given)

    @pytest.mark.parametrize("given", [347, "743", (7, 4), (7, 4, 3, 0), (7, 4, 12), (7, True, 3), (7, 4.0, 3),
                                       {7, 4, 3}, {7: 1, 4: 2, 3: 3}, None, (None, None, None), [[7], [4], [3]], 3.5])
    def test_other_rows_are_told_what_is_wanted(self, given):
        with pytest.raises(Unreadable):
            Digits(3).read(given)

    def test_an_endless_row_is_not_waited_for(self):
        from itertools import count
        with pytest.raises(Unreadable, match="you gave more"):
            Digits(3).read(count())

    def test_a_digit_of_ten_is_named_with_its_place(self):
        with pytest.raises(Unreadable, match="0 to 9: place 2 cannot be 12"):
            Digits(3).read((1, 12, 3))


class TestWords:
    """Words are compared without regard to capitals and spaces."""

    def test_capitals_and_spaces_do_not_matter(self):
        assert Choice("all at once", "one by one").read("  One  by ONE") == "one by one"

    @pytest.mark.parametrize("given", ["maybe", 1, None, ["yes"], 2.5, ""])
    def test_the_words_to_choose_from_are_listed(self, given):
        with pytest.raises(Unreadable, match=r'^Write one of these, quotes included: "yes" or "no"\.$'):
            YES_OR_NO.read(given)

    def test_true_and_false_are_yes_and_no(self):
        assert YES_OR_NO.read(True) == "yes"
        assert YES_OR_NO.read(False) == "no"

    def test_but_only_where_yes_and_no_are_asked_for(self):
        with pytest.raises(Unreadable):
            Choice("left", "right").read(True)


class TestSeveral:
    """Answers in parts name the part that cannot be read."""

    kind = Several(final_result=Number(), bell=YES_OR_NO)

    def test_each_part_is_read_in_its_own_way(self):
        assert self.kind.read(["1 000", "No"]) == (1000, "no")

    @pytest.mark.parametrize("given", [1000, "no", (1000,), (1000, "no", 3), {1000: "no"}])
    def test_the_parts_are_named_when_their_number_is_wrong(self, given):
        with pytest.raises(Unreadable, match=r"^Write 2 answers in brackets \(final result, bell\)\. "):
            self.kind.read(given)

    def test_the_part_is_named(self):
        with pytest.raises(Unreadable, match=r'^Under "bell": Write one of these'):
            self.kind.read((1000, 3))

    def test_a_part_left_open_is_named(self):
        with pytest.raises(Unreadable, match=r'^Under "final result": Still None'):
            self.kind.read((None, "no"))


def test_answers_are_shown_without_python_quotes():
    assert plainly(((1, 2), "no", 3)) == "(1, 2), no, 3"
