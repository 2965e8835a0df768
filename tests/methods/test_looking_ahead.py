"""The rule of thumb with one look ahead: it is the best there is, and why a digit then costs 27/11 turns."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, strategies as st

from mechcalc import InputError
from mechcalc.methods.short_cut import (
    average_turns,
    handbook_digits,
    looking_ahead_digits,
    plain_digits,
    signed_digits,
    turns_of,
)


def value(digits):
    return sum(digit * 10**place for place, digit in enumerate(digits))


def met(multiplier):
    """What the operator meets at each place: the digit and the carry, 0 to 10."""
    digits, carry = looking_ahead_digits(multiplier), 0
    for own, turned in zip(plain_digits(multiplier), digits, strict=False):
        yield own + carry
        carry = int(turned < own + carry)


class TestRule:
    def test_no_way_takes_fewer_turns_for_any_multiplier_of_four_digits(self):
        for multiplier in range(10**4):
            digits = looking_ahead_digits(multiplier)
            assert value(digits) == multiplier
            assert turns_of(digits) == turns_of(signed_digits(multiplier)), multiplier

    @given(st.integers(0, 10**18))
    def test_nor_for_longer_ones(self, multiplier):
        digits = looking_ahead_digits(multiplier)
        assert value(digits) == multiplier
        assert turns_of(digits) == turns_of(signed_digits(multiplier))

    @given(st.integers(0, 10**18))
    def test_after_a_five_the_next_digit_has_its_sign_and_is_four_at_most(self, multiplier):
        """The form described by Heuberger and Prodinger, Computing 66 (2001) 377-393 (from memory)."""
        digits = looking_ahead_digits(multiplier)
        assert all(abs(digit) <= 5 for digit in digits)
        for digit, higher in pairwise((*digits, 0)):
            if abs(digit) == 5:
                assert 0 <= higher * digit <= 20

    @pytest.mark.parametrize("bad", [-1, 2.0, "7", True])
    def test_only_whole_numbers_from_nought(self, bad):
        with pytest.raises(InputError, match="a multiplier"):
            looking_ahead_digits(bad)


class TestWhatADigitCosts:
    """The derivation that the lesson gives, against listing every multiplier."""

    def test_by_the_handbook_two_and_a_half_and_the_carry_at_the_top(self):
        """Carry or not, t is ten values in a row that cost 25 together; the carry out is 2/5 + p/10 of the time."""
        carry, turns = Fraction(0), Fraction(0)
        for digits in range(1, 5):
            turns += Fraction(5, 2)
            carry = Fraction(2, 5) + carry / 10
            listed = sum(turns_of(handbook_digits(multiplier)) for multiplier in range(10**digits))
            assert turns + carry == Fraction(listed, 10**digits)
        assert carry == Fraction(4, 9) * (1 - Fraction(1, 10**4))

    def test_a_place_that_follows_a_five_costs_two_and_holds_no_five(self):
        after, others = [], []
        for multiplier in range(10**6, 2 * 10**6, 7):
            places = list(met(multiplier))[:6]
            for lower, t in pairwise(places):
                (after if lower == 5 else others).append(t)
        assert 5 not in after
        cost = [sum(min(t, 10 - t) for t in row) / len(row) for row in (after, others)]
        assert cost == pytest.approx([2.0, 2.5], abs=0.01)
        assert others.count(5) / len(others) == pytest.approx(0.1, abs=0.001)

    def test_so_one_place_in_eleven_holds_a_five_and_a_digit_costs_27_elevenths(self):
        fives = Fraction(1, 11)
        assert fives == (1 - fives) / 10
        per_digit = Fraction(5, 2) - fives / 2
        assert per_digit == Fraction(27, 11)
        assert abs(average_turns(40) - average_turns(39) - per_digit) < Fraction(1, 10**38)
