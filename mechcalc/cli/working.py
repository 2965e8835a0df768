"""Working a calculation for the command line.

Only this file chooses the method that a typed calculation is worked by, and how its strokes are printed; the methods
themselves are `mechcalc.methods`'.
"""

from __future__ import annotations

import textwrap
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from mechcalc.catalogue import load_spec
from mechcalc.cli.problem import read_problem
from mechcalc.cli.tables import WIDTH, table
from mechcalc.errors import InputError
from mechcalc.machine import Machine
from mechcalc.setup.telling import Progress

if TYPE_CHECKING:
    from mechcalc.methods import Working


def work(calculation: str, machine: str, short_cut: bool = False, by_complement: bool = False,
         places: int = 0) -> Working:
    """The working of a typed calculation on a machine that starts with everything at zero.

    Parameters
    ----------
    calculation : str
        See `mechcalc.cli.problem`.
    machine : str
        A machine of the catalogue, or the path of a TOML file.
    short_cut : bool
        Multiply in the fewest turns.
    by_complement : bool
        Take away by adding the complement.
    places : int
        Decimals of a quotient.
    """
    problem = read_problem(calculation)
    if short_cut and problem.sign != "x":
        raise InputError(f"the short cut is for multiplying; {problem} is worked without it")
    if by_complement and (problem.sign != "-" or len(problem.numbers) > 2):
        raise InputError(f"the complement is for taking one number from another; {problem} is worked without it")
    if places and problem.sign != "/":
        raise InputError(f"decimal places are for a quotient; {problem} is worked without them")
    spec = load_spec(machine)
    with Progress() as progress:
        progress.show(f"working {problem} on {spec.name or machine}")
        from mechcalc import methods
        choice = {"+": methods.add, "-": methods.subtract_by_complement if by_complement else methods.subtract,
                  "x": methods.multiply_short_cut if short_cut else methods.multiply,
                  "/": partial(methods.divide, places=places)}
        return choice[problem.sign](Machine(spec), *problem.numbers)


HEADS = ("no.", "the hand", "result", "counter", "carriage", "bell")
INDENT = "     "


def report(working: Working, brief: bool = False) -> str:
    """The strokes in 80 columns: what the hand does and what the windows show, then the words and the algebra.

    Parameters
    ----------
    working : Working
        What to print.
    brief : bool
        One line a stroke, without the words and the algebra.
    """
    strokes = working.table()
    rows = [[row.number, row.hand, row.result, row.counter, row.carriage, "rings" if row.bell else ""]
            for row in strokes]
    head, *lines = table(HEADS, rows, left=(1, 5)).splitlines()
    printed = [working.headline, "", head]
    for line, row in zip(lines, strokes, strict=True):
        printed.append(line)
        if not brief:
            printed += said(row.words, row.algebra)
    counts = ", ".join(f"{count} {noun}{'' if count == 1 else 's'}" for count, noun in (
        (working.turns, "turn"), (working.shifts, "shift"), (working.settings, "setting")))
    total = f"{working.remark} In all {counts}; {working.crank_angle:g} degrees of crank."
    printed += ["", *textwrap.wrap(total.strip(), WIDTH)]
    return "\n".join(printed)


def said(words: str, algebra: str) -> list[str]:
    """Words at the left and algebra at the right, on one line where they fit and below each other where not.

    >>> said("Turn: add 34.", "12 + 34 = 46")[0]
    '     Turn: add 34.                                                  12 + 34 = 46'
    """
    *above, last = textwrap.wrap(words, WIDTH, initial_indent=INDENT, subsequent_indent=INDENT) or [INDENT]
    if len(last) + 2 + len(algebra) <= WIDTH:
        return [*above, last + algebra.rjust(WIDTH - len(last))]
    return [*above, last, *(line.rjust(WIDTH) for line in textwrap.wrap(algebra, WIDTH - len(INDENT)))]


def write_page(working: Working, path: Path, replace: bool = False) -> None:
    """Write the page for taking home.

    Raises
    ------
    InputError
        There is a file at `path` and `replace` is false, or `path` cannot be written.
    """
    if path.exists() and not replace:
        raise InputError(f"{path} is there already: choose another name, or add --replace")
    with Progress() as progress:
        progress.show(f"writing {path}")
        from mechcalc.view import take_home
        try:
            take_home(working, path)
        except OSError as error:
            raise InputError(f"{path} cannot be written: {error.strerror}") from None
