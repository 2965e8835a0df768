"""What the mechanism costs, as ratios within one run: python tests/benchmarks/mechanism.py

Run on demand, never by the test suite: a machine in a classroom is slow or fast, and says nothing about the kit.
Ratios of two things timed one after the other do. Each figure is the best of several repetitions.
"""

from __future__ import annotations

import subprocess
import sys
from time import perf_counter

from mechcalc import Machine, MachineSpec, load_spec
from mechcalc.operations import perform
from mechcalc.state import cleared

REPEATS = 7


def best(work, count: int) -> float:
    """Seconds for one of `count` repetitions of what `work(count)` does, the best of several runs."""
    times = []
    for _ in range(REPEATS):
        begin = perf_counter()
        work(count)
        times.append((perf_counter() - begin) / count)
    return min(times)


def turns(machine: Machine, direction: int = 1):
    """Whole turns from where the machine stands, which stays there."""
    def work(count: int) -> None:
        for _ in range(count):
            machine.would("crank", 360.0 * direction)
    return work


def additions(count: int) -> None:
    """The same sum as a plain integer loop: 347 added modulo 10^13, and one more on the counter."""
    result = counter = 0
    for _ in range(count):
        result = (result + 347) % 10**13
        counter = (counter + 1) % 10**8


def rippling(spec: MachineSpec) -> Machine:
    """0 - 1 is about to ripple through every wheel in reach."""
    machine = Machine(spec)
    machine.set(1)
    return machine


def stops(count: int) -> None:
    """A turn of the bench machine in ninety parts, as a dragged crank makes them."""
    spec = load_spec("bench")
    state = perform(spec, cleared(spec), "set", 347)[0].after
    for _ in range(count):
        at = state
        for _ in range(90):
            at = perform(spec, at, "crank", 4.0)[-1].after


def start(code: str) -> float:
    """Seconds that a new Python takes for `code`."""
    times = []
    for _ in range(REPEATS):
        begin = perf_counter()
        subprocess.run([sys.executable, "-c", code], check=True)
        times.append(perf_counter() - begin)
    return min(times)


def main() -> None:
    """Print every figure, each with what it is compared with."""
    bench, ledger = Machine(load_spec("bench")), load_spec("ledger")
    bench.set(347)
    turn, plain = best(turns(bench), 2000), best(additions, 200_000)
    print(f"a turn of 'bench' with 347 set     {turn * 1e6:8.1f} us   {1 / turn:10,.0f} turns a second")
    print(f"the same as a plain integer loop   {plain * 1e6:8.3f} us   a turn costs {turn / plain:,.0f} of it")
    idle, ripple = best(turns(Machine(ledger)), 2000), best(turns(rippling(ledger), -1), 2000)
    print(f"an idle turn of 'ledger'           {idle * 1e6:8.1f} us")
    print(f"0 - 1 through all its {ledger.wheels_in_reach(0)} wheels      {ripple * 1e6:8.1f} us   "
          f"{ripple / idle:.2f} of an idle turn")
    parts = best(stops, 20)
    print(f"a turn of 'bench' in 90 parts      {parts * 1e6:8.1f} us   {parts / turn:.1f} of one in one go")
    nothing, kit = start("pass"), start("import mechcalc")
    used = start("import mechcalc; mechcalc.Machine, mechcalc.load_spec")
    print(f"python -c pass                     {nothing * 1e3:8.1f} ms")
    print(f"python -c 'import mechcalc'        {kit * 1e3:8.1f} ms   {kit / nothing:.2f} of it, "
          f"{(kit - nothing) * 1e3:.1f} ms more")
    print(f"... and Machine and load_spec      {used * 1e3:8.1f} ms   {used / nothing:.2f} of it, "
          f"{(used - nothing) * 1e3:.1f} ms more")


if __name__ == "__main__":
    main()
