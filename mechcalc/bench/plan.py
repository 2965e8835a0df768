"""Which tests to do: the fewest, or the least work, that reveal every fault and tell faults apart.

Only this file chooses tests. To choose is a set cover: each fault must be revealed by a chosen test, and each two
faults that any test tells apart must be told apart by a chosen one. The minimum is found, and proved, as an integer
program (SciPy's `milp`, which is HiGHS); the greedy choice stands beside it for comparison.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Any

import numpy as np

from mechcalc.bench.batch import Batch, lanes_of
from mechcalc.bench.candidates import Test
from mechcalc.bench.dictionary import FaultDictionary, hashes, numbered
from mechcalc.bench.fault import Fault
from mechcalc.bench.hidden import why_hidden
from mechcalc.bench.steps import Step
from mechcalc.errors import InputError

AIMS = ("fewest tests", "least work")
SECONDS = 60.0


@dataclass(frozen=True, slots=True, eq=False)
class Plan:
    """Chosen tests, in the order in which to do them.

    Attributes
    ----------
    book : FaultDictionary
        What it was chosen from.
    tests : tuple of Test
    aim : str
        One of `AIMS`.
    cost, bound : float
        What the choice costs in the aim's unit (tests, or turns of the crank), and what no choice can be below. Equal
        where the optimum is proved.
    greedy : tuple of Test
        What the greedy choice would be.
    undetected : tuple of (Fault, str)
        Faults that none of all candidate tests reveals, with the reason.
    same : tuple of tuple of Fault
        Faults that no candidate test tells apart.
    """

    book: FaultDictionary
    tests: tuple[Test, ...]
    aim: str
    cost: float
    bound: float
    greedy: tuple[Test, ...]
    undetected: tuple[tuple[Fault, str], ...]
    same: tuple[tuple[Fault, ...], ...]

    @property
    def proved(self) -> bool:
        """Whether no cheaper choice exists."""
        return self.cost <= self.bound + 1e-6

    @property
    def gap(self) -> float:
        """By how much, as a share of the cost, a cheaper choice could be cheaper at most; 0 where proved."""
        return max(0.0, (self.cost - self.bound) / self.cost) if self.cost else 0.0

    @property
    def turns(self) -> int:
        """Turns of the crank in all."""
        return sum(test.turns for test in self.tests)

    @property
    def work(self) -> float:
        """Work in all, as `Test.work` counts it."""
        return sum(test.work for test in self.tests)

    def steps(self) -> tuple[Step, ...]:
        """All tests one after another, everything cleared and the carriage brought home before each."""
        return tuple(step for test in self.tests for step in (*test.steps, *home(test)))

    def __repr__(self) -> str:
        unit = "tests" if self.aim == "fewest tests" else "turns' worth of work"
        proof = "proved least" if self.proved else f"at most {self.gap:.1%} above the least"
        return f"<Plan of {len(self.tests)} tests, {self.turns} turns; {self.cost:g} {unit}, {proof}>"


def plan(book: FaultDictionary, *, aim: str = "fewest tests", tell_apart: bool = True, must: Sequence[str] = (),
         seconds: float = SECONDS) -> Plan:
    """The best choice of tests.

    Parameters
    ----------
    book : FaultDictionary
        All machines of it are to be revealed; single faults (and what else it holds) are to be told apart.
    aim : str
        ``"fewest tests"`` (and among those the least work) or ``"least work"``.
    tell_apart : bool
        Whether faults are to be told apart too, and not only revealed.
    must : sequence of str
        Names of tests that have to be among them.
    seconds : float
        How long the solver may take; what it has by then is given, with the bound.

    Raises
    ------
    InputError
        Another aim; a test that is not in the book.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> from mechcalc.bench.dictionary import fault_dictionary
    >>> chosen = plan(fault_dictionary(load_spec("slate")))
    >>> chosen.proved, len(chosen.tests) <= len(chosen.greedy)
    (True, True)
    """
    if aim not in AIMS:
        raise InputError(f"the aim {aim!r} is none: {' or '.join(map(repr, AIMS))}")
    names = [test.name for test in book.tests]
    missing = [name for name in must if name not in names]
    if missing:
        raise InputError(f"there is no test {', '.join(map(repr, missing))} in the book")
    needs = minimal(needs_of(book.answers, tell_apart))
    needs += [1 << names.index(name) for name in must]
    costs = _costs(book.tests, aim)
    chosen, bound = cheapest(needs, costs, seconds)
    rough = greedy(needs, costs)
    paid = sum(costs[index] for index in chosen)
    if aim == "fewest tests":
        paid, bound = float(len(chosen)), float(np.ceil(min(bound, paid) - 1.0 + 1e-9)) if chosen else 0.0
    tests = _in_order(book, chosen)
    return Plan(book=book, tests=tests, aim=aim, cost=paid, bound=min(bound, paid),
                greedy=tuple(book.tests[index] for index in rough),
                undetected=tuple((fault, why_hidden(book.spec, fault)) for machine in book.undetected
                                 for fault in book.faults_of(machine)[:1] if len(book.faults_of(machine)) == 1),
                same=_same(book))


def _costs(tests: Sequence[Test], aim: str) -> list[float]:
    """Of each test; for the fewest, work only decides between choices of the same number."""
    if aim == "least work":
        return [test.work for test in tests]
    whole = sum(test.work for test in tests) + 1.0
    return [1.0 + test.work / whole for test in tests]


def needs_of(answers: Any, tell_apart: bool) -> set[int]:
    """What has to be covered, each need as a set of tests one of which must be chosen (bit t for test t).

    Parameters
    ----------
    answers : array (T, N)
        0 for what a sound machine answers; machine 0 is sound.
    """
    weights = [1 << test for test in range(len(answers))]
    found: set[int] = set()
    columns = np.unique(answers.T, axis=0) if tell_apart else None
    for differs in np.unique((answers != answers[:, :1]).T, axis=0):
        found.add(sum(weights[test] for test in np.flatnonzero(differs)))
    if columns is not None:
        for number, column in enumerate(columns[:-1]):
            for differs in np.unique(columns[number + 1:] != column, axis=0):
                found.add(sum(weights[test] for test in np.flatnonzero(differs)))
    return found - {0}


def minimal(needs: set[int]) -> list[int]:
    """The needs that no other is part of: covering these covers all.

    >>> sorted(minimal({0b011, 0b111, 0b100, 0b110}))
    [3, 4]
    """
    kept: list[int] = []
    for need in sorted(needs, key=lambda need: (need.bit_count(), need)):
        if not any(other & need == other for other in kept):
            kept.append(need)
    return kept


def cheapest(needs: Sequence[int], costs: Sequence[float], seconds: float = SECONDS) -> tuple[list[int], float]:
    """A cheapest choice that covers all needs, and a bound that no choice is below.

    Examples
    --------
    >>> cheapest([0b011, 0b110, 0b101], [1.0, 1.0, 1.0])
    ([0, 1], 2.0)
    """
    if not needs:
        return [], 0.0
    from scipy.optimize import Bounds, LinearConstraint, milp
    from scipy.sparse import csr_array
    rows, columns = zip(*((row, test) for row, need in enumerate(needs) for test in range(len(costs))
                          if need >> test & 1), strict=True)
    cover = csr_array((np.ones(len(rows)), (rows, columns)), shape=(len(needs), len(costs)))
    solved = milp(np.array(costs), integrality=np.ones(len(costs)), bounds=Bounds(0, 1),
                  constraints=LinearConstraint(cover, lb=1), options={"time_limit": seconds, "mip_rel_gap": 0.0})
    if solved.x is None:
        return greedy(needs, costs), 0.0
    chosen = [int(test) for test in np.flatnonzero(solved.x > 0.5)]
    assert all(any(need >> test & 1 for test in chosen) for need in needs)
    bound = solved.mip_dual_bound if solved.mip_dual_bound is not None else 0.0
    return chosen, round(float(bound), 9)


def greedy(needs: Sequence[int], costs: Sequence[float]) -> list[int]:
    """Always the test that covers most of what is left for its cost; ties go to the earlier one.

    >>> greedy([0b011, 0b110, 0b101], [1.0, 1.0, 1.0])
    [0, 1]
    """
    left, chosen = list(needs), []
    while left:
        best = max(range(len(costs)), key=lambda test: (sum(need >> test & 1 for need in left) / costs[test], -test))
        chosen.append(best)
        left = [need for need in left if not need >> best & 1]
    return chosen


def _in_order(book: FaultDictionary, chosen: Sequence[int]) -> tuple[Test, ...]:
    """Those first that reveal most of what is not yet revealed, for their work."""
    hidden, left, order = np.ones(book.answers.shape[1], bool), list(chosen), []
    while left:
        best = max(left, key=lambda test: (((book.answers[test] != 0) & hidden).sum() / book.tests[test].work, -test))
        left.remove(best)
        hidden &= book.answers[best] == 0
        order.append(book.tests[best])
    return tuple(order)


def _same(book: FaultDictionary) -> tuple[tuple[Fault, ...], ...]:
    """Groups of single faults with the same answers throughout, the undetected apart."""
    groups: dict[int, list[Fault]] = {}
    for machine, group in enumerate(book.classes()):
        faults = book.faults_of(machine)
        if group and len(faults) == 1:
            groups.setdefault(int(group), []).append(faults[0])
    return tuple(tuple(group) for group in groups.values() if len(group) > 1)


def home(test: Test) -> list[Step]:
    """What brings a sound machine back to zero after a test."""
    place = sum(step.number for step in test.steps if step.what == "shift")
    away = [Step("shift", -1 if place > 0 else 1)] * abs(place)
    return [*away, Step("clear result"), Step("clear counter"), Step("clear setting")]


def lost_in_a_row(chosen: Plan) -> tuple[tuple[Fault, ...], ...]:
    """What the plan no longer does when its tests follow one another on the same machine, with nothing put right by
    hand: single faults that it does not reveal then, and pairs of single faults that it does not tell apart then
    although their answers differ in the book. Empty where it does all that it should.
    """
    book = chosen.book
    alone = [machine for machine in range(len(book.seats)) if len(book.faults_of(machine)) <= 1]
    batch = Batch(lanes_of(book.spec, book.faults, book.seats[alone]))
    shown = []
    for test in chosen.tests:
        for done, step in enumerate((*test.steps, *home(test)), start=1):
            batch.do(step)
            if done in test.reads:
                shown += [batch.result, batch.counter, batch.setting, batch.bell[None], batch.yielded[None]]
    together = numbered(hashes(np.concatenate(shown).T)) if shown else np.zeros(len(alone), np.int64)
    apart = book.classes()[alone]
    lost = [book.faults_of(alone[index]) for index in np.flatnonzero((together == 0) & (apart != 0))]
    for group in np.unique(together[together != 0]):
        members = np.flatnonzero(together == group)
        lost += [(*book.faults_of(alone[a]), *book.faults_of(alone[b])) for a, b in combinations(members, 2)
                 if apart[a] != apart[b]]
    return tuple(lost)
