"""What the tests of the methods share: a check of every line, and of a refusal.

Only this file says what a sound line is.
"""

from __future__ import annotations

from hypothesis import strategies as st
from mechanism.machines import specs

from mechcalc import CapacityError, InputError, Machine, Working, load_spec
from mechcalc.methods.equality import worked as worked_out

numbers = st.one_of(st.integers(0, 99), st.integers(0, 10**6 - 1), st.integers(0, 10**10),
                    st.sampled_from([0, 1, 5, 9, 55, 65, 98, 99, 101, 999, 1000, 99_999, 100_001]))


@st.composite
def products(draw):
    """A machine, a multiplicand and a multiplier, each of them now and then a place too long."""
    spec = draw(specs())
    multiplicand = draw(numbers) % 10**draw(st.integers(1, spec.setting_places + 1))
    multiplier = draw(numbers) % 10**draw(st.integers(1, spec.positions + 1))
    return spec, multiplicand, multiplier


@st.composite
def sums(draw):
    """A machine and up to five numbers, now and then one of them a place too long."""
    spec = draw(specs())
    size = 10**draw(st.integers(1, spec.setting_places + draw(st.sampled_from([0, 0, 0, 1]))))
    return spec, [number % size for number in draw(st.lists(numbers, min_size=2, max_size=5))]


def machine(name: str = "bench") -> Machine:
    return Machine(load_spec(name))


def check_lines(working: Working, by_sympy: bool = True) -> None:
    """One line a stroke; each equation is true by sympy, and its right-hand side is what the machine shows.

    Without sympy the same by Python's integers, for the many examples of a property.
    """
    assert len(working.lines) == len(working.strokes)
    before = working.start
    for stroke, line in zip(working.strokes, working.lines, strict=True):
        assert stroke.before == before
        before = stroke.after
        left, right = line.equality.left, line.equality.right
        assert line.holds() if by_sympy else worked_out(left) == right, line
        shows = stroke.reading
        expected = {"set": shows.setting, "set lever": shows.setting, "crank": shows.result, "clear result": 0,
                    "clear counter": 0, "clear setting": 0, "back transfer": shows.setting,
                    "shift": shows.setting * 10**shows.carriage}[stroke.operation]
        assert right == expected, line
        if stroke.operation == "crank":
            assert line.algebra.lstrip("(").startswith(f"{stroke.before.reading.result} "), line
    assert working.end == before


def refused(worked: Machine, attempt, error=CapacityError):
    """The refusal, after checking that nothing has moved."""
    state, strokes = worked.state, worked.strokes
    try:
        attempt()
    except error as no:
        assert worked.state is state
        assert worked.strokes == strokes
        return no
    raise AssertionError("nothing refused")


def trouble(worked: Machine, attempt) -> str:
    """The message of an `InputError`."""
    return str(refused(worked, attempt, InputError))
