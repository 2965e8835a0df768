"""Floating point beside whole numbers: what a program loses that a machine keeps."""

from __future__ import annotations

import statistics
from fractions import Fraction

import pytest
from hypothesis import given, strategies as st

from mechcalc import InputError
from mechcalc.classroom.floating import spread_about_mean, spread_at_once

small = st.lists(st.integers(0, 1000), min_size=1, max_size=12)


@given(small)
def test_both_are_right_for_small_numbers(values):
    """Oracle: statistics on fractions."""
    exact = float(statistics.pvariance(map(Fraction, values)) * len(values))
    assert spread_at_once(values) == pytest.approx(exact, abs=1e-6)
    assert spread_about_mean(values) == pytest.approx(exact, abs=1e-6)


def test_the_short_program_falls_below_nought():
    """By hand, from the spacing of doubles (2 up to 2^54, 4 up to 2^55, 8 up to 2^56, 16 beyond).

    The squares end in 104100, 017681 and 931264; the second is rounded to 017680. Their sums are 30483158241121780 and
    45724737732053044, the latter rounded to ...040 (a tie goes to the even one). The square of the sum,
    137174213196159129, is rounded to ...136; a third of that is 45724737732053045.33, rounded to ...048.
    """
    assert spread_at_once([123_456_790, 123_456_791, 123_456_792]) == -8.0


@given(st.lists(st.integers(0, 9), min_size=2, max_size=6), st.sampled_from([10**6, 10**8, 123_456_789]))
def test_an_offset_saves_the_digits(values, offset):
    """With the mean off first nothing is lost that the machine would keep."""
    exact = float(statistics.pvariance(map(Fraction, values)) * len(values))
    assert spread_about_mean([offset + value for value in values]) == pytest.approx(exact, abs=1e-6)


@pytest.mark.parametrize("spread", [spread_at_once, spread_about_mean])
def test_no_values_no_spread(spread):
    with pytest.raises(InputError, match="no values"):
        spread([])
