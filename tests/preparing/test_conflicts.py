"""What an impossible wish is told: minimal conflicts, proved, against every subset tried by brute force."""

from __future__ import annotations

import pickle
from itertools import combinations

import pytest
from hypothesis import assume, given, settings, strategies as st

from mechcalc import CapacityError, Machine, load_spec
from mechcalc.methods import multiply
from mechcalc.preparing import Condition, NothingFound, Wish, find
from mechcalc.preparing.case import Case
from mechcalc.preparing.conflicts import ROOM, Survey
from mechcalc.preparing.spans import numbers_in_order

from . import oracle


def refused(wish: Wish, **named) -> NothingFound:
    """Why nothing is found."""
    with pytest.raises(NothingFound) as no:
        find(wish, **named)
    return no.value


# Conditions on products of a figure by two, each with a check in plain integers (the digits of 1 x 2).
PLAIN = {
    "turns >= 15": lambda a, b: sum(map(int, str(b))) >= 15,
    "turns <= 4": lambda a, b: sum(map(int, str(b))) <= 4,
    "no nought in multiplier": lambda a, b: "0" not in str(b),
    "nought inside product": lambda a, b: "0" in str(a * b).rstrip("0"),
    "product >= 700": lambda a, b: a * b >= 700,
    "product <= 60": lambda a, b: a * b <= 60,
    "ripple >= 3": lambda a, b: max(oracle.ripple(*turn, 1, 13) for turn in oracle.turns_of_product(a, b)) >= 3,
    "no carry": lambda a, b: not any(oracle.carries(*turn, 1, 13) for turn in oracle.turns_of_product(a, b)),
    "distinct figures in product": lambda a, b: len(set(str(a * b))) == len(str(a * b)),
    "multiplicand = 7": lambda a, b: a == 7,
    "figure sum in multiplier = 9": lambda a, b: sum(map(int, str(b))) == 9,
}
ALL = [(a, b) for a in range(1, 10) for b in range(10, 100)]
SMALL = {text: frozenset(pair for pair in ALL if check(*pair)) for text, check in PLAIN.items()}


def met_by(texts) -> frozenset:
    """The products that meet all of these, by plain integers."""
    return frozenset(ALL).intersection(*(SMALL[text] for text in texts))


class TestMinimal:
    """On spaces small enough to try every subset of the conditions."""

    @settings(max_examples=40)
    @given(st.lists(st.sampled_from(sorted(PLAIN)), min_size=2, max_size=6, unique=True))
    def test_a_conflict_is_one_and_nothing_can_be_left_out(self, texts):
        """And a wish that can be met is found."""
        try:
            wish = Wish("multiply", digits="1x2", conditions=texts)
        except ValueError:  # two of them contradict each other on their face
            assume(False)
        of = dict(zip(wish.conditions, texts, strict=True))
        if met_by(texts):
            assert {found.numbers for found in find(wish, many=1000)} == met_by(texts)
            return
        no = refused(wish)
        assert no.proved
        assert no.tried == len(ALL)
        conflict = [of[one] for one in no.conflict]
        assert not met_by(conflict)
        for size in range(len(conflict)):
            for fewer in combinations(conflict, size):
                assert met_by(fewer), (texts, conflict, fewer)
        if len(conflict) > 1:
            for one, numbers in no.instead.items():
                assert numbers in met_by(of[other] for other in no.conflict if other != one)

    def test_the_machines_room_can_be_part_of_it(self):
        """Every product of 9900 or more by 120 or more takes seven wheels, and slate has six."""
        wish = Wish("multiply", "slate", ("9900..9909", "120..129"), ["turns <= 12"])
        no = refused(wish)
        assert no.conflict == (ROOM,)
        assert "the machine has no room for any of them" in str(no)
        for a in range(9900, 9910):
            for b in range(120, 130):
                with pytest.raises(CapacityError):
                    multiply(Machine(load_spec("slate")), a, b)

    def test_room_and_a_size(self):
        """Products of 6 figures at most fit slate; of 990..1010 by 990..1010 some do and some have seven figures."""
        wish = Wish("multiply", "slate", ("990..1010", "990..999"),
                    ["figure sum in product <= 10", "end noughts in product = 0"])
        no = refused(wish)
        fits = {(a, b) for a in range(990, 1011) for b in range(990, 1000) if a * b < 10**6}
        small = {(a, b) for a in range(990, 1011) for b in range(990, 1000) if sum(map(int, str(a * b))) <= 10}
        ends = {(a, b) for a in range(990, 1011) for b in range(990, 1000) if (a * b) % 10}
        sets = {ROOM: fits, wish.conditions[0]: small, wish.conditions[1]: ends}
        assert not set.intersection(*(sets[one] for one in no.conflict))
        for one in no.conflict:
            others = [sets[other] for other in no.conflict if other != one]
            assert not others or set.intersection(*others)

    def test_a_survey_counts(self):
        """Room and two conditions, over all products of a figure by two."""
        wish = Wish("multiply", digits="1x2", conditions=["turns <= 4", "no carry"])
        survey = Survey((ROOM, *wish.conditions))
        for numbers in numbers_in_order(wish.spans, 0):
            survey.add(Case(wish, numbers))
        assert survey.asked == survey.count(ROOM) == 810
        assert survey.count(wish.conditions[0]) == len(SMALL["turns <= 4"])
        assert survey.count(*wish.conditions) == len(met_by(["turns <= 4", "no carry"]))
        assert survey.conflict() == ()


