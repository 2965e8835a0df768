"""Finding out which interlock stops a crank, by tries that do no harm.

Only this file decides which tries there are and in which order they are made. A try is a movement begun with two
fingers: it goes, and is taken back, or it stops. What it tells apart is worked out on machines that stand as
`mechcalc.classroom.locks.reachable` finds them; the order with the fewest tries is searched for.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from mechcalc.classroom.locks import Move, reachable, who_blocks
from mechcalc.errors import InputError
from mechcalc.interlocks import INTERLOCKS
from mechcalc.machine import Machine
from mechcalc.methods.table import Words

TRIES: dict[str, Callable[[Machine, int], Move]] = {  # by what the hand takes hold of; given the direction that stops
    "the crank, the other way": lambda machine, direction: ("crank", -1.0 * direction),
    "a setting lever": lambda machine, direction: ("set lever", (1, machine.setting_digits[0])),
    "a shift of the carriage": lambda machine, direction: ("shift", -1 if machine.carriage else 1),
    "the back-transfer lever": lambda machine, direction: ("transfer lever", not machine.state.transfer),
}
GOES, STOPS = "goes", "stops"


def trial(machine: Machine, what: str, direction: int = 1) -> str:
    """Whether a try goes or stops; the machine is not moved.

    Parameters
    ----------
    what : str
        A key of `TRIES`.
    direction : int
        In which direction the crank was to turn: 1 or -1.

    >>> from mechcalc.classroom import ready
    >>> m = ready("slate")
    >>> _ = m.crank(-90.0)
    >>> [trial(m, what) for what in TRIES]
    ['goes', 'stops', 'stops', 'stops']
    """
    if what not in TRIES:
        raise InputError(f"{what!r} is none of the tries: there are {', '.join(map(repr, TRIES))}")
    return STOPS if who_blocks(machine, *TRIES[what](machine, direction)) else GOES


def cases(direction: int = 1) -> dict[str, Machine]:
    """For each interlock that can stop a turn in `direction`, a machine on which nothing else is off.

    >>> list(cases())
    ['full-stroke ratchet', 'clearing lever at home', 'back transfer free', 'carriage seated']
    """
    found: dict[str, Machine] = {}
    for machine in reachable():
        blocking = who_blocks(machine, "crank", 1.0 * direction)
        if len(blocking) == 1:
            found.setdefault(blocking[0], machine)
    return {rule.name: found[rule.name] for rule in INTERLOCKS if rule.name in found}


def try_table(direction: int = 1) -> Words:
    """What each try does in each case.

    >>> try_table().column("a shift of the carriage")
    ('stops', 'goes', 'stops', 'stops')
    """
    return Words("A crank stops. What goes all the same?", ("what stops it", *TRIES), tuple(
        (name, *(trial(machine, what, direction) for what in TRIES)) for name, machine in cases(direction).items()), ())


@dataclass(frozen=True, slots=True)
class Decision:
    """A try, and what follows from it: another one, or the name of an interlock.

    Attributes
    ----------
    what : str
        A key of `TRIES`.
    goes, stops : Decision or str
        What follows.
    """

    what: str
    goes: Decision | str
    stops: Decision | str

    @property
    def most(self) -> int:
        """How many tries it takes at most."""
        return 1 + max(branch.most if isinstance(branch, Decision) else 0 for branch in (self.goes, self.stops))

    def __str__(self) -> str:
        lines = [f"Try {self.what}."]
        for word, branch in (("It goes", self.goes), ("It stops", self.stops)):
            text = str(branch) if isinstance(branch, Decision) else f"it is “{branch}”. {_frees(branch)}"
            first, *rest = text.splitlines()
            lines += [f"  {word}: {first}", *(f"    {line}" for line in rest)]
        return "\n".join(lines)


def _frees(name: str) -> str:
    said = next(rule.frees for rule in INTERLOCKS if rule.name == name)
    return f"{said[:1].upper()}{said[1:]}."


def decision(direction: int = 1) -> Decision:
    """Tries in an order that takes the fewest at most; of several such, the first in the order of `TRIES`.

    >>> print(decision())
    Try the back-transfer lever.
      It goes: Try a shift of the carriage.
          It goes: it is “clearing lever at home”. Return the lever.
          It stops: it is “back transfer free”. Disengage it: put the back-transfer lever up.
      It stops: Try the crank, the other way.
          It goes: it is “full-stroke ratchet”. Finish the turn.
          It stops: it is “carriage seated”. Seat the carriage.
    """
    patterns = {name: {what: trial(machine, what, direction) for what in TRIES}
                for name, machine in cases(direction).items()}
    found = _best(patterns, tuple(patterns))
    assert isinstance(found, Decision)
    return found


def _best(patterns: Mapping[str, Mapping[str, str]], names: Sequence[str]) -> Decision | str:
    if len(names) == 1:
        return names[0]
    options = []
    for what in TRIES:
        sides = {word: [name for name in names if patterns[name][what] == word] for word in (GOES, STOPS)}
        if all(sides.values()):
            options.append(Decision(what, _best(patterns, sides[GOES]), _best(patterns, sides[STOPS])))
    if not options:
        raise InputError(f"no try tells {' and '.join(names)} apart")
    return min(options, key=lambda option: option.most)


@dataclass(frozen=True, slots=True)
class Finding:
    """What came of the tries.

    Attributes
    ----------
    lock : str or None
        The interlock that stops the crank; None where none does.
    tries : tuple of (str, str)
        What was tried, and whether it went.
    """

    lock: str | None
    tries: tuple[tuple[str, str], ...]

    def __str__(self) -> str:
        lines = [f"{number}. {what[:1].upper()}{what[1:]}: {how}." for number, (what, how) in enumerate(self.tries, 1)]
        return "\n".join([*lines, f"So it is “{self.lock}”. {_frees(self.lock)}" if self.lock else
                          "No interlock stops the crank."])


def find_lock(machine: Machine, direction: int = 1) -> Finding:
    """Find out by tries alone what stops a turn in `direction`. Where several things are off, one of them is found.

    >>> from mechcalc.classroom import ready
    >>> m = ready("slate")
    >>> _ = m.ease_carriage(1)
    >>> print(find_lock(m))
    1. The back-transfer lever: stops.
    2. The crank, the other way: stops.
    So it is “carriage seated”. Seat the carriage.
    """
    order, tried = decision(direction), []
    if not who_blocks(machine, "crank", 1.0 * direction):
        return Finding(None, ())
    while True:
        how = trial(machine, order.what, direction)
        tried.append((order.what, how))
        branch = order.goes if how == GOES else order.stops
        if isinstance(branch, str):
            return Finding(branch, tuple(tried))
        order = branch
