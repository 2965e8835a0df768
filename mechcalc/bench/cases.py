"""Cases to practise on: a machine with something hidden wrong, on which tests are done and windows read.

Only this file decides what the cases are and how an answer is judged. What is wrong is drawn when a case is opened,
from a seed, among the faults of its grade; neither the case's text nor anything that it prints holds it. How many tests
could have done is worked out, and said as what it is.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from random import Random
from typing import Any

import numpy as np

from mechcalc.bench import faults as kinds
from mechcalc.bench.batch import Batch, lanes_of
from mechcalc.bench.candidates import Test, candidates
from mechcalc.bench.dictionary import answers_of, numbered, singles, with_pairs
from mechcalc.bench.fault import Fault
from mechcalc.bench.fault_list import clash, every_fault, fault_from_text
from mechcalc.bench.faulty_parts import checked
from mechcalc.bench.judging import Best, Verdict, contradiction, least_in_hindsight
from mechcalc.bench.machine import Machine
from mechcalc.bench.plan import home
from mechcalc.bench.prior import Prior
from mechcalc.bench.readings import Reading, differences
from mechcalc.bench.tracing import Done, Tracing, readings_of
from mechcalc.catalogue import load_spec
from mechcalc.errors import InputError
from mechcalc.methods.table import Words
from mechcalc.numbers import shown, whole
from mechcalc.spec import MachineSpec
from mechcalc.words import listed

Kinds = tuple[type[Fault], ...]
SHOWN_PLAINLY: Kinds = (kinds.CounterFingerGone, kinds.ClearingToothGone, kinds.NumberPinStuckOut)
SETTING: Kinds = (kinds.NumberPinGone, kinds.TransferGearOut, kinds.SettingLeverCreeps)
CARRYING: Kinds = (kinds.CarryPinGone, kinds.CarryLeverWeak)
STAYING: Kinds = (kinds.CarryLeverNotHomed, kinds.NumberPinStuckOut, kinds.NumberWheelOverthrows)
MISSING: Kinds = (kinds.NumberPinGone, kinds.IdlerToothLost)
RARE: Kinds = (kinds.CounterDirectionStuck, kinds.RatchetWorn, kinds.SettingLockWorn, kinds.CarryTimingLate)
WORKING: Kinds = (*SHOWN_PLAINLY, *SETTING, *CARRYING, *STAYING, kinds.IdlerToothLost)
MANY = 300  # answers left of which it is still worked out which can be told apart
ONE, TWO = "One thing is wrong with it.", "Two things are wrong with it."


@dataclass(frozen=True, slots=True)
class Grade:
    """How a case is drawn.

    Attributes
    ----------
    machine : str
        Of the catalogue.
    many : int
        How many things are wrong.
    kinds : tuple of type
        What they can be.
    near : bool
        Two faults are at neighbouring places, so that one stands in the other's light.
    """

    machine: str
    many: int
    kinds: Kinds
    near: bool = False


GRADES = (Grade("slate", 1, SHOWN_PLAINLY), Grade("slate", 1, SETTING), Grade("slate", 1, CARRYING),
          Grade("slate", 1, STAYING), Grade("slate", 1, MISSING), Grade("slate", 1, RARE), Grade("plain", 1, WORKING),
          Grade("slate", 2, (*SHOWN_PLAINLY, *SETTING)), Grade("slate", 2, (*CARRYING, *STAYING)),
          Grade("slate", 2, (*CARRYING, *STAYING, *MISSING), near=True))


class Case:
    """A machine with something hidden wrong. Made by `case`.

    Attributes
    ----------
    number : int
    spec : MachineSpec
    many : int
        How many things are wrong.
    tests : tuple of Test
        To choose from.
    done : tuple of Done
        What was done so far, with what was read.
    """

    def __init__(self, number: int, grade: Grade, seed: int) -> None:
        self.number, self.many, self._seed = number, grade.many, seed
        self.spec: MachineSpec = load_spec(grade.machine)
        self.tests = candidates(self.spec)
        self._all = every_fault(self.spec)
        self._hidden = _drawn(self.spec, grade, Random(f"bench case {number}, {seed}"))
        self._machine = Machine(self.spec, faults=self._hidden)
        self._done: list[Done] = []

    def __repr__(self) -> str:
        tests = f"{len(self._done)} test{'' if len(self._done) == 1 else 's'}"
        return f"<Case {self.number}, seed {self._seed}: {self.spec.name}, {tests} done>"

    @property
    def told(self) -> str:
        """What is known before the first test."""
        return f"Case {self.number}: a {self.spec.name}. {ONE if self.many == 1 else TWO}"

    @property
    def done(self) -> tuple[Done, ...]:
        return tuple(self._done)

    def read(self, what: Any) -> tuple[Reading, ...]:
        """Do a test on the machine, clear it as far as it clears, and give what its windows showed.

        Parameters
        ----------
        what : Test or str
            A test; the name of one of `tests`; or steps as `Test.of` takes them, read at the end unless ``read`` says
            where.

        Raises
        ------
        InputError
            No such test, and no steps either; steps that this machine cannot do. The machine has not moved.
        """
        test = self._test(what)
        readings = readings_of(self._machine, test)
        self._done.append(Done(test, readings))
        return readings

    def do(self, what: Any) -> Words:
        """The same as `read`, as a table to look at.

        Examples
        --------
        >>> print(case(1).do("set 123; turn; read; turn -1").headings)
        ('after', 'result', 'counter', 'levers', 'bell', 'gave way')
        """
        self.read(what)
        return windows(self.spec, self._done[-1])

    def _test(self, what: Any) -> Test:
        from mechcalc.bench.steps import fits_spec
        if isinstance(what, str):
            named = [test for test in self.tests if test.name == " ".join(what.split())]
            if named:
                return named[0]
            text = what.strip().rstrip(";")
            what = Test.of("a test of your own", text if text.endswith("read") else f"{text}; read")
        if not isinstance(what, Test):
            raise InputError(f"a test is given by its name, or by steps such as 'set 99; turn', not by {shown(what)}")
        fits_spec(self.spec, what.steps)
        return what

    def trace(self, **options: Any) -> Tracing:
        """A session that knows how many things are wrong, and what was read so far; options as for `Tracing`."""
        trace = _session(self, **options)
        for done in self._done:
            trace.record(done.test, done.readings)
        return trace

    # The judge.

    def verdict(self, *answer: Fault | str) -> Verdict:
        """Judge an answer.

        Parameters
        ----------
        answer : Fault or str
            As many as things are wrong: objects, or text as `fault_from_text` takes it.

        Raises
        ------
        InputError
            Another number of faults; one that this machine cannot have; text that is none.

        Examples
        --------
        >>> print(case(1).verdict("setting lock worn").outcome)
        open
        """
        faults = checked(self.spec, tuple(fault_from_text(one) if isinstance(one, str) else one for one in answer))
        if len(faults) != self.many:
            raise InputError(f"{ONE if self.many == 1 else TWO} You named {len(faults)}.")
        if set(faults) == set(self._hidden):
            return Verdict("right", f"Right: {listed(faults)}. {self._still_open()}", self._used)
        if self._alike([faults])[0]:
            return Verdict("same class", f"Right as far as any test can tell: {listed(faults)} answers to every test "
                                         f"of the list just as what is hidden here. {self._still_open()}", self._used)
        where = contradiction(self.spec, faults, self._done)
        if where:
            return Verdict("wrong", f"No. If it were so ({listed(faults)}), {where}", self._used)
        return Verdict("open", "Nothing that you have read contradicts it, but it is not so. "
                               "Another test would tell: which windows would differ?", self._used)

    @property
    def _used(self) -> str:
        return f"{len(self._done)} test{'' if len(self._done) == 1 else 's'} used"

    def _still_open(self) -> str:
        left = self._seats[self._agrees]
        if len(left) > MANY:
            return f"But your readings fit {len(left)} answers so far: that was luck, or a good nose."
        others = len(np.unique(answers_of(self.spec, self._all, self.tests, left), axis=1).T) - 1
        if others <= 0:
            return "Your readings leave nothing else."
        return f"But your readings fit {others} other answer{'' if others == 1 else 's'} as well."

    @cached_property
    def _seats(self) -> Any:
        every = with_pairs(self._all) if self.many > 1 else singles(self._all)
        return every[(every >= 0).sum(axis=1) == self.many]

    @cached_property
    def _codes(self) -> Any:
        """What every machine that could be hidden here answers to every test: array (T, N)."""
        codes = answers_of(self.spec, self._all, self.tests, self._seats)
        return np.array([numbered(row) for row in codes], np.uint32)

    @property
    def _agrees(self) -> Any:
        """Which machines of `_seats` show all that was read: array (N,) of bool."""
        batch = Batch(lanes_of(self.spec, self._all, self._seats))
        wrong = np.zeros(len(self._seats), np.int64)
        for one in self._done:
            for steps, step in enumerate((*one.test.steps, *home(one.test)), start=1):
                batch.do(step)
                if steps in one.test.reads and (reading := one.readings[one.test.reads.index(steps)]) is not None:
                    wrong += differences(batch, reading)
        return wrong == 0

    def _alike(self, answers: Sequence[Sequence[Fault]]) -> Any:
        """Which answers no test tells from what is hidden: array (N,) of bool."""
        known = tuple(dict.fromkeys(fault for one in (self._hidden, *answers) for fault in one))
        seats = np.array([[*[known.index(fault) for fault in one], -1, -1][:2] for one in (self._hidden, *answers)],
                         np.int16)
        codes = answers_of(self.spec, known, self.tests, seats)
        return (codes[:, 1:] == codes[:, :1]).all(axis=0)

    @cached_property
    def best(self) -> Best:
        """How few tests could have done it. Worked out when it is asked for: some seconds where two things are
        wrong."""
        machine = self._where_hidden
        least, proved = least_in_hindsight(self._codes, machine)
        return Best(least, proved, self._by_advice())

    @property
    def _where_hidden(self) -> int:
        hidden = [*sorted(self._all.index(fault) for fault in self._hidden), -1][:self._seats.shape[1]]
        return int(np.flatnonzero((self._seats == hidden).all(axis=1))[0])

    def _by_advice(self) -> int:
        """How many tests the kit's own choice takes, test by test, until nothing else is left."""
        trace, real = _session(self, misreadings=0), Machine(self.spec, faults=self._hidden)
        while (advice := trace.next_test()) is not None:
            trace.record(advice.test, readings_of(real, advice.test))
            left = [one.faults for one in trace.explanations(MANY)]
            if all(len(faults) == self.many for faults in left) and self._alike(left).all():
                break
        return len(trace.history)


