"""A stroke told in plain text: one line for each angle at which something is complete.

Only this file lays such a list out; the sentences are those of `mechcalc.words`.
"""

from __future__ import annotations

from itertools import groupby
from textwrap import fill

from mechcalc.events import Stroke
from mechcalc.words import sentence

WIDTH = 100


def told(*strokes: Stroke) -> str:
    """What happened in strokes, line by line, with the degrees of crank (or lever) at which it was complete.

    >>> from mechcalc.classroom import ready
    >>> m = ready("slate", setting=1, result=9)
    >>> print(told(m.crank(250.0)))
      148.5°  A number pin moves wheel 1 one step on.
      151.5°  Wheel 1 passed between 9 and 0: the carry lever is out.
      224.5°  The lever pushes the additive carry pin of place 2 sideways, into the idler's path.
      233.5°  The carry reaches wheel 2: one step on, to 1. The homing cam pushes the carry lever of
              wheel 1 home.
    """
    lines = []
    for stroke in strokes:
        for angle, events in groupby(stroke.events, key=lambda event: event.angle):
            lines.append(fill(sentence(list(events)), WIDTH, initial_indent=f"{f'{angle:g}°':>8}  ",
                              subsequent_indent=" " * 10))
    return "\n".join(lines) if lines else "Nothing moved."
