"""Why the methods are right, in sympy.

Only this file turns a whole calculation into algebra (each single line has its own equation). The equations are left
as they are written; `holds` checks one. Importing this module imports sympy.
"""

from __future__ import annotations

from itertools import groupby

import sympy

from mechcalc.methods.complement import tens_complement, wrapped
from mechcalc.methods.equality import Equality, Node, as_sympy, power_of_ten, total
from mechcalc.methods.short_cut import plain_digits
from mechcalc.methods.working import Working
from mechcalc.numbers import from_digits


def holds(equation: sympy.Eq) -> bool:
    """Whether both sides are equal, for all values of any symbols in it.

    >>> x = sympy.Symbol("x")
    >>> holds(sympy.Eq((x + 1)**2, x**2 + 2*x + 1)), holds(sympy.Eq(x, x + 1))
    (True, False)
    """
    if isinstance(equation, (bool, sympy.logic.boolalg.BooleanAtom)):
        return bool(equation)
    return bool(sympy.simplify(equation.lhs.doit() - equation.rhs.doit()) == 0)


def partial_products(multiplicand: int, multiplier: int, digits: tuple[int, ...] | None = None) -> Equality:
    """A product as a sum over powers of ten, highest first.

    Parameters
    ----------
    digits : tuple of int, optional
        How the multiplier is cut into turns, units first; its own digits unless given.

    Examples
    --------
    >>> print(partial_products(347, 26))
    347 × 2 × 10 + 347 × 6 = 9022
    >>> from mechcalc.methods import signed_digits
    >>> print(partial_products(347, 98, signed_digits(98)))
    347 × 1 × 10² + 347 × (−2) = 34006
    >>> partial_products(347, 26).holds()
    True
    """
    digits = plain_digits(multiplier) if digits is None else digits
    terms: list[Node] = [_term(multiplicand, digit, place) for place, digit in enumerate(digits) if digit]
    return Equality(total(terms[::-1]), multiplicand * multiplier)


def _term(number: int, turns: int, place: int) -> Node:
    product: Node = ("*", number, turns)
    return product if place == 0 else ("*", product, power_of_ten(place))


def place_value_sum(places: int) -> sympy.Eq:
    """The law behind `partial_products`: a number times digits d_k is the sum of the partial products.

    >>> place_value_sum(2)
    Eq(a*(d0 + 10*d1), a*d0 + 10*a*d1)
    >>> holds(place_value_sum(4))
    True
    """
    a, digits = sympy.Symbol("a"), sympy.symbols(f"d:{places}")
    return sympy.Eq(a * sum(digit * 10**place for place, digit in enumerate(digits)),
                    sum(a * digit * 10**place for place, digit in enumerate(digits)), evaluate=False)


def complement_congruence(number: int, places: int) -> sympy.Eq:
    """A number's ten's complement as a congruence: it and minus the number differ by a multiple of 10^places.

    >>> complement_congruence(225, 4)
    Eq(Mod(-225, 10**4), 9775)
    >>> holds(complement_congruence(225, 4))
    True
    """
    left = as_sympy(("mod", -number, ("^", 10, places)))
    return sympy.Eq(left, tens_complement(number, places), evaluate=False)


def complement_subtraction() -> sympy.Eq:
    """Why adding the complement takes away: a + (10^p - b) = 10^p + (a - b).

    >>> complement_subtraction()
    Eq(10**p + a - b, 10**p + (a - b))
    >>> holds(complement_subtraction())
    True
    """
    a, b, p = sympy.symbols("a b p", integer=True)
    return sympy.Eq(a + (10**p - b), sympy.Add(10**p, a - b, evaluate=False), evaluate=False)


