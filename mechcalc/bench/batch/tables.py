"""How far a row of number pins takes a wheel whose idler has lost teeth, or that overthrows: looked up, not turned.

Only this file works out such a table. It is indexed by (condition, pins that are out, digit); digits are those of an
additive turn, and a subtractive turn looks up nine minus its digit.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import Any

import numpy as np

from mechcalc.layout import PINS

MASKS = 1 << PINS
DIGIT, PASSED = 15, 16  # an entry is the digit reached, plus 16 where the wheel passed between 9 and 0


@lru_cache(maxsize=4096)
def taken(teeth_lost: int, overthrows: bool, direction: int) -> Any:
    """Where a wheel comes to, for every set of pins and every digit.

    Parameters
    ----------
    teeth_lost : int
        Bit t stands for the idler's tooth between t and t + 1.
    overthrows : bool
        The wheel runs on one step when a pin lets go of it.
    direction : int
        1 or -1; in a subtractive turn pin 9 comes first, and digits are nine minus what the wheel shows.

    Returns
    -------
    array (512 * 10,) of uint8
        At ``10 * pins + digit``: the digit reached, plus `PASSED` where it passed between 9 and 0 on the way.
    """
    pins = np.repeat(np.arange(MASKS), 10)
    digit = np.tile(np.arange(10), MASKS)
    passed = np.zeros(len(digit), bool)
    order = range(PINS) if direction > 0 else range(PINS - 1, -1, -1)
    lost = np.array([bool(teeth_lost >> (x if direction > 0 else (8 - x) % 10) & 1) for x in range(10)])
    for pin in order:
        after = pin + direction
        behind = (pins >> after & 1).astype(bool) if 0 <= after < PINS else np.zeros(len(pins), bool)
        drives = (pins >> pin & 1).astype(bool) & ~lost[digit]
        far = drives.astype(np.int64) + (drives & ~behind & overthrows)
        passed |= digit + far > 9
        digit = (digit + far) % 10
    return (digit + PASSED * passed).astype(np.uint8)


class Table:
    """The tables of the conditions that occur in some lanes at one wheel and the idler opposite.

    Parameters
    ----------
    teeth_lost, overthrows : arrays (N,)
        The condition of the idler and of the wheel.
    direction : int
    """

    def __init__(self, teeth_lost: Any, overthrows: Any, direction: int) -> None:
        codes, which = np.unique(teeth_lost.astype(np.int64) * 2 + overthrows, return_inverse=True)
        self._offset = which.reshape(-1) * (MASKS * 10)
        self._table = np.concatenate([taken(int(code) // 2, bool(code % 2), direction) for code in codes])

    def look_up(self, digit: Any, rows: Sequence[Any]) -> tuple[Any, Any]:
        """The digits reached and who passed, after rows of pins (or none) that drive the wheels one after another."""
        passed = np.zeros(len(digit), bool)
        for pins in rows:
            if pins is not None:
                found = self._table.take(self._offset + 10 * pins.astype(np.int64) + digit)
                digit = found & DIGIT
                passed |= found >= PASSED
        return digit, passed
