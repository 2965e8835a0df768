"""Finding numbers that meet a wish.

Only this file decides what is handed back. Candidates are reckoned first; those at the head of the ranking are then
worked on the machine, and every condition is asked again of the strokes.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from mechcalc.errors import InputError
from mechcalc.numbers import shown, whole
from mechcalc.preparing.case import Case
from mechcalc.preparing.conflicts import NothingFound, explain
from mechcalc.preparing.figures import blemishes
from mechcalc.preparing.finds import Find, Finds, Score
from mechcalc.preparing.measure import course
from mechcalc.preparing.searching import BUDGET, Progress, Search, search
from mechcalc.preparing.wishes import Wish

__all__ = ["NothingFound", "confirmed", "find", "score", "varied"]

MOST_FINDS = 1_000
FIVES = 5  # turns that count as one step of work


def find(wish: Wish, many: int = 5, seed: int = 0, *, budget: int = BUDGET,
         progress: Progress | None = None) -> Finds:
    """Find numbers that meet a wish, the best first.

    Parameters
    ----------
    wish : Wish
        What is wanted.
    many : int
        How many finds, 1 to 1000. There may be fewer; the remark then says whether there are no more.
    seed : int
        Draws the order in which numbers are tried. The same seed gives the same finds on every platform and every
        Python: it is drawn by hashlib's BLAKE2b (see `mechcalc.preparing.spans`).
    budget : int
        How many candidates are looked at, at most. Where they have to be cranked, because the method has no plan or
        the machine's carries come late, no more than 1000 of them are.
    progress : callable, optional
        ``progress(tried, of, found)``, after every 500 candidates.

    Returns
    -------
    Finds
        Ranked by `Score`: how clearly the conditions show, then work at the crank, then how readable the numbers
        are; of equals, the one that was tried earlier comes first. Of candidates that share a number only the best
        is taken, as long as there are others. Ranked are the first that meet the wish: twenty for each find that is
        asked for, but at least 200.

    Raises
    ------
    NothingFound
        No numbers meet the wish, which is then proved and explained; or none were found.

    Examples
    --------
    >>> finds = find(Wish("multiply", digits=(3, 2), conditions=("ripple >= 4", "no nought in multiplier")), many=2)
    >>> len(finds), all(find.working.answer == find.numbers[0] * find.numbers[1] for find in finds)
    (2, True)
    """
    if not isinstance(wish, Wish):
        raise InputError(f"what is wanted is a Wish, not {shown(wish)}")
    many, seed = whole(many, "a number of finds", 1, MOST_FINDS), whole(seed, "a seed")
    budget = whole(budget, "a budget", 1)
    done = search(wish, seed, budget, max(200, 20 * many), progress)
    ranked = sorted(done.met, key=lambda case: score(case).order)
    found: list[Find] = []
    for case in varied(ranked, wish):
        one = confirmed(case)
        if one:
            found.append(one)
        if len(found) == many:
            break
    if not found:
        raise explain(done, progress)
    found.sort(key=lambda one: one.score.order)
    return Finds(found, wish, seed, _remark(done, many, len(found)))


def score(case: Case) -> Score:
    """A candidate's place; it meets the wish, and the machine has room for it."""
    asked = case.wish.conditions
    clear = sum(one.clear(case) for one in asked) // len(asked) if asked else 10
    return Score(clear, len(course(case).turns) // FIVES, blemishes(case.numbers))


def confirmed(case: Case) -> Find | None:
    """The candidate worked on the machine, or None where the strokes do not meet the wish after all."""
    worked = Case(case.wish, case.numbers, cranked=True)
    if worked.working is None or not all(one.met(worked) for one in case.wish.conditions):
        return None
    return Find(case.numbers, worked.working, score(worked), tuple(one.says(worked) for one in case.wish.conditions))


def varied(ranked: Iterable[Case], wish: Wish) -> Iterator[Case]:
    """First those that share no number with an earlier one, then the others; numbers that the wish fixes apart."""
    free = [slot for slot, span in enumerate(wish.spans) if span.many > 1]
    taken: set[tuple[int, int]] = set()
    others = []
    for case in ranked:
        mine = {(slot, case.numbers[slot]) for slot in free}
        if mine & taken:
            others.append(case)
            continue
        taken |= mine
        yield case
    yield from others


def _remark(done: Search, many: int, found: int) -> str:
    """What was looked at, and what that says."""
    tried = (f"{done.tried} of {done.of} candidates were tried, {len(done.met)} of them "
             f"meet{'s' * (len(done.met) == 1)} the wish.")
    if found < many and done.complete:
        return f"{tried} There are no more."
    if found < many:
        return f"{tried} More were not found; there may be some."
    return tried
