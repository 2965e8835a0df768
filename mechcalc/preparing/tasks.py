"""The calculations that numbers can be found for: what their numbers are called, what is right, who works them.

Only this file lists them. To add one, add a row to `TASKS`: conditions, the search, its command line and worksheets
take it from there. A row without a forecast is searched by cranking alone, which is slower and finds the same.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from difflib import get_close_matches
from functools import partial
from typing import Any

from mechcalc import methods
from mechcalc.errors import InputError
from mechcalc.machine import Machine
from mechcalc.methods import Working
from mechcalc.numbers import shown
from mechcalc.preparing import plans, slips
from mechcalc.preparing.plans import Numbers, Plan
from mechcalc.preparing.slips import UsualSlip
from mechcalc.spec import MachineSpec

MOST_NUMBERS = 12  # in one calculation


@dataclass(frozen=True, slots=True)
class Exact:
    """What plain arithmetic says, without a machine.

    Attributes
    ----------
    answer : int
        Its last `places` digits are decimals; cut off, as the machine leaves it, not rounded.
    remainder : int or None
        None where the calculation has none.
    """

    answer: int
    remainder: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """A kind of calculation.

    Attributes
    ----------
    name : str
        What a wish calls it.
    says : str
        What it is, in a few words.
    slots : tuple of str
        What its numbers are called, in order.
    further : str
        What more numbers are called (``"factor"``: factor 3, factor 4, …); empty where there can be no more.
    answer_name : str
        What its answer is called, besides ``"answer"``.
    digits : tuple of int
        Usual sizes of the numbers.
    limits : tuple of str
        For each slot, which part of the machine bounds it: a key of `BOUNDS`. The last one goes for further numbers.
    exact : callable
        ``exact(numbers, places) -> Exact``.
    work : callable
        ``work(machine, numbers, places) -> Working``.
    decimals : bool
        Whether `places` may be more than 0.
    plan : callable or None
        The same by reckoning (`mechcalc.preparing.plans`): what the search forecasts with, before it cranks.
    answer_in : str
        Which part of the machine bounds the answer: a key of `BOUNDS`.
    by_heart : bool
        Whether the hand needs no look at the windows on the way: its strokes follow from the numbers alone.
    plainly, in_fewest : str
        The names of the same calculation worked plainly and in the fewest turns, where there are both.
    slips : tuple of UsualSlip
        Wrong ways that are known, and what they come to.
    """

    name: str
    says: str
    slots: tuple[str, ...]
    digits: tuple[int, ...]
    limits: tuple[str, ...]
    answer_name: str
    exact: Callable[[Numbers, int], Exact]
    work: Callable[[Machine, Numbers, int], Working]
    further: str = ""
    decimals: bool = False
    plan: Plan | None = None
    answer_in: str = "wheels"
    by_heart: bool = False
    plainly: str = ""
    in_fewest: str = ""
    slips: tuple[UsualSlip, ...] = ()

    def __reduce__(self) -> tuple[Any, ...]:
        return task, (self.name,)

    def __repr__(self) -> str:
        return f"<Task {self.name}: {self.says}>"

    def names(self, count: int) -> tuple[str, ...]:
        """What each of `count` numbers is called.

        >>> task("chain").names(3), task("divide").names(2)
        (('factor 1', 'factor 2', 'factor 3'), ('dividend', 'divisor'))
        """
        more = range(len(self.slots) + 1, count + 1)
        return (*self.slots[:count], *(f"{self.further} {number}" for number in more))

    def check_count(self, count: int) -> None:
        """Refuse a number of numbers that the calculation does not take."""
        least, most = len(self.slots), MOST_NUMBERS if self.further else len(self.slots)
        if not least <= count <= most:
            takes = f"{least} to {most} numbers" if most > least else f"{least} number{'s' * (least > 1)}"
            raise InputError(f"{self.name} takes {takes}, not {count}: {', '.join(self.names(least))}"
                             f"{', …' * (most > least)}")

    @property
    def leaves_remainder(self) -> bool:
        """Whether there is a remainder, be it nought."""
        return self.exact((1,) * len(self.slots), 0).remainder is not None

    def limit(self, slot: int) -> str:
        """The key of `BOUNDS` that bounds the number in a slot, counted from 0."""
        return self.limits[min(slot, len(self.limits) - 1)]


# How many digits a number may have, by what bounds it; and what that is called.
BOUNDS: dict[str, tuple[Callable[[MachineSpec], int], str]] = {
    "levers": (lambda spec: spec.setting_places, "levers"),
    "positions": (lambda spec: min(spec.positions, spec.counter_places), "carriage positions with a counter wheel"),
    "wheels": (lambda spec: spec.result_places, "number wheels"),
}


def _quotient(numbers: Numbers, places: int) -> Exact:
    return Exact(*divmod(numbers[0] * 10**places, numbers[1]))


def _isqrt(numbers: Numbers, places: int) -> Exact:
    radicand = numbers[0] * 100**places
    root = math.isqrt(radicand)
    return Exact(root, radicand - root**2)


def _icbrt(numbers: Numbers, places: int) -> Exact:
    radicand, low, high = numbers[0] * 1000**places, 0, 1
    while high**3 <= radicand:
        high *= 2
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if middle**3 <= radicand else (low, middle)
    return Exact(low, radicand - low**3)


def _by_reciprocal(numbers: Numbers, places: int) -> Exact:
    """The product with a reciprocal that was cut off; see `mechcalc.methods.divide_by_reciprocal`."""
    more = max(places + len(str(numbers[0])), len(str(numbers[1])))
    return Exact(numbers[0] * (10**more // numbers[1]))


def _plain(method: Callable[..., Working], /, **options: Any) -> Callable[[Machine, Numbers, int], Working]:
    return lambda machine, numbers, places: method(machine, *numbers, **options)


def _placed(method: Callable[..., Working], /, **options: Any) -> Callable[[Machine, Numbers, int], Working]:
    return lambda machine, numbers, places: method(machine, *numbers, places=places, **options)


_division = partial(Task, slots=("dividend", "divisor"), digits=(4, 2), limits=("wheels", "levers"),
                    answer_name="quotient", answer_in="positions", exact=_quotient, decimals=True,
                    slips=slips.DIVIDING)
_product = partial(Task, slots=("multiplicand", "multiplier"), digits=(3, 2), limits=("levers", "positions"),
                   answer_name="product", exact=lambda numbers, places: Exact(numbers[0] * numbers[1]), by_heart=True,
                   plainly="multiply", in_fewest="multiply by short cut")
_chain = partial(Task, slots=("factor 1", "factor 2"), further="factor", digits=(2, 2, 2),
                 limits=("levers", "positions"), answer_name="product", slips=slips.CHAINING,
                 exact=lambda numbers, places: Exact(math.prod(numbers)), plainly="chain",
                 in_fewest="chain by short cut")
_root = partial(Task, slots=("radicand",), digits=(4,), limits=("wheels",), answer_name="root", answer_in="positions",
               decimals=True)
_square_root = partial(_root, exact=_isqrt, slips=slips.SQUARE_ROOTS)
_difference = partial(Task, slots=("minuend", "subtrahend"), digits=(3, 3), limits=("levers",), by_heart=True,
                      answer_name="difference", exact=lambda numbers, places: Exact(numbers[0] - sum(numbers[1:])))

TASKS: dict[str, Task] = {task.name: task for task in (
    Task(name="add", says="a sum: each number set, and one turn", slots=("number 1", "number 2"), further="number",
         digits=(3, 3), limits=("levers",), answer_name="sum", by_heart=True, plan=plans.add, slips=slips.ADDING,
         exact=lambda numbers, places: Exact(sum(numbers)), work=_plain(methods.add)),
    _difference(name="subtract", says="a difference, by subtractive turns", further="subtrahend",
                plan=plans.subtract, slips=slips.TAKING_AWAY, work=_plain(methods.subtract)),
    _difference(name="subtract by complement", says="a difference, by adding the ten's complement",
                plan=plans.subtract_by_complement, slips=slips.COMPLEMENTS,
                work=_plain(methods.subtract_by_complement)),
    _product(name="multiply", says="a product, by shifting", plan=plans.multiply, slips=slips.MULTIPLYING,
             work=_plain(methods.multiply)),
    _product(name="multiply by short cut", says="a product in the fewest turns", plan=plans.multiply_by_short_cut,
             slips=slips.SHORT_CUT, work=_plain(methods.multiply_short_cut)),
    _chain(name="chain", says="a product of several factors", plan=plans.chain, work=_plain(methods.multiply_chain)),
    _chain(name="chain by short cut", says="the same, each multiplication in the fewest turns",
           plan=plans.chain_by_short_cut, work=_plain(methods.multiply_chain, short_cut=True)),
    _division(name="divide", says="a quotient: taken away until the bell rings, and one turn put back",
              plan=plans.divide, work=_placed(methods.divide, method="restoring")),
    _division(name="divide without putting back", says="a quotient: taken away and added in turn",
              plan=partial(plans.divide, method="without putting back"),
              work=_placed(methods.divide, method="without putting back")),
    _division(name="divide comparing first", says="a quotient: the operator looks before each turn",
              plan=partial(plans.divide, method="compare first"),
              work=_placed(methods.divide, method="compare first")),
    _division(name="divide building up", says="a quotient: the dividend is built up from nought",
              plan=plans.divide_building_up, work=_placed(methods.divide_building_up)),
    _division(name="divide by reciprocal", says="a quotient: multiplied with the reciprocal, which is found first",
              exact=_by_reciprocal, answer_in="wheels", slips=(), work=_placed(methods.divide_by_reciprocal)),
    _square_root(name="square root", says="a square root by odd numbers: the operator looks before each turn",
                 plan=plans.square_root, work=_placed(methods.square_root)),
    _square_root(name="square root restoring", says="a square root by odd numbers: one turn too many, and put back",
                 plan=partial(plans.square_root, stop="restoring"),
                 work=_placed(methods.square_root, method="restoring")),
    _root(name="cube root", says="a cube root, by the differences of cubes", exact=_icbrt,
          work=_placed(methods.cube_root)),
)}


def task(name: Any) -> Task:
    """The row of `TASKS` with this name; hyphens and underscores count as spaces.

    Raises
    ------
    InputError
        There is none; with what may have been meant.

    >>> task("multiply-by-short-cut")
    <Task multiply by short cut: a product in the fewest turns>
    """
    if isinstance(name, Task):
        return name
    if not isinstance(name, str):
        raise InputError(f"a method is asked for by its name, not {shown(name)}")
    plain = " ".join(name.replace("-", " ").replace("_", " ").split()).lower()
    if plain not in TASKS:
        near = get_close_matches(plain, TASKS, n=1)
        hint = f"did you mean {near[0]!r}?" if near else f"there are {', '.join(TASKS)}"
        raise InputError(f"{shown(name)} is no method that numbers can be found for: {hint}")
    return TASKS[plain]
