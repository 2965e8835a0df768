"""Pieces that several methods share: working a row of digits, and numbers wider than the levers.

Only this file decides in which order digits are worked when the carriage may stand anywhere, and how a number is cut
into pieces. Digit tuples are units first.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from mechcalc.methods import capacity
from mechcalc.methods.hand import Hand, Piece
from mechcalc.methods.short_cut import plain_digits, signed_digits
from mechcalc.spec import MachineSpec

MOST_SHOWN = 6  # numbers in a title


def joined(sign: str, texts: Sequence[str]) -> str:
    """Texts joined by a sign; the middle of a long row is left out.

    >>> joined(" + ", ["1", "2"]), joined(" × ", [str(n) for n in range(2, 13)])
    ('1 + 2', '2 × 3 × 4 × … × 12 (11 numbers)')
    """
    if len(texts) <= MOST_SHOWN:
        return sign.join(texts)
    return f"{sign.join(texts[:3])}{sign}…{sign}{texts[-1]} ({len(texts)} numbers)"


def digits_of(spec: MachineSpec, multiplicand: int, multiplier: int, short_cut: bool, standing: int = 0
              ) -> tuple[int, ...]:
    """The turns of a multiplier, units first: its own digits, or the fewest that carriage, counter and result allow.

    Parameters
    ----------
    multiplicand : int
        On the levers, to find what the result has room for.
    standing : int
        What is in the result already.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> digits_of(load_spec("bench"), 347, 98, False), digits_of(load_spec("bench"), 347, 98, True)
    ((8, 9), (-2, 0, 1))
    """
    if not short_cut:
        return plain_digits(multiplier)
    ceiling = 10**min(spec.positions, spec.counter_places) - 1
    if multiplicand:
        ceiling = min(ceiling, (10**spec.result_places - 1 - standing) // multiplicand)
    return signed_digits(multiplier, ceiling=max(multiplier, ceiling))


def sweep(hand: Hand, digits: Sequence[int], *, sign: int = 1, order: str = "nearest") -> Iterator[Piece]:
    """Turn each digit at its position of the carriage; nothing for a nought.

    Parameters
    ----------
    digits : sequence of int
        Units first; subtractive turns for one below nought. Those are worked from the highest place down, so that
        the first turn of them all goes the way of the whole.
    sign : int
        -1 takes the product away.
    order : str
        ``"nearest"``: from the end that the carriage is nearer to, so that it goes up with one number and down with
        the next. ``"units first"`` or ``"highest first"``.
    """
    places = [place for place, digit in enumerate(digits) if digit]
    if not places:
        return
    here = hand.machine.carriage
    down = order == "highest first" or (order == "nearest" and abs(places[-1] - here) < abs(places[0] - here))
    if down or min(digits) < 0:
        places.reverse()
    for place in places:
        yield from hand.shift_to(place)
        yield from hand.turn(sign * digits[place])


def pieces(spec: MachineSpec, number: int) -> tuple[tuple[int, int], ...]:
    """A number cut so that each piece fits the levers, as (piece, carriage position), units first.

    A piece is as wide as the levers, or as far as the carriage can go, if that is less; the last takes all levers.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> pieces(load_spec("bench"), 6557470319842)
    ((319842, 0), (655747, 7))
    >>> pieces(load_spec("bench"), 6557)
    ((6557, 0),)
    """
    levers, last = spec.setting_places, spec.positions - 1
    width = max(1, min(levers, last))
    cut, position = [], 0
    while number >= 10**levers and position + width <= last:
        number, piece = divmod(number, 10**width)
        cut.append((piece, position))
        position += width
    return (*cut, (number, position))


def check_pieces(spec: MachineSpec, title: str, number: int) -> None:
    """Refuse a number of which even the last piece is too wide for the levers."""
    piece, position = pieces(spec, number)[-1]
    short = capacity.places(piece) - spec.setting_places
    if short > 0:
        capacity.refuse(title, "setting", short, f"{number} takes {capacity.places(number)} places, and levers and "
                        f"carriage reach {spec.setting_places + position} together")


def add_pieces(hand: Hand, number: int) -> Iterator[Piece]:
    """Add a number that may be wider than the levers: one turn for each piece, the carriage where it belongs."""
    cut = [(piece, position) for piece, position in pieces(hand.machine.spec, number) if piece]
    if cut and abs(cut[-1][1] - hand.machine.carriage) < abs(cut[0][1] - hand.machine.carriage):
        cut.reverse()
    for piece, position in cut:
        yield from hand.set(piece)
        yield from hand.shift_to(position)
        yield from hand.turn(1)
