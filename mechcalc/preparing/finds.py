"""What a search hands back: numbers with their working, why they were chosen, and in what order they stand.

Only this file decides how finds are ranked and shown.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from html import escape
from typing import TYPE_CHECKING, Any, NamedTuple

from mechcalc.methods import Working
from mechcalc.methods.table import plain

if TYPE_CHECKING:
    from mechcalc.preparing.wishes import Wish


class Score(NamedTuple):
    """What finds are ranked by: the greater `clear`, then the less `work`, then the fewer `blemishes`.

    Attributes
    ----------
    clear : int
        How clearly the conditions show, 0 to 10, on average over them.
    work : int
        Turns of the crank, in fives: a few turns more or less are the same to a class.
    blemishes : int
        What makes numbers hard to read or too easy: noughts at the end, a figure beside its like, two equal numbers.
    """

    clear: int
    work: int
    blemishes: int

    @property
    def order(self) -> tuple[int, int, int]:
        """The key that finds are sorted by; among equals, the one tried earlier comes first."""
        return -self.clear, self.work, self.blemishes


@dataclass(frozen=True, slots=True)
class Find:
    """Numbers that meet a wish.

    Attributes
    ----------
    numbers : tuple of int
        In the order of the task's slots.
    working : Working
        On the wish's machine, cranked.
    score : Score
        Its place among others.
    why : tuple of str
        What was found, a sentence for each condition.
    """

    numbers: tuple[int, ...]
    working: Working
    score: Score
    why: tuple[str, ...]

    def __repr__(self) -> str:
        return f"<Find {self.working.headline}>"


class Finds(tuple[Find, ...]):
    """Finds, the best first: a tuple that shows itself as a table.

    Attributes
    ----------
    wish : Wish
        What was asked for.
    seed : int
        What the order of trying was drawn from.
    remark : str
        How many numbers were tried, and whether those were all.
    """

    wish: Wish
    seed: int
    remark: str

    def __new__(cls, finds: Iterable[Find], wish: Wish, seed: int, remark: str) -> Finds:
        these = super().__new__(cls, finds)
        these.wish, these.seed, these.remark = wish, seed, remark
        return these

    def __reduce__(self) -> tuple[Any, ...]:
        return Finds, (tuple(self), self.wish, self.seed, self.remark)

    def __repr__(self) -> str:
        return f"<Finds for {self.wish!r}, seed {self.seed}: {', '.join(find.working.headline for find in self)}>"

    def __str__(self) -> str:
        rows = [(number, find.working.headline, find.working.turns, " ".join(find.why))
                for number, find in enumerate(self, start=1)]
        return f"{plain(('no.', 'calculation', 'turns', 'why'), rows)}\n{self.remark}"

    def _repr_html_(self) -> str:
        body = "".join(
            f'<tr><th scope="row">{number}</th><td>{escape(find.working.headline)}</td><td>{find.working.turns}</td>'
            f"<td>{escape(' '.join(find.why))}</td></tr>\n" for number, find in enumerate(self, start=1))
        head = "".join(f'<th scope="col">{name}</th>' for name in ("no.", "calculation", "turns", "why"))
        asked = ", ".join(one.text for one in self.wish.conditions)
        caption = f"{self.wish.words(self.wish.spans)}{', with ' if asked else ''}{asked}; seed {self.seed}"
        return (f"<table>\n<caption>{escape(caption)}</caption>\n<thead><tr>{head}</tr></thead>\n"
                f"<tbody>\n{body}</tbody>\n</table>\n<p>{escape(self.remark)}</p>\n")
