"""The search for numbers that meet a wish.

Only this file decides in which order conditions are asked and when to stop: what is cheap comes first, and the
machine is cranked only for numbers that pass everything else.
"""

from __future__ import annotations

from collections.abc import Callable

from mechcalc.errors import InputError, MechcalcError
from mechcalc.numbers import shown, whole
from mechcalc.preparing.case import Case
from mechcalc.preparing.finds import Find, Finds, Score
from mechcalc.preparing.counts import Stage
from mechcalc.preparing.spans import numbers_in_order, size
from mechcalc.preparing.wishes import Wish

BUDGET = 100_000
Progress = Callable[[int, int, int], None]


class NothingFound(MechcalcError):
    """No numbers meet the wish: which conditions cannot be met together, or what was tried.

    Attributes
    ----------
    proved : bool
        Whether all numbers were tried.
    tried : int
        How many were.
    """

    def __init__(self, message: str, proved: bool, tried: int) -> None:
        super().__init__(message, proved, tried)
        self.message, self.proved, self.tried = message, proved, tried

    def __str__(self) -> str:
        return self.message


def find(wish: Wish, many: int = 5, seed: int = 0, *, budget: int = BUDGET,
         progress: Progress | None = None) -> Finds:
    """Find numbers that meet a wish, the best first.

    Parameters
    ----------
    wish : Wish
        What is wanted.
    many : int
        How many finds, from 1; there may be fewer, and the remark then says why.
    seed : int
        Draws the order in which numbers are tried. The same seed gives the same finds on every platform and every
        Python (see `mechcalc.preparing.spans`).
    budget : int
        How many numbers are tried at most.
    progress : callable, optional
        ``progress(tried, of, found)``, now and then.

    Raises
    ------
    NothingFound
        No numbers meet the wish, or none were found.

    Examples
    --------
    >>> finds = find(Wish("multiply", digits=(3, 2), conditions=("ripple >= 4", "no nought in multiplier")), many=2)
    >>> len(finds), all(find.working.answer == find.numbers[0] * find.numbers[1] for find in finds)
    (2, True)
    """
    if not isinstance(wish, Wish):
        raise InputError(f"what is wanted is a Wish, not {shown(wish)}")
    many, seed = whole(many, "a number of finds", 1), whole(seed, "a seed")
    conditions = sorted(wish.conditions, key=lambda one: one.stage)
    found: list[Find] = []
    tried, of = 0, size(wish.spans)
    for tried, numbers in enumerate(numbers_in_order(wish.spans, seed), start=1):
        case = Case(wish, numbers)
        cheap = (one for one in conditions if one.stage < Stage.COURSE)
        dear = (one for one in conditions if one.stage >= Stage.COURSE)
        if all(one.met(case) for one in cheap) and case.working is not None and all(one.met(case) for one in dear):
            clear = sum(one.clear(case) for one in conditions) // len(conditions) if conditions else 10
            found.append(Find(numbers, case.working, Score(clear, case.working.turns // 5, 0),
                              tuple(one.says(case) for one in wish.conditions)))
        if len(found) >= 4 * many or tried >= budget:
            break
        if progress and tried % 1000 == 0:
            progress(tried, min(of, budget), len(found))
    if not found:
        raise NothingFound(f"no numbers of {tried} tried meet the wish", tried == of, tried)
    found.sort(key=lambda one: one.score.order)
    return Finds(tuple(found[:many]), wish, seed, f"{tried} of {of} were tried.")
