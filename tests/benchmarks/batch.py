"""Many machines at once, as ratios within one run: python -m tests.benchmarks.batch

Run on demand, never by the test suite. The batch in numpy, on one core, with faults applied, is compared with the
event-level machine and with a straightforward C loop (`batch_turns.c`, gcc -O3 -march=native, where a compiler is
found); all three do the same turns on machines with the same faults, and the results are compared before anything is
printed. Times are processor times, so that a busy computer spoils no ratio. Carry levers that come out late are left
out of the comparison with C, which does not know them, and timed apart. Then a whole dictionary: every single fault,
and every pair, of the default machine.
"""

from __future__ import annotations

import ctypes
import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path
from time import perf_counter, process_time
from typing import Any

import numpy as np

from mechcalc import load_spec
from mechcalc.bench import CarryTimingLate, Machine, every_fault
from mechcalc.bench.batch import Batch, lanes_of
from mechcalc.bench.batch.engine import CHUNK
from mechcalc.bench.dictionary import fault_dictionary
from mechcalc.bench.steps import Step, do

SPEC = load_spec("bench")
SOURCE = Path(__file__).with_name("batch_turns.c")
MACHINES = 60_000  # no power of two, or all rows of the C loop meet in the same lines of the cache
TURNS, REPEATS = 60, 5
NUMBER = 987_654_321
DIRECTIONS = [1 if turn % 7 else -1 for turn in range(TURNS)]
ALL = [fault for fault in every_fault(SPEC) if not isinstance(fault, CarryTimingLate)]
STATE = ("result", "levers", "bell", "counter", "setting")
FIELDS = [("machines", ctypes.c_long), *((name, ctypes.c_int) for name in (
    "wheels", "places", "reach", "counters", "carriage", "in_reach", "counter_carry")),
    *((name, ctypes.c_void_p) for name in (*STATE, "steps", "pins", "counts_up", "carry_pins", "catches", "homed",
                                           "over", "odd", "creeps", "fingers", "pins_gone", "pins_out", "teeth",
                                           "stuck"))]


class Machines(ctypes.Structure):
    """As the C source has it."""

    _fields_ = FIELDS


def seats(faults_each: int, machines: int = MACHINES) -> Any:
    """Random faults, the same in every run."""
    chance = np.random.default_rng(7)
    return chance.integers(0, len(ALL), (machines, faults_each)) if faults_each else np.full((machines, 1), -1)


def in_numpy(table: Any, faults: Any = ALL, chunk: int = CHUNK) -> tuple[float, Any]:
    """Machine-turns a second, and what all machines show at the end."""
    parts = [lanes_of(SPEC, faults, table[low:low + chunk]) for low in range(0, len(table), chunk)]
    best, shown = 0.0, None
    for _ in range(REPEATS):
        batches = [Batch(part) for part in parts]
        for batch in batches:
            batch.do(Step("set", NUMBER))
        begin = process_time()
        for batch in batches:
            for direction in DIRECTIONS:
                batch.do(Step("turn", direction))
        best = max(best, len(table) * TURNS / (process_time() - begin))
        shown = [np.concatenate([getattr(batch, name) for batch in batches], axis=-1) for name in STATE]
    return best, shown


def by_events(table: Any) -> tuple[float, Any]:
    """The same on some event-level machines."""
    machines = [Machine(SPEC, faults=[ALL[index] for index in sorted(set(row)) if index >= 0])
                for row in table.tolist()]
    for machine in machines:
        machine.set(NUMBER)
    begin = process_time()
    for machine in machines:
        for direction in DIRECTIONS:
            do(machine, Step("turn", direction))
    speed = len(machines) * TURNS / (process_time() - begin)
    return speed, [np.array([getattr(machine.state, name) for machine in machines]).T for name in STATE]


def compiled(folder: str) -> Any:
    """The C loop as a library; None where there is no compiler."""
    compiler = next((found for name in ("gcc", "cc") if (found := shutil.which(name))), None)
    if compiler is None:
        return None
    library = os.path.join(folder, "turns.so")
    subprocess.run([compiler, "-O3", "-march=native", "-shared", "-fPIC", "-o", library, str(SOURCE)], check=True)
    return ctypes.CDLL(library)


