"""What each turn of a square root takes away: a strip of even width along two sides of a square, a gnomon.

Only this file reads the strips out of a working. With the root r found so far in the counter, and a turn at a place
worth w, the strip is (r + w)² - r² = 2 r w + w² = (2 r / w + 1) w²: an odd number of squares of side w. The strips are
read from counter, levers and carriage, and compared with that.

Source: the word is Euclid's (Elements, book 2, definition 2), quoted from memory; the identity is elementary.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from mechcalc.errors import InputError
from mechcalc.events import Stroke
from mechcalc.methods.working import Working
from mechcalc.numbers import from_digits, shown


@dataclass(frozen=True, slots=True, kw_only=True)
class Gnomon:
    """A strip along two sides of a square.

    Attributes
    ----------
    side : int
        Side of the square that it goes along; the root so far, in units of its last figure.
    width : int
        A power of ten: what the turn is worth in the root.
    area : int
        What the turn took away.
    """

    side: int
    width: int
    area: int

    @property
    def odd(self) -> int:
        """The odd number: the area in squares of the strip's width."""
        return self.area // self.width**2


def gnomons_of(working: Working) -> tuple[Gnomon, ...]:
    """The strips that a square root took away and did not put back, in order.

    Parameters
    ----------
    working : Working
        What `square_root` returned; with five times the number, a fifth of what was taken away.

    Raises
    ------
    InputError
        Another method's working: what was taken away does not make squares.

    Examples
    --------
    >>> from mechcalc import Machine, load_spec
    >>> from mechcalc.methods import square_root
    >>> strips = gnomons_of(square_root(Machine(load_spec("slate")), 529))
    >>> [(strip.side, strip.width, strip.odd) for strip in strips]
    [(0, 10, 1), (10, 10, 3), (20, 1, 41), (21, 1, 43), (22, 1, 45)]
    >>> sum(strip.area for strip in strips)
    529
    """
    if not isinstance(working, Working):
        raise InputError(f"strips are read from a Working, not from {shown(working)}")
    found: list[Gnomon] = []
    for stroke in _turns(working):
        strip = _strip(stroke, working.end.carriage)
        if stroke.argument < 0:
            found.append(strip)
        elif not found or found.pop().area != strip.area:
            raise InputError(f"{working.title} was not worked by taking odd numbers away: a turn put {strip.area} in")
    times = 5 if found and found[0].area == 5 * found[0].width**2 else 1
    for strip in found:
        if strip.area != times * ((strip.side + strip.width)**2 - strip.side**2):
            raise InputError(f"{working.title} was not worked by taking odd numbers away: a turn took {strip.area}, "
                             f"which is no strip of width {strip.width} round a square of side {strip.side}")
    return tuple(Gnomon(side=strip.side, width=strip.width, area=strip.area // times) for strip in found)


def _turns(working: Working) -> Iterator[Stroke]:
    """The turns after the number has been put in; what follows a second clearing of the counter is no root."""
    clearings = [number for number, stroke in enumerate(working.strokes) if stroke.operation == "clear counter"]
    begun = clearings[0] + 1 if clearings else 0
    for stroke in working.strokes[begun:]:
        if stroke.operation.startswith("clear"):
            return
        if stroke.operation == "crank":
            yield stroke


def _strip(stroke: Stroke, base: int) -> Gnomon:
    """A turn as a strip, in units of the root's last figure, which is worked at position `base`."""
    before = stroke.before
    return Gnomon(side=from_digits(before.counter) // 10**base, width=10**(before.carriage - base),
                  area=from_digits(before.setting) * 10**(before.carriage - base))