def _session(one: Case, **options: Any) -> Tracing:
    prior = Prior(sound=0.0, second=0.05 if one.many == 1 else 0.999)
    return Tracing(one.spec, **{"prior": prior, "pairs": one.many > 1, **options})


def windows(spec: MachineSpec, done: Done) -> Words:
    """What was read in a test, as a table.

    >>> from mechcalc.bench.tracing import Done
    >>> test = Test.of("two", "set 1; turn; read; turn; read")
    >>> print(windows(load_spec("slate"), Done(test, readings_of(Machine(load_spec("slate")), test))))
    two
    after    result  counter  levers  bell  gave way
    2 steps  000001  001      0001    no    no
    3 steps  000002  002      0001    no    no
    """
    widths = (spec.result_places, spec.counter_places, spec.setting_places)
    rows = []
    for steps, reading in zip(done.test.reads, done.readings, strict=True):
        numbers = (None, None, None) if reading is None else (reading.result, reading.counter, reading.setting)
        answers = (None, None) if reading is None else (reading.bell, reading.yielded)
        rows.append((f"{steps} step{'' if steps == 1 else 's'}",
                     *("not read" if number is None else f"{number:0{width}d}"
                       for number, width in zip(numbers, widths, strict=True)),
                     *("not noticed" if answer is None else "yes" if answer else "no" for answer in answers)))
    return Words(done.test.name, ("after", "result", "counter", "levers", "bell", "gave way"), tuple(rows), ())


