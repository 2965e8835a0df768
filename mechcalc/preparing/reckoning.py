"""A hand that reckons instead of cranking: what a calculation would do on a sound machine, by whole numbers.

Only this file does arithmetic in place of the mechanism, and nothing that a user sees comes from it: it decides for
which numbers the machine is worth cranking. A search looks at a hundred thousand candidates; what it hands back has
been cranked, and every condition has been asked again of the strokes. What it relies on is the law of the model: with
the carriage at *s*, wheels 1..q, q = min(n, K + s), do arithmetic modulo 10^q, wheels above stand still, and the bell
rings when that arithmetic wraps. `tests/preparing` holds it to the mechanism, turn by turn.
"""

from __future__ import annotations

from collections.abc import Callable, Generator, Iterable
from typing import Any, cast

from mechcalc.errors import CapacityError
from mechcalc.methods.capacity import stands_for
from mechcalc.methods.hand import Hand
from mechcalc.preparing.course import Course, Run, Turn
from mechcalc.spec import MachineSpec

Nothing = tuple[()]


class Reckoner:
    """Answers to what a method asks of a `mechcalc.methods.Hand`, but makes no strokes.

    Parameters
    ----------
    spec : MachineSpec
        The machine, sound.
    check : bool
        Whether to refuse a turn whose carries do not reach.
    """

    def __init__(self, spec: MachineSpec, check: bool = True) -> None:
        self.spec, self.check = spec, check
        self.reset()

    def reset(self) -> None:
        """Everything at nought, the carriage at home."""
        self.setting = self.result = self.carriage = self.owed = self.shifts = self.worked_from = 0
        self.turns: list[Turn] = []
        self.wheels: list[tuple[int, int, int, int, int]] = []  # each turn's arguments for `runs_by_digits`
        self.counter_direction = None

    @property
    def machine(self) -> Reckoner:
        """Itself: methods ask the hand's machine for spec, setting, result and carriage."""
        return self

    @property
    def hand(self) -> Hand:
        """Itself, as what methods take it for."""
        return cast(Hand, self)

    @property
    def value(self) -> int:
        """What the result stands for, every bell counted."""
        return self.result + self.owed

    def set(self, number: int, *_: Any) -> Nothing:
        """Bring the levers to a number."""
        self.setting = number
        return ()

    set_levers = set

    def shift_to(self, position: int) -> Nothing:
        """Bring the carriage to a position."""
        self.shifts += abs(position - self.carriage)
        self.carriage = position
        return ()

    def clear(self, *registers: str) -> Nothing:
        """Clear registers."""
        if "result" in registers:
            self.result = self.owed = 0
        if "counter" in registers:
            self.worked_from = len(self.turns)
        return ()

    def bring_back(self) -> Nothing:
        """Back transfer."""
        self.setting = self.result // 10**self.carriage % 10**self.spec.setting_places
        return self.clear("result")

    def turn(self, turns: int, *, over_the_end: bool = False, by_bell: bool = False, note: Any = "") -> Nothing:
        """So many turns, subtractive where `turns` is negative."""
        direction, reach = (1 if turns > 0 else -1), self.spec.wheels_in_reach(self.carriage)
        modulus = 10**reach
        amount = self.setting * 10**self.carriage % modulus
        for _ in range(abs(turns)):
            before, value = self.result, self.result + self.owed
            wheels = before % modulus + direction * amount
            bell = not 0 <= wheels < modulus
            self.result += wheels % modulus - before % modulus
            if bell:
                self.owed += direction * modulus
            meant = value + direction * self.setting * 10**self.carriage
            if (self.result != meant and self.check and not over_the_end
                    and not stands_for(meant, self.result, reach, by_bell)):
                raise CapacityError("a carry does not reach", "carry reach", 1)
            self.turns.append(Turn(direction, self.carriage, value, self.result + self.owed, bell))
            self.wheels.append((before, amount, direction, self.carriage, reach))
        return ()

    def course(self) -> Course:
        """What has happened."""
        wheels = self.wheels
        return Course(tuple(self.turns), self.shifts, self.worked_from, self.result,
                      lambda: [runs_by_digits(*turn) for turn in wheels])


def run(strokes: Iterable[Any]) -> Any:
    """Do what a method's generator says, to its end; what it returns."""
    generator = cast(Generator[Any, None, Any], iter(strokes))
    while True:
        try:
            next(generator)
        except StopIteration as end:
            return end.value


def at_first_base(hand: Reckoner, bases: Iterable[int], plan: Callable[[int], Iterable[Any]]) -> None:
    """As `mechcalc.methods.entering.work_at`: at the first base at which all carries reach."""
    refusal: CapacityError | None = None
    for base in bases:
        hand.reset()
        try:
            run(plan(base))
            return
        except CapacityError as no:
            refusal = no
    assert refusal is not None
    raise refusal


def runs_by_digits(before: int, amount: int, direction: int, position: int, reach: int) -> tuple[Run, ...]:
    """The carries of a turn, added up figure by figure.

    A borrow is a carry among complements: with the wheels at 9 less their digit, taking away is adding.

    Parameters
    ----------
    before : int
        The result before the turn.
    amount : int
        What is added or taken away, the carriage's noughts included.
    direction, position : int
        Of the turn.
    reach : int
        The highest wheel that takes part.

    Examples
    --------
    >>> runs_by_digits(999, 1, 1, 0, 6), runs_by_digits(0, 20, -1, 1, 4)
    ((Run(first=1, wheels=4, nines=2),), (Run(first=2, wheels=3, nines=2),))
    """
    wheels = (before if direction > 0 else 10**reach - 1 - before % 10**reach) // 10**position
    pins = amount // 10**position
    runs: list[Run] = []
    first = nines = 0  # of the run that is under way
    for wheel in range(position + 1, reach + 1):
        if not (pins or first):
            break
        (wheels, digit), (pins, steps) = divmod(wheels, 10), divmod(pins, 10)
        if first and digit + steps == 9:
            nines += 1
            continue
        if first:
            runs.append(Run(first, wheel - first + 1, nines))
        first, nines = (wheel if digit + steps > 9 else 0), 0
    if nines:
        runs.append(Run(first, reach - first + 1, nines))
    return tuple(runs)
