"""How fast a picture plays, as a function of the timeline alone: slow where a carry is under way.

Only this file paces a picture in Python, for films; js/pace.js is its twin and is tested against it. Travel in degrees,
paces in degrees a second.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from itertools import accumulate
from typing import Any

EVEN = 110.0
PACES = {
    "lever out": 9.0, "pin deflected": 7.0, "carry step": 13.0, "lever home": 13.0, "bell": 9.0, "fault": 9.0,
    "number step": 34.0, "counter step": 60.0, "direction taken": 60.0,
    "carriage eased": 70.0, "carriage seated": 70.0,
}
LEAD = 2.0   # degrees before a moment in which the pace has come down to the moment's own
EASE = 14.0  # degrees over which it comes down and goes up again
STEP = 1 / 120  # seconds: the playhead goes in steps so small that it leaps over no carry


class Pace:
    """The pace along one timeline.

    Parameters
    ----------
    timeline : dict
        Of `mechcalc.view.timeline`.

    Attributes
    ----------
    pieces : list of (float, float, float)
        Where it is slower than the even pace: from, to, pace; in order of their beginnings.

    Examples
    --------
    >>> from mechcalc import Machine, load_spec
    >>> from mechcalc.view import timeline_of
    >>> m = Machine(load_spec("slate"))
    >>> _ = m.set(1); _ = m.turn()
    >>> pace = Pace(timeline_of(m))
    >>> pace.at(5.0), pace.at(180.0), round(pace.advance(5.0, 0.1), 6)
    (110.0, 34.0, 16.0)
    """

    def __init__(self, timeline: dict[str, Any]) -> None:
        pieces = []
        for moment in timeline["moments"]:
            slow = min(PACES.get(kind, EVEN) for kind in moment["kinds"])
            if slow < EVEN:
                pieces.append((moment["from"] - LEAD, moment["at"] + LEAD, slow))
        self.pieces = sorted(pieces, key=lambda piece: piece[0])
        self._begins = [piece[0] for piece in self.pieces]
        self._ends = list(accumulate((piece[1] for piece in self.pieces), max))

    def at(self, travel: float) -> float:
        """The pace at a travel: that of the slowest piece that holds it, easing in and out of it."""
        pace = EVEN
        for begin, end, slow in self.pieces[bisect_right(self._ends, travel - EASE):
                                            bisect_left(self._begins, travel + EASE)]:
            away = begin - travel if travel < begin else max(0.0, travel - end)
            if away < EASE:
                share = away / EASE
                pace = min(pace, slow + (EVEN - slow) * share * share)
        return pace

    def advance(self, travel: float, seconds: float, speed: float = 1.0) -> float:
        """Where the playhead is after `seconds`, at `speed` times the pace."""
        while seconds > 1e-12:
            now = min(seconds, STEP)
            travel += speed * self.at(travel) * now
            seconds -= now
        return travel
