"""Why a wish cannot be met: which conditions cannot be met together, and what would do instead.

Only this file explains. Where all candidates can be looked at, each is asked every condition, and what comes out is a
proof: a minimal conflict, of which every part can be had without one of the others. It is found by deletion: from the
whole wish, one condition after the other is left out if what remains still cannot be met (deletion-based minimal
unsatisfiable subset; folklore, described by Marques-Silva, "Minimal unsatisfiability: models, algorithms and
applications", ISMVL 2010, from memory). The last condition of the wish is tried first, the machine's room last of all.
There may be other minimal conflicts beside the one that is told. Where not all candidates can be looked at, nothing is
proved, and the explanation says so: how many were tried, and what was met least often.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from html import escape
from itertools import combinations, islice

from mechcalc.errors import MechcalcError
from mechcalc.preparing.case import Case
from mechcalc.preparing.conditions import Condition
from mechcalc.preparing.measure import Stage
from mechcalc.preparing.searching import CRANKINGS, EVERY, Progress, Search
from mechcalc.preparing.spans import Span, numbers_in_order, size
from mechcalc.preparing.tasks import Numbers
from mechcalc.preparing.wishes import Wish

ROOM = Condition("room", low=1)
SAMPLE = 20_000  # candidates that are asked every condition, where not all are
RAREST = 3


@dataclass
class Alike:
    """Candidates that meet the same conditions.

    Attributes
    ----------
    count : int
        How many.
    example : tuple of int
        The one that was tried first.
    least : dict
        For each condition that they do not meet: the least that one of them misses, and the value it has.
    """

    count: int
    example: Numbers
    least: dict[Condition, tuple[int, int]] = field(default_factory=dict)


@dataclass
class Survey:
    """What candidates meet, condition by condition.

    Attributes
    ----------
    conditions : tuple of Condition
        Those that are asked: of the wish, and in front of them the machine's room.
    groups : dict
        From the conditions that are met (and only they) to the candidates.
    asked : int
        How many candidates.
    """

    conditions: tuple[Condition, ...]
    groups: dict[frozenset[Condition], Alike] = field(default_factory=dict)
    asked: int = 0

    def add(self, case: Case) -> None:
        """Ask a candidate every condition; what is seen of the strokes counts only where the machine has room."""
        values = {one: one.value(case) for one in self.conditions
                  if one == ROOM or one.stage is Stage.FIGURES or case.course}
        met = frozenset(one for one, value in values.items() if not one.missing(value))
        group = self.groups.setdefault(met, Alike(0, case.numbers))
        group.count += 1
        self.asked += 1
        for one in values.keys() - met:
            misses = one.missing(values[one]), values[one]
            group.least[one] = min(group.least.get(one, misses), misses)

    def meeting(self, wanted: Iterable[Condition]) -> list[Alike]:
        """The candidates that meet all these, those tried first in front."""
        wanted = frozenset(wanted)
        return [group for met, group in self.groups.items() if wanted <= met]

    def count(self, *wanted: Condition) -> int:
        """How many candidates meet all these."""
        return sum(group.count for group in self.meeting(wanted))

    def conflict(self) -> tuple[Condition, ...]:
        """A minimal set of conditions that no candidate meets together; empty if some candidate meets all."""
        left = list(self.conditions)
        if self.meeting(left):
            return ()
        for one in reversed(self.conditions):
            without = [other for other in left if other != one]
            if not self.meeting(without):
                left = without
        return tuple(left)

    def nearest(self, one: Condition, others: Iterable[Condition]) -> int | None:
        """The value nearest to what a condition wants, among candidates that meet the others; None if none has any."""
        misses = [group.least[one] for group in self.meeting(others) if one in group.least]
        return min(misses)[1] if misses else None


class NothingFound(MechcalcError):
    """No numbers meet the wish: which conditions cannot be met together; or none were found, and what was tried.

    Attributes
    ----------
    wish : Wish
        What was wanted.
    proved : bool
        Whether all candidates were tried, so that it is certain.
    tried : int
        How many were.
    conflict : tuple of Condition
        If proved: a minimal set that cannot be met together. The machine's room, where it belongs to it, is
        ``Condition("room >= 1")``.
    instead : dict
        If proved: for each condition of the conflict, numbers that meet all the others of the conflict.
    reasons : tuple of str
        The explanation, a sentence or two each.
    """

    def __init__(self, wish: Wish, proved: bool, tried: int, reasons: tuple[str, ...],
                 conflict: tuple[Condition, ...] = (), instead: dict[Condition, Numbers] | None = None) -> None:
        super().__init__(wish, proved, tried, reasons, conflict, instead)
        self.wish, self.proved, self.tried, self.reasons = wish, proved, tried, reasons
        self.conflict, self.instead = conflict, instead or {}

    def __str__(self) -> str:
        head, *others = self.reasons
        return head + "".join(f"\n  - {reason}" for reason in others)

    def _repr_html_(self) -> str:
        head, *others = map(escape, self.reasons)
        return f"<p>{head}</p>\n<ul>\n" + "".join(f"<li>{reason}</li>\n" for reason in others) + "</ul>\n"


def explain(done: Search, progress: Progress | None = None) -> NothingFound:
    """Say why a search has found nothing: ask every candidate (or a sample) every condition.

    Bounds on the numbers themselves have only narrowed what was searched. Here they are conditions like the others, as
    long as the budget is enough for what they leave out.
    """
    wish, spans = done.wish, done.wish.spans
    if done.met:  # reckoned to meet the wish, but cranked not to: a plan is wrong
        return NothingFound(wish, False, done.tried, (
            f"no numbers were found for {wish.words(spans)}: what the machine does is not what was reckoned",))
    if size(wish.digits) <= done.budget:
        spans = tuple(wish.digits)
    everything, of = (ROOM, *wish.conditions), size(spans)
    cranked = Case(wish, tuple(span.low for span in spans)).cranked
    if of <= (CRANKINGS if cranked else done.budget):
        return _proved(wish, spans, _surveyed(done, spans, everything, of, progress))
    cheap = tuple(one for one in wish.conditions if one.stage is Stage.FIGURES)
    if of <= done.budget and cheap:
        survey = _surveyed(done, spans, cheap, of, progress)
        if survey.conflict():
            return _proved(wish, spans, survey)
    most = min(of, done.budget, CRANKINGS // 2 if cranked else SAMPLE)
    survey = _surveyed(done, spans, everything, most, progress)
    return NothingFound(wish, False, done.tried, (
        f"no numbers were found for {wish.words(wish.spans)}: {done.tried} of {done.of} candidates were tried, so "
        f"there may be some", *_rarest(survey)))


def _surveyed(done: Search, spans: tuple[Span, ...], conditions: tuple[Condition, ...], most: int,
              progress: Progress | None) -> Survey:
    """So many candidates asked these conditions, in the order that the search's seed draws."""
    survey = Survey(conditions)
    for numbers in islice(numbers_in_order(spans, done.seed), most):
        survey.add(Case(done.wish, numbers))
        if progress and survey.asked % EVERY == 0:
            progress(survey.asked, most, 0)
    return survey


