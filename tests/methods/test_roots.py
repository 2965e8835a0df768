"""Square roots by odd numbers."""

from __future__ import annotations

from decimal import Context, Decimal, ExtendedContext
from math import isqrt

import mpmath
import pytest
from hypothesis import given, strategies as st
from mechanism.machines import specs

from mechcalc import CapacityError, Machine, MachineSpec, methods
from mechcalc.methods import algebra

from .helpers import check_lines, machine, numbers, refused
from .test_division import WIDE

# OEIS A002193 (read); for 3 and 5 recomputed outside the project with mpmath.
PUBLISHED = {2: "1.4142135623730950488016887242096980785696", 3: "1.7320508075688772935274463415",
             5: "2.2360679774997896964091736687"}


def taken_off(working):
    """What each subtractive turn takes away, in units of its own place: the odd numbers."""
    odd = []
    for stroke in working.strokes:
        if stroke.operation == "crank" and stroke.argument < 0:
            place = stroke.before.carriage
            odd.append(stroke.before.reading.setting // 10**place)
    return odd


class TestOddNumbers:
    def test_54756_takes_off_odd_numbers_and_leaves_234(self):
        """1, 3, 41, 43, 45, 461, 463, 465, 467 → 234: recomputed outside the project."""
        worked = machine()
        working = methods.square_root(worked, 54756)
        assert taken_off(working) == [1, 3, 41, 43, 45, 461, 463, 465, 467]
        assert (working.answer, working.remainder, worked.counter, worked.setting) == (234, 0, 234, 467)
        check_lines(working)

    def test_doubling_is_raising_the_last_odd_number_by_one(self):
        working = methods.square_root(machine(), 54756)
        doubling = [line for line in working.lines if "Raised" in line.words]
        assert [(line.words, line.algebra) for line in doubling] == [
            ("Lever 3 from 3 to 4. Raised by one, the odd number is 4: twice the root so far.", "300 + 1 × 10² = 400"),
            ("Lever 2 from 5 to 6. Raised by one, the odd number is 46: twice the root so far.", "450 + 1 × 10 = 460")]

    def test_only_levers_that_change_are_moved(self):
        """The two settings are the number itself and the first odd number; 9 to 11 moves two levers."""
        working = methods.square_root(machine(), 81 * 81)
        assert working.settings == 2
        assert [line.words for line in working.lines if "Lever" in line.words] == [
            "Lever 2 from 1 to 3. The odd number 3.", "Lever 2 from 3 to 5. The odd number 5.",
            "Lever 2 from 5 to 7. The odd number 7.", "Lever 2 from 7 to 9. The odd number 9.",
            "Lever 3 from 0 to 1.", "Lever 2 from 9 to 1. The odd number 11.",
            "Lever 2 from 1 to 3. The odd number 13.", "Lever 2 from 3 to 5. The odd number 15.",
            "Lever 2 from 5 to 6. Raised by one, the odd number is 16: twice the root so far.",
            "Lever 1 from 0 to 1. The odd number 161."]

    def test_restoring_hears_the_bell_and_lowers_by_one(self):
        worked = machine()
        working = methods.square_root(worked, 54756, method="restoring")
        assert taken_off(working) == [1, 3, 5, 41, 43, 45, 47, 461, 463, 465, 467, 469]
        assert (working.answer, working.remainder, worked.counter, worked.setting) == (234, 0, 234, 468)
        assert working.remark.endswith("The levers show 468, twice the root.")
        assert working.turns == 1 + 9 + 2 * 3
        check_lines(working)

    def test_ten_figures_of_the_root_of_two(self):
        """√(2·10^18) = 1414213562, remainder 1055272156, 29 subtractions, last odd number 2828427123: recomputed
        outside the project."""
        worked = machine("ledger")
        working = methods.square_root(worked, 2 * 10**18)
        odd = taken_off(working)
        assert (working.answer, working.remainder, len(odd), odd[-1]) == (1414213562, 1055272156, 29, 2828427123)
        assert (worked.counter, worked.result, worked.setting) == (1414213562, 1055272156, 2828427123)
        assert str(algebra.turns_as_sum(working)).endswith("+ 2828427123 × (−1) = 1055272156")
        assert algebra.turns_as_sum(working).holds()

    def test_noughts_in_the_root_are_shifted_past(self):
        working = methods.square_root(machine(), 1002 * 1002)
        assert (working.answer, working.turns) == (1002, 1 + 3)
        assert taken_off(working) == [1, 2001, 2003]

    @pytest.mark.parametrize("number", [0, 1, 2, 3, 4, 8, 9, 10, 99, 100])
    def test_small_numbers(self, number):
        for method in ("compare first", "restoring"):
            for five in (False, True):
                working = methods.square_root(machine(), number, method=method, five_times=five)
                assert working.answer == isqrt(number)
                assert working.remainder == number - isqrt(number)**2
                check_lines(working)


class TestToTheFullRegister:
    @pytest.mark.parametrize("number", PUBLISHED)
    def test_as_many_figures_as_the_largest_machine_has_levers_for_double_the_root(self, number):
        working = methods.square_root(machine("ledger"), number, places=9)
        assert working.value == Decimal(PUBLISHED[number][:11])
        worked = machine("ledger")
        assert refused(worked, lambda: methods.square_root(worked, number, places=10)).register == "setting"

    @pytest.mark.parametrize("number", PUBLISHED)
    def test_and_nine_more_by_dividing_the_remainder_by_double_the_root(self, number):
        working = methods.square_root(machine("ledger"), number, places=9, further=9)
        published = Decimal(PUBLISHED[number])
        found = Decimal(working.answer).scaleb(-18)
        assert abs(found - published) < Decimal("1e-18")
        assert working.error_bound == Decimal("1e-18")
        assert str(found) == PUBLISHED[number][:20]
        assert working.remainder is None
        check_lines(working)

    def test_the_root_is_written_down_before_the_counter_is_cleared(self):
        working = methods.square_root(machine("ledger"), 2, places=9, further=9)
        assert working.remark == (
            "The root was 1.414213562, remainder 0.000000001055272156. The remainder divided by twice the root gives 9 "
            "figures more: the counter shows 373095048. The root is 1.414213562373095048; its last figure may be out "
            "by one.")

    def test_a_square_has_no_further_figures(self):
        working = methods.square_root(machine(), 49, places=2, further=2)
        assert (working.headline, working.places) == ("√49 = 7.00, remainder 0.0000", 2)

    @given(st.integers(1, 10**6), st.integers(0, 2), st.integers(0, 3), st.booleans())
    def test_further_figures_are_within_one_unit(self, number, places, further, five):
        """Oracle: decimal's square root to 60 digits."""
        root = isqrt(number * 100**places)
        if 10**further > 2 * root:
            return
        working = methods.square_root(Machine(WIDE), number, places=places, further=further, five_times=five)
        exact = Context(prec=60).sqrt(Decimal(number))
        found = Decimal(working.answer).scaleb(-working.places)
        assert abs(found - exact) < (Decimal(1).scaleb(-places - further))
        check_lines(working, by_sympy=False)


class TestFiveTimes:
    def test_the_pairs_for_two(self):
        """(10,5) (5,15) (500,105) (395,115) (280,125) (155,135) (20,145) (2000,1405) …: F. Jarvis, "Square roots by
        subtraction". A pair whose first is the smaller is not turned."""
        working = methods.square_root(machine("ledger"), 2, places=3, five_times=True)
        pairs = []
        for stroke in working.strokes:
            if stroke.operation == "crank" and stroke.argument < 0:
                place = stroke.before.carriage
                pairs.append((stroke.before.reading.result // 100**place, stroke.before.reading.setting // 10**place))
        assert pairs[:6] == [(10, 5), (500, 105), (395, 115), (280, 125), (155, 135), (2000, 1405)]

    def test_the_levers_show_the_root_and_a_five(self):
        worked = machine("ledger")
        working = methods.square_root(worked, 2, places=8, five_times=True)
        assert (worked.setting, worked.counter, working.answer) == (1414213565, 141421356, 141421356)
        assert working.remark.endswith("The levers show 1414213565: the root, and the 5 behind it.")

    def test_five_turns_put_five_times_the_number_in(self):
        working = methods.square_root(machine(), 54756, five_times=True)
        assert [line.algebra for line in working.lines if "Turn 5 of 5" in line.words] == ["219024 + 54756 = 273780"]
        assert working.turns == 5 + 2 + 3 + 4
        assert not any("Raised" in line.words for line in working.lines)


class TestAgainstOtherArithmetic:
    @given(specs(), numbers, st.integers(0, 2), st.sampled_from(["compare first", "restoring"]), st.booleans())
    def test_on_any_machine_the_root_is_right_or_it_is_refused_for_a_reason(self, spec, number, places, method, five):
        """Oracle: math.isqrt. With carries all along it is refused only where a register is short."""
        number %= 10**min(12, spec.result_places)
        worked = Machine(spec)
        radicand = number * 100**places
        root = isqrt(radicand)
        times, figures = 5 if five else 1, len(str(root))
        too_many = [times * (int(str(root)[:k]) * 2 + 1) * 100**(figures - k) for k in range(1, figures + 1)]
        largest = max(radicand * times, *(too_many if method == "restoring" else [0]))
        widest = root * 10 + 5 if five else 2 * root + (method == "restoring")
        fits = (widest < 10**spec.setting_places and radicand < 10**(spec.positions - 1 + spec.setting_places)
                and largest < 10**spec.result_places and figures <= min(spec.positions, spec.counter_places))
        try:
            working = methods.square_root(worked, number, places=places, method=method, five_times=five)
        except CapacityError as no:
            assert worked.strokes == ()
            assert (no.register == "carry reach") == fits  # noqa: PT017 (it need not be refused)
            assert not fits or spec.carry_reach < spec.result_places
            return
        assert fits
        assert (working.answer, working.remainder) == (root, radicand - root**2)
        check_lines(working, by_sympy=False)

    def test_the_examples_of_decimal_arithmetic(self):
        """sqrt(100) = 10, sqrt(7) = 2.64575131, sqrt(10) = 3.16227766, sqrt(2) = 1.41421356: docstrings of CPython's
        decimal, which rounds half even; here the last figure is cut off and the remainder decides."""
        assert methods.square_root(machine("ledger"), 100).answer == 10
        for number, shows in ((7, "2.64575131"), (10, "3.16227766"), (2, "1.41421356")):
            working = methods.square_root(machine("ledger"), number, places=8)
            half_up = working.answer + (working.remainder > working.answer)
            assert Decimal(half_up).scaleb(-8) == Decimal(shows) == ExtendedContext.sqrt(number)

    def test_against_mpmath_on_the_ledger(self):
        with mpmath.workdps(30):
            for number in (6, 7, 8, 10, 11, 12, 13, 17, 19):
                working = methods.square_root(machine("ledger"), number, places=8)
                assert working.answer == int(mpmath.floor(mpmath.sqrt(number) * 10**8))

    def test_the_laws_behind_it(self):
        assert algebra.holds(algebra.sum_of_odd_numbers())


class TestRefusals:
    @pytest.mark.parametrize(("attempt", "register", "short_by", "reason"), [
        (lambda m: methods.square_root(m, 1_000_000), "setting", 1, "the root takes 4 counter wheels of 3"),
        (lambda m: methods.square_root(m, 2, places=3), "setting", 1, "2000000 takes 7 number wheels of 6"),
        (lambda m: methods.square_root(m, 250_000, five_times=True), "result", 1, "1250000 takes 7 number wheels"),
        (lambda m: methods.square_root(m, 25, places=6), "setting", 8, "250000000000 takes 12 levers of 4")])
    def test_which_register_and_by_how_much(self, attempt, register, short_by, reason):
        worked = machine("slate")
        no = refused(worked, lambda: attempt(worked))
        assert (no.register, no.short_by) == (register, short_by)
        assert reason in str(no)

    def test_five_times_the_number_may_be_too_much_where_the_number_is_not(self):
        assert methods.square_root(machine("slate"), 250_000).answer == 500

    def test_the_turn_too_many_must_not_hang_over_the_end(self):
        worked = Machine(MachineSpec(setting_places=2, result_places=1, counter_places=1, carry_reach=2))
        no = refused(worked, lambda: methods.square_root(worked, 1, five_times=True, method="restoring"))
        assert str(no) == ("√1 does not fit this machine: the result is short by 1 place (15 takes 2 number wheels of "
                           "1)")
        assert methods.square_root(worked, 1, five_times=True).answer == 1

    def test_double_the_root_takes_a_lever_more(self):
        worked = Machine(MachineSpec(setting_places=3, result_places=6, counter_places=4, carry_reach=6))
        no = refused(worked, lambda: methods.square_root(worked, 640_000))
        assert str(no) == ("√640000 does not fit this machine: the setting is short by 1 place (1600 takes 4 levers of "
                           "3)")
        assert methods.square_root(worked, 240_000).answer == 489

    @pytest.mark.parametrize(("attempt", "message"), [
        (lambda m: methods.square_root(m, -1), "a number to take the root of cannot be -1: it goes from 0 upwards"),
        (lambda m: methods.square_root(m, 2.0), "a number to take the root of must be a whole number, not 2.0 (float)"),
        (lambda m: methods.square_root(m, 2, places=-1), "a number of decimals cannot be -1: it goes from 0 to 40"),
        (lambda m: methods.square_root(m, 2, method="without putting back"),
         "the method is 'compare first' or 'restoring', not 'without putting back'"),
        (lambda m: methods.square_root(m, 2, places=2, further=3),
         "3 further decimals would not come right: with 282, twice the root, as divisor, there can be 2"),
        (lambda m: methods.square_root(None, 2), "a method works a Machine, not None")])
    def test_bad_input(self, attempt, message):
        worked = machine()
        assert str(refused(worked, lambda: attempt(worked), ValueError)) == message