class TestExplanation:
    """What the teacher reads."""

    def test_three_that_do_not_go_together(self):
        """A figure of 6 or more and another that is no nought make 7 turns at least."""
        no = refused(Wish("multiply", digits="2x2", conditions=[
            "turns <= 6", "largest figure in multiplier >= 6", "no nought in multiplier", "ripple >= 3"]))
        assert [one.text for one in no.conflict] == ["turns <= 6", "largest figure in multiplier >= 6",
                                                     "noughts in multiplier = 0"]
        lines = str(no).splitlines()
        assert lines[0] == (
            "no numbers meet the wish for multiply on Bench (multiplicand of 2 digits, multiplier of 2 digits): 'turns "
            "<= 6', 'largest figure in multiplier >= 6' and 'noughts in multiplier = 0' cannot be met together "
            "(proved: all 8100 candidates were tried)")
        assert [line.split(", the others can be met")[0] for line in lines[1:4]] == [
            "  - without 'turns <= 6'", "  - without 'largest figure in multiplier >= 6'",
            "  - without 'noughts in multiplier = 0'"]
        assert lines[1].endswith("and the nearest to it is turns = 7")
        assert all(" candidates meet all the rest" in line for line in lines[4:])

    def test_one_that_cannot_be_met_at_all(self):
        no = refused(Wish("multiply", digits="1x2", conditions=["ripple >= 5", "turns <= 9"]))
        most = max(oracle.ripple(*turn, 1, 13) for a, b in ALL for turn in oracle.turns_of_product(a, b))
        assert [one.text for one in no.conflict] == ["ripple >= 5"]
        assert f"'ripple >= 5' is met by none, and the nearest to it is ripple = {most}" in str(no)
        count = len([pair for pair in ALL if sum(map(int, str(pair[1]))) <= 9])
        assert f"if 'ripple >= 5' is given up, {count} candidates meet all the rest" in str(no)

    def test_the_nearest_is_the_nearest_of_all(self):
        """Of all products 9 × 99 = 891 comes nearest to 900; with 5 turns, 9 × 50; and 9 × 90 takes 9."""
        no = refused(Wish("multiply", digits="1x2", conditions=["product >= 900", "turns <= 5"]))
        assert [one.text for one in no.conflict] == ["product >= 900"]
        assert "the nearest to it is product = 891" in str(no)
        no = refused(Wish("multiply", digits="1x2", conditions=["product >= 800", "turns <= 5"]))
        assert [one.text for one in no.conflict] == ["product >= 800", "turns <= 5"]
        assert "without 'product >= 800', the other can be met: " in str(no)
        assert "and the nearest to it is product = 450" in str(no)
        assert "and the nearest to it is turns = 9" in str(no)

    def test_two_conflicts_at_once(self):
        """Whichever is told, giving up one of its conditions does not help."""
        no = refused(Wish("multiply", digits="1x2", conditions=["ripple >= 5", "product >= 900"]))
        assert len(no.conflict) == 1
        assert "whichever of them is given up, the rest of the wish cannot be met either" in str(no)

    def test_where_not_all_can_be_tried_nothing_is_proved(self):
        no = refused(Wish("multiply", digits="5x4", conditions=["turns <= 3", "no nought in multiplier", "bell rings"]),
                     budget=2000)
        assert not no.proved
        assert no.conflict == ()
        assert "of 810000000 candidates were tried, so there may be some" in str(no)
        assert str(no.tried) in str(no)
        assert "0 met 'bells >= 1', and the nearest to it is bells = 0" in str(no)
        assert "'turns <= 3' and " in str(no) or "met 'turns <= 3'" in str(no)

    def test_figures_alone_are_proved_for_a_method_that_is_cranked(self):
        """Of 900000 radicands none is cranked: no cube of 6 figures ends in two noughts only."""
        no = refused(Wish("cube root", digits="1-4", conditions=["no remainder", "end noughts in radicand = 2",
                                                                 "turns <= 30"]))
        assert no.proved
        assert [one.text for one in no.conflict] == ["remainder = 0", "end noughts in radicand = 2"]
        assert not [root for root in range(1, 22) if str(root**3).endswith("00") and not str(root**3).endswith("000")]

    def test_it_can_be_shown_and_kept(self):
        no = refused(Wish("multiply", digits="1x1", conditions=["product > 50", "turns < 3"]))
        back = pickle.loads(pickle.dumps(no))
        assert str(back) == str(no)
        assert back.conflict == no.conflict
        assert no._repr_html_().count("<li>") == str(no).count("\n  - ") == len(no.reasons) - 1

    def test_progress_is_told(self):
        seen = []
        refused(Wish("multiply", digits="1x2", conditions=["ripple >= 5"]), progress=lambda *three: seen.append(three))
        assert (500, 810, 0) in seen


def test_room_is_not_for_wishes():
    """It belongs to every search; a wish for what does not fit would leave nothing to work."""
    assert Condition("room", low=1) == ROOM
    with pytest.raises(ValueError, match="'room' in 'room >= 1' is neither counted nor a number"):
        Wish("multiply", conditions=["room >= 1"])
