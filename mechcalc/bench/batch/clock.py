"""A turn by the clock, for machines whose carry levers can come out too late: the crank angles decide.

Only this file compares angles in the batch. All wheels are worked at once while nothing passes between them (carry
pins in front, number pins), and then from the units up (carry pins behind). Digits are those of an additive turn.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import numpy as np

from mechcalc.bench.batch.lanes import Lanes
from mechcalc.layout import PINS, exact, layout

NEVER = np.inf


class Clock:
    """What stays the same from turn to turn: angles, and the idlers' gaps.

    Parameters
    ----------
    lanes : Lanes
    direction : int
        1 or -1.
    """

    def __init__(self, lanes: Lanes, direction: int) -> None:
        self.direction, self.drum = direction, layout(lanes.spec)
        self._lags, self._which = np.unique(lanes.late, return_inverse=True)
        self._known: dict[float, Any] = {}
        digits = np.arange(10) if direction > 0 else (8 - np.arange(10)) % 10
        self.lost = (lanes.teeth_lost[:, None] >> digits.astype(np.uint16)[:, None] & 1).astype(bool)

    def due(self, thrown: float) -> Any:
        """The angle of a throw in each lane, array (N,); it ends in the rest notch at the latest."""
        if thrown not in self._known:
            late = [float(min(exact(thrown) + exact(float(lag)), Fraction(360))) for lag in self._lags]
            self._known[thrown] = np.array(late)[self._which]
        return self._known[thrown]


class TimedRow:
    """The number wheels in reach and their levers, in all lanes, through a turn.

    Between the cams of the two helices a lever only ever goes out; so the first throw decides whether it is out at an
    angle, and the last whether it is out again after it has been sent home.

    Parameters
    ----------
    clock : Clock
    wheels : slice
        Those in reach, R of them; the first stands before place 1.
    lanes : Lanes
    result, levers : array (n, N)
        Of all wheels. Digits are copied (`digit`), levers written to.
    """

    def __init__(self, clock: Clock, wheels: slice, lanes: Lanes, result: Any, levers: Any) -> None:
        self.clock, self.digit, self.levers = clock, result[wheels].astype(np.int64), levers[wheels]
        self._catches, self._homed, self._over = lanes.catches[wheels], lanes.homed[wheels], lanes.overthrows[wheels]
        self._row, self._lane = np.indices(self.digit.shape, sparse=True)
        self._first = np.full(self.digit.shape, NEVER)
        self._last = np.full(self.digit.shape, -NEVER)

    def _step(self, rows: slice, moves: Any, end: float, thrown: float) -> None:
        """Some wheels move a step, or stay, in a step that ends at an angle."""
        digit, first, last = self.digit[rows], self._first[rows], self._last[rows]
        digit += moves
        passed = digit > 9
        if not passed.any():
            return
        digit[passed] = 0
        throws = passed & self._catches[rows] & ~(self.levers[rows] | (first < end))
        due = np.broadcast_to(self.clock.due(thrown), throws.shape)
        first[throws] = np.minimum(first, due)[throws]
        last[throws] = due[throws]

    def _driven(self, rows: slice, pushed: Any, lets_go: Any, passing: Any) -> None:
        """Pins push idlers; where a tooth is lost nothing moves, and a wheel that overthrows runs on when let go."""
        drives = pushed & ~self.clock.lost[self._row[rows], self.digit[rows], self._lane]
        self._step(rows, drives, passing.end, passing.thrown)
        self._step(rows, drives & lets_go & self._over[rows], passing.end, passing.thrown)

    def carried_in_front(self, place: int, deflected: Any) -> None:
        """A pin of the helix in front passes, deflected in some lanes."""
        self._driven(slice(place - 1, place), deflected, True, self.clock.drum.leading[place - 2])

    def driven(self, pins: Any) -> None:
        """The number pins pass, those of all pinwheels together: array (m or fewer, N)."""
        rows, direction = slice(0, len(pins)), self.clock.direction
        for pin in range(1, PINS + 1) if direction > 0 else range(PINS, 0, -1):
            after = pin + direction
            behind = pins >> (after - 1) & 1 == 1 if 1 <= after <= PINS else np.zeros(pins.shape, bool)
            self._driven(rows, pins >> (pin - 1) & 1 == 1, ~behind, self.clock.drum.pin_passing(pin, direction))

    def carried_behind(self, carry_pins: Any) -> None:
        """The pins of the helix behind pass one after another; each lever that has been read goes home, and out again
        where a throw comes later still."""
        for row in range(1, len(self.digit)):
            below, passing = row - 1, self.clock.drum.following[row - 1]
            out = self.levers[below] | (self._first[below] <= passing.contact)
            self._driven(slice(row, row + 1), out & carry_pins[row + 1], True, passing)
            out = self.levers[below] | (self._first[below] <= passing.end)
            self.levers[below] = (out & ~self._homed[below]) | (self._last[below] > passing.end)
        self.levers[-1] |= self._first[-1] < NEVER
