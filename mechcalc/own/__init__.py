"""A machine of one's own: counted and measured by a learner, checked as it is typed, written as a file.

Only this file lists the public names; each loads its own room when it is first used.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from mechcalc.lazily import at_first_use

if TYPE_CHECKING:
    from mechcalc.own.fits import fitting
    from mechcalc.own.form import MachineForm, machine_form
    from mechcalc.own.found import Findings, findings
    from mechcalc.own.mine import my_spec, own_machine
    from mechcalc.own.product import first_product

_HOME = {"Findings": "found", "findings": "found", "first_product": "product", "fitting": "fits",
         "MachineForm": "form", "machine_form": "form", "my_spec": "mine", "own_machine": "mine"}

__all__ = ["Findings", "MachineForm", "findings", "first_product", "fitting", "machine_form", "my_spec", "own_machine"]

__getattr__, __dir__ = at_first_use(__name__, _HOME, globals())
