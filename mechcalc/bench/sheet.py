"""The bench sheet: a test plan as a paper that a person follows with the machine on the table.

Only this file decides what stands on it. Every reading on it is one that the proof of the plan counts on.
"""

from __future__ import annotations

from os import PathLike
from pathlib import Path
from typing import Any

from mechcalc.bench.candidates import Test
from mechcalc.bench.fault_list import FAULTS
from mechcalc.bench.machine import Machine
from mechcalc.bench.papers import blocks
from mechcalc.bench.papers.printing import checked_size, pages, pdf, write_paper
from mechcalc.bench.papers.web_page import web_page
from mechcalc.bench.plan import Plan, home, lost_in_a_row
from mechcalc.bench.readings import Reading
from mechcalc.bench.steps import run
from mechcalc.printing.typesetting import Fonts
from mechcalc.spec import MachineSpec
from mechcalc.words import listed

MOST_LISTED = 12  # faults or groups that are named one by one


def sheet_paper(chosen: Plan, *, label: str = "", paper: str = "a4") -> dict[str, Any]:
    """The sheet as data, as `mechcalc.bench.papers` describes it.

    Parameters
    ----------
    chosen : Plan
    label : str
        The machine's own name or number; a line to write it on unless given.
    paper : str
        ``"a4"`` or ``"letter"``.
    """
    spec = chosen.book.spec
    apart = not lost_in_a_row(chosen)
    tests = [blocks.test_block(spec, number, test, sound_readings(spec, test), f"{_home(test)} {_after(apart)}")
             for number, test in enumerate(chosen.tests, start=1)]
    name = spec.name or "a machine"
    return {"title": "Bench sheet", "name": name, "machine": blocks.machine_line(spec), "label": label,
            "paper": checked_size(paper), "foot": _tests(chosen), "blocks": [
                blocks.cautions(),
                {"kind": "fields", "rows": [["Machine (label, number)", label], ["Read by, date", ""]]},
                blocks.heading("How to use it"), blocks.points(_how_to(chosen, apart)),
                blocks.heading("What it is proved to do"), *proof(chosen),
                blocks.heading("The tests"), *tests,
                blocks.heading("Anything else that was seen, heard or felt"), {"kind": "room", "lines": 4},
                {"kind": "signatures", "people": ["read by"]}]}


def sound_readings(spec: MachineSpec, test: Test) -> tuple[Reading, ...]:
    """What a sound machine shows at each place of a test, cranked on one."""
    seen = run(Machine(spec), test.steps)
    return tuple(Reading.of(seen[done - 1]) for done in test.reads)


def _tests(chosen: Plan) -> str:
    return (f"{len(chosen.tests)} test{'s' * (len(chosen.tests) != 1)}, {chosen.turns} turns of the crank, "
            f"{chosen.work:g} turns' worth of work")


def _home(test: Test) -> str:
    away = any(step.what == "shift" for step in home(test))
    return f"{'Shift the carriage to position 0. ' if away else ''}Clear result, counter and setting."


def _after(apart: bool) -> str:
    return ("Leave what does not show 0 as it is." if apart else
            "Put by hand to 0 what does not show 0, and push home any carry lever that is out.")


def _how_to(chosen: Plan, apart: bool) -> list[str]:
    last = chosen.book.spec.positions - 1
    row = ("The tests count on each other's order: do them from first to last. Where a window does not show 0 after "
           "clearing, leave it: what the plan does holds with nothing put right in between." if apart else
           "Each test begins with everything at 0: turn wheels there by hand where clearing does not do it.")
    return [f"{_tests(chosen)} in all: a lever that is set counts as half a turn, a shift or a clearing as one, a "
            "reading as two.",
            f"Begin at rest: carriage at position 0 (the last is {last}), result, counter and setting cleared.",
            "An additive turn adds the setting to the result, a subtractive one takes it off. Finish every turn that "
            "you begin.",
            "Tick each step. Above the boxes stands what should be read, units at the right. If all of it is there, "
            "tick “all as it should be”. If not, write what you read into the boxes that differ, and go on.",
            row,
            "Look at each window straight on, and once more where it differs.",
            "If anything differs: “mechcalc bench trace” takes what you read and says what explains it."]


