"""Sizes of numbers, and the order in which they are tried."""

from __future__ import annotations

from itertools import islice

import pytest
from hypothesis import given, strategies as st

from mechcalc import InputError
from mechcalc.preparing.spans import Span, numbers_in_order, permutation, size, span, spans


class TestSizes:
    """As a teacher writes them."""

    @pytest.mark.parametrize(("given_size", "low", "high"), [
        (1, 1, 9), (3, 100, 999), ("3", 100, 999), ("2-3", 10, 999), ("=98", 98, 98), ("=0", 0, 0), ("50..99", 50, 99),
        ("0..9", 0, 9), (range(5, 8), 5, 7), (" 2 ", 10, 99)])
    def test_what_may_be_written(self, given_size, low, high):
        assert span(given_size) == Span(low, high)

    @pytest.mark.parametrize("text", ["3", "2-3", "=98", "50..99", "1", "0..9"])
    def test_a_size_is_written_as_it_is_read(self, text):
        assert span(str(span(text))) == span(text)

    def test_several_at_once(self):
        assert spans("3x2") == spans("3,2") == spans("3 × 2") == spans([3, 2]) == (Span(100, 999), Span(10, 99))
        assert spans(3) == spans(Span(100, 999)) == (Span(100, 999),)

    @pytest.mark.parametrize(("bad", "message"), [
        ("3-2", "'3-2' holds no number: 3 is more than 2"), ("99..50", "'99..50' holds no number: 99 is more than 50"),
        (0, "a number of digits cannot be 0: it goes from 1 to 40"), ("0", "a number of digits cannot be 0"),
        (41, "a number of digits cannot be 41"), (True, "a number of digits must be a whole number, not True"),
        (2.0, "a number of digits must be a whole number, not 2.0"), ("", "'' is no size of a number"),
        ("three", "'three' is no size of a number: write how many digits it has, as in 3 or 2-3, or which"),
        ("-3", "'-3' is no size"), ("=", "'=' is no size"), ("٣", "is no size"), ("=" + "9" * 99, "is no size"),
        (range(0), "holds no row of numbers"), (range(0, 9, 2), "holds no row of numbers"), (None, "not None")])
    def test_what_is_refused(self, bad, message):
        with pytest.raises(InputError) as no:
            span(bad)
        assert message in str(no.value)


class TestOrder:
    """A permutation of all the numbers there are, drawn from the seed."""

    @given(st.integers(1, 3000), st.integers())
    def test_every_number_comes_once(self, many, seed):
        assert sorted(permutation(many, seed)) == list(range(many))

    def test_it_is_the_same_everywhere(self):
        """Written down once from Python 3.11; BLAKE2b (RFC 7693) and whole numbers leave nothing to the platform."""
        assert list(permutation(10, 0)) == [0, 4, 9, 6, 8, 2, 3, 1, 7, 5]
        assert list(islice(numbers_in_order(spans("3x2"), 2026), 4)) == [
            (597, 65), (904, 31), (137, 68), (613, 10)]
        assert list(islice(numbers_in_order(spans("20x20"), -1), 1)) == [
            (89997014369037534769, 17363721131727002233)]

    def test_seeds_differ(self):
        orders = {tuple(islice(permutation(10**6, seed), 5)) for seed in range(50)}
        assert len(orders) == 50

    def test_a_sample_is_spread(self):
        """Of ten equal parts of a million, each gets about a tenth of the first thousand: within four deviations."""
        counts = [0] * 10
        for index in islice(permutation(10**6, 5), 1000):
            counts[index // 10**5] += 1
        assert all(abs(count - 100) < 4 * 9.5 for count in counts)

    def test_size(self):
        assert size(spans("3x2x=7")) == 900 * 90
