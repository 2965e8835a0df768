"""Marking: from the answers of a class to tables of who got what, and of which misconceptions there are.

`mark_answers` marks a CSV file with the set of sheets that it belongs to (`mechcalc.preparing.sheets.read_set`), and
returns a `ClassReport`: tables in a notebook, a plot, and `write_report` for files.
"""

from mechcalc.preparing.marking.report import ClassReport, Mark, mark_answers
from mechcalc.preparing.marking.slip_table import MISCONCEPTIONS
from mechcalc.preparing.marking.slips import Misconception
from mechcalc.preparing.marking.telling import write_report

__all__ = ["MISCONCEPTIONS", "ClassReport", "Mark", "Misconception", "mark_answers", "write_report"]
