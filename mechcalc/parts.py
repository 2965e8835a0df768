"""What each part of a machine does when its turn comes: the seam at which a fault will change a part.

Only this file is asked whether a pin is there or a lever stays where it was put. A sound machine answers as
below; a fault replaces answers, and the mechanism in `turning` and `clearing` goes on as before with what it is
told.
"""

from __future__ import annotations

from mechcalc.layout import PINS


class Parts:
    """The parts of a sound machine. Places, pins and wheels count from 1."""

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

    def steps(self, place: int, wheel: int) -> int:
        """How many wheel steps one tooth of idler `place` makes at `wheel`."""
        return 1

    def counter_finger(self, wheel: int) -> bool:
        """Whether the finger that moves counter wheel `wheel` is there."""
        return True

    def clears(self, wheel: int) -> bool:
        """Whether the clearing tooth of number wheel `wheel` is there."""
        return True

    def transfers(self, place: int) -> bool:
        """Whether the back-transfer gear of `place` meshes."""
        return True


SOUND = Parts()

assert PINS == 9  # a decimal pinwheel; the number of pins is not a matter of the spec
