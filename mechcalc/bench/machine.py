"""A machine with faults: the shell of `mechcalc.Machine`, with parts of which some are faulty.

Only this file connects faults to a machine that people use.
"""

from __future__ import annotations

from collections.abc import Sequence

from mechcalc import machine as sound
from mechcalc.bench.fault import Fault
from mechcalc.bench.faulty_parts import FaultyParts, checked
from mechcalc.parts import SOUND
from mechcalc.spec import MachineSpec
from mechcalc.state import State
from mechcalc.words import listed


class Machine(sound.Machine):
    """A machine to set, crank, shift and read, with whatever is wrong with it.

    Parameters
    ----------
    spec : MachineSpec
        What it is built like.
    faults : sequence of Fault
        What is wrong with it; nothing unless given.
    state : State, optional
        Where it starts; everything at zero unless given.

    Raises
    ------
    InputError
        A fault at a part that the machine has not got, or two that cannot go together.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> from mechcalc.bench import CarryLeverWeak
    >>> m = Machine(load_spec("slate"), faults=[CarryLeverWeak(wheel=1)])
    >>> _ = m.set(7)
    >>> _ = m.turn(2)
    >>> m.result
    4
    >>> m
    <Machine 'Slate' setting 7, result 4, counter 2, carriage 0; the carry lever of wheel 1 will not stay out>
    """

    def __init__(self, spec: MachineSpec, *, faults: Sequence[Fault] = (), state: State | None = None) -> None:
        self.faults = checked(spec, faults)
        super().__init__(spec, state=state, parts=FaultyParts(self.faults) if self.faults else SOUND)

    def __repr__(self) -> str:
        said = super().__repr__()
        return f"{said[:-1]}; {listed(self.faults)}>" if self.faults else said
