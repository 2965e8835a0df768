"""The commands that prepare a class: worksheets, and marking their answers.

Only this file words these commands; `mechcalc.preparing` does the work.
"""

from __future__ import annotations

import argparse
import textwrap
from pathlib import Path
from typing import TYPE_CHECKING

from mechcalc.cli.tables import WIDTH, table
from mechcalc.errors import InputError
from mechcalc.setup.telling import Progress, say

if TYPE_CHECKING:
    from mechcalc.preparing.class_list import ClassList
    from mechcalc.preparing.sheets import Worksheets
    from mechcalc.preparing.sheets.folder import Written

DONE, REFUSED = 0, 2


def add_worksheets(own: argparse.ArgumentParser) -> None:
    """The options of ``worksheets``."""
    own.add_argument("sheet", type=Path, metavar="SHEET", help="what is on the sheets: a TOML file such as "
                     "data/class/multiplying.toml, whose head says what may stand in it")
    who = own.add_mutually_exclusive_group(required=True)
    who.add_argument("--class", dest="class_list", type=Path, metavar="FILE",
                     help="a class list: CSV with a column name, and group and id where you like")
    who.add_argument("--copies", type=int, metavar="N", help="so many sheets with a line for the name")
    own.add_argument("--into", type=Path, required=True, metavar="FOLDER", help="where the set is written")
    own.add_argument("--seed", type=int, default=0, metavar="N",
                     help="the same seed draws the same numbers (0 unless given)")
    own.add_argument("--paper", choices=("a4", "letter"), help="as the sheet says, unless given")
    own.add_argument("--fonts", type=Path, action="append", default=[], metavar="FOLDER",
                     help="a folder with fonts for names that no other font here can print; may be given several times")
    own.add_argument("--skip-bad-rows", action="store_true",
                     help="make sheets for the rest of the class although some rows cannot be used")
    own.add_argument("--no-pdf", action="store_true", help="write the HTML pages only")
    own.add_argument("--replace", action="store_true", help="write over a set that is in the folder")
    own.set_defaults(do=do_worksheets)


def do_worksheets(wish: argparse.Namespace) -> int:
    """Make a set, write it, and say what there is."""
    from dataclasses import replace

    from mechcalc.preparing.sheets import Fonts, load_sheet, make_worksheets, write_set
    from mechcalc.preparing.sheets.folder import RECORD
    if (wish.into / RECORD).exists() and not wish.replace:
        raise InputError(f"{wish.into} holds a set of sheets already: choose another folder, or add --replace")
    sheet = load_sheet(wish.sheet)
    if wish.paper:
        sheet = replace(sheet, paper=wish.paper)
    learners = _class(wish.class_list, wish.skip_bad_rows) if wish.class_list else wish.copies
    with Progress() as progress:
        progress.show("looking for numbers and cranking the machine")
        made = make_worksheets(sheet, learners, wish.seed)
        progress.show("printing")
        written = write_set(made, wish.into, fonts=Fonts(tuple(wish.fonts)), pdf=not wish.no_pdf, replace=wish.replace)
    print(told(made, written))
    return DONE


def add_answers(own: argparse.ArgumentParser) -> None:
    """The options of ``answers``."""
    own.add_argument("answers", type=Path, metavar="ANSWERS",
                     help="CSV with code (or name, or id), item and answer; or with a column a question, as the "
                     "answers.csv of the set")
    own.add_argument("--sheets", type=Path, required=True, metavar="FOLDER", help="the set that they belong to")
    own.add_argument("--into", type=Path, metavar="FOLDER",
                     help="where tables, plot and page are written (a folder called report in the set's unless given)")
    own.add_argument("--replace", action="store_true", help="write over a report that is there")
    own.set_defaults(do=do_answers)


def do_answers(wish: argparse.Namespace) -> int:
    """Mark a class's answers, write the report, and say what came of it."""
    from mechcalc.preparing.marking import mark_answers, write_report
    from mechcalc.preparing.sheets import read_set
    folder = wish.sheets if wish.sheets.is_dir() else wish.sheets.parent
    with Progress() as progress:
        progress.show("cranking the machine for the key")
        made = read_set(wish.sheets)
        report = mark_answers(wish.answers, made)
        progress.show("writing the report")
        paths = write_report(report, wish.into or folder / "report", wish.replace)
    print(report)
    print()
    for path in paths:
        print(f"  {path}")
    if not any(path.suffix == ".png" for path in paths):
        print("\nNo plot was made: this Python has no matplotlib (the kit's own environment has it).")
    return DONE


def _class(path: Path, skip: bool) -> ClassList:
    """A class list whose rows can all be used, or some where that is enough; the others are named either way."""
    from mechcalc.preparing.class_list import read_class
    found = read_class(path)
    for note in found.notes:
        say(f"mechcalc: {path}: {note}")
    if found.bad:
        rows = "".join(f"\n  {bad}" for bad in found.bad)
        many = f"{len(found.bad)} row{'s' * (len(found.bad) != 1)}"
        if not skip:
            raise InputError(f"{path}: {many} cannot be used; mend them, or add --skip-bad-rows to make sheets for the "
                             f"other {len(found)}:{rows}")
        say(f"mechcalc: {path}: {many} left out:{rows}")
    return found


def told(made: Worksheets, written: Written) -> str:
    """What was made, in a few lines."""
    many = f"{len(made)} sheet{'s' * (len(made) != 1)}"
    first, last = made.variants[0].code, made.variants[-1].code
    lines = [f"{made.sheet.title}: {many}, codes {first} to {last}, seed {made.seed}.", ""]
    rows = [[number, item.order.do, band] for number, (item, band) in enumerate(
        zip(made.sheet.items, made.bands, strict=True), start=1)]
    lines += [table(["item", "what", "turns on the sheets"], rows, left=(1, 2)), ""]
    lines += [f"  {path}" for path in written.paths]
    said = [f"No font here can print the name {learner.name}: that PDF sheet has a line to write it on (--fonts names "
            f"a folder with a font). The HTML page leaves it to the browser." for learner in written.by_hand]
    for text in (*said, *written.notes):
        lines += ["", *textwrap.wrap(text, WIDTH)]
    return "\n".join(lines)
