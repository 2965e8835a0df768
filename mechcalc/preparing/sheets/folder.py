"""A set of sheets as a folder: what is printed, the key, a file for the answers, and what is needed to mark them.

Only this file knows what lies in such a folder:

    worksheets.pdf, worksheets.html   for the learners; either is enough
    key.pdf, key.html, key.csv        for the teacher
    answers.csv                       to be filled in: a row a learner, a column a question
    set.json                          the sheet, the seed, and who got which numbers; no answers: they are worked out
                                      again, by cranking, when the folder is read
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from importlib.util import find_spec
from os import PathLike
from pathlib import Path
from typing import Any

from mechcalc.errors import InputError, MechcalcError
from mechcalc.numbers import shown
from mechcalc.preparing.class_list import Learner
from mechcalc.preparing.csv_out import csv_bytes, write_folder
from mechcalc.preparing.sheets.print_file import Fonts, key_pdf, sheets_pdf
from mechcalc.preparing.sheets.spec import Sheet
from mechcalc.preparing.sheets.web_page import key_html, sheets_html
from mechcalc.preparing.sheets.worksheets import Worksheets, assemble

RECORD, FORMAT = "set.json", 1


@dataclass(frozen=True, slots=True)
class Written:
    """What was written.

    Attributes
    ----------
    paths : tuple of Path
        The files.
    by_hand : tuple of Learner
        Those whose names no font could print: their printed sheets have a line for the name.
    notes : tuple of str
        What else there is to say.
    """

    paths: tuple[Path, ...]
    by_hand: tuple[Learner, ...]
    notes: tuple[str, ...]


def write_set(made: Worksheets, folder: str | PathLike[str], *, fonts: Fonts | None = None, pdf: bool = True,
              replace: bool = False) -> Written:
    """Write a set of sheets.

    Parameters
    ----------
    made : Worksheets
        The set.
    folder : path
        Where; it is made if it is not there.
    fonts : Fonts, optional
        Where to look for fonts, besides the typesetter's own and this computer's.
    pdf : bool
        Whether PDFs are wanted. Without the typesetter there are none, and a note says so.
    replace : bool
        Whether a set that is there is written over.

    Raises
    ------
    InputError
        There is a set in the folder already; or it cannot be written.
    """
    folder = Path(folder)
    if (folder / RECORD).exists() and not replace:
        raise InputError(f"{folder} holds a set of sheets already: choose another folder, or say that it may be "
                         "replaced")
    files = {"worksheets.html": sheets_html(made).encode(), "key.html": key_html(made).encode(),
             "key.csv": key_csv(made), "answers.csv": answers_csv(made), RECORD: record(made)}
    by_hand: tuple[Learner, ...] = ()
    notes = []
    if pdf and find_spec("typst") is None:
        notes.append("No PDF was made: this Python has no typesetter (the package typst; the kit's own environment has "
                     "it). The HTML pages print the same sheets from a browser.")
    elif pdf:
        printed, key = sheets_pdf(made, fonts), key_pdf(made, fonts)
        files |= {"worksheets.pdf": printed.data, "key.pdf": key.data}
        by_hand = printed.by_hand
    write_folder(folder, files)
    return Written(tuple(folder / name for name in sorted(files)), by_hand, tuple(notes))


def key_csv(made: Worksheets) -> bytes:
    """The key as a table: a row a sheet."""
    rows = [(one.code, one.learner.name, one.learner.group,
             *(str(value).replace("−", "-") for value in one.key.values())) for one in made.variants]
    return csv_bytes(("code", "name", "group", *made.labels), rows)


def answers_csv(made: Worksheets) -> bytes:
    """A table to be filled in: the same rows and columns, without the answers."""
    rows = [(one.code, one.learner.name, *("" for _ in made.labels)) for one in made.variants]
    return csv_bytes(("code", "name", *made.labels), rows)


def record(made: Worksheets) -> bytes:
    """Everything that the set can be made from again."""
    people = [{"code": one.code, "name": one.learner.name, "group": one.learner.group, "id": one.learner.id,
               "numbers": [list(problem.numbers) for problem in one.problems]} for one in made.variants]
    data = {"format": FORMAT, "what": "a set of worksheets made by mechcalc; python3 -m mechcalc answers reads it",
            "tag": made.tag, "seed": made.seed, "sheet": made.sheet.to_dict(), "learners": people}
    return (json.dumps(data, ensure_ascii=False, indent=1) + "\n").encode()


def read_set(folder: str | PathLike[str]) -> Worksheets:
    """The set of sheets in a folder, its answers worked out again.

    Raises
    ------
    InputError
        There is none, or its record is damaged or was changed.
    """
    path = Path(folder) / RECORD if Path(folder).is_dir() else Path(folder)
    try:
        data = json.loads(path.read_text(encoding="utf-8"))
    except FileNotFoundError:
        raise InputError(f"{folder} holds no set of sheets: there is no {RECORD}") from None
    except OSError as error:
        raise InputError(f"{path} cannot be read: {error.strerror}") from None
    except (ValueError, RecursionError) as error:
        raise InputError(f"{path} is damaged: {error}") from None
    if not isinstance(data, dict) or data.get("format") != FORMAT:
        raise InputError(f"{path} is no set of sheets in format {FORMAT}, which is the one this version reads")
    try:
        made = _made(data)
    except (MechcalcError, KeyError, TypeError, ValueError) as error:
        raise InputError(f"{path} is damaged: {type(error).__name__}: {error}") from None
    if made.tag != data["tag"] or [one.code for one in made.variants] != [row["code"] for row in data["learners"]]:
        raise InputError(f"{path} was changed since it was written: its codes should begin with {made.tag}, not with "
                         f"{shown(data['tag'])}")
    return made


def _made(data: dict[str, Any]) -> Worksheets:
    people = tuple(Learner(row["name"], row["group"], row["id"]) for row in data["learners"])
    numbers = tuple(tuple(tuple(one) for one in row["numbers"]) for row in data["learners"])
    return assemble(Sheet.from_dict(data["sheet"]), data["seed"], people, numbers)
