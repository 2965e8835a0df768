"""Cube roots by the differences of cubes."""

from __future__ import annotations

from decimal import Decimal

import mpmath
import pytest
from hypothesis import given, strategies as st
from mechanism.machines import specs

from mechcalc import CapacityError, Machine, methods
from mechcalc.methods import algebra
from mechcalc.methods.cube_roots import integer_cube_root

from .helpers import check_lines, machine, numbers, refused


class TestDifferences:
    def test_a_single_figure_takes_off_1_7_19_37(self):
        """OEIS A003215 (centred hexagonal numbers), from memory: 1, 7, 19, 37, 61, 91, 127, …"""
        working = methods.cube_root(machine(), 343)
        settings = [stroke.reading.setting for stroke in working.strokes if stroke.operation == "set"]
        assert settings == [343, 1, 7, 19, 37, 61, 91, 127]
        assert (working.answer, working.remainder) == (7, 0)
        check_lines(working)

    def test_the_slip_of_paper_is_in_the_words_and_in_the_algebra(self):
        working = methods.cube_root(machine(), 12167)
        assert [(line.words, line.algebra) for line in working.lines if "slip" in line.words] == [
            ("On the slip: 3 × 0² + 3 × 0 + 1 is 1. Set 100 on the levers.", "(3 × 0² + 3 × 0 + 1) × 10² = 100"),
            ("On the slip: 1 and 6 × 1 is 7. Set 700 on the levers.", "(1 + 6 × 1) × 10² = 700"),
            ("On the slip: 3 × 20² + 3 × 20 + 1 is 1261. Set 1261 on the levers.", "3 × 20² + 3 × 20 + 1 = 1261"),
            ("On the slip: 1261 and 6 × 21 is 1387. Set 1387 on the levers.", "1261 + 6 × 21 = 1387"),
            ("On the slip: 1387 and 6 × 22 is 1519. Set 1519 on the levers.", "1387 + 6 × 22 = 1519")]
        assert working.answer == 23
        check_lines(working)

    def test_restoring_hears_the_bell(self):
        working = methods.cube_root(machine(), 12167, method="restoring")
        assert (working.answer, working.remainder, working.turns) == (23, 0, 1 + 2 + 3 + 2 * 2)
        check_lines(working)

    def test_the_law_behind_it(self):
        assert algebra.holds(algebra.sum_of_cube_differences())


class TestAgainstOtherArithmetic:
    @pytest.mark.parametrize(("number", "published"), [(2, "1.2599210498948731647672106073"),
                                                       (10, "2.1544346900318837217592935665")])
    def test_five_figures_on_the_largest_machine(self, number, published):
        """Recomputed outside the project with mpmath."""
        working = methods.cube_root(machine("ledger"), number, places=4)
        assert working.value == Decimal(published[:6])
        assert working.answer**3 + working.remainder == number * 10**12

    @given(specs(), numbers, st.integers(0, 1), st.sampled_from(["compare first", "restoring"]))
    def test_on_any_machine_the_root_is_right_or_it_is_refused_for_a_reason(self, spec, number, places, method):
        """Oracle: mpmath's cube root to 40 digits, rounded down with a check by cubing."""
        number %= 10**min(10, spec.result_places)
        worked = Machine(spec)
        radicand = number * 1000**places
        with mpmath.workdps(40):
            root = int(mpmath.cbrt(radicand) + mpmath.mpf("1e-20"))
        assert root**3 <= radicand < (root + 1)**3
        last = 1 if method == "restoring" else 0  # the turn too many is set, and must not hang over the end
        heads = [(int(str(root)[:k]) + last, len(str(root)) - k) for k in range(1, len(str(root)) + 1)]
        cubes = [(head**3 - (head - 1)**3 if head else 0, place) for head, place in heads]
        fits = (max(number * 100**place for number, place in cubes) < 10**spec.setting_places
                and max([radicand, *(number * 1000**place for number, place in cubes)]) < 10**spec.result_places
                and radicand < 10**(spec.positions - 1 + spec.setting_places)
                and len(str(root)) <= min(spec.positions, spec.counter_places))
        try:
            working = methods.cube_root(worked, number, places=places, method=method)
        except CapacityError as no:
            assert worked.strokes == ()
            assert (no.register == "carry reach") == fits  # noqa: PT017 (it need not be refused)
            assert not fits or spec.carry_reach < spec.result_places
            return
        assert fits
        assert (working.answer, working.remainder) == (root, radicand - root**3)
        check_lines(working, by_sympy=False)

    @given(st.integers(0, 10**60))
    def test_the_whole_cube_root(self, number):
        root = integer_cube_root(number)
        assert root**3 <= number < (root + 1)**3


class TestRefusals:
    def test_the_differences_take_about_twice_as_many_levers_as_the_root_has_figures(self):
        worked = machine("slate")
        no = refused(worked, lambda: methods.cube_root(worked, 970_299))
        assert str(no) == ("∛970299 does not fit this machine: the setting is short by 1 place (29107 takes 5 levers "
                           "of 4)")
        assert (no.register, no.short_by) == ("setting", 1)
        assert methods.cube_root(worked, 185_193).answer == 57

    @pytest.mark.parametrize(("attempt", "message"), [
        (lambda m: methods.cube_root(m, -8), "a number to take the root of cannot be -8: it goes from 0 upwards"),
        (lambda m: methods.cube_root(m, 8, method="guess"),
         "the method is 'compare first' or 'restoring', not 'guess'"),
        (lambda m: methods.cube_root(m, 8, places=1.0),
         "a number of decimals must be a whole number, not 1.0 (float)")])
    def test_bad_input(self, attempt, message):
        worked = machine()
        assert str(refused(worked, lambda: attempt(worked), ValueError)) == message
