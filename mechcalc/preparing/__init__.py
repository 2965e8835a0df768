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

from mechcalc.preparing.conditions import PHRASES, Condition, condition
from mechcalc.preparing.finding import NothingFound, find
from mechcalc.preparing.finds import Find, Finds, Score
from mechcalc.preparing.counts import MEASURES
from mechcalc.preparing.spans import Span
from mechcalc.preparing.tasks import TASKS, Task, task
from mechcalc.preparing.wishes import Wish

__all__ = ["MEASURES", "PHRASES", "TASKS", "Condition", "Find", "Finds", "NothingFound", "Score", "Span", "Task",
           "Wish", "condition", "find", "task"]
