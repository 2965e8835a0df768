"""The fault dictionary: what every fault, and every pair of faults, answers to every test.

Only this file decides what an answer is and which faults can be told apart by tests. Answers are kept as numbers: for
each test 0 is what a sound machine shows, and two machines have the same number exactly if they show the same at every
reading. Each test starts with everything at zero, wheels turned there and levers pushed home by hand where clearing
does not do it; that a plan is also enough when tests follow one another is checked in `mechcalc.bench.plan`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from functools import partial
from typing import Any

import numpy as np

from mechcalc.bench.batch import Batch, lanes_of
from mechcalc.bench.candidates import Test, candidates
from mechcalc.bench.fault import Fault
from mechcalc.bench.fault_list import clash, every_fault
from mechcalc.bench.faults import CarryTimingLate
from mechcalc.errors import InputError
from mechcalc.spec import MachineSpec
from mechcalc.state import cleared

JOB = 8_192   # machines in one piece of a sweep
NONE = -1
Told = Callable[[int, int], None]
Sweep = Callable[..., Iterable[Any]]


@dataclass(frozen=True, slots=True, eq=False)
class FaultDictionary:
    """Answers of N machines to T tests.

    Attributes
    ----------
    spec : MachineSpec
        What they are built like.
    faults : tuple of Fault
        The single faults.
    tests : tuple of Test
    seats : array (N, k) of int16
        The faults of each machine as indices into `faults`, -1 for none; machine 0 is sound.
    answers : array (T, N) of uint32
        0 for the sound machine's answer.
    """

    spec: MachineSpec
    faults: tuple[Fault, ...]
    tests: tuple[Test, ...]
    seats: Any
    answers: Any

    def faults_of(self, machine: int) -> tuple[Fault, ...]:
        """What is wrong with a machine."""
        return tuple(self.faults[index] for index in self.seats[machine] if index != NONE)

    @property
    def undetected(self) -> tuple[int, ...]:
        """Machines with faults that answer like a sound one to every test."""
        return tuple(int(machine) for machine in np.flatnonzero((self.answers == 0).all(axis=0)) if machine)

    def classes(self, tests: Sequence[int] | None = None) -> Any:
        """Which machines these tests (all, unless given) cannot tell apart: array (N,), equal numbers for equal answers
        throughout, 0 for those that answer like a sound machine."""
        answers = self.answers if tests is None else self.answers[list(tests)]
        if not len(answers):
            return np.zeros(self.answers.shape[1], np.int64)
        return numbered(hashes(answers.T))


def hashes(rows: Any) -> Any:
    """A number of 64 bits for each row (array (N, width) to array (N,) of uint64); equal rows get equal numbers.

    Different rows get the same with a chance of about 2 to the -64: for a hundred thousand machines and a hundred
    tests that is less than one in ten million for the whole dictionary.
    """
    chance = np.random.default_rng(20261125)
    weights = chance.integers(1, 2**63, size=(2, rows.shape[1]), dtype=np.uint64) | np.uint64(1)
    mixed = (rows.astype(np.uint64) + np.uint64(1)) * weights[0]
    mixed ^= mixed >> np.uint64(29)
    return (mixed * weights[1]).sum(axis=1, dtype=np.uint64)


def numbered(codes: Any) -> Any:
    """Codes as small numbers: 0 for that of the first machine, the others in order of size."""
    _, which = np.unique(codes, return_inverse=True)
    which = which.reshape(-1)
    first = which[0]
    return np.where(which == first, 0, np.where(which < first, which + 1, which))


def answers_of(spec: MachineSpec, faults: Sequence[Fault], tests: Sequence[Test], seats: Any) -> Any:
    """What machines show at the readings of tests, hashed: array (T, N) of uint64. One piece of a sweep."""
    batch, start = Batch(lanes_of(spec, faults, seats)), cleared(spec)
    found = np.empty((len(tests), len(seats)), np.uint64)
    for number, test in enumerate(tests):
        batch.stand(start)
        shown = []
        for done, step in enumerate(test.steps, start=1):
            batch.do(step)
            if done in test.reads:
                shown += [batch.result, batch.counter, batch.setting, batch.bell[None], batch.yielded[None]]
        found[number] = hashes(np.concatenate(shown).T)
    return found


def singles(faults: Sequence[Fault]) -> Any:
    """The sound machine, and one machine for every single fault: array (1 + F, 1)."""
    return np.arange(NONE, len(faults), dtype=np.int16)[:, None]


def with_pairs(faults: Sequence[Fault]) -> Any:
    """The sound machine, every single fault, and every pair that can go together: array (N, 2).

    >>> from mechcalc.bench import CounterDirectionStuck, RatchetWorn
    >>> with_pairs([CounterDirectionStuck(direction=1), CounterDirectionStuck(direction=-1), RatchetWorn()]).tolist()
    [[-1, -1], [0, -1], [1, -1], [2, -1], [0, 2], [1, 2]]
    """
    one, other = np.triu_indices(len(faults), k=1)
    crowded = [index for index, fault in enumerate(faults) if any(clash(fault, rival) for rival in faults)]
    bad = {(a, b) for a in crowded for b in crowded if a < b and clash(faults[a], faults[b])}
    can = np.array([pair not in bad for pair in zip(one.tolist(), other.tolist(), strict=True)], bool)
    pairs = np.stack([one[can], other[can]], axis=1)
    alone = np.stack([np.arange(NONE, len(faults)), np.full(len(faults) + 1, NONE)], axis=1)
    return np.concatenate([alone, pairs]).astype(np.int16)


def fault_dictionary(spec: MachineSpec, *, pairs: bool = False, faults: Sequence[Fault] | None = None,
                     tests: Sequence[Test] | None = None, workers: int = 1, sweep: Sweep | None = None,
                     told: Told | None = None) -> FaultDictionary:
    """Every fault against every test.

    Parameters
    ----------
    spec : MachineSpec
    pairs : bool
        Every pair of single faults as well.
    faults, tests : sequences, optional
        `every_fault` and `candidates` unless given.
    workers : int
        Processes to share the work.
    sweep : callable, optional
        ``sweep(work, pieces)`` does ``work(piece)`` for each and gives the results in order: a place of your own to
        have the work done, such as `mechcalc.bench.far.on_dask`.
    told : callable, optional
        ``told(done, of)``, called as pieces come in.

    Raises
    ------
    InputError
        Less than one worker.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> book = fault_dictionary(load_spec("slate"))
    >>> book.answers.shape, book.undetected
    ((52, 184), ())
    """
    if workers < 1:
        raise InputError(f"{workers} workers do nothing: at least 1")
    faults = tuple(every_fault(spec) if faults is None else faults)
    tests = tuple(candidates(spec) if tests is None else tests)
    seats = with_pairs(faults) if pairs else singles(faults)
    order = _side_by_side(faults, seats)
    pieces = [seats[order[low:low + JOB]] for low in range(0, len(seats), JOB)]
    found = []
    for number, piece in enumerate(_swept(partial(answers_of, spec, faults, tests), pieces, workers, sweep), start=1):
        found.append(piece)
        if told:
            told(number, len(pieces))
    codes = np.concatenate(found, axis=1)[:, np.argsort(order)] if tests else np.zeros((0, len(seats)), np.uint64)
    return FaultDictionary(spec=spec, faults=faults, tests=tests, seats=seats,
                           answers=np.array([numbered(row) for row in codes], np.uint32).reshape(codes.shape))


def _side_by_side(faults: Sequence[Fault], seats: Any) -> Any:
    """An order in which machines whose turns go by the clock come last: few pieces have any, and take longer."""
    late = np.array([*(isinstance(fault, CarryTimingLate) for fault in faults), False])
    return np.argsort(late[seats].any(axis=1), kind="stable")


def _swept(work: Callable[[Any], Any], pieces: list[Any], workers: int, sweep: Sweep | None) -> Iterable[Any]:
    if sweep is not None:
        yield from sweep(work, pieces)
    elif workers == 1 or len(pieces) == 1:
        yield from map(work, pieces)
    else:
        with ProcessPoolExecutor(workers) as pool:
            yield from pool.map(work, pieces)
