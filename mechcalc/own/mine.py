"""A machine of one's own from Python: describe it in one call, or take it from its file.

Only this file turns plain Python values into answers as they would be typed.
"""

from __future__ import annotations

from collections.abc import Mapping
from os import PathLike
from pathlib import Path
from typing import Any

from mechcalc.catalogue import load_spec
from mechcalc.errors import InputError
from mechcalc.numbers import shown
from mechcalc.own.found import Findings, findings
from mechcalc.own.questions import MEASURED, MEASURES, USUAL
from mechcalc.own.reading import typed
from mechcalc.spec import MachineSpec

FILE = "my_machine.toml"
STANDS_IN = "counting_room"


def own_machine(*, levers: Any = None, wheels: Any = None, counter: Any = None, positions: Any = None,
                reach: Any = None, counter_carries: Any = None, back_transfer: Any = None,
                check_register: Any = None, angles: str | Mapping[str, Any] = USUAL, name: str = "",
                note: str = "") -> Findings:
    """Hold a machine's figures against the rules, without a form.

    Parameters
    ----------
    levers, wheels, counter : int
        Setting levers, number wheels of the result register, counter wheels.
    positions : int, optional
        Where the carriage can stop; as many as the counter has wheels unless given.
    reach : int
        How many places carry. Nought less one, with the carriage at its first position, shows as many nines.
    counter_carries, back_transfer, check_register : bool
        Whether the counter carries, and what is fitted.
    angles : "usual", or mapping of str to float
        Measured angles by their names in `mechcalc.MachineSpec`, in degrees; those that are left out are taken so
        that they go with the others. ``"usual"`` takes all.
    name, note : str
        For lists and pictures.

    Returns
    -------
    Findings
        All that is wrong and missing; `spec` is the machine once nothing is, and `save` writes its file. A figure
        may also be a text, such as ``"9?"`` for a guess.

    Raises
    ------
    InputError
        `angles` that are neither; one that is no angle of a drum.

    Examples
    --------
    >>> own_machine(levers=9, wheels=13, counter=8, reach=8)
    <Findings: 1 thing is wrong and 3 answers are missing>
    >>> found = own_machine(levers=6, wheels=10, counter=6, reach=10, counter_carries=False, back_transfer=False,
    ...                     check_register=False, name="the grey one", angles={"pin_pitch": 8.0})
    >>> found
    <Findings: Nothing is missing, and every rule is kept>
    >>> found.spec.positions, found.spec.helix_step
    (6, 10.6)
    """
    figures = {"name": name, "setting_places": levers, "result_places": wheels, "counter_places": counter,
               "positions": positions, "carry_reach": reach, "counter_carry": counter_carries,
               "back_transfer": back_transfer, "check_register": check_register, "note": note, **_measures(angles)}
    return findings({field: typed(value) for field, value in figures.items() if value is not None})


def _measures(angles: Any) -> dict[str, Any]:
    if isinstance(angles, str):
        return {"angles": angles}
    if not isinstance(angles, Mapping):
        raise InputError(f"angles are {USUAL!r}, or measured ones by their names, not {shown(angles)}")
    for field in angles:
        if field not in MEASURES:
            raise InputError(f"{shown(field)} is no angle of a drum: the angles are {', '.join(MEASURES)}")
    return {"angles": MEASURED, **angles}


def my_spec(path: str | PathLike[str] = FILE, otherwise: str = STANDS_IN) -> MachineSpec:
    """The machine in a file of one's own; until there is one, a machine of the catalogue, and a line that says so.

    Parameters
    ----------
    path : path
        The file.
    otherwise : str
        Which machine stands in.

    Raises
    ------
    SpecError
        There is a file, and it describes no machine that can be built.

    Examples
    --------
    >>> my_spec("not_yet.toml").name
    not_yet.toml is not there yet: Counting room stands in for it.
    'Counting room'
    """
    if Path(path).is_file():
        return load_spec(Path(path))
    spec = load_spec(otherwise)
    print(f"{Path(path).name} is not there yet: {spec.name} stands in for it.")
    return spec
