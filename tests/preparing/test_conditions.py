"""Conditions: how they are written and read, and what each measure counts."""

from __future__ import annotations

import pytest
from hypothesis import given, strategies as st

from mechcalc import InputError
from mechcalc.preparing import MEASURES, PHRASES, TASKS, Condition, Wish, condition
from mechcalc.preparing.case import Case
from mechcalc.preparing.figures import blemishes, is_trivial

from . import oracle


def value(measure: str, method: str, *numbers: int, of: str = "", machine: str = "bench", places: int = 0) -> int:
    """What a measure counts, on the machine itself."""
    wish = Wish(method, machine, [f"={number}" for number in numbers], places=places)
    return MEASURES[measure].value(Case(wish, numbers, cranked=True), of)


class TestText:
    """A condition as it is typed."""

    @pytest.mark.parametrize(("typed", "text"), [
        ("ripple >= 4", "ripple >= 4"), ("ripple>=4", "ripple >= 4"), ("ripple ≥ 4", "ripple >= 4"),
        ("ripple≥4", "ripple >= 4"), ("Ripple  at least 4", "ripple >= 4"), ("the ripple is at least 4", "ripple >= 4"),
        ("turns > 4", "turns >= 5"), ("turns more than 4", "turns >= 5"), ("turns < 9", "turns <= 8"),
        ("turns at most 8", "turns <= 8"), ("turns = 8", "turns = 8"), ("turns exactly 8", "turns = 8"),
        ("turns from 5 to 8", "turns from 5 to 8"), ("turns from 8 to 8", "turns = 8"),
        ("noughts in the multiplier = 0", "noughts in multiplier = 0"), ("multiplier >= 50", "multiplier >= 50"),
        ("answer < 0", "answer <= -1"), ("answer = −22", "answer = -22"),
        ("answer from -5 to 5", "answer from -5 to 5"),
        ("no nought in multiplier", "noughts in multiplier = 0"), ("No nought in the answer", "noughts in answer = 0"),
        ("a nought inside the quotient", "inner noughts in quotient >= 1"),
        ("no nought at the end of minuend", "end noughts in minuend = 0"), ("the bell rings", "bells >= 1"),
        ("bell never rings", "bells = 0"), ("no carry", "carries = 0"), ("a carry", "carries >= 1"),
        ("a remainder", "remainder >= 1"), ("remainder = 0", "remainder = 0"),
        ("nothing trivial", "trivial numbers = 0"),
        ("no nought in number 1", "noughts in number 1 = 0")])
    def test_ways_of_writing(self, typed, text):
        assert condition(typed).text == text
        assert condition(text) == condition(typed)

    @given(st.sampled_from(sorted(MEASURES)), st.integers(0, 99), st.integers(0, 99), st.integers(0, 2))
    def test_what_is_written_is_read(self, measure, one, other, kind):
        of = "answer" if MEASURES[measure].of_number else ""
        low, high = min(one, other), max(one, other)
        asked = Condition(measure, of, low if kind != 1 else None, high if kind else None)
        assert condition(asked.text) == asked
        assert condition(asked) is asked
        assert repr(asked) == f"Condition({asked.text!r})"

    def test_every_phrase_is_a_condition(self):
        for phrase, text in PHRASES.items():
            read = condition(phrase.format("answer"))
            assert read == condition(text.format("answer"))
            assert read.measure in MEASURES

    @pytest.mark.parametrize("bad", ["", "ripple", "4 >= ripple", "ripple >= x", "ripple >= 4.5", "ripple => 4", ">= 4",
                                     "no nought in", "ripple >= 4 and more", "x" * 200, None, 4, b"ripple >= 4"])
    def test_what_is_none(self, bad):
        with pytest.raises(InputError, match=r"a condition|no condition"):
            condition(bad)

    def test_bounds_that_are_none(self):
        with pytest.raises(InputError, match="ripple has no bound: give low, high, or both"):
            Condition("ripple")
        with pytest.raises(InputError, match="ripple cannot be from 5 to 4: 5 is more than 4"):
            Condition("ripple", low=5, high=4)
        with pytest.raises(InputError, match="'riple' is nothing that is counted"):
            Condition("riple", low=5)
        with pytest.raises(InputError, match=r"a bound of ripple must be a whole number, not 4\.0"):
            Condition("ripple", low=4.0)


