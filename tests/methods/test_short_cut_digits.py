"""The fewest turns: against brute force, a closed form, and the handbook's rule."""

from __future__ import annotations

from collections import deque
from fractions import Fraction
from itertools import pairwise, product

import pytest
from hypothesis import given, strategies as st

from mechcalc import InputError
from mechcalc.methods import handbook_digits, plain_digits, signed_digits, turns_of
from mechcalc.methods.short_cut import average_turns


def value(digits):
    return sum(digit * 10**place for place, digit in enumerate(digits))


def fewest_steps(top):
    """Brute force: from 0 by steps of ±1, ±10, ... ±10^top, breadth first. No digits, no carries, no rule."""
    steps = [sign * 10**place for place in range(top + 1) for sign in (1, -1)]
    most = 2 * 10**top
    distance, queue = {0: 0}, deque([0])
    while queue:
        here = queue.popleft()
        for step in steps:
            there = here + step
            if -most <= there <= most and there not in distance:
                distance[there] = distance[here] + 1
                queue.append(there)
    return distance


@pytest.fixture(scope="module")
def fewest():
    return fewest_steps(4)


class TestFewestTurns:
    def test_no_way_at_all_takes_fewer_for_any_multiplier_of_four_digits(self, fewest):
        for multiplier in range(10**4):
            digits = signed_digits(multiplier)
            assert value(digits) == multiplier
            assert all(-9 <= digit <= 9 for digit in digits)
            assert turns_of(digits) == fewest[multiplier], multiplier

    def test_among_equals_the_fewest_places_then_the_fewest_subtractive_digits(self):
        """Every way of writing every multiplier below 100 with digits -9..9 in three places."""
        ways = {}
        for digits in product(range(-9, 10), repeat=3):
            if 0 <= value(digits) < 100:
                shortest = digits[:max((k + 1 for k, digit in enumerate(digits) if digit), default=1)]
                ways.setdefault(value(digits), []).append(shortest)
        for multiplier, all_ways in ways.items():
            def order(digits):
                return turns_of(digits), len(digits), sum(digit < 0 for digit in digits)
            assert order(signed_digits(multiplier)) == min(map(order, all_ways)), multiplier

    @given(st.integers(0, 10**6), st.integers(0, 10**7))
    def test_under_a_ceiling_no_partial_multiplier_goes_above_it(self, multiplier, room):
        ceiling = multiplier + room
        digits = signed_digits(multiplier, ceiling)
        partial = [value([0] * k + list(digits[k:])) for k in range(len(digits))]
        assert value(digits) == multiplier
        assert all(0 <= part <= ceiling for part in partial)
        assert turns_of(signed_digits(multiplier)) <= turns_of(digits) <= turns_of(plain_digits(multiplier))

    @pytest.mark.parametrize("ceiling", [40, 45, 49, 50, 60, 99, 100, 120])
    def test_under_a_ceiling_no_other_way_takes_fewer(self, ceiling):
        """Every way in three places, kept if its partial multipliers from the top stay within the ceiling."""
        best = {}
        for digits in product(range(-9, 10), repeat=3):
            partial = [value([0] * k + list(digits[k:])) for k in range(3)]
            if all(0 <= part <= ceiling for part in partial):
                best[partial[0]] = min(best.get(partial[0], 99), turns_of(digits))
        for multiplier in range(ceiling + 1):
            assert turns_of(signed_digits(multiplier, ceiling)) == best[multiplier], multiplier

    def test_a_multiplier_above_the_ceiling_is_refused(self):
        with pytest.raises(InputError, match=r"a multiplier cannot be 12 where no more than 11 may be made"):
            signed_digits(12, ceiling=11)

    @pytest.mark.parametrize("function", [signed_digits, handbook_digits, plain_digits])
    @pytest.mark.parametrize(("bad", "message"), [
        (-1, "a multiplier cannot be -1: it goes from 0 upwards"),
        (2.0, r"a multiplier must be a whole number, not 2.0 \(float\)"),
        (True, r"a multiplier must be a whole number, not True \(bool\)"),
        ("7", r"a multiplier must be a whole number, not '7' \(str\)")])
    def test_only_whole_numbers_from_nought(self, function, bad, message):
        with pytest.raises(InputError, match=message):
            function(bad)


