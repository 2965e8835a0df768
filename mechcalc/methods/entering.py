"""Getting a number into the result register before it is taken apart: a dividend, a radicand.

Only this file decides where such a number goes in, and where in the register a calculation is worked when carries do
not reach all its wheels. The number is set and turned in once; one that is wider than the levers goes in piece by
piece. Then the counter is cleared, which frees its direction, so that the subtractive turns that follow count up.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from mechcalc.errors import CapacityError
from mechcalc.machine import Machine
from mechcalc.methods.hand import Hand, Method, Piece, work
from mechcalc.methods.working import Working
from mechcalc.spec import MachineSpec


def pieces(spec: MachineSpec, number: int, lowest: int = 0) -> list[tuple[int, int]]:
    """How a number is cut for the levers, as (carriage position, part), from the lowest part up.

    Parameters
    ----------
    number : int
        What the result register shall show.
    lowest : int
        How many noughts at its end are left to the carriage.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> slate = load_spec("slate")
    >>> pieces(slate, 34700, lowest=2), pieces(slate, 123456), pieces(slate, 120034)
    ([(2, 347)], [(0, 56), (2, 1234)], [(0, 34), (2, 1200)])
    """
    last = spec.positions - 1
    position = min(lowest, last)
    rest, parts = number // 10**position, []
    while rest >= 10**spec.setting_places and position < last:
        width = min(spec.setting_places, last - position)
        rest, part = divmod(rest, 10**width)
        if part:
            parts.append((position, part))
        position += width
    return [*parts, (position, rest)] if rest else parts


def enter(hand: Hand, number: int, lowest: int = 0, turns: int = 1) -> Iterator[Piece]:
    """Clear, put `number` in (`turns` times), and clear the counter, so that its direction is free."""
    yield from hand.clear("result", "counter")
    for position, part in pieces(hand.machine.spec, number, lowest):
        yield from hand.set(part)
        yield from hand.shift_to(position)
        yield from hand.turn(turns)
    yield from hand.clear("counter")


def bases(spec: MachineSpec, number: int, positions: int, put_in: int = 0) -> tuple[int, ...]:
    """The carriage positions in which the lowest figure of a calculation may be worked, the first choice first.

    With the carriage at *s*, carries reach wheel K + s. Where that is not the last wheel, the whole calculation may
    be moved to the left, to position n - K, from where every carry reaches the end, if the numbers leave room for it.

    Parameters
    ----------
    number : int
        The largest that the result register has to show.
    positions : int
        How many carriage positions and counter wheels the calculation takes.
    put_in : int
        The number that `enter` puts in; levers and carriage together must reach its head.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> bases(load_spec("bench"), 9022, 3), bases(load_spec("bench"), 9022, 7), bases(load_spec("slate"), 9022, 2)
    ((0, 2), (0,), (0,))
    """
    left = spec.result_places - spec.carry_reach
    room = min(spec.positions, spec.counter_places)
    reach = spec.positions - 1 + spec.setting_places
    if (left > 0 and positions + left <= room and number * 10**left < 10**spec.result_places
            and put_in * 10**left < 10**reach):
        return 0, left
    return (0,)


def work_at(machine: Machine, title: str, choices: Iterable[int], method: Callable[[int], Method]) -> Working:
    """Work a method at the first base at which all carries reach.

    Raises
    ------
    CapacityError
        They reach at none; the message is that for the first base, and nothing has moved.
    """
    refusal: CapacityError | None = None
    for base in choices:
        try:
            return work(machine, title, method(base))
        except CapacityError as no:
            if no.register != "carry reach":
                raise
            refusal = refusal or no
    assert refusal is not None
    raise refusal


def at_wheel(base: int) -> str:
    """The remark on where the last figure stands, where it is not on wheel 1."""
    return f", its last figure on wheel {base + 1}" if base else ""
