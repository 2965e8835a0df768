"""An equation between whole numbers, kept as a small tree: written as text, as LaTeX, or handed to sympy.

Only this file knows how a sum is written. Text, LaTeX and sympy's equation come from one tree, so that they cannot
disagree. sympy is imported when it is first asked for.
"""

from __future__ import annotations

import operator
from collections.abc import Callable
from dataclasses import dataclass
from functools import reduce
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    import sympy

# A node is a whole number, or (sign, left, right) with one of the signs below.
Node = int | tuple[str, Any, Any]

SUPERSCRIPTS = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")


@dataclass(frozen=True, slots=True)
class Sign:
    """How one sign of arithmetic is written and worked.

    Attributes
    ----------
    rank : int
        The higher binds the more tightly.
    text, latex : str
        With ``{a}`` and ``{b}`` for the two sides.
    work : callable
        The same on Python's integers.
    build : callable
        ``(sympy, a, b)``: the same as an expression that sympy leaves as it is written.
    """

    rank: int
    text: str
    latex: str
    work: Callable[[int, int], int]
    build: Callable[[Any, Any, Any], Any]


SIGNS: dict[str, Sign] = {
    "+": Sign(1, "{a} + {b}", "{a} + {b}", operator.add, lambda s, a, b: s.Add(a, b, evaluate=False)),
    "-": Sign(1, "{a} − {b}", "{a} - {b}", operator.sub,
              lambda s, a, b: s.Add(a, s.Mul(-1, b, evaluate=False), evaluate=False)),
    "*": Sign(2, "{a} × {b}", r"{a} \times {b}", operator.mul, lambda s, a, b: s.Mul(a, b, evaluate=False)),
    "mod": Sign(3, "{a} mod {b}", r"{a} \bmod {b}", operator.mod, lambda s, a, b: s.Mod(a, b, evaluate=False)),
    "floor": Sign(4, "⌊{a} / {b}⌋", r"\left\lfloor {a} / {b} \right\rfloor", operator.floordiv,
                  lambda s, a, b: s.floor(s.Mul(a, s.Pow(b, -1, evaluate=False), evaluate=False), evaluate=False)),
    "^": Sign(4, "{a}{b}", "{a}^{{{b}}}", operator.pow, lambda s, a, b: s.Pow(a, b, evaluate=False)),
}


def power_of_ten(place: int) -> Node:
    """10 to the power `place`, as one writes it: 10 itself has no exponent.

    >>> written(power_of_ten(1)), written(power_of_ten(12))
    ('10', '10¹²')
    """
    return 10 if place == 1 else ("^", 10, place)


def scaled(number: int, place: int) -> Node:
    """`number` at `place`: the number alone at the units.

    >>> written(scaled(347, 0)), written(scaled(347, 2))
    ('347', '347 × 10²')
    """
    return number if place == 0 else ("*", number, power_of_ten(place))


def scaled_down(number: int, place: int) -> Node:
    """`number` without its lowest `place` digits: the number alone where there are none to drop.

    >>> written(scaled_down(72054, 0)), written(scaled_down(72054, 2)), worked(scaled_down(72054, 2))
    ('72054', '⌊72054 / 10²⌋', 720)
    """
    return number if place == 0 else ("floor", number, power_of_ten(place))


def total(terms: list[Node]) -> Node:
    """Terms joined by plus signs; 0 where there are none.

    >>> written(total([scaled(2, 1), scaled(6, 0)]))
    '2 × 10 + 6'
    """
    return reduce(lambda a, b: ("+", a, b), terms) if terms else 0


def written(node: Node, latex: bool = False) -> str:
    """The node as plain text in Unicode, or as LaTeX.

    >>> written(("mod", ("-", 12, 34), power_of_ten(6)))
    '(12 − 34) mod 10⁶'
    >>> written(("+", -1, ("*", 5, -2)))
    '−1 + 5 × (−2)'
    >>> written(("mod", ("floor", ("+", 12, 34), 10), 3))
    '⌊(12 + 34) / 10⌋ mod 3'
    """
    if isinstance(node, int):
        return str(node) if latex else str(node).replace("-", "−")
    name, left, right = node
    sign = SIGNS[name]
    a = _wrapped(left, sign.rank, latex, negative=sign.rank > 1)
    b = _wrapped(right, sign.rank + (name == "-"), latex, negative=True)
    if name == "^" and not latex:
        b = b.translate(SUPERSCRIPTS)
    return (sign.latex if latex else sign.text).format(a=a, b=b)


def _wrapped(node: Node, rank: int, latex: bool, negative: bool) -> str:
    """In brackets where the sign outside binds more tightly; a number below nought where `negative` says so."""
    text = written(node, latex)
    loose = node < 0 and negative if isinstance(node, int) else SIGNS[node[0]].rank < rank
    return f"({text})" if loose else text


def worked(node: Node) -> int:
    """What the node comes to, by Python's integers.

    >>> worked(("mod", ("-", 12, 34), power_of_ten(6)))
    999978
    """
    if isinstance(node, int):
        return node
    name, left, right = node
    return SIGNS[name].work(worked(left), worked(right))


def as_sympy(node: Node) -> sympy.Expr:
    """The node as a sympy expression that is left as it is written."""
    import sympy as s
    if isinstance(node, int):
        return s.Integer(node)
    name, left, right = node
    return SIGNS[name].build(s, as_sympy(left), as_sympy(right))


@dataclass(frozen=True, slots=True)
class Equality:
    """Two nodes said to be equal; whether they are is another question (`holds`).

    >>> line = Equality(("+", 2082, scaled(347, 1)), 5552)
    >>> print(line)
    2082 + 347 × 10 = 5552
    >>> line.equation()
    Eq(2082 + 347*10, 5552)
    >>> line.holds(), Equality(("+", 2, 2), 5).holds()
    (True, False)
    """

    left: Node
    right: Node

    def __str__(self) -> str:
        return f"{written(self.left)} = {written(self.right)}"

    @property
    def latex(self) -> str:
        """For a formula in a notebook."""
        return f"{written(self.left, latex=True)} = {written(self.right, latex=True)}"

    def equation(self) -> sympy.Eq:
        """Sympy's equation, not evaluated."""
        import sympy as s
        return s.Eq(as_sympy(self.left), as_sympy(self.right), evaluate=False)

    def holds(self) -> bool:
        """Whether both sides come to the same, by sympy."""
        equation = self.equation()
        return bool(equation.lhs.doit() == equation.rhs.doit())