class TestAverages:
    """Source: exact averages over 0..10^n - 1, recomputed for this project with exact rationals. The literature on
    such digit expansions: Heuberger and Prodinger, Computing 66 (2001) 377-393."""

    AVERAGES = ("2.9", "5.4", "7.859", "10.314", "12.76859", "15.22314")

    @pytest.mark.parametrize("n", [1, 2, 3, 4])
    def test_by_listing_every_multiplier(self, n):
        total = sum(turns_of(signed_digits(multiplier)) for multiplier in range(10**n))
        assert Fraction(total, 10**n) == Fraction(self.AVERAGES[n - 1]) == average_turns(n)

    @pytest.mark.parametrize("n", [5, 6])
    def test_by_counting_alike_ones_together(self, n):
        assert average_turns(n) == Fraction(self.AVERAGES[n - 1])

    @pytest.mark.parametrize("n", range(1, 21))
    def test_closed_form(self, n):
        """E_n = 27n/11 + 60/121 - 10^-n / 2 + (-1/10)^n / 242, checked to n = 20 for the project."""
        assert average_turns(n) == (Fraction(27 * n, 11) + Fraction(60, 121) - Fraction(1, 2 * 10**n)
                                    + Fraction((-1)**n, 242 * 10**n))

    def test_in_the_long_run_27_elevenths_a_digit(self):
        assert abs(average_turns(40) - average_turns(39) - Fraction(27, 11)) < Fraction(1, 10**38)

    @pytest.mark.parametrize("n", [1, 2, 3, 4])
    def test_the_plain_rule_takes_four_and_a_half_a_digit(self, n):
        """The mean of the digits 0 to 9 is 4.5."""
        total = sum(turns_of(plain_digits(multiplier)) for multiplier in range(10**n))
        assert Fraction(total, 10**n) == Fraction(9 * n, 2)

    @pytest.mark.parametrize(("n", "average"), [(1, "2.9"), (2, "5.44"), (3, "7.944"), (4, "10.4444")])
    def test_the_handbook_rule(self, n, average):
        """Source: as above, recomputed for this project."""
        total = sum(turns_of(handbook_digits(multiplier)) for multiplier in range(10**n))
        assert Fraction(total, 10**n) == Fraction(average)


class TestHandbookRule:
    def test_65_is_the_least_multiplier_for_which_it_is_not_the_best(self):
        """Source: as above."""
        worse = [n for n in range(100) if turns_of(handbook_digits(n)) > turns_of(signed_digits(n))]
        assert worse[0] == 65
        assert (turns_of(handbook_digits(65)), turns_of(signed_digits(65))) == (10, 9)

    @given(st.integers(0, 10**12))
    def test_it_makes_the_multiplier_and_is_never_better(self, multiplier):
        digits = handbook_digits(multiplier)
        assert value(digits) == multiplier
        assert turns_of(signed_digits(multiplier)) <= turns_of(digits)


class TestWorstCases:
    @pytest.mark.parametrize(("multiplier", "turns"), [(5, 5), (55, 10), (455, 14), (5455, 19), (45455, 23)])
    def test_the_costliest_multipliers(self, multiplier, turns):
        """Source: as above. Nothing of as many digits costs more (listed up to four)."""
        assert turns_of(signed_digits(multiplier)) == turns
        if multiplier < 10**4:
            size = 10**len(str(multiplier))
            assert max(turns_of(signed_digits(other)) for other in range(size)) == turns

    @given(st.integers(0, 10**15))
    def test_the_optimal_rule_from_right_to_left(self, multiplier):
        """Source: as above. Take t - 10 and carry when t > 5, or t = 5 and the next higher digit is 5 or more."""
        raw, carry, turns = [*plain_digits(multiplier), 0, 0], 0, 0
        for digit, higher in pairwise(raw):
            t = digit + carry
            back = t > 5 or (t == 5 and higher >= 5)
            carry, turns = int(back), turns + (10 - t if back else t)
        assert turns_of(signed_digits(multiplier)) == turns
