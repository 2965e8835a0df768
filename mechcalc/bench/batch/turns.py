"""One whole turn of many cranks, in two ways that give the same: plainly, and by the clock.

Only this file turns wheels in the batch. A subtractive turn is worked on nine minus each digit, which makes it an
additive one. Under sound timing a lever that a step pushed is out before the pin comes that reads it; then the order
within a turn is: levers left out from before deflect the pins of the helix in front; number pins; from the units up the
pins of the helix behind; and each lever that has been read goes home. Wheels that overthrow and idlers with lost teeth
are looked up (`tables`). Where levers can be late, the crank angles decide (`clock`).
"""

from __future__ import annotations

from typing import Any

import numpy as np

from mechcalc.bench.batch.clock import Clock, TimedRow
from mechcalc.bench.batch.lanes import Lanes
from mechcalc.bench.batch.tables import Table


class Drum:
    """Rows of some lanes, worked in place turn by turn.

    Parameters
    ----------
    lanes : Lanes
        The faults.
    result : array (n, N) of uint8
        Number wheels.
    levers : array (n, N) of bool
        Carry levers that are out.
    steps : array (m, N) of uint8
        How many pins are out.
    pins : array (m, N) of uint16
        Which.
    bell : array (N,) of bool
        It rang in the last turn.
    """

    def __init__(self, lanes: Lanes, result: Any, levers: Any, steps: Any, pins: Any, bell: Any) -> None:
        self.lanes, self.result, self.levers, self.steps, self.pins, self.bell = (
            lanes, result, levers, steps, pins, bell)
        self._kept_out = ~lanes.homed
        self._odd = {(place, wheel): found for place in range(1, lanes.spec.carry_reach + 1)
                     for wheel in range(lanes.spec.result_places)
                     if len(found := np.flatnonzero((lanes.teeth_lost[place - 1] != 0) | lanes.overthrows[wheel]))}
        self._tables: dict[tuple[int, int, int], Table] = {}
        self._clocks: dict[int, Clock] = {}
        self._number = np.empty(len(lanes), np.uint8)
        self._truth = np.empty(len(lanes), bool)

    def turn(self, direction: int, carriage: int, timed: bool) -> None:
        """One turn, by the clock or plainly."""
        reach = self.lanes.spec.wheels_in_reach(carriage)
        moved = self.result[carriage:reach]
        if direction < 0:
            np.subtract(9, moved, out=moved)
        (self._by_the_clock if timed else self._plainly)(direction, carriage, reach)
        if direction < 0:
            np.subtract(9, moved, out=moved)
        self.end(reach)

    def end(self, reach: int) -> None:
        """The drum comes to rest: the highest lever, if it is out, rings the bell and goes home."""
        self.bell[:] = self.levers[reach - 1]
        self.levers[reach - 1] &= self._kept_out[reach - 1]

    def _in_front(self, direction: int, carriage: int, reach: int) -> dict[int, Any]:
        """Levers left out from before: the pins that they deflect, by place; after which they go home."""
        pins = self.lanes.carry_pins[1 if direction > 0 else 0]
        deflected = {}
        for wheel in range(carriage, reach - 1):
            if self.levers[wheel].any():
                place = wheel - carriage + 2
                deflected[place] = self.levers[wheel] & pins[place]
                self.levers[wheel] &= self._kept_out[wheel]
        return deflected

    def _plainly(self, direction: int, carriage: int, reach: int) -> None:
        front = self._in_front(direction, carriage, reach)
        behind = self.lanes.carry_pins[0 if direction > 0 else 1]
        number, truth = self._number, self._truth
        for wheel in range(carriage, reach):
            place = wheel - carriage + 1
            digit, early = self.result[wheel], front.get(place)
            odd = self._odd.get((place, wheel))
            stood = None if odd is None else digit[odd]
            pushed = None if early is None else self._add(digit, early).copy()
            if place <= len(self.steps):
                digit += self.steps[place - 1]
            if place > 1:
                np.logical_and(self.levers[wheel - 1], behind[place], out=truth)
                digit += truth.view(np.uint8)
                self.levers[wheel - 1] &= self._kept_out[wheel - 1]
            if stood is not None:
                driven = [None if early is None else early[odd], self.pins[place - 1][odd] if place <= len(self.pins)
                          else None, truth[odd] if place > 1 else None]
            np.greater(digit, 9, out=truth)
            np.subtract(digit, 10, out=number)
            np.minimum(digit, number, out=digit)
            if pushed is not None:
                truth |= pushed
            if stood is not None:
                digit[odd], truth[odd] = self._table(place, wheel, direction, odd).look_up(stood, driven)
            truth &= self.lanes.catches[wheel]
            self.levers[wheel] |= truth

    def _add(self, digit: Any, steps: Any) -> Any:
        """Some steps, in place; who passed between 9 and 0."""
        digit += steps
        np.greater(digit, 9, out=self._truth)
        np.subtract(digit, 10, out=self._number)
        np.minimum(digit, self._number, out=digit)
        return self._truth

    def _table(self, place: int, wheel: int, direction: int, odd: Any) -> Table:
        key = place, wheel, direction
        if key not in self._tables:
            self._tables[key] = Table(self.lanes.teeth_lost[place - 1][odd], self.lanes.overthrows[wheel][odd],
                                      direction)
        return self._tables[key]

    def _by_the_clock(self, direction: int, carriage: int, reach: int) -> None:
        front = self._in_front(direction, carriage, reach)
        if direction not in self._clocks:
            self._clocks[direction] = Clock(self.lanes, direction)
        row = TimedRow(self._clocks[direction], slice(carriage, reach), self.lanes, self.result, self.levers)
        for place, deflected in front.items():
            row.carried_in_front(place, deflected)
        row.driven(self.pins[:reach - carriage])
        row.carried_behind(self.lanes.carry_pins[0 if direction > 0 else 1])
        self.result[carriage:reach] = row.digit