def proof(chosen: Plan) -> list[dict[str, Any]]:
    """What a plan reveals, tells apart and cannot reveal, as blocks.

    Counted from the dictionary's answers to the chosen tests, not taken from the plan's own summary.
    """
    book = chosen.book
    which = book.classes([book.tests.index(test) for test in chosen.tests])
    single = [machine for machine in range(1, len(book.seats)) if len(book.faults_of(machine)) == 1]
    shows = [machine for machine in single if which[machine]]
    said = [f"It reveals {_of(len(shows), len(single))} that the kit knows on a machine built like this one, when "
            "every window is read.", _apart(which, shows), _least(chosen)]
    pairs = [machine for machine in range(1, len(book.seats)) if len(book.faults_of(machine)) == 2]
    if pairs:
        found = sum(which[machine] != 0 for machine in pairs)
        said.append(f"Of {spaced(len(pairs))} pairs of faults at once it reveals {spaced(found)}.")
    else:
        said.append("Two faults at once were not looked at: one can hide the other.")
    said.append(f"Kinds of fault that the kit knows: {listed(FAULTS)}. A fault of another kind, and wear that does not "
                "yet move a digit, need not show.")
    found_blocks = [blocks.points(said)]
    if chosen.undetected:
        found_blocks += [blocks.words("Faults that no reading from outside reveals, and why:"),
                         blocks.points([f"{fault}: {why}." for fault, why in chosen.undetected[:MOST_LISTED]]
                                       + _more(len(chosen.undetected)))]
    if chosen.same:
        found_blocks += [blocks.words("Faults that no test tells apart:"),
                         blocks.points([f"{listed(group)}." for group in chosen.same[:MOST_LISTED]]
                                       + _more(len(chosen.same)))]
    return found_blocks


def spaced(number: int) -> str:
    """A number with narrow spaces between groups of three."""
    return f"{number:,}".replace(",", "\u202f")


def _of(some: int, every: int) -> str:
    return f"every one of {every} single faults" if some == every else f"{some} of {every} single faults"


def _apart(which: Any, shows: list[int]) -> str:
    groups = len({int(which[machine]) for machine in shows})
    if groups == len(shows):
        return "It tells all of them apart: no two show the same throughout."
    return f"It divides them into {groups} groups by what is read; those of one group look the same."


def _least(chosen: Plan) -> str:
    many, unit = len(chosen.book.tests), "tests" if chosen.aim == "fewest tests" else "turns' worth of work"
    if chosen.proved:
        return (f"Proved least: no choice from the {many} tests of the list does this with less than {chosen.cost:g} "
                f"{unit}.")
    return (f"It takes {chosen.cost:g} {unit}; no choice from the {many} tests of the list does this with less than "
            f"{chosen.bound:g} (a gap of {chosen.gap:.1%}).")


def _more(many: int) -> list[str]:
    return [f"and {many - MOST_LISTED} more."] if many > MOST_LISTED else []


def sheet_html(chosen: Plan, *, label: str = "", paper: str = "a4") -> str:
    """The sheet as one HTML page to be printed."""
    return web_page(sheet_paper(chosen, label=label, paper=paper))


def sheet_pdf(chosen: Plan, *, label: str = "", paper: str = "a4", fonts: Fonts | None = None) -> bytes:
    """The sheet as PDF."""
    return pdf(sheet_paper(chosen, label=label, paper=paper), fonts)


def sheet_pages(chosen: Plan, *, label: str = "", paper: str = "a4", ppi: float = 110.0) -> list[bytes]:
    """The sheet's pages as PNG, for a look in a notebook."""
    return pages(sheet_paper(chosen, label=label, paper=paper), ppi=ppi)


def write_sheet(chosen: Plan, path: str | PathLike[str], *, label: str = "", paper: str = "a4", replace: bool = False,
                fonts: Fonts | None = None) -> Path:
    """Write the sheet to a file, ``.html`` or ``.pdf``."""
    return write_paper(sheet_paper(chosen, label=label, paper=paper), path, replace=replace, fonts=fonts)
