"""The strips that a square root takes away: odd numbers of squares, and together the square."""

from __future__ import annotations

from math import isqrt

import pytest
from hypothesis import given, strategies as st
from mechanism.machines import specs

from mechcalc import CapacityError, Machine, methods
from mechcalc.methods.gnomons import gnomons_of
from mechcalc.methods.ways import ways_of_rooting

from .helpers import machine, numbers, trouble


class TestGnomons:
    """Each turn that stayed is a strip."""

    def test_one_figure(self):
        strips = gnomons_of(methods.square_root(machine("slate"), 49))
        assert [(strip.side, strip.width, strip.area) for strip in strips] == [
            (0, 1, 1), (1, 1, 3), (2, 1, 5), (3, 1, 7), (4, 1, 9), (5, 1, 11), (6, 1, 13)]

    def test_three_figures(self):
        """54756 takes off 1, 3, 41, 43, 45, 461, 463, 465, 467: recomputed outside the project."""
        strips = gnomons_of(methods.square_root(machine(), 54756))
        assert [strip.odd for strip in strips] == [1, 3, 41, 43, 45, 461, 463, 465, 467]
        assert [strip.width for strip in strips] == [100, 100, 10, 10, 10, 1, 1, 1, 1]
        assert sum(strip.area for strip in strips) == 54756

    def test_what_is_put_back_is_no_strip_and_five_times_counts_once(self):
        plain = gnomons_of(methods.square_root(machine(), 54756))
        assert gnomons_of(methods.square_root(machine(), 54756, method="restoring")) == plain
        assert gnomons_of(methods.square_root(machine(), 54756, five_times=True)) == plain

    def test_the_figures_got_by_dividing_are_no_strips(self):
        assert (gnomons_of(methods.square_root(machine(), 2, places=4, further=4))
                == gnomons_of(methods.square_root(machine(), 2, places=4)))

    def test_a_root_of_nought_and_a_nought_in_front(self):
        assert gnomons_of(methods.square_root(machine(), 0)) == ()
        assert [strip.odd for strip in gnomons_of(methods.square_root(machine(), 1, places=1))] == [1]

    @given(specs(), numbers, st.integers(0, 2), st.sampled_from(["compare first", "restoring"]), st.booleans())
    def test_on_any_machine_they_make_up_the_square_of_the_root(self, spec, number, places, method, five):
        """Oracle: math.isqrt; where the counter does not carry it shows the root all the same."""
        number %= 10**min(12, spec.result_places)
        try:
            working = methods.square_root(Machine(spec), number, places=places, method=method, five_times=five)
        except CapacityError:
            return
        strips, root = gnomons_of(working), isqrt(number * 100**places)
        assert sum(strip.area for strip in strips) == root**2
        assert len(strips) == sum(int(figure) for figure in str(root))
        for strip in strips:
            assert strip.odd % 2 == 1
            assert strip.area == (strip.side + strip.width)**2 - strip.side**2


class TestRefusals:
    def test_a_cube_root_makes_no_squares(self):
        worked = machine()
        working = methods.cube_root(worked, 729)
        assert trouble(worked, lambda: gnomons_of(working)) == (
            "∛729 was not worked by taking odd numbers away: a turn took 7, which is no strip of width 1 round a "
            "square of side 1")

    @pytest.mark.parametrize("other", [lambda m: methods.divide(m, 2165, 37), lambda m: methods.multiply(m, 12, 11),
                                       lambda m: methods.divide(m, 2165, 37, method="without putting back")])
    def test_neither_does_a_quotient_or_a_product(self, other):
        worked = machine()
        working = other(worked)
        assert "was not worked by taking odd numbers away" in trouble(worked, lambda: gnomons_of(working))

    def test_what_is_no_working(self):
        worked = machine()
        assert trouble(worked, lambda: gnomons_of(7)) == "strips are read from a Working, not from 7"


def test_ways_of_rooting():
    """√529: 5 strips and a turn to put the number in; two turns more a figure; four more to put it in five times."""
    comparison = methods.compare("slate", ways_of_rooting(529))
    assert [(trial.label, trial.answer, trial.cost.turns) for trial in comparison.trials] == [
        ("compare first", 23, 6), ("restoring", 23, 10), ("five times", 23, 10)]