def in_c(library: Any, table: Any) -> tuple[float, Any]:
    """The same turns by the C loop."""
    lanes, many = lanes_of(SPEC, ALL, table), len(table)
    fixed = {"carry_pins": lanes.carry_pins, "catches": lanes.catches, "homed": lanes.homed, "over": lanes.overthrows,
             "creeps": lanes.creeps, "fingers": lanes.fingers, "pins_gone": lanes.pins_gone,
             "pins_out": lanes.pins_out, "teeth": lanes.teeth_lost, "stuck": lanes.stuck}
    reach = SPEC.wheels_in_reach(0)
    fixed["odd"] = lanes.overthrows[:reach] | (lanes.teeth_lost[:reach] != 0)
    setting = np.repeat(np.array([NUMBER // 10**row % 10 for row in range(SPEC.setting_places)], np.uint8)[:, None],
                        many, axis=1)
    pins = ((1 << setting.astype(np.uint16)) - 1 | lanes.pins_out) & ~lanes.pins_gone
    # One row more than there are places, so that the loop may look one place past the last.
    fixed["carry_pins"] = np.concatenate([lanes.carry_pins.reshape(-1, many), np.zeros((1, many), bool)])
    directions, best, state = np.array(DIRECTIONS, np.int8), 0.0, {}
    for _ in range(REPEATS):
        state = {"result": np.zeros((SPEC.result_places, many), np.uint8),
                 "levers": np.zeros((SPEC.result_places, many), np.uint8), "bell": np.zeros(many, np.uint8),
                 "counter": np.zeros((SPEC.counter_places, many), np.uint8), "counts_up": np.zeros(many, np.int8),
                 "setting": setting.copy(), "pins": pins.astype(np.uint16),
                 "steps": np.bitwise_count(pins).astype(np.uint8)}
        given = Machines(many, SPEC.result_places, SPEC.setting_places, SPEC.carry_reach, SPEC.counter_places, 0,
                         reach, SPEC.counter_carry,
                         **{name: np.ascontiguousarray(array).ctypes.data for name, array in (state | fixed).items()})
        begin = process_time()
        library.turns(ctypes.byref(given), directions.ctypes.data_as(ctypes.c_void_p), TURNS)
        best = max(best, many * TURNS / (process_time() - begin))
    return best, [state[name] for name in STATE]


def agree(one: Any, other: Any, machines: int, what: str) -> None:
    """Stop where the two show anything different."""
    for name, a, b in zip(STATE, one, other, strict=True):
        if not np.array_equal(np.asarray(a)[..., :machines], np.asarray(b)[..., :machines]):
            sys.exit(f"{what}: the {name} differs; no figures are given")


def main() -> None:
    """Print every figure, each with what it is compared with."""
    print(f"{SPEC.name}, {MACHINES} machines, {TURNS} turns, one core; millions of machine-turns a second")
    with tempfile.TemporaryDirectory() as folder:
        library = compiled(folder)
        for faults_each in (0, 1, 2):
            table = seats(faults_each)
            fast, shown = in_numpy(table)
            slow, events = by_events(table[:24])
            agree(shown, events, 24, "event-level machine")
            line = (f"{faults_each} faults each: numpy {fast / 1e6:7.1f}   {fast / slow:9,.0f} of the event-level "
                    "machine")
            if library is not None:
                plain, checked = in_c(library, table)
                agree(shown, checked, MACHINES, "C")
                line += f"   C {plain / 1e6:7.1f}   C is {plain / fast:.2f} of numpy"
            print(line)
        if library is None:
            print("no C compiler was found: no comparison with C")
    late = [CarryTimingLate(by=0.5)]
    fast, _ = in_numpy(np.zeros((8_192, 1), np.int64), late)
    print(f"levers late in all: numpy {fast / 1e6:7.1f}")
    for pairs, workers in ((False, 1), (True, 1), (True, 2)):
        begin = perf_counter()
        book = fault_dictionary(SPEC, pairs=pairs, workers=workers)
        print(f"dictionary of {book.answers.shape[1]:6,d} machines x {len(book.tests)} tests, {workers} process"
              f"{'es' * (workers > 1)}: {perf_counter() - begin:6.2f} s")


if __name__ == "__main__":
    main()
