"""A working as a table on paper: every stroke with its words, its algebra below, and what the windows show after it.

Only this file decides what stands in the table. The pages are those of the kit's papers (`mechcalc.bench.papers`),
as PDF and as HTML.
"""

from __future__ import annotations

from os import PathLike
from pathlib import Path
from typing import Any

from mechcalc.bench.papers.blocks import machine_line, sentence_case, words
from mechcalc.bench.papers.printing import checked_size, write_paper
from mechcalc.errors import InputError
from mechcalc.methods.working import Working
from mechcalc.numbers import shown
from mechcalc.printing.typesetting import Fonts

HEADS = ("no.", "stroke", "result", "counter", "carriage", "bell")


def working_sheet(working: Working, path: str | PathLike[str], *, paper: str = "a4", replace: bool = False,
                  fonts: Fonts | None = None) -> Path:
    """Write a working as a table.

    Parameters
    ----------
    working : Working
        Of `mechcalc.methods`.
    path : path
        Its ending, ``.pdf`` or ``.html``, says as what.
    paper : str
        ``"a4"`` or ``"letter"``.
    replace : bool
        Whether a file that is there may be written over.
    fonts : Fonts, optional
        Where to look for more fonts.

    Raises
    ------
    InputError
        No working; another ending; no typesetter for a PDF; a file that is there, or cannot be written.
    """
    if not isinstance(working, Working):
        raise InputError(f"a working is printed, not {shown(working)} ({type(working).__name__})")
    return write_paper(working_paper(working, paper), path, replace=replace, fonts=fonts)


def working_paper(working: Working, paper: str = "a4") -> dict[str, Any]:
    """The table as blocks.

    >>> from mechcalc import Machine, load_spec
    >>> from mechcalc.methods import multiply
    >>> told = working_paper(multiply(Machine(load_spec("bench")), 12, 11))
    >>> told["title"]
    '12 × 11 = 132'
    >>> told["blocks"][0]["rows"][1]
    ['2', 'Turn: add 12.\\n0 + 12 = 12', '12', '1', '0', '']
    """
    rows = [[str(row.number), "\n".join(filter(None, (row.words, row.algebra))), str(row.result), str(row.counter),
             str(row.carriage), "rings" if row.bell else ""] for row in working.table()]
    counts = ", ".join(f"{count} {noun}{'' if count == 1 else 's'}" for count, noun in (
        (working.turns, "turn"), (working.shifts, "shift"), (working.settings, "setting")))
    total = f"In all {counts}; {working.crank_angle:g} degrees of crank."
    said = [words(sentence_case(working.remark))] if working.remark else []
    return {"title": working.headline, "name": "the working", "label": working.spec.name, "paper": checked_size(paper),
            "machine": machine_line(working.spec), "foot": f"{working.headline}, {working.spec.name or 'a machine'}",
            "blocks": [{"kind": "table", "heads": list(HEADS), "rows": rows, "left": [0, 1, 5], "wide": 1},
                       words(total), *said]}
