"""A division as it is written on paper, with the machine's turns beside each figure.

Only this file lays the two side by side. Figures and remainders are read from the machine's account
(`mechcalc.methods.accounts`); nothing is divided here.
"""

from __future__ import annotations

from dataclasses import dataclass
from textwrap import wrap

from mechcalc.errors import InputError
from mechcalc.methods.accounts import Entry, division_account
from mechcalc.methods.working import Working
from mechcalc.words import place_name

WIDTH = 100


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One figure of a quotient, as the machine found it.

    Attributes
    ----------
    place : int
        The power of ten that it counts: 0 for the units of the quotient as a whole number.
    digit : int
        How often the divisor went, from the counter.
    before, left : int
        What was to be divided there, and what was left: of the remainder, only the places brought down so far.
    turns : tuple of Entry
        The account of the turns made there.
    """

    place: int
    digit: int
    before: int
    left: int
    turns: tuple[Entry, ...]


def figures_of(working: Working) -> tuple[Figure, ...]:
    """The figures of a quotient, highest first.

    Parameters
    ----------
    working : Working
        Of `mechcalc.methods.divide`, by ``"restoring"`` or ``"compare first"``.

    Raises
    ------
    InputError
        It is no division, or an overdraft was carried on from one figure to the next.

    Examples
    --------
    >>> from mechcalc import Machine, load_spec
    >>> from mechcalc.methods import divide
    >>> [(one.digit, one.before, one.left) for one in figures_of(divide(Machine(load_spec("slate")), 5000, 16))]
    [(3, 50, 2), (1, 20, 4), (2, 40, 8)]
    """
    account = division_account(working)
    last, found, now = working.end.carriage, [], account[0]
    for position in range(account[1].carriage, last - 1, -1):
        there = tuple(entry for entry in account[1:] if entry.carriage == position)
        before, now = now, there[-1] if there else now
        if not 0 <= now.remainder < now.divisor * 10**position:
            raise InputError(f"{working.title} cannot be written figure by figure: an overdraft was carried on from "
                             f"the figure found with the carriage at {position}")
        found.append(Figure(place=position - last, digit=now.counter // 10**position % 10, turns=there,
                            before=before.remainder // 10**position, left=now.remainder // 10**position))
    return tuple(found)


def written_beside(working: Working) -> str:
    """The division on paper at the left, the machine's turns at the right, in lines of at most 100 characters.

    Where the quotient has decimals, the dividend has as many noughts at its end, as it has on the machine.

    Raises
    ------
    InputError
        As `figures_of`.

    Examples
    --------
    >>> from mechcalc import Machine, load_spec
    >>> from mechcalc.methods import divide
    >>> print(written_beside(divide(Machine(load_spec("slate")), 98, 4)))
             24
          -----
        4 ) 98    in the windows: 98
            8     tens: back to 58, 18; once more: 999978, bell; one on: 18, bell
            --
            18
            16    units: back to 14, 10, 6, 2; once more: 999998, bell; one on: 2, bell
            --
             2    left over: 2; the counter shows 24
    """
    figures, start, end = figures_of(working), division_account(working)[0], working.end.reading
    last = working.end.carriage
    dividend = str(start.dividend // 10**last)
    head, wide = f"    {start.divisor} ) ", max(len(dividend), figures[0].place + 1)
    rows = [(head + dividend.rjust(wide), f"in the windows: {start.dividend}")]
    for number, figure in enumerate(figures):
        until = len(head) + wide - figure.place
        if number:
            rows.append((str(figure.before).rjust(until), ""))
        product = str(figure.digit * start.divisor)
        rows += [(product.rjust(until), f"{_counted(figure, working)}: {_turned(figure, working)}"),
                 (("-" * max(2, len(str(figure.before)))).rjust(until), "")]
    rows.append((str(figures[-1].left).rjust(len(head) + wide),
                 f"left over: {end.result}; the counter shows {end.counter}"))
    quotient = "".join(str(figure.digit) for figure in figures).rjust(len(head) + wide)
    return "\n".join([quotient, f"{'-' * (wide + 3):>{len(head) + wide}}",
                      *(line for row in rows for line in _lines(*row, at=len(head) + wide + 4))])


def _counted(figure: Figure, working: Working) -> str:
    """What a figure counts: units, tens, ...; decimals by their number."""
    place = figure.place - working.places
    return place_name(place + 1) if place >= 0 else f"decimal {-place}"


def _turned(figure: Figure, working: Working) -> str:
    """The windows after each turn of a figure."""
    if not figure.turns:
        return "no turn"
    reach = working.spec.wheels_in_reach(figure.turns[0].carriage)
    shows = [entry.remainder % 10**reach if entry.remainder < 0 else entry.remainder for entry in figure.turns]
    over = next((at for at, entry in enumerate(figure.turns) if entry.remainder < 0), len(shows))
    said = [f"back to {', '.join(map(str, shows[:over]))}"] if over else []
    said += [f"{'once more' if over else 'back'}: {shows[at]}, bell" if at == over else f"one on: {shows[at]}, bell"
             for at in range(over, len(shows))]
    return "; ".join(said)


def _lines(paper: str, machine: str, at: int) -> list[str]:
    """One line of paper, with what the machine does from column `at` on; more lines where that is long."""
    said = wrap(machine, WIDTH - at) or [""]
    return [(paper.ljust(at) + said[0]).rstrip(), *(" " * (at + 2) + more for more in said[1:])]
