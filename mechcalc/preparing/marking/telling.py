"""A class report in words, as tables, as a page and as files.

Only this file lays a report out. The page is complete in itself: no script, no network, and whatever a name or an
answer holds is text in it, never markup.
"""

from __future__ import annotations

import base64
import io
from collections.abc import Sequence
from html import escape
from importlib.util import find_spec
from os import PathLike
from pathlib import Path
from typing import TYPE_CHECKING

from mechcalc.errors import InputError
from mechcalc.methods.table import grid, plain
from mechcalc.preparing.csv_out import csv_bytes, write_folder
from mechcalc.printing.web_page import web_page

if TYPE_CHECKING:
    from mechcalc.preparing.marking.report import ClassReport

STYLE = """
:root { color-scheme: light; }
body { max-width: 60rem; margin: 2rem auto; padding: 0 1rem; background: #fff; color: #222;
  font: 16px/1.45 "Libertinus Serif", "Palatino Linotype", Palatino, P052, "Source Serif 4", Georgia, serif;
  font-variant-numeric: lining-nums tabular-nums; }
h1 { font-weight: normal; font-size: 2rem; line-height: 1.15; margin: 0 0 0.4rem; }
img { max-width: 100%; height: auto; display: block; margin: 1rem 0; }
.wide { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; font-size: 0.85rem; margin: 1.6rem 0 0.6rem; }
caption { text-align: left; font-size: 1.25rem; padding-bottom: 0.3rem; }
th, td { text-align: left; vertical-align: top; padding: 0.2rem 0.45rem; border-bottom: 1px solid #bbb;
  font-weight: normal; }
thead th { border-bottom: 1.5px solid #222; color: #555; }
.soft { color: #555; }
@page { margin: 15mm; }
@media print { body { margin: 0; font-size: 10pt; } tr, img { break-inside: avoid; }
  thead { display: table-header-group; } }
"""
FILES = ("learners.csv", "questions.csv", "misconceptions.csv", "marks.csv", "set_aside.csv", "report.html",
         "report.png")


def headline(report: ClassReport) -> str:
    """What came of it, in a sentence or two."""
    learners = sum(any(mark.variant is one for mark in report.marks) for one in report.made.variants)
    asked = len(report.made) * len(report.made.labels)
    return (f"{report.entries} entries: {len(report.marks)} marked ({report.count('right')} right, "
            f"{report.count('misconception')} explained by a misconception, {report.count('wrong')} otherwise wrong), "
            f"{len(report.aside)} set aside. {learners} of {len(report.made)} learners have answers; "
            f"{len(report.missing)} of {asked} questions have none.")


def tables(report: ClassReport) -> list[tuple[str, str, Sequence[str], list[list[object]]]]:
    """Name, caption, heads and rows of every table."""
    return [("misconceptions", "Misconceptions", report.MISCONCEPTION_HEADS, report.by_misconception()),
            ("questions", "Questions", report.QUESTION_HEADS, report.by_question()),
            ("learners", "Learners", report.learner_heads, report.by_learner()),
            ("set_aside", "Set aside", report.ASIDE_HEADS, report.set_aside())]


SIGNS_SAID = "✓ right, ✗ wrong, ? cannot be read, – no answer."


def summary(report: ClassReport) -> str:
    """The report for a terminal: what can be said in a few columns."""
    parts = [report.made.sheet.title, headline(report), *report.notes]
    questions = report.by_question()
    parts += ["", plain(("", "question", "right", "misc.", "wrong", "?", "–"), questions)]
    if slips := report.by_misconception():
        parts += ["", plain(("misconception", "answers", "alone", "learners"), [row[:4] for row in slips])]
    people = [[*row[:2], *row[3:7], "".join(map(str, row[7:]))] for row in report.by_learner()]
    parts += ["", plain(("code", "name", "right", "wrong", "?", "–", "questions in order"), people), SIGNS_SAID]
    blank = sum(one.kind == "blank" for one in report.aside)
    if len(report.aside) > blank:
        parts += ["", "Set aside:", *(f"  line {row[0]}: {row[1]} {row[2]} {str(row[3])!r}: {row[4]}"
                                      for row, one in zip(report.set_aside(), report.aside, strict=True)
                                      if one.kind != "blank")]
    if blank:
        parts += ["", f"Set aside as blank: {blank} cell{'s' * (blank != 1)}; set_aside.csv lists them too."]
    return "\n".join(parts)


def tables_html(report: ClassReport) -> str:
    """All tables, for a notebook or a page."""
    out = [f"<p>{escape(headline(report))}</p>\n", *(f"<p>{escape(note)}</p>\n" for note in report.notes)]
    for name, caption, heads, rows in tables(report):
        if not rows:
            out.append(f"<p>{caption}: none.</p>\n")
            continue
        out.append(f'<div class="wide">{grid(caption, heads, rows)}</div>\n')
        if name == "learners":
            out.append(f'<p class="soft">{SIGNS_SAID}</p>\n')
    return "".join(out)


def page(report: ClassReport) -> str:
    """The report as one HTML page, with the plot in it."""
    title = f"{report.made.sheet.title}: the class's answers"
    image = _image(report) if find_spec("matplotlib") else ""
    return web_page(title, STYLE, f"<h1>{escape(title)}</h1>\n{image}{tables_html(report)}", images="data:")


def _image(report: ClassReport) -> str:
    alt = escape("Bars: how each question went, and how many answers fit each misconception. The tables below hold "
                 "the same numbers.")
    return f'<img src="data:image/png;base64,{base64.b64encode(png(report)).decode()}" alt="{alt}">\n'


def png(report: ClassReport) -> bytes:
    """The plot as a picture."""
    out = io.BytesIO()
    report.plot().savefig(out, format="png", dpi=150)
    return out.getvalue()


def write_report(report: ClassReport, folder: str | PathLike[str], replace: bool = False) -> tuple[Path, ...]:
    """Write the tables as CSV, the plot as PNG, and the page; without matplotlib, there is no plot.

    Raises
    ------
    InputError
        One of the files is there and `replace` is false, or cannot be written.
    """
    folder = Path(folder)
    there = [name for name in FILES if (folder / name).exists()]
    if there and not replace:
        raise InputError(f"{folder / there[0]} is there already: choose another folder, or say that it may be replaced")
    files = {f"{name}.csv": csv_bytes(heads, rows) for name, _, heads, rows in tables(report)}
    files |= {"marks.csv": csv_bytes(MARK_HEADS, mark_rows(report)), "report.html": page(report).encode()}
    if find_spec("matplotlib"):
        files["report.png"] = png(report)
    write_folder(folder, files)
    return tuple(folder / name for name in FILES if name in files)


MARK_HEADS = ("line", "code", "name", "question", "what stands there", "read as", "right answer", "verdict", "fits")


def mark_rows(report: ClassReport) -> list[list[object]]:
    """A row for each answer that was marked."""
    return [[mark.entry.line, mark.variant.code, mark.variant.learner.name, mark.label, mark.entry.text,
             str(mark.value) if mark.value.denominator == 1 else f"{float(mark.value):.12g}",
             str(mark.variant.key[mark.label]).replace("−", "-"), mark.verdict, "; ".join(mark.fits)]
            for mark in report.marks]