def said(one: Condition) -> str:
    """A condition in an explanation."""
    return "the machine has room" if one == ROOM else repr(one.text)


def _proved(wish: Wish, spans: tuple[Span, ...], survey: Survey) -> NothingFound:
    conflict = survey.conflict()
    instead = {one: survey.meeting(set(conflict) - {one})[0].example for one in conflict if len(conflict) > 1}
    names = list(map(said, conflict))
    together = (f"{names[0]} cannot be met" if len(names) == 1 else
                f"{', '.join(names[:-1])} and {names[-1]} cannot be met together")
    reasons = [f"no numbers meet the wish for {wish.words(spans)}: {together} (proved: all {survey.asked} candidates "
               f"were tried)"]
    for one in conflict:
        reasons += _about(one, conflict, instead, survey)
    if set(wish.conditions) <= set(survey.conditions):
        reasons += _given_up(conflict, survey)
    return NothingFound(wish, True, survey.asked, tuple(reasons), conflict, instead)


def _about(one: Condition, conflict: tuple[Condition, ...], instead: dict[Condition, Numbers], survey: Survey
           ) -> list[str]:
    """What there is without one condition of the conflict, and how near it comes."""
    others = [other for other in conflict if other != one]
    if one == ROOM and not others:
        return ["the machine has no room for any of them"]
    nearest = None if one == ROOM else survey.nearest(one, others)
    best = "" if nearest is None else f", and the nearest to it is {one.subject} = {nearest}"
    if not others:
        return [f"{said(one)} is met by none{best}"]
    if one == ROOM:
        best = ""
    rest = "the other" if len(others) == 1 else "the others"
    return [f"without {said(one)}, {rest} can be met: {numbers_said(instead[one])}{best}"]


def numbers_said(numbers: Numbers) -> str:
    """Numbers in an explanation."""
    return " and ".join(map(str, numbers)) if len(numbers) < 3 else ", ".join(map(str, numbers))


def _given_up(conflict: tuple[Condition, ...], survey: Survey) -> list[str]:
    """How many candidates meet all of the wish but one condition of the conflict; the most first."""
    counts = [(survey.count(*(other for other in survey.conditions if other != one)), one) for one in conflict
              if one != ROOM]
    useful = sorted((pair for pair in counts if pair[0]), key=lambda pair: -pair[0])
    if not set(survey.conditions) - set(conflict) - {ROOM}:
        return []
    if not useful:
        return ["whichever of them is given up, the rest of the wish cannot be met either"]
    return [f"if {said(one)} is given up, {count} candidate{'s' * (count > 1)} meet{'s' * (count == 1)} all the rest"
            for count, one in useful]


def _rarest(survey: Survey) -> list[str]:
    """Which conditions, and which two together, were met least often."""
    counts = sorted(((survey.count(one), place, one) for place, one in enumerate(survey.conditions)),
                    key=lambda item: item[:2])
    reasons = []
    for count, _, one in counts[:RAREST]:
        nearest = None if count or one == ROOM else survey.nearest(one, ())
        best = "" if nearest is None else f", and the nearest to it is {one.subject} = {nearest}"
        reasons.append(f"of {survey.asked} that were asked every condition, {count} met {said(one)}{best}")
    pairs = sorted(((survey.count(one, other), place, one, other) for place, (one, other) in enumerate(
        combinations(survey.conditions, 2)) if survey.count(one) and survey.count(other)), key=lambda item: item[:2])
    return reasons + [f"{said(one)} and {said(other)}: {count} met both" for count, _, one, other in pairs[:RAREST]]