def _drawn(spec: MachineSpec, grade: Grade, chance: Random) -> tuple[Fault, ...]:
    """What is wrong: the kind first, so that a kind with many places is no likelier than one with few; something that
    shows."""
    tests = candidates(spec)
    while True:
        drawn = tuple(_one(spec, grade.kinds, chance) for _ in range(grade.many))
        if len(set(drawn)) < grade.many or (grade.many == 2 and clash(*drawn)) or (grade.near and not _near(*drawn)):
            continue
        seats = np.array([[-1, -1], [0, -1], [1 % len(drawn), -1], [0, 1] if len(drawn) == 2 else [0, -1]], np.int16)
        codes = answers_of(spec, drawn, tests, seats)
        if all((codes[:, machine] != codes[:, 3]).any() for machine in range(grade.many + 1 if grade.many == 2 else 1)):
            return drawn


def _one(spec: MachineSpec, among: Kinds, chance: Random) -> Fault:
    return chance.choice([*chance.choice(among).everywhere(spec)])


def _near(one: Fault, other: Fault) -> bool:
    places = [getattr(fault, "place", getattr(fault, "wheel", 0)) for fault in (one, other)]
    return abs(places[0] - places[1]) <= 1


def case(number: int, seed: int = 0) -> Case:
    """A case.

    Parameters
    ----------
    number : int
        1 to 10, from plain to hard: up to 7 one thing is wrong, from 8 on two.
    seed : int
        For others of the same grade.

    Raises
    ------
    InputError
        No such case.

    Examples
    --------
    >>> print(case(3).told)
    Case 3: a Slate. One thing is wrong with it.
    >>> case(3)
    <Case 3, seed 0: Slate, 0 tests done>
    """
    number = whole(number, "the number of a case", 1, len(GRADES))
    return Case(number, GRADES[number - 1], whole(seed, "the seed of a case", 0))
