"""A first product on a machine that nobody has tried yet.

Only this file chooses how much of a product a small machine is given.
"""

from __future__ import annotations

from mechcalc.errors import CapacityError
from mechcalc.machine import Machine
from mechcalc.methods import Working, multiply
from mechcalc.spec import MachineSpec

FACTORS = (347, 26)
LESS = ((34, 26), (347, 2), (34, 2), (3, 2))


def first_product(spec: MachineSpec) -> Working:
    """347 × 26, or as many of its leading figures as the machine has room for.

    Parameters
    ----------
    spec : MachineSpec
        Any machine. Where it is too small, a line says what was short.

    Examples
    --------
    >>> from mechcalc import MachineSpec, load_spec
    >>> first_product(load_spec("slate"))
    <Working 347 × 26 = 9022: 8 turns, 1 shift, 1 setting>
    >>> first_product(MachineSpec(setting_places=2, result_places=3, counter_places=1, carry_reach=2)).headline
    347 × 26 does not fit this machine: the setting is short by 1 place (347 takes 3 levers of 2); ... It has room for \
34 × 2.
    '34 × 2 = 68'
    """
    try:
        return multiply(Machine(spec), *FACTORS)
    except CapacityError as error:
        refusal = str(error)
    for factors in LESS:
        try:
            working = multiply(Machine(spec), *factors)
        except CapacityError:
            continue
        print(f"{refusal}. It has room for {factors[0]} × {factors[1]}.")
        return working
    raise AssertionError("every machine has room for 3 × 2")
