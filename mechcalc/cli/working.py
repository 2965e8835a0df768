"""Working a calculation for the command line.

Only this file chooses the method that a typed calculation is worked by, and how its strokes are printed; the methods
themselves are `mechcalc.methods`'.
"""

from __future__ import annotations

import textwrap
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


def work(calculation: str, machine: str, short_cut: bool = False) -> Working:
    """The working of a typed calculation on a machine that starts with everything at zero."""
    problem = read_problem(calculation)
    if short_cut and problem.sign != "x":
        raise InputError(f"the short cut is for multiplying; {problem} is worked without it")
    spec = load_spec(machine)
    with Progress() as progress:
        progress.show(f"working {problem} on {spec.name or machine}")
        from mechcalc import methods
        methods_by_sign = {"+": methods.add, "-": methods.subtract,
                           "x": methods.multiply_short_cut if short_cut else methods.multiply}
        return methods_by_sign[problem.sign](Machine(spec), problem.first, problem.second)


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
    printed = [f"{working.title} = {working.answer}", "", head]
    for line, row in zip(lines, strokes, strict=True):
        printed.append(line)
        if not brief:
            printed += textwrap.wrap(f"{row.words}  {row.algebra}", WIDTH, initial_indent=INDENT,
                                     subsequent_indent=INDENT)
    counts = ", ".join(f"{count} {noun}{'' if count == 1 else 's'}" for count, noun in (
        (working.turns, "turn"), (working.shifts, "shift"), (working.settings, "setting")))
    total = f"{working.remark} In all {counts}; {working.crank_angle:g} degrees of crank."
    printed += ["", *textwrap.wrap(total.strip(), WIDTH)]
    return "\n".join(printed)


def write_page(calculation: str, machine: str, short_cut: bool, path: Path, replace: bool = False) -> None:
    """Write the page for taking home.

    Raises
    ------
    InputError
        There is a file at `path` and `replace` is false, or `path` cannot be written.
    """
    if path.exists() and not replace:
        raise InputError(f"{path} is there already: choose another name, or add --replace")
    working = work(calculation, machine, short_cut)
    with Progress() as progress:
        progress.show(f"writing {path}")
        from mechcalc.view import take_home
        try:
            take_home(working, path)
        except OSError as error:
            raise InputError(f"{path} cannot be written: {error.strerror}") from None
