"""The plots of the short cut: the choices at each digit against brute force, the counts against each other."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given, strategies as st

from mechcalc import InputError
from mechcalc.methods.short_cut import plain_digits, signed_digits, turns_of
from mechcalc.view.short_cut_plots import cheapest, choices, digit_paths, spread, turns_compared


def all_ways(multiplier):
    """Every way along the arrows of the plot, as the digits turned."""
    places = len(plain_digits(multiplier)) + 1
    ways = {0: [()]}
    for place in range(1, places + 1):
        here = [one for one in choices(multiplier) if one.place == place]
        ways = {end: [(*way, one.digit) for one in here if one.end == end for way in ways.get(one.begin, [])]
                for end in {one.end for one in here}}
    return ways[0]


class TestChoices:
    @pytest.mark.parametrize("multiplier", [0, 1, 5, 9, 10, 45, 65, 99, 100, 455, 909, 999])
    def test_the_arrows_lead_along_every_signed_form_and_no_other(self, multiplier):
        """Brute force: all digits -9..9, one place more than the multiplier has."""
        places = len(plain_digits(multiplier)) + 1
        forms = {digits for digits in product(range(-9, 10), repeat=places)
                 if sum(digit * 10**place for place, digit in enumerate(digits)) == multiplier}
        assert set(all_ways(multiplier)) == forms

    @given(st.integers(0, 10**6 - 1))
    def test_one_path_is_marked_and_it_is_the_cheapest(self, multiplier):
        best = [one for one in choices(multiplier) if one.best]
        assert [one.place for one in best] == list(range(1, len(plain_digits(multiplier)) + 2))
        assert [one.begin for one in best] == [0, *(one.end for one in best[:-1])]
        assert turns_of(tuple(one.digit for one in best)) == turns_of(signed_digits(multiplier))
        assert best[-1].end == 0

    @given(st.integers(0, 10**5))
    def test_the_circles_hold_the_least_of_what_leads_to_them(self, multiplier):
        costs = cheapest(multiplier)
        for place in range(1, len(costs)):
            for end in (0, 1):
                leading = [costs[place - 1][one.begin] + abs(one.digit) for one in choices(multiplier)
                           if (one.place, one.end) == (place, end) and costs[place - 1][one.begin] is not None]
                assert costs[place][end] == (min(leading) if leading else None)
        assert costs[-1] == (turns_of(signed_digits(multiplier)), None)


class TestFigures:
    def test_the_paths_of_65_in_words(self):
        said = [text.get_text() for text in digit_paths(65).axes[0].texts if text.get_text()]
        assert said[:6] == ["65", "carry 1", "no carry", "5", "6", "top"]
        assert sorted(said[6:14]) == sorted(["+5", "−5", "+6", "−4", "+7", "−3", "0", "+1"])
        assert said[14:] == ["0", "5", "5", "11", "8", "9"]

    @pytest.mark.parametrize(("bad", "message"), [
        (0, "a multiplier on a sheet cannot be 0: it goes from 1 to 999999"),
        (10**6, "a multiplier on a sheet cannot be 1000000: it goes from 1 to 999999"),
        ("65", r"a multiplier on a sheet must be a whole number, not '65' \(str\)")])
    def test_what_has_no_room_is_refused(self, bad, message):
        with pytest.raises(InputError, match=message):
            digit_paths(bad)

    def test_all_multipliers_are_counted_once(self):
        for counts in spread(1000):
            assert sum(counts) == 1000
        plain, short = spread(1000)
        assert plain == plain[::-1]  # digits d and 9 - d are equally many
        assert max(turns for turns, many in enumerate(short) if many) == 14

    def test_the_averages_stand_in_the_legend(self):
        """13.5 and 7.859: averages over all multipliers of three digits, recomputed for this project."""
        _, right = turns_compared().axes
        assert [text.get_text() for text in right.get_legend().get_texts()] == [
            "plain: 13.5 on average", "short cut: 7.859 on average"]
        assert turns_compared(1).axes[1].get_title() == "all multipliers below 10"
        with pytest.raises(InputError, match="a number of digits cannot be 5: it goes from 1 to 4"):
            turns_compared(5)
