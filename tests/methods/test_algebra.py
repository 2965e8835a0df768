"""Whole calculations as algebra: sympy agrees, and would not agree to anything else."""

from __future__ import annotations

import pytest
import sympy
from hypothesis import given, strategies as st

from mechcalc import methods
from mechcalc.methods import algebra, signed_digits
from mechcalc.methods.equality import Equality, worked, written

from .helpers import machine


class TestEqualities:
    @pytest.mark.parametrize(("node", "text", "latex", "comes_to"), [
        (("-", 5, ("-", 3, 1)), "5 − (3 − 1)", "5 - (3 - 1)", 3),
        (("-", ("-", 5, 3), 1), "5 − 3 − 1", "5 - 3 - 1", 1),
        (("*", ("+", 1, 2), ("^", 10, 12)), "(1 + 2) × 10¹²", r"(1 + 2) \times 10^{12}", 3 * 10**12),
        (("mod", ("-", 12, 34), ("^", 10, 6)), "(12 − 34) mod 10⁶", r"(12 - 34) \bmod 10^{6}", 999978),
        (("*", 347, -2), "347 × (−2)", r"347 \times (-2)", -694)])
    def test_text_latex_and_value_come_from_one_tree(self, node, text, latex, comes_to):
        assert (written(node), written(node, latex=True), worked(node)) == (text, latex, comes_to)
        assert Equality(node, comes_to).holds()
        assert not Equality(node, comes_to + 1).holds()

    def test_the_equation_is_left_as_it_is_written(self):
        equation = Equality(("+", 2, 2), 4).equation()
        assert isinstance(equation, sympy.Eq)
        assert equation.lhs.args == (2, 2)

    trees = st.recursive(st.integers(-99, 99), lambda inner: st.tuples(st.sampled_from("+-*"), inner, inner))

    @given(trees)
    def test_python_and_sympy_and_the_text_agree(self, node):
        assert Equality(node, worked(node)).holds()
        assert eval(written(node).replace("−", "-").replace("×", "*")) == worked(node)


class TestProducts:
    @given(st.integers(0, 10**9), st.integers(0, 10**9))
    def test_the_sum_of_partial_products_over_powers_of_ten(self, a, b):
        for digits in (None, signed_digits(b)):
            equality = algebra.partial_products(a, b, digits)
            assert equality.holds()
            assert equality.right == a * b

    def test_the_law_for_any_digits(self):
        for places in range(2, 6):
            law = algebra.place_value_sum(places)
            assert law.lhs != law.rhs
            assert algebra.holds(law)

    @given(st.integers(0, 9999), st.integers(0, 9999))
    def test_the_turns_of_a_working_add_up_to_its_answer(self, a, b):
        for method in (methods.multiply, methods.multiply_short_cut, methods.subtract, methods.add,
                       methods.subtract_by_complement):
            assert algebra.turns_as_sum(method(machine(), a, b)).holds()

    def test_what_was_kept_stands_in_front(self):
        kept = machine()
        methods.add(kept, 1000)
        assert str(algebra.turns_as_sum(methods.multiply(kept, 12, 21, keep=True))) == (
            "1000 + 12 × 1 + 12 × 2 × 10 = 1252")

    def test_what_was_kept_below_nought_stands_in_front_as_what_it_means(self):
        kept = machine()
        methods.subtract(kept, 0, 1000)
        equality = algebra.turns_as_sum(methods.add(kept, 1, keep=True))
        assert str(equality) == "−1000 + 1 × 1 = −999"
        assert equality.holds()


class TestComplements:
    @given(st.integers(1, 12), st.integers(0, 10**12))
    def test_the_congruence(self, places, number):
        number %= 10**places
        congruence = algebra.complement_congruence(number, places)
        assert algebra.holds(congruence)
        assert not algebra.holds(sympy.Eq(congruence.lhs, congruence.rhs + 1, evaluate=False))

    def test_the_law_of_subtraction_by_complement(self):
        law = algebra.complement_subtraction()
        assert algebra.holds(law)
        a, b, p = sympy.symbols("a b p", integer=True)
        at = {a: 1000, b: 225, p: 4}
        assert law.lhs.subs(at) == law.rhs.subs(at) == 10_775
