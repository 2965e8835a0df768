"""Going through candidates: all of them where there are not too many, otherwise a sample and a climb from the best.

Only this file decides which numbers are looked at, and when to stop.

Where there are more numbers than the budget, half of it goes to a sample (the beginning of the order that the seed
draws, see `spans`), the other half to climbing: from the sample's candidates that miss least, one figure of one number
is changed at a time, to the change that leaves the least missing, as long as that gets less. So a carry through eight
wheels, which chance would not meet in a lifetime, is found in a few hundred steps.
"""

from __future__ import annotations

import heapq
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from itertools import islice

from mechcalc.preparing.case import Case
from mechcalc.preparing.conditions import Condition
from mechcalc.preparing.measure import Stage
from mechcalc.preparing.spans import numbers_in_order, size
from mechcalc.preparing.tasks import Numbers
from mechcalc.preparing.wishes import Wish

BUDGET = 100_000   # candidates that are looked at, where they can be reckoned
CRANKED = 3_000    # the same, where each has to be cranked
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
    of : int
        How many candidates there are.
    budget : int
        How many are looked at, at most.
    tried : int
        How many have been.
    met : list of Case
        Those that meet the wish, in the order in which they were tried.
    """

    wish: Wish
    budget: int
    seed: int
    of: int = 0
    tried: int = 0
    met: list[Case] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.of = size(self.wish.spans)
        if Case(self.wish, tuple(span.low for span in self.wish.spans)).cranked:
            self.budget = min(self.budget, CRANKED)

    @property
    def whole(self) -> bool:
        """Whether all candidates can be looked at."""
        return self.of <= self.budget

    @property
    def complete(self) -> bool:
        """Whether all have been."""
        return self.tried >= self.of


def search(wish: Wish, seed: int, budget: int, enough: int, progress: Progress | None = None) -> Search:
    """Go through candidates until `enough` meet the wish, or the budget is spent."""
    done = Search(wish, budget, seed)
    conditions = sorted(wish.conditions, key=lambda one: one.stage)
    nearest: list[tuple[int, int, Numbers]] = []
    for numbers in islice(numbers_in_order(wish.spans, seed), done.budget if done.whole else done.budget // 2):
        done.tried += 1
        case = Case(wish, numbers)
        missing = _missing(case, conditions, in_full=False)
        if not missing:
            done.met.append(case)
            if len(done.met) >= enough:
                return done
        elif not done.whole:
            _keep(nearest, (-missing, -done.tried, numbers))
        _report(done, progress)
    if not done.whole:
        _climb_from([numbers for *_, numbers in sorted(nearest, reverse=True)], done, conditions, enough, progress)
    return done


def _missing(case: Case, conditions: list[Condition], in_full: bool) -> int:
    """What a candidate misses of all conditions; if not in full, what is cheap decides whether the dear are asked."""
    missing, asked = 0, False
    for one in conditions:
        if one.stage is Stage.COURSE and not asked:
            asked = True
            if missing and not in_full:
                return missing + NO_ROOM
        if asked and case.course is None:
            return missing + NO_ROOM * len(conditions)
        missing += one.missing(one.value(case))
    return missing if asked or missing else NO_ROOM * (case.course is None)


def _keep(nearest: list[tuple[int, int, Numbers]], item: tuple[int, int, Numbers]) -> None:
    """Among the nearest, of which there are no more than `STARTS`; of equals, the one that was tried earlier."""
    if len(nearest) < STARTS:
        heapq.heappush(nearest, item)
    elif item > nearest[0]:
        heapq.heapreplace(nearest, item)


def _climb_from(starts: list[Numbers], done: Search, conditions: list[Condition], enough: int,
                progress: Progress | None) -> None:
    seen = {case.numbers for case in done.met}
    for start in starts:
        for case in _climb(start, done, conditions, progress):
            if case.numbers not in seen:
                seen.add(case.numbers)
                done.met.append(case)
        if len(done.met) >= enough or done.tried >= done.budget:
            return


def _climb(start: Numbers, done: Search, conditions: list[Condition], progress: Progress | None) -> Iterator[Case]:
    """Change one figure at a time, to what leaves the least missing; the candidate that misses nothing, if any."""
    here, missing = start, _missing(Case(done.wish, start), conditions, in_full=True)
    while done.tried < done.budget:
        best: tuple[int, Case] | None = None
        for numbers in neighbours(here, done.wish):
            case = Case(done.wish, numbers)
            left = _missing(case, conditions, in_full=True)
            done.tried += 1
            _report(done, progress)
            if best is None or left < best[0]:
                best = left, case
            if not left:
                yield case
                return
        if best is None or best[0] >= missing:
            return
        missing, here = best[0], best[1].numbers


def neighbours(numbers: Numbers, wish: Wish) -> Iterator[Numbers]:
    """The same numbers with one figure changed, as far as the wish's sizes allow; the first number's units first."""
    for slot, number in enumerate(numbers):
        place = 1
        while place <= number:
            digit = number // place % 10
            for other in range(10):
                changed = number + (other - digit) * place
                if other != digit and changed in wish.spans[slot]:
                    yield (*numbers[:slot], changed, *numbers[slot + 1:])
            place *= 10


def _report(done: Search, progress: Progress | None) -> None:
    if progress and done.tried % EVERY == 0:
        progress(done.tried, min(done.of, done.budget), len(done.met))
