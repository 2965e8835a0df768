"""What a person does at the bench, one step after another, and what can be read after it from outside.

Only this file says which steps a test is made of, how they are written, and what a machine answers to them. The same
steps are done by the event-level machine here, and by `mechcalc.bench.batch` on very many machines at once.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from mechcalc.errors import InputError, Locked
from mechcalc.layout import layout
from mechcalc.machine import Machine
from mechcalc.numbers import shown
from mechcalc.operations import OPERATIONS
from mechcalc.spec import MachineSpec
from mechcalc.state import State

EASED = 5.0  # degrees of crank: off rest far enough for pawl and lock to have dropped in
WORDS = {"set": "a number", "turn": "1 or -1", "shift": "1 or -1", "clear result": "", "clear counter": "",
         "clear setting": "", "back transfer": "", "try back": "", "try lever": ""}


@dataclass(frozen=True, slots=True)
class Step:
    """One thing to do.

    Attributes
    ----------
    what : str
        ``set``, ``turn`` (one whole turn, 1 additive or -1 subtractive), ``shift`` (one place, 1 or -1), ``clear
        result``, ``clear counter``, ``clear setting``, ``back transfer``; or a try of an interlock: ``try back``
        (ease the crank off rest in an additive turn, try gently to go back, then make the turn), ``try lever`` (ease
        it off rest, try to move lever 1, put it back if it moved, then make the turn).
    number : int
        For ``set``, ``turn`` and ``shift``; 0 otherwise.
    """

    what: str
    number: int = 0

    def __str__(self) -> str:
        return f"{self.what} {self.number}" if WORDS[self.what] else self.what


@dataclass(frozen=True, slots=True)
class Seen:
    """What can be read from outside after a step.

    Attributes
    ----------
    result, counter, setting : tuple of int
        Digits, units first.
    bell : bool
        It rang in the last turn.
    yielded : bool
        In a try: the crank went back, or the lever moved. In any other step: it was refused.
    """

    result: tuple[int, ...]
    counter: tuple[int, ...]
    setting: tuple[int, ...]
    bell: bool = False
    yielded: bool = False


def steps_from_text(text: str) -> tuple[Step, ...]:
    """Steps as people write them, separated by semicolons or lines; ``turn 3`` is three turns.

    Raises
    ------
    InputError
        With the step that cannot be read.

    Examples
    --------
    >>> [str(step) for step in steps_from_text("clear result; set 999; turn 2; try back")]
    ['clear result', 'set 999', 'turn 1', 'turn 1', 'try back']
    """
    steps: list[Step] = []
    for part in re.split(r"[;\n]", text):
        words = " ".join(part.split())
        if words:
            steps += _read(words)
    return tuple(steps)


def _read(words: str) -> list[Step]:
    match = re.fullmatch(r"([a-z]+(?: [a-z]+)?)(?: ([+-]?\d+))?", words)
    what, figure = match.groups() if match else (words, None)
    if what not in WORDS:
        raise InputError(f"{shown(words)} is no step: there are {', '.join(WORDS)}")
    if not WORDS[what]:
        if figure is not None:
            raise InputError(f"{shown(words)}: {what} takes no figure")
        return [Step(what)]
    if figure is None and what == "set":
        raise InputError(f"{shown(words)}: say which number to set")
    number = int(figure or 1)
    if what == "set":
        if number < 0:
            raise InputError(f"{shown(words)}: a setting cannot be below nought")
        return [Step("set", number)]
    return [Step(what, 1 if number > 0 else -1)] * abs(number)


def text_of_steps(steps: Iterable[Step]) -> str:
    """Steps as `steps_from_text` reads them, turns and shifts in a row drawn together.

    >>> text_of_steps(steps_from_text("set 7; turn; turn; shift -1"))
    'set 7; turn 2; shift -1'
    """
    said: list[Step] = []
    for step in steps:
        last = said[-1] if said else None
        if last and step.what in ("turn", "shift") and last.what == step.what and last.number * step.number > 0:
            said[-1] = Step(step.what, last.number + step.number)
        else:
            said.append(step)
    return "; ".join(map(str, said))


def fits_spec(spec: MachineSpec, steps: Sequence[Step]) -> None:
    """Refuse steps that a machine of this spec cannot do even when it is sound.

    Raises
    ------
    InputError
        With the step: a number with more digits than levers, a shift past the end, no back transfer.
    """
    place = 0
    for number, step in enumerate(steps, start=1):
        if step.what == "set" and step.number >= 10**spec.setting_places:
            raise InputError(f"step {number}, {step}: there are {spec.setting_places} levers")
        if step.what == "shift":
            place += step.number
            if not 0 <= place < spec.positions:
                raise InputError(f"step {number}, {step}: the carriage stops at 0 and at {spec.positions - 1}")
        if step.what == "back transfer" and not spec.back_transfer:
            raise InputError(f"step {number}, {step}: this machine has no back transfer")


def do(machine: Machine, step: Step) -> Seen:
    """One step on the event-level machine, at rest, and what is seen after it.

    A back transfer that jams is refused and seen as that; nothing moves.
    """
    yielded = False
    if step.what in ("try back", "try lever"):
        yielded = _try(machine, step.what)
    elif step.what == "turn":
        machine.turn(step.number)
    else:
        argument: Any = step.number if WORDS[step.what] else None
        try:
            machine.perform(step.what, argument)
        except Locked:
            yielded = True
    return seen(machine.state, yielded)


def eased(spec: MachineSpec) -> float:
    """Degrees by which a try takes the crank off rest: before the first pin of either helix comes.

    >>> from mechcalc import load_spec
    >>> eased(load_spec("bench"))
    5.0
    """
    free = 360.0 - layout(spec).close
    return min(EASED, free / 2) if free else EASED


def _try(machine: Machine, what: str) -> bool:
    degrees = eased(machine.spec)
    machine.crank(degrees)
    try:
        if what == "try back":
            machine.crank(-degrees)
        else:
            digit = machine.setting_digits[0]
            machine.set_lever(1, digit + 1 if digit < 9 else 8)
            machine.set_lever(1, digit)
        yielded = True
    except Locked:
        yielded = False
    if machine.state.direction:
        machine.finish_turn()
    else:
        machine.turn()
    return yielded


def seen(state: State, yielded: bool = False) -> Seen:
    """What a state shows to somebody who looks at it from outside."""
    return Seen(state.result, state.counter, state.setting, state.bell, yielded)


def run(machine: Machine, steps: Iterable[Step]) -> tuple[Seen, ...]:
    """All steps, one after another, and what is seen after each.

    >>> from mechcalc import load_spec
    >>> [view.result for view in run(Machine(load_spec("slate")), steps_from_text("set 95; turn 2"))]
    [(0, 0, 0, 0, 0, 0), (5, 9, 0, 0, 0, 0), (0, 9, 1, 0, 0, 0)]
    """
    return tuple(do(machine, step) for step in steps)


assert {"set", "shift", "clear result", "clear counter", "clear setting", "back transfer"} <= set(OPERATIONS)
