"""What a machine with a short carry reach makes of strokes that are right on a longer one.

Only this file works a calculation that the machine cannot do: the methods refuse it, and rightly. The strokes are
those of a twin whose carries reach every wheel; the hand then does them on the machine itself, carries that stop short
and all. That has a sense only where the strokes follow from the numbers alone (`Task.by_heart`).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import lru_cache
from typing import Any

from mechcalc.machine import Machine
from mechcalc.methods import Hand, Line, Working
from mechcalc.spec import MachineSpec


@lru_cache(maxsize=64)
def full_reach(spec: MachineSpec) -> MachineSpec:
    """The same machine, but with carries that reach every wheel.

    >>> from mechcalc import load_spec
    >>> full_reach(load_spec("short")).carry_reach
    12
    """
    # Pins so narrow that a drum has room for forty places.
    return replace(spec, carry_reach=max(spec.carry_reach, spec.result_places), allow_faulty_timing=False,
                   pin_pitch=2.0, gap=0.5, helix_step=2.5, lever_throw=0.5, rest_arc=4.0)


def replay(spec: MachineSpec, work: Callable[[Machine], Working]) -> Working:
    """Do on a machine of this build, without a look at the windows, what `work` does on its twin with full reach.

    Returns
    -------
    Working
        Each line's right-hand side is what the machine shows; `answer` is what it shows at the end.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> from mechcalc.methods import multiply_short_cut
    >>> working = replay(load_spec("short"), lambda machine: multiply_short_cut(machine, 922_611, 109))
    >>> working.headline, 922_611 * 109
    ('922611 × 109 with carries cut short = 564599', 100564599)
    """
    wanted = work(Machine(full_reach(spec)))
    machine, title = Machine(spec), f"{wanted.title} with carries cut short"
    hand = Hand(machine, title, 0, check=False)
    lines = tuple(line for stroke in wanted.strokes for line in _again(hand, stroke.operation, stroke.argument))
    return Working(spec, title, machine.strokes[0].before if machine.strokes else machine.state, machine.result,
                   machine.strokes, lines, _remark(machine.result, wanted))


def _again(hand: Hand, operation: str, argument: Any) -> Iterator[Line]:
    if operation == "set":
        pieces = hand.set(argument)
    elif operation == "shift":
        pieces = hand.shift_to(hand.machine.carriage + argument)
    elif operation == "crank":
        pieces = hand.turn(1 if argument > 0 else -1, over_the_end=True)
    else:
        pieces = hand.clear(operation.removeprefix("clear "))
    for _, line in pieces:
        yield line


def _remark(shows: int, wanted: Working) -> str:
    right = wanted.end.reading.result
    if shows == right:
        return f"The result shows {shows}, as it should."
    return f"The result shows {shows}. With carries that reach every wheel it would show {right}."
