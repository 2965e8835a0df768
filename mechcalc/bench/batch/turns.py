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
from mechcalc.bench.batch.tables import DIGIT, NOT_SET, PASSED, Odd


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
        self._stay = self._kept_out.any(axis=1).tolist()
        self._odd: dict[tuple[int, int, int], Odd | None] = {}
        self._clocks: dict[int, Clock] = {}
        self._number = np.empty(len(lanes), np.uint8)
        self._truth, self._carry = np.empty(len(lanes), bool), np.empty(len(lanes), bool)
        self.settings = [0] * len(steps)  # how often each pinwheel was set; whoever sets one counts it up

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
        levers = self.levers[carriage:reach - 1]
        if not levers.any():
            return {}
        deflected = levers & self.lanes.carry_pins[1 if direction > 0 else 0][2:reach - carriage + 1]
        levers &= self._kept_out[carriage:reach - 1]
        return {int(row) + 2: deflected[row] for row in np.flatnonzero(deflected.any(axis=1))}

    def _plainly(self, direction: int, carriage: int, reach: int) -> None:
        front = self._in_front(direction, carriage, reach)
        behind = self.lanes.carry_pins[0 if direction > 0 else 1]
        number, truth, carry = self._number, self._truth, None
        for wheel in range(carriage, reach):
            place = wheel - carriage + 1
            digit, early, odd = self.result[wheel], front.get(place), self._odd_ones(place, wheel, direction)
            if odd is not None:
                set_to = self.settings[place - 1] if place <= len(self.pins) else NOT_SET
                found = odd.reach(digit, early, self.pins[place - 1] if set_to != NOT_SET else None, set_to, carry)
            pushed = None if early is None else _step(digit, np.flatnonzero(early))
            if place <= len(self.steps):
                digit += self.steps[place - 1]
            if carry is not None:
                digit += carry.view(np.uint8)
            np.greater(digit, 9, out=truth)
            np.subtract(digit, 10, out=number)
            np.minimum(digit, number, out=digit)
            if pushed is not None:
                truth[pushed] = True
            if odd is not None:
                digit[odd.lanes], truth[odd.lanes] = found & DIGIT, found >= PASSED
            truth &= self.lanes.catches[wheel]
            if wheel + 1 == reach:
                self.levers[wheel] |= truth
            elif self._stay[wheel]:
                lever = self.levers[wheel]
                lever |= truth
                carry = np.logical_and(lever, behind[place + 1], out=self._carry)
                lever &= self._kept_out[wheel]
            else:  # whatever is out goes home as soon as it has been read
                carry = np.logical_and(truth, behind[place + 1], out=self._carry)

    def _odd_ones(self, place: int, wheel: int, direction: int) -> Odd | None:
        """The lanes in which idler or wheel are not as they should be; None where there are none."""
        key = place, wheel, direction
        if key not in self._odd:
            teeth, over = self.lanes.teeth_lost[place - 1], self.lanes.overthrows[wheel]
            lanes = np.flatnonzero((teeth != 0) | over)
            self._odd[key] = Odd(lanes, teeth[lanes], over[lanes], direction) if len(lanes) else None
        return self._odd[key]

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


def _step(digit: Any, who: Any) -> Any:
    """One step for the wheels of some lanes; those of them that passed between 9 and 0."""
    after = digit[who] + 1
    passed = after > 9
    after[passed] = 0
    digit[who] = after
    return who[passed]
