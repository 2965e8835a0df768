"""Preparing a class: numbers that show the point, and worksheets made of them.

>>> from mechcalc.preparing import Wish, find
>>> wish = Wish(method="multiply", machine="bench", digits=(3, 2),
...             conditions=("ripple >= 4", "no nought in multiplier"))
>>> finds = find(wish, many=3, seed=2026)
>>> [find.numbers for find in finds] == [find.numbers for find in find(wish, many=3, seed=2026)]
True

Each find has `numbers`, a `working` (cranked on the wish's machine), a `score`, and in `why` a sentence for each
condition. What conditions there are: `mechcalc.preparing.MEASURES` and `PHRASES`, or ``mechcalc find --list``.
"""

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

__all__ = ["MEASURES", "PHRASES", "TASKS", "Condition", "Find", "Finds", "Measure", "NothingFound", "Score", "Span",
           "Stage", "Task", "UsualSlip", "Wish", "condition", "find", "load_wish", "task"]