def turns_as_sum(working: Working) -> Equality:
    """All turns of a working in one equation: setting times turns times the carriage's power of ten, added up.

    The left-hand side begins with what the result stood for, if that was not nought (in `subtract_by_complement`, with
    the power of ten that is struck off); the right-hand side is the working's answer. Where the answer is read
    elsewhere, as the quotient in the counter, the right-hand side is what the result stands for at the end. What
    happened before the result was last cleared is left out.

    Examples
    --------
    >>> from mechcalc import Machine, load_spec
    >>> from mechcalc.methods import multiply_short_cut, subtract
    >>> print(turns_as_sum(multiply_short_cut(Machine(load_spec("bench")), 347, 98)))
    347 × 1 × 10² + 347 × (−2) = 34006
    >>> print(turns_as_sum(subtract(Machine(load_spec("bench")), 12, 34)))
    12 × 1 + 34 × (−1) = −22
    >>> from mechcalc.methods import subtract_by_complement
    >>> print(turns_as_sum(subtract_by_complement(Machine(load_spec("slate")), 1000, 225)))
    −10000 + 1000 × 1 + 9775 × 1 = 775
    >>> from mechcalc.methods import divide
    >>> print(turns_as_sum(divide(Machine(load_spec("slate")), 22, 7, places=2)))
    22 × 1 × 10² + 7 × (−3) × 10² + 7 × (−1) × 10 + 7 × (−4) = 2
    """
    last = max((number for number, stroke in enumerate(working.strokes)
                if stroke.operation in ("clear result", "back transfer")), default=-1)
    cranked = [stroke for stroke in working.strokes[last + 1:] if stroke.operation == "crank"]
    terms: list[Node] = []
    lost = sum(wrapped(working.spec, stroke) for stroke in cranked)
    elsewhere = working.remainder is not None or working.error_bound is not None
    answer = working.end.reading.result + lost if elsewhere else working.answer
    owed = answer - working.end.reading.result - lost
    begun = owed + (cranked[0].before if cranked else working.end).reading.result
    if begun:
        terms.append(begun)
    for (setting, place), strokes in groupby(cranked, key=lambda s: (from_digits(s.before.setting), s.before.carriage)):
        terms.append(_term(setting, sum(1 if stroke.argument > 0 else -1 for stroke in strokes), place))
    return Equality(total(terms), answer)


def two_figures_without_putting_back() -> sympy.Eq:
    """Why a division without putting back comes right: one turn too many at q, and p made up from ten.

    >>> two_figures_without_putting_back()
    Eq(-(10 - p) + (10*q + 10), p + 10*q)
    >>> holds(two_figures_without_putting_back())
    True
    """
    p, q = sympy.symbols("p q")
    left = sympy.Add(10 * q + 10, sympy.Mul(-1, 10 - p, evaluate=False), evaluate=False)
    return sympy.Eq(left, 10 * q + p, evaluate=False)


def sum_of_odd_numbers() -> sympy.Eq:
    """The law behind `square_root`: with r found, the next q odd numbers make up (10 r + q)² - (10 r)².

    >>> sum_of_odd_numbers()
    Eq(Sum(2*j + 20*r - 1, (j, 1, q)), -100*r**2 + (q + 10*r)**2)
    >>> holds(sum_of_odd_numbers())
    True
    """
    j, q, r = sympy.symbols("j q r", integer=True, nonnegative=True)
    return sympy.Eq(sympy.Sum(20 * r + 2 * j - 1, (j, 1, q)), (10 * r + q)**2 - (10 * r)**2, evaluate=False)


def sum_of_cube_differences() -> sympy.Eq:
    """The law behind `cube_root`: with r found, the next q differences make up (10 r + q)³ - (10 r)³.

    >>> holds(sum_of_cube_differences())
    True
    """
    j, q, r = sympy.symbols("j q r", integer=True, nonnegative=True)
    k = 10 * r + j
    return sympy.Eq(sympy.Sum(3 * k**2 + 3 * k + 1, (j, 0, q - 1)), (10 * r + q)**3 - (10 * r)**3, evaluate=False)
