"""Working a calculation for the command line.

Only this file chooses the method that a typed calculation is worked by, and how its strokes are printed; the methods
themselves are `mechcalc.methods`'.
"""

from __future__ import annotations

import textwrap
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from mechcalc.catalogue import load_spec
from mechcalc.cli.problem import Problem, read_problem
from mechcalc.cli.tables import WIDTH, table
from mechcalc.errors import InputError
from mechcalc.machine import Machine
from mechcalc.setup.telling import Progress

if TYPE_CHECKING:
    from mechcalc.methods import Working


@dataclass(frozen=True, slots=True, kw_only=True)
class Manner:
    """How a calculation is to be worked.

    Attributes
    ----------
    short_cut : bool
        Multiply in the fewest turns.
    by_complement : bool
        Take away by adding the complement.
    places : int
        Decimals of a quotient or a root.
    method : str
        One of the methods of a quotient or a root; empty for the usual one.
    by_hand : bool
        Set each product of a chain again by hand, where back transfer would bring it back.
    """

    short_cut: bool = False
    by_complement: bool = False
    places: int = 0
    method: str = ""
    by_hand: bool = False


FIVE_TIMES = "five times"
PRODUCTS, SEARCHED = ("x", "^", "!"), ("/", "root", "cube root")
FOR = {"short_cut": (PRODUCTS, "the short cut is for multiplying"),
       "places": (SEARCHED, "decimal places are for a quotient or a root"),
       "method": (SEARCHED, "a method is chosen for a quotient or a root"),
       "by_complement": (("-",), "the complement is for taking one number from another"),
       "by_hand": (PRODUCTS, "setting again by hand is for a product of several factors")}


def work(calculation: str, machine: str, manner: Manner = Manner()) -> Working:
    """The working of a typed calculation on a machine that starts with everything at zero.

    Parameters
    ----------
    calculation : str
        See `mechcalc.cli.problem`.
    machine : str
        A machine of the catalogue, or the path of a TOML file.
    manner : Manner
        How.

    Raises
    ------
    InputError
        A calculation or a machine that is none; a manner that this calculation has not.
    """
    problem = read_problem(calculation)
    check_manner(problem, manner)
    spec = load_spec(machine)
    with Progress() as progress:
        progress.show(f"working {problem} on {spec.name or machine}")
        return method_of(problem, manner)(Machine(spec))


def check_manner(problem: Problem, manner: Manner) -> None:
    """A calculation can be worked in that manner.

    Raises
    ------
    InputError
        It has not got it.

    >>> check_manner(read_problem("347 x 26"), Manner(places=2))
    Traceback (most recent call last):
        ...
    mechcalc.errors.InputError: decimal places are for a quotient or a root; 347 x 26 is worked without it
    """
    for name, (signs, what) in FOR.items():
        if getattr(manner, name) and problem.sign not in signs:
            raise InputError(f"{what}; {problem} is worked without it")
    if manner.by_complement and len(problem.numbers) > 2:
        raise InputError(f"{FOR['by_complement'][1]}; {problem} is worked without it")
    if manner.by_hand and problem.sign == "x" and len(problem.numbers) == 2:
        raise InputError(f"{FOR['by_hand'][1]}; {problem} is worked without it")


def method_of(problem: Problem, manner: Manner) -> Callable[[Machine], Working]:
    """What works a calculation on a machine, in that manner."""
    from mechcalc import methods
    numbers, sign = problem.numbers, problem.sign
    chain: dict[str, Any] = {"way": "by hand" if manner.by_hand else None, "short_cut": manner.short_cut}
    search: dict[str, Any] = {"places": manner.places, **({"method": manner.method} if manner.method else {})}
    root: dict[str, Any] = {"places": manner.places, "five_times": True} if manner.method == FIVE_TIMES else search
    product = methods.multiply_short_cut if manner.short_cut else methods.multiply
    take_away = methods.subtract_by_complement if manner.by_complement else methods.subtract
    doing: dict[str, Callable[..., Working]] = {
        "+": methods.add, "-": take_away,
        "x": product if len(numbers) == 2 else partial(methods.multiply_chain, **chain),
        "/": partial(methods.divide, **search), "root": partial(methods.square_root, **root),
        "cube root": partial(methods.cube_root, **search), "^": partial(methods.power, **chain),
        "!": partial(methods.factorial, **chain)}
    return lambda machine: doing[sign](machine, *numbers)


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


def write_page(working: Working, path: Path, replace: bool = False, solid: bool = False) -> None:
    """Write the page for taking home, flat or in three dimensions.

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
            take_home(working, path, solid=solid)
        except OSError as error:
            raise InputError(f"{path} cannot be written: {error.strerror}") from None