class TestFigures:
    """Measures of numbers as they are written; counted here by hand."""

    @pytest.mark.parametrize(("measure", "number", "counts"), [
        ("figures", 20_350, 5), ("noughts", 20_350, 2), ("inner noughts", 20_350, 1), ("inner noughts", 2000, 0),
        ("inner noughts", 1001, 2), ("end noughts", 2000, 3), ("end noughts", 205, 0), ("repeated figures", 20_350, 1),
        ("repeated figures", 777, 2), ("sixes and nines", 96_966, 5), ("sixes and nines", 88, 0),
        ("largest figure", 20_350, 5), ("smallest figure", 345, 3), ("figure sum", 20_350, 10),
        ("value", 20_350, 20_350)])
    def test_of_a_number(self, measure, number, counts):
        assert value(measure, "add", number, 1, of="number 1") == counts

    def test_of_the_answer_and_of_the_remainder(self):
        """Taking 34 from 12 leaves -22; 355 into 7s goes 50 times and leaves 5."""
        assert value("figure sum", "subtract", 12, 34, of="answer") == 4
        assert value("value", "subtract", 12, 34, of="difference") == -22
        assert value("end noughts", "divide", 355, 7, of="quotient") == 1
        assert value("value", "divide", 355, 7, of="remainder") == 5

    def test_wheels_that_are_left_over(self):
        """9022 takes 4 of bench's 13 wheels; a complement fills them all."""
        assert value("spare wheels", "multiply", 347, 26) == 9
        assert value("spare wheels", "subtract", 12, 34) == 0

    def test_trivial_numbers(self):
        assert [number for number in range(1, 130) if is_trivial(number)] == [
            1, 10, 11, 20, 22, 30, 33, 40, 44, 50, 55, 60, 66, 70, 77, 80, 88, 90, 99, 100, 110, 111, 120]
        assert value("trivial numbers", "add", 347, 26) == 0
        assert value("trivial numbers", "add", 347, 347, 110) == 2
        assert blemishes((69, 447)) == 2


class TestHappenings:
    """Measures of what the machine does; counted here by hand or by written addition."""

    def test_turns_and_shifts(self):
        """26 is 2 + 6 turns and a shift; by the short cut 30 - 4: 3 + 4 turns, from position 1 down."""
        assert value("turns", "multiply", 347, 26) == 8
        assert value("shifts", "multiply", 347, 26) == 1
        assert value("back turns", "multiply", 347, 26) == 0
        assert value("turns", "multiply by short cut", 347, 26) == 7
        assert value("back turns", "multiply by short cut", 347, 26) == 4
        assert value("shifts", "multiply by short cut", 347, 26) == 2
        assert value("turns saved", "multiply", 347, 26) == value("turns saved", "multiply by short cut", 347, 26) == 1

    def test_a_short_cut_that_the_machine_refuses_saves_nothing(self):
        """On short the borrow of 922611 x 109 by 110 - 1 has too far to run."""
        assert value("turns saved", "multiply", 922_611, 109) == 7
        assert value("turns saved", "multiply", 922_611, 109, machine="short") == 0

    def test_ripple(self):
        assert value("ripple", "add", 999, 1) == 4
        assert value("nines crossed", "add", 999, 1) == 2
        assert value("carries", "add", 999, 1) == 3
        assert value("ripple", "add", 123, 456) == value("carries", "add", 123, 456) == 0
        assert value("ripple", "subtract", 1000, 1) == 4

    @given(st.integers(1, 999), st.integers(1, 99))
    def test_ripple_of_a_product_on_paper(self, multiplicand, multiplier):
        turns = oracle.turns_of_product(multiplicand, multiplier)
        assert value("ripple", "multiply", multiplicand, multiplier) == max(
            oracle.ripple(before, amount, 1, 13) for before, amount in turns)
        assert value("carries", "multiply", multiplicand, multiplier) == sum(
            oracle.carries(before, amount, 1, 13) for before, amount in turns)

    def test_bells_and_overdrafts(self):
        """22 : 7 is 3, remainder 1: at position 0 one turn too many, a bell, and a bell as it is put back."""
        assert value("bells", "divide", 22, 7) == 2
        assert value("overdrafts", "divide", 22, 7) == 1
        assert value("positions not overdrawn", "divide", 22, 7) == 0
        assert value("positions not overdrawn", "divide comparing first", 22, 7) == 1
        assert value("bells", "divide comparing first", 22, 7) == 0
        assert value("turns below nought", "subtract", 12, 34, 5) == 2
        assert value("turns below nought", "subtract", 34, 12, 5) == 0

    def test_restoring_is_overdrawn_everywhere(self):
        """355 : 7 in two positions. 1 : 7 is 0.14: the 1 goes in at position 2, and that position does not count."""
        assert value("overdrafts", "divide", 1, 7, places=2) == 2
        assert value("positions not overdrawn", "divide", 1, 7, places=2) == 0
        assert value("overdrafts", "divide", 355, 7) == 2
        assert value("positions not overdrawn", "divide", 355, 7) == 0
        assert value("overdrafts", "divide without putting back", 355, 7) == 1

    def test_wheels_that_are_wrong(self):
        """The nines of -22 end at wheel 7 on short: wheels 8 to 12 show 0."""
        wish = Wish("subtract", "short", ("=12", "=34"), "short reach shows")
        case = Case(wish, (12, 34), cranked=True)
        assert case.course.shows == 9_999_978
        assert MEASURES["wheels wrong"].value(case, "") == 5
        assert wish.conditions[0].says(case) == ("The result shows 9999978 and should show 999999999978: carries "
                                                 "reach 7 places only.")


