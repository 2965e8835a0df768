"""Methods and machines compared, and tables worked, on the command line.

Only this file chooses what is compared with what; the costs are `mechcalc.methods.comparing`'s.
"""

from __future__ import annotations

import argparse
import textwrap
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from mechcalc.catalogue import load_spec
from mechcalc.cli.problem import Problem, read_problem
from mechcalc.cli.tables import WIDTH, table
from mechcalc.cli.working import Manner, check_manner, method_of
from mechcalc.errors import InputError
from mechcalc.machine import Machine

if TYPE_CHECKING:
    from mechcalc.methods import Calculation, Comparison

HEADS = ("way", "answer", "turns", "shifts", "settings", "crank", "total")


def add_compare(own: argparse.ArgumentParser, usual: str) -> None:
    """The options of ``compare``."""
    own.add_argument("calculation", nargs="+", metavar="CALCULATION", help="for instance: 347 x 98")
    own.add_argument("--machine", action="append", default=[], metavar="NAME",
                     help=f"a machine of the catalogue, or the path of a TOML file ({usual} unless given); named more "
                     "than once, the machines are compared, and what differs is explained")
    own.add_argument("--places", type=int, default=0, metavar="N", help="decimals of a quotient or a root")
    own.add_argument("--plot", type=Path, metavar="FILE",
                     help="draw the costs into a PNG, SVG or PDF file, large enough for a projector")
    for option, what in (("--short-cut", "multiply by the short cut"), ("--by-complement", "take away by adding the "
                         "complement"), ("--by-hand", "set each result of a chain again by hand")):
        own.add_argument(option, action="store_true", help=f"on several machines: {what}")
    own.add_argument("--method", default="", metavar="NAME", help="on several machines: the method of a quotient or a "
                     "root, as for work")
    own.set_defaults(do=lambda wish: _do_compare(wish, usual))


def _do_compare(wish: argparse.Namespace, usual: str) -> int:
    problem = read_problem(" ".join(wish.calculation))
    manner = Manner(places=wish.places, short_cut=wish.short_cut, by_complement=wish.by_complement,
                    by_hand=wish.by_hand, method=wish.method)
    comparison, why = compared(problem, wish.machine or [usual], manner)
    print(comparison.title, "", printed(comparison), "", sep="\n")
    told = [line for line in why if " refused: " not in line]  # said already, above
    for line in [comparison.note, *told]:
        print("\n".join(textwrap.wrap(line, WIDTH)))
    if wish.plot:
        _draw(comparison, wish.plot.expanduser())
    return 0


def compared(problem: Problem, machines: Sequence[str], manner: Manner
             ) -> tuple[Comparison, Sequence[str]]:
    """The ways of a calculation on one machine, or one way of it on several.

    Raises
    ------
    InputError
        One machine, and a calculation that has one way only, or a manner that is to be one of several; a manner that
        this calculation has not.
    """
    from mechcalc.methods import Calculation, compare, compare_machines
    check_manner(problem, manner)
    if len(machines) > 1:
        return compare_machines(Calculation(str(problem), method_of(problem, manner)), *machines)
    if manner != Manner(places=manner.places):
        raise InputError("on one machine all ways are compared: name a second machine to compare the two in one way")
    comparison = compare(machines[0], ways(problem, manner.places))
    return replace(comparison, title=f"{problem} on {comparison.title}"), ()


def ways(problem: Problem, places: int = 0) -> list[Calculation]:
    """The ways in which a calculation can be worked.

    >>> [way.label for way in ways(read_problem("12 - 5"))]
    ['taken away', 'by the complement']
    """
    from mechcalc import methods
    from mechcalc.methods.ways import ways_of_rooting
    numbers = problem.numbers
    if problem.sign == "x":
        return (methods.ways_of_multiplying(numbers[0], numbers[1]) if len(numbers) == 2
                else methods.ways_of_chaining(*numbers))
    if problem.sign == "/":
        return methods.ways_of_dividing(numbers[0], numbers[1], places)
    if problem.sign == "root":
        return ways_of_rooting(numbers[0], places)
    if problem.sign == "-" and len(numbers) == 2:
        return [methods.Calculation(label, method_of(problem, Manner(by_complement=complement)))
                for label, complement in (("taken away", False), ("by the complement", True))]
    if problem.sign in ("^", "!"):
        return [methods.Calculation(label, method_of(problem, manner)) for label, manner in (
            ("back transfer", Manner()), ("back transfer, short cut", Manner(short_cut=True)),
            ("by hand", Manner(by_hand=True)), ("by hand, short cut", Manner(by_hand=True, short_cut=True)))]
    raise InputError(f"{problem} has one way only on a machine: name two machines to compare them")


def printed(comparison: Comparison) -> str:
    """The costs in 80 columns; what was refused says why below."""
    from mechcalc.methods.table import said
    rows, refused = [], []
    for trial in comparison.trials:
        if trial.cost is None:
            refused.append("\n".join(textwrap.wrap(f"{trial.label}: {trial.refusal}", WIDTH)))
            continue
        cost = trial.cost
        best = " *" if comparison.is_best(trial) else ""
        rows.append([f"{trial.label}{best}", said(trial.answer), cost.turns, cost.shifts, cost.settings,
                     f"{cost.crank_angle:g}", f"{comparison.total(trial):.1f}"])
    costs = table(HEADS, rows) + ("\n* the least work" if len(rows) > 1 else "") if rows else ""
    return "\n\n".join(filter(None, [costs, *refused]))


def _draw(comparison: Comparison, path: Path) -> None:
    from mechcalc.methods.cost_plot import projected
    try:
        projected(comparison).savefig(path)
    except (OSError, ValueError) as error:
        raise InputError(f"{path} cannot be written: {error}") from None
    print(f"Written: {path}")


def add_table(own: argparse.ArgumentParser, usual: str) -> None:
    """The options of ``table``."""
    own.add_argument("polynomial", metavar="POLYNOMIAL", help="in one variable, such as 'x**2 + x + 41'")
    own.add_argument("--entries", type=int, default=10, metavar="N", help="how many values (10 unless given)")
    own.add_argument("--from", dest="start", type=int, default=0, metavar="X", help="the first x (0 unless given)")
    own.add_argument("--step", type=int, default=1, metavar="H", help="from one x to the next (1 unless given)")
    own.add_argument("--machine", default=usual, metavar="NAME",
                     help=f"a machine of the catalogue, or the path of a TOML file ({usual} unless given)")
    own.set_defaults(do=_do_table)


def _do_table(wish: argparse.Namespace) -> int:
    from mechcalc.methods import tabulate
    print(tabulate(Machine(load_spec(wish.machine)), wish.polynomial, wish.entries, start=wish.start, step=wish.step))
    return 0
