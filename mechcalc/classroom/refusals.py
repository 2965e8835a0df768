"""Movements that are tried and refused, told in plain text.

Only this file turns a refusal into a line of a lesson; the sentences are those of `mechcalc.interlocks`.
"""

from __future__ import annotations

from textwrap import fill
from typing import Any

from mechcalc.errors import InputError, Locked
from mechcalc.machine import Machine
from mechcalc.numbers import shown

ALLOWED = "Nothing stops it."
WIDTH = 100


def refusal(machine: Machine, operation: str, argument: Any = None) -> str:
    """What the machine says if one tries, in lines of at most 100 characters; it is not moved, come what may.

    Parameters
    ----------
    machine : Machine
        As it stands.
    operation, argument
        As `Machine.perform` takes them: ``"crank"`` with signed degrees, ``"shift"`` with 1 or -1, ``"back transfer"``
        without.

    Raises
    ------
    InputError
        Something that is no machine; an operation or an argument that is none.

    Examples
    --------
    >>> from mechcalc.classroom import ready
    >>> m = ready("slate", setting=13, result=195)
    >>> print(refusal(m, "back transfer"))
    back transfer jams at place 2: the pinwheel stands at 1 and number wheel 2 would take it 9 further,
        past 9. Clear the setting first.
    >>> refusal(m, "crank", 360.0)
    'Nothing stops it.'
    """
    if not isinstance(machine, Machine):
        raise InputError(f"a machine refuses, not {shown(machine)}")
    try:
        machine.would(operation, argument)
    except Locked as no:
        return fill(f"{no}", WIDTH, subsequent_indent="    ")
    return ALLOWED
