"""One cell of a spreadsheet, read as a number."""

from __future__ import annotations

import contextlib
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given, strategies as st

from mechcalc.preparing.marking.reading import Unreadable, readings


@pytest.mark.parametrize("text", ["9022", " 9022 ", "9 022", "9\u202f022", "9\u00a0022", "9'022", "9’022", "9,022",
                                  "9.022",
                                  "0000000009022", "'9022", '"9022"', '="9022"', "=9022", "+9022", "9022.0", "9022,00",
                                  "9 0 2 2", "0 0 0 9 0 2 2", "９０２２", "٩٠٢٢", "9022 turns"])
def test_a_whole_number_in_many_dresses(text):
    assert readings(text)[0] == 9022


@pytest.mark.parametrize(("text", "value"), [
    ("3.14", "3.14"), ("3,14", "3.14"), ("1.234,5", "1234.5"), ("1,234.5", "1234.5"), ("1 234,5", "1234.5"),
    ("1'234.5", "1234.5"), ("-22", "-22"), ("−22", "-22"), ("–22", "-22"), ("- 22", "-22"), ("0,000604", "0.000604"),
    ("1.234.567", "1234567"), ("12,345,678", "12345678"), ("7738,1", "7738.1")])
def test_points_commas_and_signs(text, value):
    assert readings(text, decimals=True)[0] == Fraction(value)


def test_what_can_be_read_in_two_ways_is():
    """9,022 is nine thousand or a little over nine; which is likelier depends on the question."""
    assert readings("9,022") == (9022, Fraction("9.022"))
    assert readings("9.022", decimals=True) == (Fraction("9.022"), 9022)
    assert readings("1.234.567", decimals=True) == (1234567,)


@pytest.mark.parametrize(("text", "reason"), [
    ("", "nothing but a word"), ("?", "it is no number"), ("abc", "it is no number"),
    ("12 or 13", "it may be more than one number"), ("12 13", "it may be more than one number"),
    ("3 R 2", "it may be more than one number"), ("1/2", "it may be more than one number"),
    ("9.3E+10", "a spreadsheet has rounded it: format the cells as text"),
    ("1,2e5", "a spreadsheet has rounded it: format the cells as text"),
    ("#####", "a spreadsheet's sign for a cell that it cannot show"),
    ("#VALUE!", "a spreadsheet's sign for a cell that it cannot show"),
    ("1,2,3", "its points and commas stand where no number has them"),
    ("12.34.56", "its points and commas stand where no number has them"),
    ("1" * 61, "it has 61 characters"), ("about 12", "it is no number"), ("12?", "it is no number"),
    ("9022.", "its points and commas stand where no number has them"),
])
def test_what_cannot_be_read_says_why(text, reason):
    with pytest.raises(Unreadable) as no:
        readings(text)
    assert str(no.value) == reason


@given(st.integers(min_value=-10**20, max_value=10**20), st.sampled_from([",", ".", " ", "'", "\u202f", ""]))
def test_every_whole_number_comes_back(number, mark):
    """Grouped by any mark; Python's own formatting is the oracle."""
    assert readings(f"{number:,}".replace(",", mark))[0] == number


@given(st.decimals(min_value=0, max_value=10**12, places=4, allow_nan=False),
       st.sampled_from(["us", "eu", "plain", "comma"]))
def test_every_decimal_comes_back(number: Decimal, form):
    """In the English and the continental way of writing, with and without groups."""
    text = {"us": f"{number:,}", "eu": f"{number:,}".translate(str.maketrans(",.", ".,")), "plain": str(number),
            "comma": str(number).replace(".", ",")}[form]
    assert Fraction(number) in readings(text, decimals=True)


@given(st.text(max_size=12))
def test_any_text_is_read_or_refused(text):
    """Never anything else."""
    with contextlib.suppress(Unreadable):
        assert all(isinstance(value, Fraction) for value in readings(text))
