"""Machines that pages are tried with."""

from __future__ import annotations

from mechcalc import Machine, load_spec


def nines(machine: Machine | None = None) -> Machine:
    """9999 + 1 on a slate (a new one unless given): the second of two turns ripples through every wheel."""
    made = Machine(load_spec("slate")) if machine is None else machine
    made.set(9999)
    made.turn()
    made.set(1)
    made.turn()
    return made
