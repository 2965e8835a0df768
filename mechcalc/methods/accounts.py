"""The account of a division: after each turn, what has been counted and what is left.

Only this file keeps it. dividend = counter × divisor + remainder is true before the first turn, and a turn at carriage
position s moves 10^s divisors from one side to the other; so it is true after every turn, also while the remainder is
below nought and the wheels show a complement. The entries are read from the windows: where a counter does not carry,
is too short for ten turns on its highest wheel, or has a fault, they show from which turn on the account is out.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from mechcalc.errors import InputError
from mechcalc.events import Stroke
from mechcalc.methods.complement import wrapped
from mechcalc.methods.equality import Equality, Node
from mechcalc.methods.working import Working
from mechcalc.numbers import from_digits, shown


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """A line of the account.

    Attributes
    ----------
    turn : int
        How many turns have been made; 0 before the first.
    carriage : int
        Its position.
    direction : int
        1 for an additive turn, -1 for a subtractive one, 0 before the first.
    counter : int
        As its windows show it.
    remainder : int
        What the result windows stand for; below nought where they show a complement.
    dividend, divisor : int
        As they stood in the machine before the first turn.
    """

    turn: int
    carriage: int
    direction: int
    counter: int
    remainder: int
    dividend: int
    divisor: int

    @property
    def equality(self) -> Equality:
        """counter × divisor + remainder = dividend, as it is written."""
        product: Node = ("*", self.counter, self.divisor)
        return Equality(("+" if self.remainder >= 0 else "-", product, abs(self.remainder)), self.dividend)

    @property
    def balanced(self) -> bool:
        """Whether that is true."""
        return self.counter * self.divisor + self.remainder == self.dividend

    def __str__(self) -> str:
        return f"turn {self.turn:>2}: {self.equality}{'' if self.balanced else '  is not true'}"


def division_account(working: Working) -> tuple[Entry, ...]:
    """The account of a division worked by `divide`, by whichever method.

    Parameters
    ----------
    working : Working
        What `divide` returned.

    Returns
    -------
    tuple of Entry
        One before the first turn of the division, and one after each.

    Raises
    ------
    InputError
        Not a division by taking away: another method's working, or no turn in it.

    Examples
    --------
    >>> from mechcalc import Machine, load_spec
    >>> from mechcalc.methods import divide
    >>> working = divide(Machine(load_spec("slate")), 335, 37, method="without putting back", quotient_places=2)
    >>> for entry in division_account(working):
    ...     print(entry)
    turn  0: 0 × 37 + 335 = 335
    turn  1: 10 × 37 − 35 = 335
    turn  2: 9 × 37 + 2 = 335
    >>> plain = divide(Machine(load_spec("plain")), 335, 37, method="without putting back", quotient_places=2)
    >>> print(division_account(plain)[2])
    turn  2: 19 × 37 + 2 = 335  is not true
    """
    turns = _turns_of_dividing(working)
    first = turns[0]
    left = from_digits(first.before.result)
    divisor = from_digits(first.before.setting)
    entries = [Entry(turn=0, carriage=first.before.carriage, direction=0, counter=from_digits(first.before.counter),
                     remainder=left, dividend=left, divisor=divisor)]
    owed = 0
    for number, stroke in enumerate(turns, start=1):
        owed += wrapped(working.spec, stroke)
        entries.append(Entry(turn=number, carriage=stroke.after.carriage, direction=1 if stroke.argument > 0 else -1,
                             counter=from_digits(stroke.after.counter), dividend=left, divisor=divisor,
                             remainder=from_digits(stroke.after.result) + owed))
    return tuple(entries)


def _turns_of_dividing(working: Working) -> Sequence[Stroke]:
    """The turns since the counter was last cleared; all with one number on the levers, the first one subtractive."""
    if not isinstance(working, Working):
        raise InputError(f"an account is kept of a Working, not of {shown(working)}")
    cleared = max((number for number, stroke in enumerate(working.strokes) if stroke.operation == "clear counter"),
                  default=-1)
    turns = [stroke for stroke in working.strokes[cleared + 1:] if stroke.operation == "crank"]
    if not turns or turns[0].argument > 0 or len({stroke.before.setting for stroke in turns}) > 1:
        raise InputError(f"{working.title} was not worked by taking one divisor away: there is no account to keep")
    return turns
