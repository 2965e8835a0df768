"""How far a row of number pins takes a wheel whose idler has lost teeth, or that overthrows: looked up, not turned.

Only this file works out such a table. It is indexed by (condition, pins that are out, digit); digits are those of an
additive turn, and a subtractive turn looks up nine minus its digit.
"""

from __future__ import annotations

from functools import lru_cache
from typing import Any

import numpy as np

from mechcalc.layout import PINS

MASKS = 1 << PINS
NOT_SET = -1
DIGIT, PASSED = np.uint8(15), np.uint8(16)  # an entry is the digit reached, plus 16 where it passed between 9 and 0
TEN = np.uint8(10)


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
    return (digit + int(PASSED) * passed).astype(np.uint8)


class Odd:
    """The lanes in which the idler has lost teeth or the wheel overthrows, at one place and wheel.

    Parameters
    ----------
    lanes : array (L,)
        Which.
    teeth_lost, overthrows : arrays (L,)
        The condition of the idler and of the wheel.
    direction : int
    """

    def __init__(self, lanes: Any, teeth_lost: Any, overthrows: Any, direction: int) -> None:
        codes, which = np.unique(teeth_lost.astype(np.int64) * 2 + overthrows, return_inverse=True)
        self.lanes = lanes
        self._offset = which.reshape(-1) * (MASKS * 10)
        self._table = np.concatenate([taken(int(code) // 2, bool(code % 2), direction) for code in codes])
        self._set, self._set_to = self._offset, NOT_SET

    def reach(self, digits: Any, early: Any, pins: Any, set_to: int, carry: Any) -> Any:
        """Digits reached, plus `PASSED` for those who passed between 9 and 0: array (L,) of uint8.

        Parameters
        ----------
        digits : array (N,)
            Of all lanes, before anything pushes.
        early, carry : arrays (N,) of bool, or None
            Whether a carry pin pushes before the number pins, and after them.
        pins : array (N,), or None
            The number pins that are out.
        set_to : int
            As long as it is the same, so are the pins.
        """
        digit, passed = digits[self.lanes], np.uint8(0)
        if early is not None:
            found = self._after_carry(digit, early)
            digit, passed = found & DIGIT, found & PASSED
        if pins is not None:
            if set_to != self._set_to:
                self._set, self._set_to = self._offset + 10 * pins[self.lanes].astype(np.int64), set_to
            found = self._table.take(self._set + digit)
            digit, passed = found & DIGIT, passed | (found & PASSED)
        if carry is not None:
            found = self._after_carry(digit, carry)
            return found | passed
        return digit | passed

    def _after_carry(self, digit: Any, deflected: Any) -> Any:
        """What a carry pin does that is deflected in some lanes: the same as number pin 1 alone."""
        return self._table.take(self._offset + (digit + deflected[self.lanes].view(np.uint8) * TEN))
