"""The table of everything that conditions can count.

Only this file says what is in it. To add a measure, write a row in `figures` or `happenings`: the list of the command
line, the checks of a wish, the search and its explanations take it from there.
"""

from __future__ import annotations

from mechcalc.preparing.figures import FIGURES
from mechcalc.preparing.happenings import HAPPENINGS, ROOM
from mechcalc.preparing.measure import Measure

MEASURES: dict[str, Measure] = {measure.name: measure for measure in (*FIGURES, *HAPPENINGS)}
ALL: dict[str, Measure] = {**MEASURES, ROOM.name: ROOM}

# Whole phrases, and what they stand for; {} is the name of a number. Articles in front do not matter.
PHRASES: dict[str, str] = {
    "no nought in {}": "noughts in {} = 0",
    "nought inside {}": "inner noughts in {} >= 1",
    "no nought at the end of {}": "end noughts in {} = 0",
    "distinct figures in {}": "repeated figures in {} = 0",
    "no 6 or 9 in {}": "sixes and nines in {} = 0",
    "nothing trivial": "trivial numbers = 0",
    "slips show": "slips hidden = 0",
    "slips told apart": "slips alike = 0",
    "remainder": "remainder >= 1",
    "no remainder": "remainder = 0",
    "answer below nought": "answer < 0",
    "goes below nought": "turns below nought >= 1",
    "carry": "carries >= 1",
    "no carry": "carries = 0",
    "carry across nines": "nines crossed >= 1",
    "bell rings": "bells >= 1",
    "bell never rings": "bells = 0",
    "overdraft in every place": "positions not overdrawn = 0",
    "fewer turns by short cut": "turns saved >= 1",
    "short reach shows": "wheels wrong >= 1",
}
