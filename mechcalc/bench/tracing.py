"""Tracing a fault: what was read so far, what still explains it, and which test tells most next.

Only this file decides what a set of readings means. Every machine that could be on the bench (the sound one, every
single fault, every pair) does the same steps as the real one, one after another; what differs from what was read counts
against it. One reading may have been written down wrong, so a machine that differs once is kept, with the weight that
such a slip has.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import Any

import numpy as np

from mechcalc.bench.batch import Batch, lanes_of
from mechcalc.bench.candidates import Test, candidates
from mechcalc.bench.choosing import best_test
from mechcalc.bench.dictionary import answers_of, hashes, singles, with_pairs
from mechcalc.bench.fault import Fault
from mechcalc.bench.fault_list import every_fault
from mechcalc.bench.plan import home
from mechcalc.bench.prior import Prior
from mechcalc.bench.readings import Reading, differences, reading_from_dict
from mechcalc.bench.steps import do
from mechcalc.errors import InputError
from mechcalc.numbers import shown
from mechcalc.spec import MachineSpec
from mechcalc.state import cleared
from mechcalc.words import listed

MISREADINGS = 1      # readings that may be wrong before an explanation is given up
WEIGHED = 4_000      # explanations that the next test is chosen for, the likeliest
WORTH_ASKING = 0.02  # bits; a test that promises less is not worth the work


@dataclass(frozen=True, slots=True)
class Explanation:
    """Something that may be wrong with the machine.

    Attributes
    ----------
    faults : tuple of Fault
        None for a sound machine.
    share : float
        Its share of the weight of all explanations, 0 to 1.
    misreadings : int
        How many readings must have been written down wrong if it is true.
    """

    faults: tuple[Fault, ...]
    share: float
    misreadings: int

    def __str__(self) -> str:
        said = listed(self.faults) if self.faults else "nothing is wrong"
        slip = f", if {'one reading was' if self.misreadings == 1 else f'{self.misreadings} readings were'} wrong"
        return f"{said}{slip if self.misreadings else ''}"


@dataclass(frozen=True, slots=True)
class Advice:
    """The test that tells most now.

    Attributes
    ----------
    test : Test
    bits : float
        Expected information: by how much the uncertainty about what is wrong shrinks, on average, in bits.
    groups : int
        Into how many groups it divides the explanations that are left.
    largest : float
        Share of the likeliest answer.
    """

    test: Test
    bits: float
    groups: int
    largest: float

    @property
    def why(self) -> str:
        """A sentence for whoever is at the bench."""
        return (f"It divides what is left into {self.groups} groups by what can be read; the likeliest answer has "
                f"{self.largest:.0%}. That is {self.bits:.2f} bits of information.")


@dataclass(frozen=True, slots=True)
class Done:
    """A test that was done, with what was read at each of its places (None where nothing was)."""

    test: Test
    readings: tuple[Reading | None, ...]


class Tracing:
    """A session at the bench.

    Parameters
    ----------
    spec : MachineSpec
        The machine, as it is built.
    prior : Prior, optional
        How likely each fault is before anything was read.
    pairs : bool
        Whether two faults together are thought of.
    tests : sequence of Test, optional
        The tests to choose from; `candidates` unless given.
    misreadings : int
        How many readings may be wrong before an explanation is given up.
    worth : float
        Bits that a next test must promise to be advised.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> from mechcalc.bench import CarryPinGone, Machine
    >>> trace = Tracing(load_spec("slate"))
    >>> real = Machine(trace.spec, faults=[CarryPinGone(place=3, direction=1)])
    >>> while (advice := trace.next_test()) is not None:
    ...     trace.record(advice.test, readings_of(real, advice.test))
    >>> print(trace.explanations()[0])
    the additive carry pin of place 3 is gone
    """

    def __init__(self, spec: MachineSpec, *, prior: Prior | None = None, pairs: bool = True,
                 tests: Sequence[Test] | None = None, misreadings: int = MISREADINGS,
                 worth: float = WORTH_ASKING) -> None:
        self.spec, self.prior, self.pairs = spec, prior or Prior(), pairs
        self.misreadings, self.worth = misreadings, worth
        self.faults = every_fault(spec)
        self.tests = tuple(candidates(spec) if tests is None else tests)
        every = with_pairs(self.faults)
        self.seats = every if pairs else every[(every >= 0).sum(axis=1) < 2]
        self._before = self.prior.weights(self.faults, self.seats)
        self._history: list[Done] = []
        self._wrong = np.zeros(len(self.seats), np.int64)

    @cached_property
    def _batch(self) -> Batch:
        return Batch(lanes_of(self.spec, self.faults, self.seats))

    @property
    def history(self) -> tuple[Done, ...]:
        """What was done, oldest first."""
        return tuple(self._history)

    def record(self, test: Test, readings: Sequence[Reading | dict[str, Any] | None]) -> None:
        """A test was done on the real machine, from everything at zero, and this was read.

        Parameters
        ----------
        test : Test
        readings : sequence of Reading, dict or None
            One for each place of the test at which something is read.

        Raises
        ------
        InputError
            Not as many readings as places, a reading that this machine cannot show, or nothing read at all; then
            nothing has changed.
        """
        if len(readings) != len(test.reads):
            raise InputError(f"{test.name}: something is read at {len(test.reads)} places, not at {len(readings)}")
        kept = tuple(self._checked(test, number, reading) for number, reading in enumerate(readings, start=1))
        if not any(kept):
            raise InputError(f"{test.name}: nothing was read")
        self._history.append(Done(test, kept))
        for done, step in enumerate((*test.steps, *home(test)), start=1):
            self._batch.do(step)
            if done in test.reads and (reading := kept[test.reads.index(done)]) is not None:
                self._wrong += differences(self._batch, reading)

    def _checked(self, test: Test, number: int, reading: Any) -> Reading | None:
        if reading is None:
            return None
        if not isinstance(reading, (Reading, dict)):
            raise InputError(f"{test.name}, reading {number}: give a Reading or a dict, not {shown(reading)}")
        data = reading.to_dict() if isinstance(reading, Reading) else reading
        return reading_from_dict(self.spec, data, f"{test.name}, reading {number}")

    def take_back(self) -> Done | None:
        """Take back the last test that was recorded, and return it; None where there is none."""
        if not self._history:
            return None
        *before, last = self._history
        self._history, self._wrong[:] = [], 0
        self._batch.stand(cleared(self.spec))
        for done in before:
            self.record(done.test, done.readings)
        return last

    # What it means.

    @property
    def _weights(self) -> Any:
        """The weight of each machine after what was read, those that differ too often left out."""
        slip = self.prior.misread / (1 - self.prior.misread)
        return self._before * np.where(self._wrong <= self.misreadings, slip ** self._wrong.astype(float), 0.0)

    def explanations(self, most: int = 20) -> tuple[Explanation, ...]:
        """What still explains everything that was read, likeliest first; empty where nothing does.

        Those that need no misreading come before those that need one, whatever their weights.
        """
        weights = self._weights
        whole = weights.sum()
        left = np.flatnonzero(weights)
        order = left[np.lexsort((left, -weights[left], self._wrong[left]))][:most]
        return tuple(self._explanation(int(machine), weights[machine] / whole) for machine in order)

    def _explanation(self, machine: int, share: float) -> Explanation:
        faults = tuple(self.faults[index] for index in self.seats[machine] if index >= 0)
        return Explanation(faults, float(share), int(self._wrong[machine]))

    @property
    def left(self) -> int:
        """How many explanations there are still."""
        return int((self._wrong <= self.misreadings).sum())

    def closest(self, most: int = 5) -> tuple[Explanation, ...]:
        """Where nothing fits: what comes nearest, with the number of readings at which each differs."""
        order = np.lexsort((-self._before, self._wrong))[:most]
        return tuple(self._explanation(int(machine), 0.0) for machine in order)

    def next_test(self) -> Advice | None:
        """The test that tells most about what is left; None where no test tells anything more, or nothing fits."""
        weights = self._weights
        if not self._history:  # nothing read: pairs would only repeat what single faults say
            weights = np.where((self.seats >= 0).sum(axis=1) < 2, weights, 0.0)  # they come first in the seats
        chosen = np.argsort(-weights, kind="stable")[:WEIGHED]
        chosen = chosen[weights[chosen] > 0]
        if len(chosen) < 2:
            return None
        share = weights[chosen] / weights[chosen].sum()
        codes = self._answers(chosen)
        best, bits = best_test(codes, share, np.array([test.work for test in self.tests]))
        if bits <= self.worth:
            return None
        parts = np.bincount(np.unique(codes[best], return_inverse=True)[1].reshape(-1), weights=share)
        return Advice(self.tests[best], bits, len(parts), float(parts.max()))

    def _answers(self, chosen: Any) -> Any:
        """What some of the machines would answer to each test, as they stand now: array (T, N)."""
        if not self._history:
            return _at_first(self.spec, self.tests)[:, chosen]
        batch = self._batch.part(chosen)
        stood = batch.kept()
        codes = np.empty((len(self.tests), len(chosen)), np.uint64)
        for number, test in enumerate(self.tests):
            batch.back_to(stood)
            codes[number] = hashes(np.concatenate(answer(batch, test)).T)
        return codes


@lru_cache(maxsize=8)
def _at_first(spec: MachineSpec, tests: tuple[Test, ...]) -> Any:
    """What a sound machine and those with a single fault answer to each test from zero: array (T, 1 + F)."""
    faults = every_fault(spec)
    return answers_of(spec, faults, tests, singles(faults))


def answer(batch: Batch, test: Test) -> list[Any]:
    """What machines show at the readings of a test, as rows of digits and truths."""
    shown_there: list[Any] = []
    for done, step in enumerate(test.steps, start=1):
        batch.do(step)
        if done in test.reads:
            shown_there += [batch.result, batch.counter, batch.setting, batch.bell[None], batch.yielded[None]]
    return shown_there


def readings_of(machine: Any, test: Test) -> tuple[Reading, ...]:
    """Do a test on an event-level machine that stands at zero, bring it back there, and say what was read."""
    kept = []
    for done, step in enumerate((*test.steps, *home(test)), start=1):
        seen = do(machine, step)
        if done in test.reads:
            kept.append(Reading.of(seen))
    return tuple(kept)
