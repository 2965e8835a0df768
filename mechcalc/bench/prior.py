"""How likely each fault is before anything was read: a choice, stated here, that can be changed.

Only this file holds such weights. No figures on how often parts of these machines fail were found; the default treats
every kind of fault as equally likely, shares a kind's weight among its places, and takes a second fault to be one time
in twenty (choices of this kit; no source).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from mechcalc.bench.fault import Fault
from mechcalc.bench.fault_list import FAULTS
from mechcalc.errors import InputError
from mechcalc.numbers import finite, shown


@dataclass(frozen=True, slots=True, kw_only=True)
class Prior:
    """Weights before the first reading.

    Attributes
    ----------
    sound : float
        Share of machines on the bench with nothing wrong; 0 or more and below 1.
    second : float
        How much less likely two faults together are than one; above 0 and below 1.
    misread : float
        Chance that one reading was written down wrong; above 0 and below 0.5.
    kinds : dict of str to float
        Weight of each kind of fault by its name; 1 for those that are not named.
    """

    sound: float = 0.1
    second: float = 0.05
    misread: float = 0.01
    kinds: dict[str, float] = field(default_factory=dict)

    def __post_init__(self) -> None:
        for name, low, high in (("sound", 0.0, 1.0), ("second", 0.0, 1.0), ("misread", 0.0, 0.5)):
            value = finite(getattr(self, name), f"the prior's {name}")
            if not (low <= value < high) or (name != "sound" and value == 0):
                raise InputError(f"the prior's {name} cannot be {value:g}: {low:g} to below {high:g}"
                                 f"{'' if name == 'sound' else ', and more than 0'}")
        for name, weight in self.kinds.items():
            if name not in FAULTS:
                raise InputError(f"the prior gives a weight to {shown(name)}, which is no kind of fault")
            if finite(weight, f"the weight of \"{name}\"") <= 0:
                raise InputError(f"the weight of \"{name}\" cannot be {weight:g}: more than 0")

    def weights(self, faults: Sequence[Fault], seats: Any) -> Any:
        """The share of each machine of a list before anything is read: array (N,), adding up to 1.

        Parameters
        ----------
        faults : sequence of Fault
            Single faults.
        seats : array (N, 2)
            Indices into `faults`, -1 for none.
        """
        many: dict[str, int] = {}
        for fault in faults:
            many[fault.name] = many.get(fault.name, 0) + 1
        one = np.array([self.kinds.get(fault.name, 1.0) / many[fault.name] for fault in faults] + [1.0])
        one[:-1] /= one[:-1].sum() or 1.0
        weights = one[seats[:, 0]] * one[seats[:, 1]]
        number = (seats >= 0).sum(axis=1)
        for count, share in ((0, self.sound), (1, 1 - self.sound), (2, (1 - self.sound) * self.second)):
            group = number == count
            if group.any():
                weights[group] *= share / weights[group].sum()
        return weights / weights.sum()
