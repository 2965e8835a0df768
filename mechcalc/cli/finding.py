"""``mechcalc find``: numbers that show the point, from the command line.

Only this file reads the words of that command and lays its tables out.
"""

from __future__ import annotations

import argparse
import textwrap
from pathlib import Path
from typing import TYPE_CHECKING

from mechcalc.cli.tables import WIDTH, table
from mechcalc.setup.telling import Progress

if TYPE_CHECKING:
    from mechcalc.preparing import Finds, Wish

DONE = 0
INDENT = "     "


def add_find(own: argparse.ArgumentParser, usual_machine: str) -> None:
    """The arguments of ``mechcalc find``."""
    own.add_argument("method", nargs="?", metavar="METHOD",
                     help="a kind of calculation, such as multiply or divide-building-up, or a TOML file with a wish")
    own.add_argument("--digits", metavar="SIZES",
                     help="how long the numbers are: 3x2; also 2-3 digits, 50..99 or =98 for the numbers themselves")
    own.add_argument("--machine", metavar="NAME",
                     help=f"a machine of the catalogue, or the path of a TOML file ({usual_machine} unless given)")
    own.add_argument("--with", dest="conditions", action="append", default=[], metavar="CONDITION",
                     help="what shall be seen, such as 'ripple >= 4'; may be given several times")
    own.add_argument("--places", type=int, metavar="N", help="decimals of a quotient or a root (0 unless given)")
    own.add_argument("--many", type=int, default=5, metavar="N", help="how many to find (5 unless given)")
    own.add_argument("--seed", type=int, default=0, metavar="N",
                     help="the same seed gives the same numbers (0 unless given)")
    own.add_argument("--budget", type=int, metavar="N", help="how many candidates to look at, at most")
    own.add_argument("--list", action="store_true", help="list methods and conditions, and find nothing")
    own.set_defaults(do=lambda given: _do_find(given, usual_machine, own))


def _do_find(given: argparse.Namespace, usual_machine: str, own: argparse.ArgumentParser) -> int:
    from mechcalc.preparing import find
    if given.list:
        print(conditions_and_methods(given.method))
        return DONE
    if given.method is None:
        own.error("the following arguments are required: METHOD")
    wish = _wish(given, usual_machine, own)
    budget = {} if given.budget is None else {"budget": given.budget}
    with Progress() as progress:
        finds = find(wish, given.many, given.seed, **budget, progress=lambda tried, of, found: progress.show(
            f"{tried} of {of} candidates looked at, {found} meet the wish"))
    print(report(finds))
    return DONE


def _wish(given: argparse.Namespace, usual_machine: str, own: argparse.ArgumentParser) -> Wish:
    """The wish of the command line, or that of a file, which is complete in itself."""
    from mechcalc.preparing import Wish, load_wish
    if not given.method.endswith(".toml"):
        return Wish(given.method, machine=given.machine or usual_machine, digits=given.digits or (),
                    conditions=tuple(given.conditions), places=given.places or 0)
    beside = [option for option, value in (("--digits", given.digits), ("--machine", given.machine),
                                           ("--with", given.conditions), ("--places", given.places)) if value]
    if beside:
        own.error(f"{beside[0]} stands in the file {given.method}: leave it out here")
    return load_wish(Path(given.method).expanduser())


def report(finds: Finds) -> str:
    """The finds in 80 columns: a line each, and under it why."""
    rows = [[number, found.working.headline, found.working.turns, found.working.shifts]
            for number, found in enumerate(finds, start=1)]
    head, *lines = table(("no.", "calculation", "turns", "shifts"), rows, left=(1,)).splitlines()
    printed = [*wrapped(f"{finds.wish.words(finds.wish.spans)}, seed {finds.seed}", "", ""), "", head]
    for line, found in zip(lines, finds, strict=True):
        printed.append(line)
        printed += wrapped(" ".join(found.why), INDENT, INDENT)
    return "\n".join([*printed, "", *wrapped(finds.remark, "", "")])


def wrapped(text: str, first: str, others: str) -> list[str]:
    """A text in lines of 80 columns."""
    return textwrap.wrap(text, WIDTH, initial_indent=first, subsequent_indent=others, break_on_hyphens=False)


def conditions_and_methods(method: str | None = None) -> str:
    """Everything that a wish can ask for, or what it can ask of one method, in 80 columns."""
    from mechcalc.preparing import MEASURES, PHRASES, TASKS, condition, task
    tasks = TASKS.values() if method is None else [task(method)]
    rows = [(row.name, f"{row.says} ({', '.join(row.slots)}{', …' * bool(row.further)})") for row in tasks]
    counted = [(f"{name} in NUMBER" if row.of_number else name, row.says) for name, row in MEASURES.items()
               if name != "value" and any(map(row.goes_with, tasks))]
    phrases = [(phrase.format("NUMBER"), text.format("NUMBER")) for phrase, text in PHRASES.items()
               if any(map(condition(text.format("answer")).row.goes_with, tasks))]
    names = wrapped("NUMBER is the name of a number (in brackets above), every number, answer (or sum, difference, "
                    "product, quotient, root), or remainder. The numbers themselves have bounds too: 'multiplier >= "
                    "50', 'remainder = 0'.", "", "")
    how = wrapped("A condition is what is counted, a relation (>= <= = > <, or at least, at most, exactly, …) and a "
                  "whole number, as in 'ripple >= 4'; or 'turns from 5 to 8'; or a phrase.", "", "")
    return "\n".join([table(("method", "what it is"), rows, left=(0, 1)), "", *how, "",
                      table(("counted", "what it is"), counted, left=(0, 1)), "", *names, "",
                      table(("phrase", "stands for"), phrases, left=(0, 1))])
