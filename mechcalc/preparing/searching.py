"""Going through candidates: all of them where there are not too many, otherwise a sample and a climb from the best.

Only this file decides which numbers are looked at, and when to stop.

Where there are more numbers than the budget, half of it goes to a sample (the beginning of the order that the seed
draws, see `spans`), the other half to climbing: from the sample's candidates that miss least, one figure of one number
is changed at a time, to the change that leaves the least missing, as long as that gets less. So a carry through nine
wheels, which chance would hardly ever meet, is found in a few hundred steps.
"""

from __future__ import annotations

import heapq
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from itertools import islice

from mechcalc.preparing.case import Case
from mechcalc.preparing.measure import Stage
from mechcalc.preparing.spans import numbers_in_order, size
from mechcalc.preparing.tasks import Numbers
from mechcalc.preparing.wishes import Wish

BUDGET = 100_000   # candidates that are looked at, at most
CRANKINGS = 1_000  # candidates that are cranked, at most, where they cannot be reckoned
STARTS = 200       # candidates to climb from
EVERY = 500        # candidates between two reports of progress
NO_ROOM = 100      # what counts as missing where the machine has no room

Progress = Callable[[int, int, int], None]


@dataclass
class Search:
    """What a search has seen.

    Attributes
    ----------
    wish : Wish
        What is wanted.
    seed, budget : int
        As for `mechcalc.preparing.find`.
    of : int
        How many candidates there are.
    tried, cranked : int
        How many have been looked at, and how many of these had to be cranked.
    complete : bool
        Whether all have been looked at.
    met : list of Case
        Those that meet the wish, in the order in which they were tried.
    """

    wish: Wish
    seed: int
    budget: int
    progress: Progress | None = None
    of: int = 0
    tried: int = 0
    cranked: int = 0
    complete: bool = False
    met: list[Case] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.of = size(self.wish.spans)
        self._figures = [one for one in self.wish.conditions if one.stage is Stage.FIGURES]
        self._course = [one for one in self.wish.conditions if one.stage is Stage.COURSE]

    @property
    def whole(self) -> bool:
        """Whether the budget is enough for all candidates."""
        return self.of <= self.budget

    @property
    def spent(self) -> bool:
        """Whether no more may be looked at."""
        return self.tried >= self.budget or self.cranked >= CRANKINGS

    def missing(self, case: Case, in_full: bool) -> int:
        """What a candidate misses of all conditions together; 0 if it meets the wish.

        The course of the calculation is not asked for where figures fall short already, except in full, and where
        there are conditions on it.
        """
        self._look(case)
        missing = sum(one.missing(one.value(case)) for one in self._figures)
        if missing and not (in_full and self._course):
            return missing + NO_ROOM
        self.cranked += case.cranked
        if case.course is None:
            return missing + NO_ROOM * (2 + len(self._course))
        return missing + sum(one.missing(one.value(case)) for one in self._course)

    def _look(self, case: Case) -> None:
        self.tried += 1
        if self.progress and self.tried % EVERY == 0:
            self.progress(self.tried, min(self.of, self.budget), len(self.met))


def search(wish: Wish, seed: int, budget: int, enough: int, progress: Progress | None = None) -> Search:
    """Go through candidates until `enough` meet the wish, or no more may be looked at."""
    done = Search(wish, seed, budget, progress)
    nearest: list[tuple[int, int, Numbers]] = []
    for numbers in islice(numbers_in_order(wish.spans, seed), budget if done.whole else budget // 2):
        case = Case(wish, numbers)
        missing = done.missing(case, in_full=False)
        if not missing:
            done.met.append(case)
        elif not done.whole:
            _keep(nearest, (-missing, -done.tried, numbers))
        if len(done.met) >= enough or done.cranked >= CRANKINGS:
            break
    done.complete = done.tried == done.of
    if not done.whole and len(done.met) < enough:
        _climb_from([numbers for *_, numbers in sorted(nearest, reverse=True)], done, enough)
    return done


def _keep(nearest: list[tuple[int, int, Numbers]], item: tuple[int, int, Numbers]) -> None:
    """Among the nearest, of which there are no more than `STARTS`; of equals, the one that was tried earlier."""
    if len(nearest) < STARTS:
        heapq.heappush(nearest, item)
    elif item > nearest[0]:
        heapq.heapreplace(nearest, item)


def _climb_from(starts: list[Numbers], done: Search, enough: int) -> None:
    seen = {case.numbers for case in done.met}
    for start in starts:
        if len(done.met) >= enough or done.spent:
            return
        case = _climb(start, done)
        if case and case.numbers not in seen:
            seen.add(case.numbers)
            done.met.append(case)


def _climb(start: Numbers, done: Search) -> Case | None:
    """Change one figure at a time, to what leaves the least missing; the candidate that misses nothing, if any."""
    here, missing = start, done.missing(Case(done.wish, start), in_full=True)
    while True:
        best: tuple[int, Numbers] | None = None
        for numbers in neighbours(here, done.wish):
            if done.spent:
                return None
            case = Case(done.wish, numbers)
            left = done.missing(case, in_full=True)
            if not left:
                return case
            if best is None or left < best[0]:
                best = left, numbers
        if best is None or best[0] >= missing:
            return None
        missing, here = best


def neighbours(numbers: Numbers, wish: Wish) -> Iterator[Numbers]:
    """The same numbers with one figure changed, as far as the wish's sizes allow; the first number's units first."""
    for slot, number in enumerate(numbers):
        for place in range(len(str(number))):
            digit = number // 10**place % 10
            for other in range(10):
                changed = number + (other - digit) * 10**place
                if other != digit and changed in wish.spans[slot]:
                    yield (*numbers[:slot], changed, *numbers[slot + 1:])
