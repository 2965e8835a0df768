"""A batch of machines that do the same steps, and what is seen of them.

Only this file does steps on many machines. Lanes are worked in an order of their own (those of one way of turning side
by side) and given back in the caller's.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from mechcalc.bench.batch.lanes import Lanes
from mechcalc.bench.batch.turns import Drum
from mechcalc.bench.steps import Seen, Step, fits_spec
from mechcalc.errors import InputError
from mechcalc.state import State, cleared, fits

CHUNK = 32_768  # lanes; their rows together stay in a processor's second cache
UP_TO = np.array([(1 << digit) - 1 for digit in range(10)], np.uint16)


@dataclass(frozen=True, slots=True, eq=False)
class Views:
    """What was seen after each of S steps on N machines.

    Attributes
    ----------
    result, counter, setting : array (S, n, N), (S, c, N), (S, m, N) of uint8
        Digits, units first.
    bell, yielded : array (S, N) of bool
    """

    result: Any
    counter: Any
    setting: Any
    bell: Any
    yielded: Any

    def seen(self, step: int, lane: int) -> Seen:
        """One machine after one step (both count from 0), as `mechcalc.bench.steps.do` gives it."""
        result, counter, setting = (tuple(int(digit) for digit in rows[step, :, lane])
                                    for rows in (self.result, self.counter, self.setting))
        return Seen(result, counter, setting, bool(self.bell[step, lane]), bool(self.yielded[step, lane]))


class Batch:
    """N machines of one spec, each with its faults, standing at rest.

    Parameters
    ----------
    lanes : Lanes
        The faults.
    state : State, optional
        Where all of them start: at rest, carriage seated, levers home; everything at zero unless given.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> from mechcalc.bench import CarryLeverWeak
    >>> from mechcalc.bench.batch import lanes_of
    >>> from mechcalc.bench.steps import steps_from_text
    >>> batch = Batch(lanes_of(load_spec("slate"), [CarryLeverWeak(wheel=1)], [-1, 0]))
    >>> for step in steps_from_text("set 7; turn 2"):
    ...     batch.do(step)
    >>> batch.result[:2].tolist()                   # row 0: units; one column a machine
    [[4, 4], [1, 0]]
    """

    def __init__(self, lanes: Lanes, state: State | None = None) -> None:
        self._order = np.argsort(lanes.timed, kind="stable")
        self._back = np.argsort(self._order, kind="stable")
        self.lanes = lanes.some(self._order)
        spec, many = lanes.spec, len(lanes)
        self._setting = np.zeros((spec.setting_places, many), np.uint8)
        self._result = np.zeros((spec.result_places, many), np.uint8)
        self._counter = np.zeros((spec.counter_places, many), np.uint8)
        self._levers = np.zeros((spec.result_places, many), bool)
        self._direction = np.zeros(many, np.int8)
        self._bell, self._yielded = np.zeros(many, bool), np.zeros(many, bool)
        self._creeping = {row: found for row, creeps in enumerate(self.lanes.creeps)
                          if len(found := np.flatnonzero(creeps))}
        self._pins = np.empty((spec.setting_places, many), np.uint16)
        self._steps = np.empty((spec.setting_places, many), np.uint8)
        self._segments = self._segment()
        self.stand(cleared(spec) if state is None else state)

    def stand(self, state: State) -> None:
        """Have every machine stand in a state: at rest, carriage seated, levers at home.

        Raises
        ------
        InputError
            The state is of another machine, or not at rest.
        """
        if not fits(self.lanes.spec, state) or state.direction or state.easing or state.transfer or (
                state.pulled_result or state.pulled_counter):
            raise InputError("a batch starts with machines of its own spec at rest, carriage seated, levers at home")
        for rows, digits in ((self._setting, state.setting), (self._result, state.result),
                             (self._counter, state.counter), (self._levers, state.levers)):
            rows[:] = np.array(digits)[:, None]
        self._direction[:] = state.counter_direction or 0
        self._free = state.counter_direction is None
        self._turns_count()
        self._bell[:] = state.bell
        self._yielded[:] = False
        self.carriage = state.carriage
        for row in range(len(self._setting)):
            self._set_out(row)

    def kept(self) -> Any:
        """How every machine stands, to be taken back to with `back_to`."""
        rows = (self._setting, self._result, self._counter, self._levers, self._direction, self._bell)
        return (*(row.copy() for row in rows), self._free, self.carriage)

    def back_to(self, kept: Any) -> None:
        """Have every machine stand as it stood."""
        *rows, self._free, self.carriage = kept
        for row, was in zip((self._setting, self._result, self._counter, self._levers, self._direction, self._bell),
                            rows, strict=True):
            row[...] = was
        self._turns_count()
        for place in range(len(self._setting)):
            self._set_out(place)

    def part(self, which: Any) -> Batch:
        """Some of the machines, in the order of an index array, standing as they stand here."""
        made = Batch(self.lanes.some(self._back[which]))
        rows = self._back[which][made._order]
        for name in ("_setting", "_result", "_counter", "_levers", "_bell", "_yielded"):
            getattr(made, name)[...] = getattr(self, name)[..., rows]
        made._direction = self._direction[rows]
        made._free, made.carriage = bool((made._direction == 0).any()), self.carriage
        made._turns_count()
        for row in range(len(made._setting)):
            made._set_out(row)
        return made

    def _turns_count(self) -> None:
        """What a turn either way adds to the counter: 1, or 255 for one less."""
        self._step_of = {way: np.where(self._direction == way, 1, 255).astype(np.uint8) for way in (1, -1)}

    def _segment(self) -> list[tuple[bool, Drum]]:
        """The lanes of each way of turning, plain and timed, side by side, as views of the rows."""
        found, border = [], int(np.searchsorted(self.lanes.timed, True))
        for timed, part in ((False, slice(0, border)), (True, slice(border, len(self.lanes)))):
            if part.start < part.stop:
                found.append((timed, Drum(self.lanes.view(part), self._result[:, part], self._levers[:, part],
                                          self._steps[:, part], self._pins[:, part], self._bell[part])))
        return found

    # What is seen, in the caller's order of lanes.

    @property
    def result(self) -> Any:
        """Number wheels: array (n, N), units first."""
        return self._result[:, self._back]

    @property
    def counter(self) -> Any:
        """Counter wheels: array (c, N), units first."""
        return self._counter[:, self._back]

    @property
    def setting(self) -> Any:
        """Setting levers: array (m, N), units first."""
        return self._setting[:, self._back]

    @property
    def levers(self) -> Any:
        """Carry levers that are out: array (n, N)."""
        return self._levers[:, self._back]

    @property
    def bell(self) -> Any:
        """Whether it rang in the last turn: array (N,)."""
        return self._bell[self._back]

    @property
    def yielded(self) -> Any:
        """Whether the last step was a try that yielded, or was refused: array (N,)."""
        return self._yielded[self._back]

    # What is done.

    def do(self, step: Step) -> None:
        """One step on every machine."""
        self._yielded[:] = False
        DO[step.what](self, step.number)

    def _set_out(self, row: int, lanes: Any = slice(None)) -> None:
        """Which pins of a pinwheel are out now."""
        pins = UP_TO[self._setting[row, lanes]]
        pins |= self.lanes.pins_out[row, lanes]
        pins &= ~self.lanes.pins_gone[row, lanes]
        self._pins[row, lanes] = pins
        self._steps[row, lanes] = np.bitwise_count(pins)
        for _, drum in self._segments:
            drum.settings[row] += 1

    def _set(self, number: int) -> None:
        for row in range(len(self._setting)):
            self._setting[row] = number // 10**row % 10
            self._set_out(row)

    def _turn(self, direction: int) -> None:
        for timed, drum in self._segments:
            drum.turn(direction, self.carriage, timed)
        self._count(direction)
        self._creep()

    def _creep(self, who: Any = None) -> None:
        """Levers that creep slip back by a digit: all of them, or those of some lanes."""
        for row, creeping in self._creeping.items():
            lanes = creeping if who is None else creeping[who[creeping]]
            lanes = lanes[self._setting[row, lanes] > 0]
            if len(lanes):
                self._setting[row, lanes] -= 1
                self._set_out(row, lanes)

    def _count(self, direction: int) -> None:
        """The counter takes its direction where it is free, steps, and carries."""
        if self._free:
            taken = np.where(self.lanes.stuck, self.lanes.stuck, np.int8(direction))
            self._direction[:] = np.where(self._direction == 0, taken, self._direction)
            self._free = False
            self._turns_count()
        step, moves = self._step_of[direction], self.lanes.fingers[self.carriage]
        for wheel in range(self.carriage, len(self._counter)):
            digit = self._counter[wheel]
            digit += step * moves
            passed = digit > 9  # 10, or 255 for one below 0
            if not passed.any():
                break
            digit[passed] = np.where(digit[passed] == 10, 0, 9)
            if not self.lanes.spec.counter_carry or wheel + 1 == len(self._counter):
                break
            moves = passed & self.lanes.fingers[wheel + 1]

    def _shift(self, by: int) -> None:
        if not 0 <= self.carriage + by < self.lanes.spec.positions:
            self._yielded[:] = True
            return
        self.carriage += by

    def _clear_result(self, _: int) -> None:
        self._result[self.lanes.clears] = 0

    def _clear_counter(self, _: int) -> None:
        self._counter[:] = 0
        self._direction[:] = 0
        self._free = True

    def _clear_setting(self, _: int) -> None:
        self._set(0)

    def _back_transfer(self, _: int) -> None:
        """Wheels opposite a gear that meshes take their pinwheels along; one that would pass 9 jams its machine."""
        if not self.lanes.spec.back_transfer:
            self._yielded[:] = True
            return
        rows = min(len(self._setting), len(self._result) - self.carriage)
        wheels = slice(self.carriage, self.carriage + rows)
        after = self._setting.copy()
        after[:rows] += self._result[wheels] * (self.lanes.clears[wheels] & self.lanes.transfers[:rows])
        jams = (after > 9).any(axis=0)
        self._setting[:] = np.where(jams, self._setting, after)
        self._result[self.lanes.clears & ~jams] = 0
        self._yielded[:] = jams
        for row in range(rows):
            self._set_out(row)

    def _try_back(self, _: int) -> None:
        """Where the ratchet is worn the crank comes back to rest before the turn: the drum's end acts once more."""
        worn = self.lanes.ratchet_worn
        if worn.any():
            reach = self.lanes.spec.wheels_in_reach(self.carriage)
            self._levers[reach - 1] &= ~(self.lanes.homed[reach - 1] & worn)
            self._creep(worn)
        self._turn(1)
        self._yielded[:] = worn

    def _try_lever(self, _: int) -> None:
        self._turn(1)
        self._yielded[:] = self.lanes.lock_worn