class TestWords:
    """What was found, in a sentence."""

    @pytest.mark.parametrize(("method", "numbers", "asked", "says"), [
        ("add", (999, 1), "ripple >= 1", "In turn 2 of 2 one carry runs through 4 wheels, 1 to 4."),
        ("subtract", (1000, 1), "ripple >= 1", "In turn 2 of 2 one borrow runs through 4 wheels, 1 to 4."),
        ("add", (123, 456), "ripple = 0", "No wheel is moved by a carry."),
        ("add", (999, 1), "carry across nines",
         "In turn 2 one carry takes 2 wheels that stood at 9 past it, from wheel 2 on."),
        ("subtract", (1000, 1), "nines crossed >= 1",
         "In turn 2 one borrow takes 2 wheels that stood at 0 past it, from wheel 2 on."),
        ("add", (9, 1), "carry", "There is 1 carry."), ("add", (1, 1), "no carry", "There are no carries."),
        ("add", (9, 1), "nines crossed = 0", "No carry takes a wheel past 9 by itself."),
        ("subtract", (12, 34), "bell rings", "The bell rings in turn 2."),
        ("divide", (22, 7), "bell rings", "The bell rings in turns 5, 6."),
        ("subtract", (34, 12), "bell never rings", "The bell never rings."),
        ("subtract", (12, 34), "goes below nought", "In turn 2 the result goes below nought, to −22."),
        ("subtract", (34, 12), "turns below nought = 0", "The result is never below nought."),
        ("subtract", (12, 34), "answer below nought", "The answer is −22."),
        ("divide", (355, 7), "overdraft in every place",
         "The result is overdrawn at 2 of 2 positions of the carriage: 1, 0."),
        ("divide comparing first", (355, 7), "overdrafts = 0", "The result is never overdrawn."),
        ("multiply", (347, 26), "fewer turns by short cut", "It takes 8 turns plainly and 7 by the short cut."),
        ("multiply", (347, 26), "no nought in multiplier", "The multiplier, 26, has no noughts."),
        ("multiply", (347, 26), "turns <= 9", "It takes 8 turns."), ("multiply", (347, 26), "shifts = 1", "It takes 1 "
                                                                                                        "shift."),
        ("multiply", (347, 26), "spare wheels >= 4", "The answer, 9022, leaves 9 wheels of 13 over."),
        ("multiply", (347, 26), "nothing trivial", "Of 347, 26 none is trivial."),
        ("multiply", (347, 20), "trivial numbers >= 1", "Of 347, 20 1 is trivial."),
        ("multiply", (347, 26), "slips told apart",
         "The answer is 9022; a slip gives 2776 if the carriage is not shifted, 21514 if the multiplier is worked from "
         "its other end, 12492 if one turn too many is made in the highest place: all different."),
        ("multiply", (347, 26), "distinct figures in product", "The product, 9022, repeats 1 figure."),
        ("multiply by short cut", (347, 98), "back turns >= 1", "It takes 2 subtractive turns.")])
    def test_sentences(self, method, numbers, asked, says):
        wish = Wish(method, "bench", [f"={number}" for number in numbers])
        assert condition(asked).says(Case(wish, numbers, cranked=True)) == says

    @pytest.mark.parametrize("method", sorted(TASKS))
    def test_every_measure_has_words_for_every_method_it_goes_with(self, method):
        """On numbers of the usual sizes; each is a sentence, and what is counted is a whole number."""
        row = TASKS[method]
        numbers = {1: (729,), 2: (907, 86), 3: (12, 34, 56)}[len(row.digits)]
        case = Case(Wish(method, "bench", [f"={number}" for number in numbers]), numbers, cranked=True)
        for name, measure in MEASURES.items():
            if measure.goes_with(row):
                of = "answer" if measure.of_number else ""
                counts = measure.value(case, of)
                assert isinstance(counts, int), name
                sentence = measure.words(case, of, counts)
                assert sentence[0].isupper() or sentence[0].isdigit(), name
                assert sentence.endswith("."), name
                assert 0 <= measure.clear(case, of, max(1, counts)) <= 10, name
