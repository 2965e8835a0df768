"""The operator's hand: strokes, each with the line of working that says what it means.

Only this file turns a method into a `Working`. To add a method, write a generator that takes a `Hand` and says
``yield from hand.set(…)``, ``hand.turn(…)``, ``hand.shift_to(…)``, ``hand.clear(…)``, ``hand.bring_back()`` in the
order in which an operator would do it, reads what it needs from `hand.value` and `hand.machine`, and returns the
answer and a closing remark (or an `Outcome`, where there are decimals or a remainder); then write a function with a
docstring that checks the arguments (`mechcalc.numbers.whole`), asks `capacity.check_sizes` whether they fit, and
returns ``work(machine, title, generator)``. The lines, the rehearsal that refuses a calculation whose carries do not
reach, the counts and the tables come by themselves.
"""

from __future__ import annotations

from collections.abc import Callable, Generator, Iterator
from dataclasses import replace

from mechcalc.errors import InputError
from mechcalc.events import Stroke
from mechcalc.machine import Machine
from mechcalc.methods import capacity
from mechcalc.methods.complement import signed_result, wrapped
from mechcalc.methods.equality import Equality, Node, power_of_ten, scaled, scaled_down, total, written
from mechcalc.methods.working import Line, Outcome, Working
from mechcalc.numbers import from_digits, shown, to_digits
from mechcalc.spec import MachineSpec
from mechcalc.state import State

Piece = tuple[Stroke, Line]
Ending = tuple[int, str] | Outcome  # the answer and a closing remark, or more than that
Method = Callable[["Hand"], Generator[Piece, None, Ending]]


class Hand:
    """Someone at a machine who says what they do.

    Each method below is a generator of (stroke, line). The line's left-hand side is what is meant to happen, its
    right-hand side what the machine shows afterwards.

    Parameters
    ----------
    machine : Machine
        To work on.
    title : str
        The calculation.
    value : int
        What the result register stands for now.
    check : bool
        Whether to refuse a turn that loses a carry (in a rehearsal).
    """

    def __init__(self, machine: Machine, title: str, value: int, check: bool) -> None:
        self.machine, self.title, self.check = machine, title, check
        self._owed = value - machine.result

    @property
    def value(self) -> int:
        """What the result stands for, every bell counted: negative where its wheels show a complement."""
        return self.machine.result + self._owed

    def clear(self, *registers: str) -> Iterator[Piece]:
        """Clear ``"setting"``, ``"result"`` and ``"counter"`` as named; one that is clear costs no stroke."""
        for register in registers:
            state = self.machine.state
            digits: tuple[int, ...] = getattr(state, register)
            free = register != "counter" or state.counter_direction is None
            if free and not any(digits) and not (register == "result" and self._owed):
                continue
            was = from_digits(digits)
            (stroke,) = self.machine.perform(f"clear {register}")
            if register == "result":
                self._owed = 0
            shows = from_digits(getattr(stroke.after, register))
            words = f"Clear the {register}{'; its direction is free again' if register == 'counter' else ''}."
            yield stroke, Line(words, Equality(("-", was, was), shows))

    def set(self, number: int, words: str = "", made_of: Node | None = None) -> Iterator[Piece]:
        """Bring the levers to `number`; no stroke where they stand there.

        `words` and `made_of` say what the number is, where it is more than its digits (two numbers side by side).
        """
        if self.machine.setting == number:
            return
        stroke = self.machine.set(number)
        digits = to_digits(number, self.machine.spec.setting_places)
        terms: list[Node] = [scaled(digit, place) for place, digit in enumerate(digits) if digit]
        yield stroke, Line(words or f"Set {number} on the levers.",
                           Equality(total(terms[::-1]) if made_of is None else made_of,
                                    from_digits(stroke.after.setting)))

    def set_levers(self, number: int, note: str = "") -> Iterator[Piece]:
        """Bring the levers to `number` one by one, from the highest down; those that stand right are left alone.

        `note` is added to the words of the last one.
        """
        digits = to_digits(number, self.machine.spec.setting_places)
        for place in range(len(digits), 0, -1):
            was, now = self.machine.setting_digits[place - 1], digits[place - 1]
            if was == now:
                continue
            before = self.machine.setting
            stroke = self.machine.set_lever(place, now)
            change: Node = ("+" if now > was else "-", before, scaled(abs(now - was), place - 1))
            words = f"Lever {place} from {was} to {now}."
            yield stroke, Line(f"{words} {note}" if note and stroke.reading.setting == number else words,
                               Equality(change, from_digits(stroke.after.setting)))

    def bring_back(self) -> Iterator[Piece]:
        """Back transfer: clear the setting, and bring the number wheels opposite the levers back into it.

        What stands below the carriage's position is dropped, what stands above the levers is lost.
        """
        yield from self.clear("setting")
        shows, place = self.machine.result, self.machine.carriage
        (stroke,) = self.machine.perform("back transfer")
        self._owed = 0
        setting, part = from_digits(stroke.before.setting), scaled_down(shows, place)
        if shows // 10**place >= 10**self.machine.spec.setting_places:
            part = ("mod", part, power_of_ten(self.machine.spec.setting_places))
        dropped = f" The last {place} {'digit is' if place == 1 else 'digits are'} dropped." if place else ""
        yield stroke, Line(f"Back transfer: the result goes back to the levers, which show {self.machine.setting}; the "
                           f"result is clear.{dropped}", Equality(("+", setting, part), self.machine.setting))

    def shift_to(self, position: int) -> Iterator[Piece]:
        """Shift the carriage to `position`, a stroke for each place."""
        while self.machine.carriage != position:
            (stroke,) = self.machine.perform("shift", 1 if position > self.machine.carriage else -1)
            here, setting = stroke.after.carriage, from_digits(stroke.after.setting)
            times = {0: "once", 1: "10 times"}.get(here, f"{written(power_of_ten(here))} times")
            yield stroke, Line(f"Shift the carriage to position {here}: a turn now counts {times}.",
                               Equality(("*", setting, power_of_ten(here)), setting * 10**here))

    def turn(self, turns: int, *, over_the_end: bool = False, by_bell: bool = False,
             note: str | Callable[[], str] = "") -> Iterator[Piece]:
        """So many turns, subtractive where `turns` is negative.

        `over_the_end` says that a carry out of the highest wheel is wanted; `by_bell` that the operator goes by the
        bell and needs no 9 in front to know a complement. `note` is added to the words of each turn; a function is
        asked after it.
        """
        direction = 1 if turns > 0 else -1
        for number in range(1, abs(turns) + 1):
            value, owed = self.value, self._owed
            stroke = self.machine.turn(direction)
            assert isinstance(stroke, Stroke)
            self._owed += wrapped(self.machine.spec, stroke)
            amount = direction * self.machine.setting * 10**self.machine.carriage
            if self.check and not over_the_end:
                capacity.check_turn(self.machine.spec, self.title, stroke.before, stroke.after, value + amount,
                                    by_bell=by_bell)
            said = [self._said(number, abs(turns), direction, owed), note if isinstance(note, str) else note()]
            yield stroke, Line(" ".join(filter(None, said)), self._sum(stroke, direction))

    def _sum(self, stroke: Stroke, direction: int) -> Equality:
        """What a turn does to the windows: plain, or modulo 10^q where the bell rang."""
        before, after = from_digits(stroke.before.result), from_digits(stroke.after.result)
        amount = scaled(from_digits(stroke.before.setting), stroke.before.carriage)
        left: Node = ("+" if direction > 0 else "-", before, amount)
        if stroke.after.bell:
            left = ("mod", left, power_of_ten(self.machine.spec.wheels_in_reach(stroke.before.carriage)))
        return Equality(left, after)

    def _said(self, number: int, of: int, direction: int, owed: int) -> str:
        """The words of a turn; `owed` is what was owed at the top before it."""
        amount = written(scaled(self.machine.setting, self.machine.carriage))
        count = f" {number} of {of}" if of > 1 else ""
        turn = f"Turn{count}: add {amount}." if direction > 0 else f"Turn back{count}: take away {amount}."
        if self._owed < owed:
            return (f"{turn} The bell rings: the borrow has nowhere to go, and the wheels show a complement; "
                    f"it means −{-self.value}.")
        if self._owed > owed and owed:
            return f"{turn} The bell rings: the borrow is paid back, and the number is plain again."
        if self._owed > owed:
            return f"{turn} The bell rings: the carry out of the highest wheel has nowhere to go."
        if self.value < 0:
            return f"{turn} Still a complement; it means −{-self.value}."
        return turn

    def answer(self) -> str:
        """How the result is read, in a sentence."""
        if self.value < 0:
            return (f"The result shows {self.machine.result}, the complement of {-self.value}: the answer is "
                    f"−{-self.value}.")
        return f"The result shows {self.machine.result}."


