"""What somebody read from a machine, and how it is compared with what a machine would show.

Only this file says what one reading is: one register's windows, or one answer to yes or no. Whoever reads may leave
something out; what was not read is compared with nothing.
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import Any

import numpy as np

from mechcalc.bench.steps import Seen
from mechcalc.errors import InputError
from mechcalc.numbers import is_truth, shown, to_digits, whole
from mechcalc.spec import MachineSpec


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """What was read at one point of a test; None for what was not read.

    Attributes
    ----------
    result, counter, setting : int or None
        The registers, as numbers.
    bell : bool or None
        It rang in the last turn.
    yielded : bool or None
        In a try of an interlock: the crank went back, or the lever moved. After a back transfer: it jammed.
    """

    result: int | None = None
    counter: int | None = None
    setting: int | None = None
    bell: bool | None = None
    yielded: bool | None = None

    @classmethod
    def of(cls, seen: Seen) -> Reading:
        """Everything that can be read, of a machine that shows this."""
        result, counter, setting = (sum(digit * 10**place for place, digit in enumerate(digits))
                                    for digits in (seen.result, seen.counter, seen.setting))
        return cls(result=result, counter=counter, setting=setting, bell=seen.bell, yielded=seen.yielded)

    def to_dict(self) -> dict[str, Any]:
        """Plain data, with what was read only."""
        return {field.name: value for field in fields(self) if (value := getattr(self, field.name)) is not None}


WIDTHS = {"result": "result_places", "counter": "counter_places", "setting": "setting_places"}


def reading_from_dict(spec: MachineSpec, data: Any, where: str = "a reading") -> Reading:
    """A reading from plain data, checked against a machine.

    Raises
    ------
    InputError
        Nothing read at all; a key that is none; a number that the register cannot show; something else than yes and no.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> reading_from_dict(load_spec("slate"), {"result": 999900, "bell": False})
    Reading(result=999900, counter=None, setting=None, bell=False, yielded=None)
    >>> reading_from_dict(load_spec("slate"), {"counter": 1000}, "test 2")
    Traceback (most recent call last):
        ...
    mechcalc.errors.InputError: test 2: the counter cannot show 1000: it has 3 wheels, and shows 0 to 999
    """
    if not isinstance(data, dict):
        raise InputError(f"{where}: what was read is given by keys and values, not by {shown(data)}")
    kept: dict[str, Any] = {}
    for key, value in data.items():
        if value is None:
            continue
        if key in WIDTHS:
            places = getattr(spec, WIDTHS[key])
            number = whole(value, f"{where}: the {key}")
            if not 0 <= number < 10**places:
                raise InputError(f"{where}: the {key} cannot show {shown(value)}: it has {places} wheels, and shows 0 "
                                 f"to {10**places - 1}")
            kept[key] = number
        elif key in ("bell", "yielded"):
            if not is_truth(value):
                raise InputError(f"{where}: {key} is yes or no (True or False), not {shown(value)}")
            kept[key] = bool(value)
        else:
            raise InputError(f"{where}: {shown(key)} cannot be read: there are "
                             f"{', '.join(field.name for field in fields(Reading))}")
    if not kept:
        raise InputError(f"{where}: nothing was read")
    return Reading(**kept)


def differences(batch: Any, reading: Reading) -> Any:
    """How many of these readings each machine of a batch does not show: array (N,) of uint8."""
    many = np.zeros(len(batch.bell), np.uint8)
    for register in WIDTHS:
        number = getattr(reading, register)
        if number is not None:
            shows = getattr(batch, register)
            many += (shows != np.array(to_digits(number, len(shows)), np.uint8)[:, None]).any(axis=0)
    for answer in ("bell", "yielded"):
        said = getattr(reading, answer)
        if said is not None:
            many += getattr(batch, answer) != said
    return many
