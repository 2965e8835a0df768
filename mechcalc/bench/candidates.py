"""Tests that a person can do on a machine with the covers on, and what each asks to be read.

Only this file decides which tests there are to choose from. A test is a few steps with the places marked at which
something is read; it begins with everything at zero and ends wherever it ends. The tests of a spec follow from its
places and its reach; they are the ones of the trade (nines and one, noughts and nines in a row, one in every place ten
times; common practice, no source), stated so that they reach every part.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from mechcalc.bench.steps import Step, fits_spec, steps_from_text, text_of_steps
from mechcalc.errors import InputError
from mechcalc.numbers import shown
from mechcalc.spec import MachineSpec

READ = "read"
REGISTERS = ("result", "counter", "setting")


@dataclass(frozen=True, slots=True)
class Test:
    """A short sequence of steps, with readings in between.

    Attributes
    ----------
    name : str
        What it is called on the sheet.
    steps : tuple of Step
        From everything at zero, carriage at home.
    reads : tuple of int
        After how many steps something is read, growing; the last is the number of steps.
    looks_at : str
        What it is for, in a sentence.
    """

    __test__ = False  # not one for pytest to collect

    name: str
    steps: tuple[Step, ...]
    reads: tuple[int, ...]
    looks_at: str = ""

    @classmethod
    def of(cls, name: str, text: str, looks_at: str = "") -> Test:
        """A test from text: steps as `steps_from_text` takes them, and ``read`` where something is to be read.

        Raises
        ------
        InputError
            A step that is none; nothing to read.

        Examples
        --------
        >>> test = Test.of("nines and one", "set 99; turn; read; set 1; turn; read")
        >>> len(test.steps), test.reads
        (4, (2, 4))
        >>> str(test)
        'set 99; turn 1; read; set 1; turn 1; read'
        """
        steps: list[Step] = []
        reads: list[int] = []
        for part in text.replace("\n", ";").split(";"):
            if part.strip() == READ:
                reads.append(len(steps))
            else:
                steps += steps_from_text(part)
        if not reads or reads[0] == 0 or len(set(reads)) < len(reads):
            raise InputError(f"{shown(name)}: a test reads something after its steps, and once at each place; mark it "
                             f"with \"read\"")
        if reads[-1] != len(steps):
            raise InputError(f"{shown(name)}: after the last reading nothing is left to do, but "
                             f"{text_of_steps(steps[reads[-1]:])} is")
        return cls(name, tuple(steps), tuple(reads), looks_at)

    def __str__(self) -> str:
        parts = []
        for begin, end in zip((0, *self.reads), self.reads, strict=False):
            parts += [text_of_steps(self.steps[begin:end]), READ]
        return "; ".join(parts)

    @property
    def turns(self) -> int:
        """Whole turns of the crank; each try of an interlock takes one."""
        return sum(step.what in ("turn", "try back", "try lever") for step in self.steps)

    @property
    def work(self) -> float:
        """Work at the bench, in turns of the crank: a shift or a clearing counts as one turn, a lever that is set as a
        half, a reading as two (stated weights, not measured ones)."""
        weights = {"set": 0.0, "turn": 1.0, "try back": 2.0, "try lever": 2.0, "back transfer": 2.0}
        levers = sum(sum(digit != "0" for digit in str(step.number)) for step in self.steps if step.what == "set")
        return sum(weights.get(step.what, 1.0) for step in self.steps) + 0.5 * levers + 2.0 * len(self.reads)


def candidates(spec: MachineSpec) -> tuple[Test, ...]:
    """The tests to choose from, for a machine of this spec.

    >>> from mechcalc import load_spec
    >>> tests = candidates(load_spec("slate"))
    >>> print(tests[0].name, "|", tests[0])
    noughts | turn 3; read
    """
    found: dict[tuple[Step, ...], Test] = {}
    for test in _all(spec):
        fits_spec(spec, test.steps)
        found.setdefault(test.steps, test)
    return tuple(found.values())


def _all(spec: MachineSpec) -> Iterator[Test]:
    yield Test.of("noughts", "turn 3; read", "pins that stand out though every lever is at 0")
    yield from _digits(spec)
    yield from _carries(spec)
    yield from _teeth(spec)
    yield from _counter(spec)
    yield from _clearing(spec)
    yield from _interlocks(spec)


def _row(digit: int, spec: MachineSpec) -> int:
    return int(str(digit) * spec.setting_places)


def _digits(spec: MachineSpec) -> Iterator[Test]:
    """Every digit in every place, added and taken off."""
    for digit in range(1, 10):
        number, pins = _row(digit, spec), "pin" if digit == 1 else f"{digit} pins"
        yield Test.of(f"all {digit}", f"set {number}; turn; read", f"the first {pins} of every pinwheel")
        yield Test.of(f"all {digit}, there and back", f"set {number}; turn; turn -1; read",
                      "carries and borrows that undo each other")
    rising = int("".join(str(place % 9 + 1) for place in range(spec.setting_places)))
    yield Test.of("rising digits, twice", f"set {rising}; turn; read; turn; read",
                  "another number of pins in each place; levers that creep")


def _carries(spec: MachineSpec) -> Iterator[Test]:
    """Nines and one, and nought less one, at the carriage positions at which every wheel comes under the helix."""
    nines = _row(9, spec)
    for place in _positions(spec):
        there = f"shift {place}; " if place else ""
        at = f", carriage at {place}" if place else ""
        yield Test.of(f"nines and one{at}", f"{there}set {nines}; turn; set 1; turn; read",
                      "carries through a row of nines")
        yield Test.of(f"nought less one{at}", f"{there}set 1; turn -1; read", "borrows through all wheels; the bell")
        yield Test.of(f"nought less one and back{at}", f"{there}set 1; turn -1; turn; read; clear setting; turn 2; "
                      "read", "carries through all wheels; levers that stay out")
        yield Test.of(f"nines, then noughts{at}", f"{there}set {nines}; turn 2; clear setting; turn 2; read; turn -2; "
                      "read", "levers that are not pushed home")
        yield Test.of(f"fives twice{at}", f"{there}set {_row(5, spec)}; turn; read; turn; read",
                      "a carry in every place at once")
        yield Test.of(f"nines twice{at}", f"{there}set {nines}; turn; read; turn; read",
                      "carries at the last pin, where time is shortest")
        yield Test.of(f"nines taken off twice{at}", f"{there}set {nines}; turn -2; read",
                      "borrows at the last pin, where time is shortest")


def _positions(spec: MachineSpec) -> tuple[int, ...]:
    """Home, the last position, and between them those a setting's width apart."""
    last = spec.positions - 1
    step = max(1, min(spec.setting_places, spec.carry_reach) - 1)
    return tuple(sorted({*range(0, last + 1, step), last}))


