"""Ready ways of doing the same calculation, for `compare`.

Only this file lists which methods stand beside each other.
"""

from __future__ import annotations

from mechcalc.methods import chains, division, roots
from mechcalc.methods.comparing import Calculation
from mechcalc.methods.multiplication import multiply, multiply_short_cut
from mechcalc.methods.quotients import divide_building_up


def ways_of_multiplying(multiplicand: int, multiplier: int) -> list[Calculation]:
    """A product plainly, from the highest place, and by the short cut; and the first and the last the other way round.

    >>> [way.label for way in ways_of_multiplying(347, 26)][-1]
    '26 × 347, short cut'
    """
    a, b = multiplicand, multiplier
    return [Calculation(f"{a} × {b}", lambda machine: multiply(machine, a, b)),
            Calculation(f"{a} × {b}, highest first", lambda machine: multiply(machine, a, b, order="highest first")),
            Calculation(f"{a} × {b}, short cut", lambda machine: multiply_short_cut(machine, a, b)),
            Calculation(f"{b} × {a}", lambda machine: multiply(machine, b, a)),
            Calculation(f"{b} × {a}, short cut", lambda machine: multiply_short_cut(machine, b, a))]


def ways_of_chaining(*factors: int) -> list[Calculation]:
    """A product of several factors: through back transfer and by hand, plainly and by the short cut.

    >>> [way.label for way in ways_of_chaining(12, 34, 56)][:2]
    ['back transfer', 'back transfer, short cut']
    """
    def one(way: str, short_cut: bool) -> Calculation:
        return Calculation(way + (", short cut" if short_cut else ""),
                           lambda machine: chains.multiply_chain(machine, *factors, way=way, short_cut=short_cut))
    return [one(way, short_cut) for way in chains.WAYS for short_cut in (False, True)]


def ways_of_dividing(dividend: int, divisor: int, places: int = 0) -> list[Calculation]:
    """A quotient by each of the methods of `divide`, and by building the dividend up.

    >>> from mechcalc.methods import compare
    >>> compare("bench", ways_of_dividing(355, 113, 4)).best.label
    'building up'
    """
    def one(method: str) -> Calculation:
        return Calculation(method, lambda machine: division.divide(machine, dividend, divisor, places=places,
                                                                   method=method))
    return [*(one(method) for method in division.WAYS),
            Calculation("building up", lambda machine: divide_building_up(machine, dividend, divisor, places=places))]


def ways_of_rooting(number: int, places: int = 0) -> list[Calculation]:
    """A square root with comparing, with putting back, and from five times the number.

    >>> from mechcalc.methods import compare
    >>> compare("slate", ways_of_rooting(529)).best.label
    'compare first'
    """
    return [Calculation("compare first", lambda machine: roots.square_root(machine, number, places=places)),
            Calculation("restoring", lambda machine: roots.square_root(machine, number, places=places,
                                                                       method="restoring")),
            Calculation("five times", lambda machine: roots.square_root(machine, number, places=places,
                                                                        five_times=True))]
