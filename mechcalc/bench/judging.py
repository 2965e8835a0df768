"""How an answer is judged: where readings contradict it, and how few tests could have led to it.

Only this file compares an answer with what was read, and counts the tests that it takes.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from mechcalc.bench.fault import Fault
from mechcalc.bench.machine import Machine
from mechcalc.bench.plan import cheapest, minimal
from mechcalc.bench.readings import WIDTHS, Reading
from mechcalc.bench.tracing import Done, readings_of
from mechcalc.spec import MachineSpec

SAID = {"bell": ("the bell would have rung", "the bell would not have rung"),
        "yielded": ("something would have given way", "nothing would have given way")}
FOUND = {"bell": ("it rang", "it did not"), "yielded": ("something did", "nothing did")}
NAMES = {"result": "the result", "counter": "the counter", "setting": "the levers"}


@dataclass(frozen=True, slots=True)
class Verdict:
    """What an answer was found to be.

    Attributes
    ----------
    outcome : str
        ``"right"``; ``"same class"``: no test tells it from what is hidden; ``"wrong"``: what was read contradicts it;
        ``"open"``: it is not so, but nothing that was read says so.
    words : str
    used : str
        How many tests were done.
    """

    outcome: str
    words: str
    used: str

    def __str__(self) -> str:
        return f"{self.words} {self.used.capitalize()}."


@dataclass(frozen=True, slots=True)
class Best:
    """How few tests could have done it.

    Attributes
    ----------
    hindsight : int
        The fewest tests after which nothing else would be left, for somebody who knew which to take.
    proved : bool
        Whether no fewer can do.
    by_advice : int
        How many the kit's own choice took, test by test, with nothing known before.
    """

    hindsight: int
    proved: bool
    by_advice: int

    def __str__(self) -> str:
        proof = "proved: no choice does with fewer" if self.proved else "no proof that fewer would not do"
        return (f"In hindsight {_tests(self.hindsight)} would have left nothing else ({proof}); choosing test by test, "
                f"the kit took {self.by_advice}.")


def _tests(many: int) -> str:
    return f"{many} test{'' if many == 1 else 's'}"


def contradiction(spec: MachineSpec, faults: Sequence[Fault], done: Sequence[Done]) -> str:
    """The first reading that machines with these faults would not have shown, in words; ``""`` where there is none.

    >>> from mechcalc import load_spec
    >>> from mechcalc.bench import CounterFingerGone
    >>> from mechcalc.bench.candidates import Test
    >>> test = Test.of("three turns", "turn 3; read")
    >>> contradiction(load_spec("slate"), [CounterFingerGone(wheel=1)], [Done(test, (Reading(counter=3),))])
    'in “three turns” the counter would have shown 000, and you read 003.'
    """
    machine = Machine(spec, faults=faults)
    for one in done:
        for number, (would, was) in enumerate(zip(readings_of(machine, one.test), one.readings, strict=True), start=1):
            said = "" if was is None else _unlike(spec, would, was)
            if said:
                place = f", reading {number}" if len(one.readings) > 1 else ""
                return f"in “{one.test.name}”{place} {said}."
    return ""


def _unlike(spec: MachineSpec, would: Reading, was: Reading) -> str:
    """The first register or answer in which two readings differ."""
    for register, width in WIDTHS.items():
        one, other = getattr(would, register), getattr(was, register)
        if other is not None and one != other:
            places = getattr(spec, width)
            return f"{NAMES[register]} would have shown {one:0{places}d}, and you read {other:0{places}d}"
    for answer, words in SAID.items():
        one, other = getattr(would, answer), getattr(was, answer)
        if other is not None and one != other:
            return f"{words[not one]}, and {FOUND[answer][not other]}"
    return ""


def least_in_hindsight(codes: Any, machine: int) -> tuple[int, bool]:
    """The fewest tests that tell one machine from every other that any test tells it from, and whether that is proved.

    Parameters
    ----------
    codes : array (T, N)
        What each machine answers to each test.
    machine : int
        Which one.

    Examples
    --------
    >>> least_in_hindsight(np.array([[0, 1, 1, 1], [0, 0, 1, 1], [0, 1, 0, 1]]), 3)
    (2, True)
    """
    weights = [1 << test for test in range(len(codes))]
    differs = np.unique((codes != codes[:, machine][:, None]).T, axis=0)
    needs = {sum(weights[test] for test in np.flatnonzero(row)) for row in differs} - {0}
    chosen, bound = cheapest(minimal(needs), [1.0] * len(codes))
    return len(chosen), len(chosen) <= bound + 1e-6