def spec_of(machine: Machine) -> MachineSpec:
    """The spec of a machine that a method was given, or an `InputError` if it was given something else."""
    if not isinstance(machine, Machine):
        raise InputError(f"a method works a Machine, not {shown(machine)}")
    return machine.spec


def work(machine: Machine, title: str, method: Method) -> Working:
    """Rehearse a method on a sound machine of the same build, then do it on `machine`.

    Raises
    ------
    InputError, CapacityError, Locked
        As the rehearsal finds; `machine` has not moved.
    """
    value = signed_result(machine)
    _done(Hand(Machine(machine.spec, state=_rested(machine.state)), title, value, check=True), method)
    start, before = machine.state, len(machine.strokes)
    try:
        strokes, lines, end = _done(Hand(machine, title, value, check=False), method)
    except BaseException:
        while len(machine.strokes) > before:
            machine.undo()
        raise
    return Working(machine.spec, title, start, end.answer, strokes, lines, end.remark, end.places, end.remainder,
                   end.remainder_places, end.error_bound, machine.parts)


def _rested(state: State) -> State:
    """The state with every carry lever at home, as a sound machine has it at rest."""
    return state if state.direction else replace(state, levers=(False,) * len(state.levers))


def _done(hand: Hand, method: Method) -> tuple[tuple[Stroke, ...], tuple[Line, ...], Outcome]:
    """Run a method to its end: strokes, lines, and what it found."""
    pieces: list[Piece] = []
    generator = method(hand)
    while True:
        try:
            pieces.append(next(generator))
        except StopIteration as end:
            found = end.value
            break
    if not isinstance(found, Outcome):
        found = Outcome(answer=found[0], remark=found[1])
    return tuple(stroke for stroke, _ in pieces), tuple(line for _, line in pieces), found
