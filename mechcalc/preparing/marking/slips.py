"""Which misconception a wrong answer comes from.

Only this file decides how answers are matched with misconceptions; `slip_table` lists them. Every answer that a
misconception leads to is worked out from the learner's own numbers; one that comes out right is no sign of it. An
answer may fit several misconceptions: then it is counted under each, and said to be uncertain.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from mechcalc.preparing.sheets.worksheets import Asked, Problem

Values = Iterable[int | Fraction]


@dataclass(frozen=True, slots=True, kw_only=True)
class Misconception:
    """A usual misunderstanding.

    Attributes
    ----------
    name : str
        In a few words.
    says : str
        What it shows, and what helps: a sentence or two for the teacher.
    questions : tuple of str
        Names of questions whose answers it spoils.
    tasks : tuple of str
        Names of calculations in which it occurs, or how these begin; empty for all.
    values : callable
        ``values(problem, right)``: the answers that it leads to.
    """

    name: str
    says: str
    questions: tuple[str, ...]
    values: Callable[[Problem, Fraction], Values]
    tasks: tuple[str, ...] = ()

    def occurs(self, problem: Problem, asked: Asked) -> bool:
        """Whether it is looked for in the answers to this question."""
        return asked.name in self.questions and (not self.tasks or problem.item.method.startswith(self.tasks))


@lru_cache(maxsize=4096)
def answers_of(problem: Problem, label: str) -> dict[Fraction, tuple[str, ...]]:
    """The wrong answers to a question that misconceptions lead to, and the names of these.

    Examples
    --------
    >>> from mechcalc.preparing.sheets import Item, Sheet, make_worksheets
    >>> sheet = Sheet(title="x", machine="bench", items=[Item(method="multiply", numbers=(347, 26))])
    >>> (problem,) = make_worksheets(sheet, 1).variants[0].problems
    >>> answers_of(problem, "1c")[Fraction(347 * 8)]
    ('shift forgotten',)
    """
    from mechcalc.preparing.marking.slip_table import MISCONCEPTIONS
    asked = next(one for one in problem.keyed if one.label == label)
    assert asked.right is not None
    right = asked.right.exact
    found: dict[Fraction, list[str]] = {}
    for row in MISCONCEPTIONS.values():
        if row.occurs(problem, asked):
            for value in dict.fromkeys(map(Fraction, row.values(problem, right))):
                if value != right and (right.denominator > 1 or value.denominator == 1 or asked.right.places):
                    found.setdefault(value, []).append(row.name)
    return {value: tuple(names) for value, names in found.items()}
