"""Numbers for every sheet: different ones, and equally hard.

Only this file decides who gets which numbers. All sheets' numbers for an item meet one and the same wish, so they are
as long, and show the same. Of all that the search finds, the sheets get those whose turns of the crank lie close
together; `Band` says how close. Within that, they differ as much as can be.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from hashlib import blake2b
from typing import Any

from mechcalc.errors import InputError
from mechcalc.preparing.finding import MOST_FINDS, NothingFound, find
from mechcalc.preparing.finds import Find
from mechcalc.preparing.sheets.items import Item, wish_of
from mechcalc.spec import MachineSpec

SPARE = 4  # times as many finds as there are sheets, to choose from
WITHIN = 2  # turns: sheets that are no further apart count as equally hard (a modelling choice, no source)
Numbers = tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Band:
    """How far apart the sheets are, in turns of the crank: the fewest and the most.

    >>> str(Band(11, 14)), str(Band(9, 9)), str(Band(1, 1))
    ('11 to 14 turns', '9 turns', '1 turn')
    """

    fewest: int
    most: int

    def __str__(self) -> str:
        if self.fewest == self.most:
            return f"{self.most} turn{'s' * (self.most != 1)}"
        return f"{self.fewest} to {self.most} turns"


def deal(item: Item, machine: MachineSpec, sheets: int, seed: int, name: str = "item",
         search: Callable[..., Any] = find) -> tuple[Numbers, ...]:
    """The numbers of one item, one set for each sheet.

    Parameters
    ----------
    item : Item
        What is wanted.
    machine : MachineSpec
        What it is worked on.
    sheets : int
        How many.
    seed : int
        The same seed gives the same numbers to the same sheets.
    name : str
        For messages.
    search : callable
        `mechcalc.preparing.find`, or one that stands in for it.

    Raises
    ------
    InputError
        Fewer numbers meet the wish than there are sheets, or none do; with what the search has to say.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> deal(Item(method="multiply", numbers=[(347, 26), (358, 27)]), load_spec("bench"), 3, seed=1)
    ((347, 26), (358, 27), (347, 26))
    """
    if item.numbers:
        return tuple(item.numbers[sheet % len(item.numbers)] for sheet in range(sheets))
    wish = wish_of(item, machine)
    try:
        finds = tuple(search(wish, many=min(SPARE * sheets, MOST_FINDS), seed=seed))
    except NothingFound as error:
        raise InputError(f"{name}: {error}") from None
    if len(finds) < sheets:
        raise InputError(f"{name}: {len(finds)} of the {sheets} sheets can have numbers of their own, no more were "
                         f"found: widen the wish, or give numbers (they are dealt out in turn)")
    return _shuffled(alike(finds, sheets), seed, name)


def alike(finds: Sequence[Find], many: int, within: int = WITHIN) -> tuple[Numbers, ...]:
    """Numbers for `many` sheets out of finds: equally hard, and otherwise as different as can be.

    Of all spans of turns that hold enough finds, the narrowest is taken (or, if that is narrower than `within` turns,
    the one of that width which holds the most finds; of equals the lowest). From it come the finds whose numbers stand
    on the fewest sheets so far, so that a multiplier does not come up on every sheet; of equals, the one ranked
    higher.
    """
    turns = sorted(found.working.turns for found in finds)
    narrowest = min(turns[at + many - 1] - turns[at] for at in range(len(turns) - many + 1))
    width = max(narrowest, within)
    low = max(sorted(set(turns)), key=lambda low: sum(low <= each <= low + width for each in turns))
    left = [found.numbers for found in finds if low <= found.working.turns <= low + width]
    used: Counter[tuple[int, int]] = Counter()
    chosen = []
    for _ in range(many):
        numbers = min(left, key=lambda numbers: sum(used[pair] for pair in enumerate(numbers)))
        left.remove(numbers)
        used.update(enumerate(numbers))
        chosen.append(numbers)
    return tuple(chosen)


def _shuffled(sets: tuple[Numbers, ...], seed: int, name: str) -> tuple[Numbers, ...]:
    """In an order drawn from the seed, so that neighbours in the class are no neighbours in turns."""
    def draw(numbers: Numbers) -> bytes:
        return blake2b(f"{seed} {name} {numbers}".encode(), digest_size=16).digest()
    return tuple(sorted(sets, key=draw))