def _teeth(spec: MachineSpec) -> Iterator[Test]:
    """One in every place ten times: each wheel goes round once, past every tooth of its idler."""
    ones = _row(1, spec)
    for place in _positions(spec):
        there = f"shift {place}; " if place else ""
        at = f", carriage at {place}" if place else ""
        yield Test.of(f"ones, ten times{at}", f"{there}set {ones}; turn 10; read", "every tooth of the idlers")
        yield Test.of(f"ones taken off, ten times{at}", f"{there}set {ones}; turn -10; read",
                      "every tooth of the idlers, in subtractive turns")
    for place in range(spec.setting_places + 1, min(spec.carry_reach, spec.result_places) + 1):
        yield from _teeth_above(spec, place)


def _teeth_above(spec: MachineSpec, place: int) -> Iterator[Test]:
    """An idler above the levers turns only when a carry comes. Its wheel is brought to each digit with the carriage
    shifted, then borrowed from and carried to at home, through noughts and nines."""
    shift = place - spec.setting_places
    if shift >= spec.positions:
        return
    top = 10 ** (spec.setting_places - 1)
    for way, name in ((1, "borrow and carry"), (-1, "carry and borrow")):
        once = (f"shift {shift}; set {top}; turn {way}; shift -{shift}; set 1; "
                f"turn {-way}; turn {way}")
        yield Test.of(f"{name} at place {place}, every digit", "; ".join([f"{once}; read"] * 10),
                      f"every tooth of the idler of place {place}")


def _counter(spec: MachineSpec) -> Iterator[Test]:
    """Counting in every place, carrying through all, and either direction first."""
    every = "; shift; ".join(["turn"] * spec.positions)
    back = "; shift; ".join(["turn -1"] * spec.positions)
    yield Test.of("a turn at each position", f"{every}; read", "every finger of the counter")
    yield Test.of("a turn back at each position", f"{back}; read", "the counter picks its direction")
    yield Test.of("counter carries", "shift; ".join(["turn 9; "] * spec.positions) + f"shift -{spec.positions - 1}; "
                  "turn; read" if spec.positions > 1 else "turn 10; read", "the counter's own carry")
    yield Test.of("one up, two down", "turn; turn -2; read", "the counter below nought")
    yield Test.of("direction again after clearing", "turn; clear counter; turn -2; read",
                  "the counter's direction, free after clearing")


def _clearing(spec: MachineSpec) -> Iterator[Test]:
    """Every wheel away from nought, then cleared; and back to the levers."""
    last = spec.positions - 1
    above = f"shift {last}; set {_row(4, spec)}; turn; shift -{last}; " if last else ""
    fill = f"set {_row(5, spec)}; turn; {above}"
    yield Test.of("fill and clear", f"{fill}clear result; read", "the clearing tooth of every wheel")
    yield Test.of("all wheels nines, cleared", "set 1; turn -1; clear result; read", "the clearing teeth in reach")
    if spec.back_transfer:
        rising = int("".join(str(place % 9 + 1) for place in range(spec.setting_places)))
        yield Test.of("back to the levers", f"set {rising}; turn; clear setting; back transfer; read",
                      "every gear of the back transfer")


def _interlocks(spec: MachineSpec) -> Iterator[Test]:
    yield Test.of("gently back", "try back; read", "the full-stroke ratchet")
    yield Test.of("a lever during a turn", "try lever; read", "the setting lock")