DO = {"set": Batch._set, "turn": Batch._turn, "shift": Batch._shift, "clear result": Batch._clear_result,
      "clear counter": Batch._clear_counter, "clear setting": Batch._clear_setting,
      "back transfer": Batch._back_transfer, "try back": Batch._try_back, "try lever": Batch._try_lever}


def views_of(lanes: Lanes, steps: Iterable[Step], state: State | None = None, chunk: int = CHUNK) -> Views:
    """Do steps on machines, some thousands at a time, and keep what is seen after each.

    Parameters
    ----------
    lanes : Lanes
        The machines.
    steps : iterable of Step
        The same for all; a sound machine of this spec must be able to do them.
    state : State, optional
        Where all start.
    chunk : int
        How many machines are worked at a time; a matter of speed and memory only.

    Raises
    ------
    InputError
        A step that even a sound machine refuses.
    """
    todo: Sequence[Step] = tuple(steps)
    if state is None:
        fits_spec(lanes.spec, todo)
    spec, many = lanes.spec, len(lanes)
    kept = Views(*(np.empty((len(todo), rows, many), np.uint8)
                   for rows in (spec.result_places, spec.counter_places, spec.setting_places)),
                 *(np.empty((len(todo), many), bool) for _ in range(2)))
    for low in range(0, many, chunk):
        part = slice(low, min(low + chunk, many))
        batch = Batch(lanes.some(part), state)
        for number, step in enumerate(todo):
            batch.do(step)
            for name in ("result", "counter", "setting", "bell", "yielded"):
                getattr(kept, name)[number, ..., part] = getattr(batch, name)
    return kept
