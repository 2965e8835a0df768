"""What each part of a machine does when its turn comes: the seam at which a fault changes a part.

Only this file is asked whether a pin is there, a lever stays where it was put or a catch holds. A sound machine
answers as below; a fault (`mechcalc.bench.faults`) replaces answers, and the mechanism in `turning`, `strokes` and
`interlocks` goes on as before with what it is told.
"""

from __future__ import annotations

from typing import Any

from mechcalc.layout import PINS


class Parts:
    """The parts of a sound machine. Places, pins and wheels count from 1.

    Attributes
    ----------
    faults : tuple
        What is wrong with them, for those who word or picture it: each has a ``name``, a ``part`` and a sentence.
    """

    faults: tuple[Any, ...] = ()

    def number_pins(self, place: int, digit: int) -> tuple[int, ...]:
        """The pins of pinwheel `place` that stand out when its lever is at `digit`.

        >>> Parts().number_pins(1, 3)
        (1, 2, 3)
        """
        return tuple(range(1, digit + 1))

    def carry_pin(self, place: int, helix: int) -> bool:
        """Whether the carry pin of `place` on this helix is there."""
        return True

    def lever_catches(self, wheel: int) -> bool:
        """Whether the carry lever of `wheel`, once pushed, stays out."""
        return True

    def lever_is_homed(self, wheel: int) -> bool:
        """Whether the cam pushes that lever home."""
        return True

    def lever_lag(self, wheel: int) -> float:
        """Degrees of crank by which that lever is fully out later than the spec's lever throw says."""
        return 0.0

    def idler_drives(self, place: int, digit: int, step: int) -> bool:
        """Whether idler `place` takes a wheel that shows `digit` one step on (1) or back (-1)."""
        return True

    def overthrows(self, wheel: int) -> bool:
        """Whether number wheel `wheel` runs on one step when the tooth that drove it lets go."""
        return False

    def creeps(self, place: int) -> bool:
        """Whether the setting lever of `place` slips back by a digit in every turn."""
        return False

    def counter_finger(self, wheel: int) -> bool:
        """Whether the finger that moves counter wheel `wheel` is there."""
        return True

    def counter_takes(self, direction: int) -> int:
        """The direction in which a free counter counts up after a first turn in `direction`."""
        return direction

    def clears(self, wheel: int) -> bool:
        """Whether the clearing tooth of number wheel `wheel` is there."""
        return True

    def transfers(self, place: int) -> bool:
        """Whether the back-transfer gear of `place` meshes."""
        return True

    def holds(self, interlock: str) -> bool:
        """Whether the interlock of that name (`mechcalc.interlocks.INTERLOCKS`) still holds."""
        return True


SOUND = Parts()

assert PINS == 9  # a decimal pinwheel; the number of pins is not a matter of the spec
