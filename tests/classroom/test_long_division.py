"""Long division on paper, read from the machine, against long division done with Python's integers."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, strategies as st

from mechcalc import InputError, Machine, load_spec
from mechcalc.classroom.long_division import figures_of, written_beside
from mechcalc.methods import divide, multiply


def by_hand(dividend, divisor, places=0):
    """(digit, before, left) for each figure, as a pupil writes them: bring down, divide, take away."""
    rows, left = [], 0
    for figure in str(dividend * 10**places):
        before = 10 * left + int(figure)
        digit, left = divmod(before, divisor)
        rows.append((digit, before, left))
    while len(rows) > 1 and not rows[0][0]:
        rows.pop(0)
    return rows


@given(st.integers(0, 9999), st.integers(1, 99), st.sampled_from(["bench", "plain", "short", "ledger"]))
def test_it_is_the_long_division_that_is_taught(dividend, divisor, name):
    """Oracle: Python's divmod, figure by figure (common practice of written division, no source)."""
    found = figures_of(divide(Machine(load_spec(name)), dividend, divisor))
    assert [(one.digit, one.before, one.left) for one in found] == by_hand(dividend, divisor)


@given(st.integers(0, 999), st.integers(1, 99), st.integers(0, 3))
def test_decimals_bring_down_noughts(dividend, divisor, places):
    found = figures_of(divide(Machine(load_spec("bench")), dividend, divisor, places=places))
    assert [(one.digit, one.before, one.left) for one in found] == by_hand(dividend, divisor, places)


@pytest.mark.parametrize(("dividend", "divisor", "places", "name"), [
    (5000, 16, 0, "slate"), (829, 4, 0, "slate"), (3, 7, 0, "slate"), (355, 113, 7, "bench"), (999, 1, 0, "slate")])
def test_the_columns_stand_under_each_other(dividend, divisor, places, name):
    """Each product ends under the figure of the dividend that was brought down last."""
    working = divide(Machine(load_spec(name)), dividend, divisor, places=places)
    lines = written_beside(working).splitlines()
    assert max(map(len, lines)) <= 100
    head = lines[2].index(")") + 2
    assert lines[2].strip().startswith(f"{divisor} ) ")
    width = len(str(dividend * 10**places))
    assert lines[0].split() == [str(dividend * 10**places // divisor)]
    assert len(lines[0]) == head + width
    rows = [line for line in lines if re.match(r" +\d+ {4,}(units|tens|hundreds|decimal)", line)]
    found = figures_of(working)
    assert len(rows) == len(found)
    for row, figure in zip(rows, found, strict=True):
        product = re.match(r" +\d+", row).group()
        assert int(product) == figure.digit * divisor == figure.before - figure.left
        assert len(product) == head + width - figure.place


def test_the_machine_column_gives_the_windows():
    said = written_beside(divide(Machine(load_spec("slate")), 829, 4))
    assert "hundreds: back to 429, 29; once more: 999629, bell; one on: 29, bell" in said
    assert "tens: back: 999989, bell; one on: 29, bell" in said
    assert said.endswith("left over: 1; the counter shows 207")


def test_an_operator_who_looks_first_makes_no_turn_for_a_nought():
    said = written_beside(divide(Machine(load_spec("slate")), 829, 4, method="compare first"))
    assert "tens: no turn" in said
    assert "bell" not in said


def test_what_cannot_be_written_so_is_refused():
    spec = load_spec("slate")
    with pytest.raises(InputError, match="an overdraft was carried on from the figure found with the carriage at 2"):
        written_beside(divide(Machine(spec), 5000, 16, method="without putting back"))
    with pytest.raises(InputError, match="12 × 3 was not worked by taking one divisor away"):
        figures_of(multiply(Machine(spec), 12, 3))
