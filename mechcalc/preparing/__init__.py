"""Preparing a class: numbers that show the point, and worksheets made of them.

>>> from mechcalc.preparing import Wish, find
>>> wish = Wish(method="multiply", machine="bench", digits=(3, 2),
...             conditions=("ripple >= 4", "no nought in multiplier"))
>>> finds = find(wish, many=3, seed=2026)
>>> [find.numbers for find in finds] == [find.numbers for find in find(wish, many=3, seed=2026)]
True

Each find has `numbers`, a `working` (cranked on the wish's machine), a `score`, and in `why` a sentence for each
condition. What conditions there are: `mechcalc.preparing.MEASURES` and `PHRASES`, or ``mechcalc find --list``.

Worksheets (`Sheet`, `make_worksheets`, `write_set`) and marking (`read_set`, `mark_answers`, `write_report`) are loaded
when they are first used; how they are used is at the head of `mechcalc.preparing.sheets` and `.marking`.
"""

from typing import TYPE_CHECKING

from mechcalc.lazily import at_first_use
from mechcalc.preparing.conditions import Condition, condition
from mechcalc.preparing.conflicts import NothingFound
from mechcalc.preparing.counts import MEASURES, PHRASES
from mechcalc.preparing.finding import find
from mechcalc.preparing.finds import Find, Finds, Score
from mechcalc.preparing.measure import Measure, Stage
from mechcalc.preparing.slips import UsualSlip
from mechcalc.preparing.spans import Span
from mechcalc.preparing.tasks import TASKS, Task, task
from mechcalc.preparing.wishes import Wish, load_wish

if TYPE_CHECKING:
    from mechcalc.preparing.class_list import BadRow, ClassList, Learner, class_of, read_class
    from mechcalc.preparing.marking import MISCONCEPTIONS, ClassReport, mark_answers, write_report
    from mechcalc.preparing.sheets import (
        Fonts,
        Item,
        Sheet,
        Worksheets,
        load_sheet,
        make_worksheets,
        read_set,
        write_set,
    )

_HOME = {"BadRow": "class_list", "ClassList": "class_list", "Learner": "class_list", "class_of": "class_list",
         "read_class": "class_list", "Fonts": "sheets", "Item": "sheets", "Sheet": "sheets", "Worksheets": "sheets",
         "load_sheet": "sheets", "make_worksheets": "sheets", "read_set": "sheets", "write_set": "sheets",
         "MISCONCEPTIONS": "marking", "ClassReport": "marking", "mark_answers": "marking", "write_report": "marking"}

__all__ = ["MEASURES", "MISCONCEPTIONS", "PHRASES", "TASKS", "BadRow", "ClassList", "ClassReport", "Condition",
           "Find", "Finds", "Fonts", "Item", "Learner", "Measure", "NothingFound", "Score", "Sheet", "Span", "Stage",
           "Task", "UsualSlip", "Wish", "Worksheets", "class_of", "condition", "find", "load_sheet", "load_wish",
           "make_worksheets", "mark_answers", "read_class", "read_set", "task", "write_report", "write_set"]

__getattr__, __dir__ = at_first_use(__name__, _HOME, globals())
