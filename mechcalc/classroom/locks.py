"""Interlocks taken apart: all that hold a movement, a machine that lacks one, every state in which something is off.

Only this file says how an interlock is seen and what it spares a machine. Everything else is worked out from
`mechcalc.interlocks.INTERLOCKS`: who blocks whom, what frees it, what would happen without it.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from mechcalc.catalogue import load_spec
from mechcalc.classroom.machines import ready
from mechcalc.errors import InputError, Locked
from mechcalc.interlocks import CLEARING, INTERLOCKS, SPOKEN, Interlock
from mechcalc.machine import Machine
from mechcalc.methods.table import Words
from mechcalc.numbers import shown
from mechcalc.parts import Parts
from mechcalc.state import State

if TYPE_CHECKING:
    from sympy.logic.boolalg import Boolean

Move = tuple[str, Any]  # an operation and its argument, as `Machine.perform` takes them

SEEN = {  # how it is seen, and what it spares the machine
    "full-stroke ratchet": (
        "The pawl rides on the ratchet as soon as the crank has left its notch.",
        "Half a turn is taken back, and its carry goes the wrong way."),
    "setting lock": (
        "No setting lever moves while the crank is out of its notch.",
        "A lever is moved between its pins: a digit is added that nobody has set."),
    "crank at rest": (
        "The crank does not stand in its notch.",
        "A shift or a clearing in mid-turn: part of the number goes to other wheels, or is lost."),
    "clearing lever at home": (
        "A clearing lever does not lie against its stop.",
        "A number that is half cleared is added to; studs stand in the way of driven wheels and bend (*)."),
    "back transfer free": (
        "The back-transfer lever is down.",
        "Digits go to the wrong levers after a shift; in a turn, wheels and pinwheels drag each other (*)."),
    "carriage seated": (
        "The carriage stands proud of its seat, between two positions.",
        "A tooth of an idler lands between two wheels, and breaks (*)."),
    "carriage stop": (
        "The carriage is at the end of its way.",
        "It runs off its rail (*)."),
    "carriage in its seat": (
        "The carriage is seated already.",
        "Nothing: there is nothing to seat."),
    "back transfer fitted": (
        "There is no such lever.",
        "Nothing: the part is not there."),
}

LETTERS = {"A": "an additive turn is begun", "S": "a subtractive turn is begun",
           "L": "a clearing lever is off its home", "T": "back transfer is engaged", "E": "the carriage is eased"}
PUTTING_OFF: tuple[Move, ...] = (  # movements that bring these about
    ("crank", 120.0), ("crank", -120.0), ("pull", ("result", 45.0)), ("pull", ("counter", 45.0)),
    ("transfer lever", True), ("ease", 1))


def who_blocks(machine: Machine, operation: str, argument: Any = None) -> tuple[str, ...]:
    """The names of all interlocks that block a movement, in the order of the table (a refusal names the first only).

    >>> m = ready("slate")
    >>> _ = m.pull_clearing_lever("counter", 30.0), m.ease_carriage(1)
    >>> who_blocks(m, "crank", 1.0)
    ('clearing lever at home', 'carriage seated')
    """
    return tuple(rule.name for rule in INTERLOCKS if operation in rule.operations and machine.parts.holds(rule.name)
                 and rule.blocks(machine.spec, machine.state, operation, argument))


class _Lacking(Parts):
    """Sound parts, but for some interlocks."""

    def __init__(self, names: tuple[str, ...]) -> None:
        self.names = names

    def holds(self, interlock: str) -> bool:
        return interlock not in self.names


def without(machine: Machine, *locks: str) -> Machine:
    """The same machine, standing as it does, as if these interlocks had never been fitted.

    Raises
    ------
    InputError
        There is no interlock of that name.

    Examples
    --------
    >>> m = without(ready("slate", result=7, setting=5), "crank at rest")
    >>> _ = m.crank(223.0), m.shift(1), m.finish_turn()
    >>> m.result, m.counter
    (2, 10)
    """
    names = [rule.name for rule in INTERLOCKS]
    for lock in locks:
        if lock not in names:
            raise InputError(f"{shown(lock)} is no interlock: there are {', '.join(names)}")
    return Machine(machine.spec, state=machine.state, parts=_Lacking(locks))


# Tables.


def lock_table() -> Words:
    """Every interlock, what it can hold back, and what frees it.

    >>> lock_table().rows[0]
    ('full-stroke ratchet', 'turn of the crank', 'finish the turn')
    """
    return Words("Interlocks", ("interlock", "holds back", "what frees it"),
                 tuple((rule.name, held_back(rule), rule.frees) for rule in INTERLOCKS), ())


def held_back(rule: Interlock) -> str:
    """What an interlock can hold back, in words."""
    words = {"set": "setting", "set lever": "setting", "shift": "shift", "seat": "seating",
             "back transfer": "back transfer", **{name: said for name, said in SPOKEN.items() if name != "seat"}}
    if set(CLEARING) <= set(rule.operations):
        words |= {operation: "every clearing" for operation in CLEARING if operation != "back transfer"}
    return ", ".join(dict.fromkeys(words[operation] for operation in rule.operations if operation != "seat"
                                   or rule.operations == ("seat",)))


def why_table() -> Words:
    """Every interlock, how it is seen, and what it spares the machine."""
    return Words("How you see them, and what they spare you", ("interlock", "what you see", "without it"),
                 tuple((rule.name, *SEEN[rule.name]) for rule in INTERLOCKS), (),
                 remark="(*) common practice of the trade, no source; the rest you can crank, on machines made by "
                        "without(…)")


# States in which something is off.


def letters(state: State) -> str:
    """What is off in a state, as letters of `LETTERS`; empty where all is at home and at rest.

    >>> letters(ready("slate").state)
    ''
    """
    off = {"A": state.direction > 0, "S": state.direction < 0, "T": state.transfer, "E": state.easing != 0,
           "L": bool(state.pulled_result or state.pulled_counter)}
    return "".join(letter for letter in LETTERS if off[letter])


def _off(state: State) -> tuple[Any, ...]:
    """What is off, part by part."""
    return (state.direction, bool(state.pulled_result), bool(state.pulled_counter), state.transfer, state.easing)


def reachable(name: str = "slate") -> tuple[Machine, ...]:
    """A machine in every state of being off that hands can bring about, one movement of `PUTTING_OFF` after another.

    Parameters
    ----------
    name : str
        As `mechcalc.load_spec` takes it.

    Returns
    -------
    tuple of Machine
        One for each direction of a turn, each clearing lever, each way of easing and the back-transfer lever, and for
        all that can be off together; the first has all at home and at rest.

    Examples
    --------
    >>> sorted({letters(machine.state) for machine in reachable()}, key=lambda word: (len(word), word))
    ['', 'A', 'E', 'L', 'S', 'T', 'LE', 'LT']
    """
    return tuple(Machine(load_spec(name), state=state) for state in _states(name))


@lru_cache(maxsize=8)
def _states(name: str) -> tuple[State, ...]:
    first = ready(name, setting=3, result=4)
    found, known = [first.state], {_off(first.state)}
    for state in found:  # it grows while it is gone through
        for operation, argument in PUTTING_OFF:
            machine = Machine(first.spec, state=state)
            with suppress(Locked):
                machine.perform(operation, argument)
            if _off(machine.state) not in known:
                known.add(_off(machine.state))
                found.append(machine.state)
    return tuple(found)


def condition(operation: str, argument: Any = None) -> Boolean:
    """When a movement is free, as a formula of logic over `LETTERS`: nothing may be off that blocks it by itself.

    `holds_everywhere` says whether that is true where several things are off.

    >>> condition("shift", 1)
    ~A & ~E & ~S & ~T
    """
    from sympy import And, Not, Symbol

    blocking = [Symbol(letter) for letter in LETTERS
                if any(who_blocks(machine, operation, argument) for machine in _only(letter))]
    return And(*(Not(symbol) for symbol in blocking))


def _only(letter: str) -> Iterator[Machine]:
    return (machine for machine in reachable() if letters(machine.state) == letter)


def holds_everywhere(formula: Boolean, operation: str, argument: Any = None) -> bool:
    """Whether a formula over `LETTERS` says of every reachable state if the movement is free; each is tried.

    >>> holds_everywhere(condition("crank", 360.0), "crank", 360.0)
    True
    >>> holds_everywhere(condition("crank", 360.0), "crank", -360.0)
    False
    """
    from sympy import Symbol

    def says(machine: Machine) -> bool:
        return bool(formula.subs({Symbol(letter): letter in letters(machine.state) for letter in LETTERS}))
    return all(says(machine) == (not who_blocks(machine, operation, argument)) for machine in reachable())


# Putting right.


def _putting_right(state: State) -> Iterator[Move]:
    """A movement for each thing that is off: on to rest, home, up, into the seat."""
    if state.direction:
        yield "crank", state.direction * (360.0 - state.angle)
    for register, off in (("result", state.pulled_result), ("counter", state.pulled_counter)):
        if off:
            yield "pull", (register, 0.0)
    if state.transfer:
        yield "transfer lever", False
    if state.easing:
        yield "seat", state.carriage + state.easing


def way_out(machine: Machine, operation: str = "crank", argument: Any = 1.0) -> tuple[Move, ...]:
    """The fewest movements that free another one, each of them free when its turn comes; the machine is not moved.

    Raises
    ------
    InputError
        No order of them frees it.

    Examples
    --------
    >>> m = ready("slate")
    >>> _ = m.pull_clearing_lever("counter", 30.0), m.ease_carriage(1)
    >>> way_out(m)
    (('pull', ('counter', 0.0)), ('seat', 1))
    """
    waiting: list[tuple[Machine, tuple[Move, ...]]] = [(machine, ())]
    for one, done in waiting:  # it grows while it is gone through, shorter ways first
        if not who_blocks(one, operation, argument):
            return done
        for move in _putting_right(one.state):
            other = Machine(one.spec, state=one.state, parts=one.parts)
            try:
                other.perform(*move)
            except Locked:
                continue
            waiting.append((other, (*done, move)))
    raise InputError(f"nothing that is put right frees this movement: {operation}")


def told_way(moves: tuple[Move, ...]) -> str:
    """A way out in words, a numbered line each.

    >>> print(told_way((("pull", ("counter", 0.0)), ("seat", 1))))
    1. Return the counter clearing lever.
    2. Seat the carriage at position 1.
    """
    words = {"crank": lambda degrees: "Finish the turn.", "pull": lambda pull: f"Return the {pull[0]} clearing lever.",
             "transfer lever": lambda down: "Put the back-transfer lever up.",
             "seat": lambda position: f"Seat the carriage at position {position}."}
    return "\n".join(f"{number}. {words[operation](argument)}"
                     for number, (operation, argument) in enumerate(moves, start=1)) or "Nothing has to be put right."
