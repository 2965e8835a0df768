"""Plots of the short cut: the choice at each digit of a multiplier, and how many turns multipliers take.

Only this file draws them. Every number comes from `mechcalc.methods.short_cut`; thickness, shape and words carry the
meaning, colours only help. matplotlib is loaded when a plot is drawn.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from mechcalc.methods.short_cut import Way, _next_place, plain_digits, signed_digits, turns_of
from mechcalc.numbers import whole
from mechcalc.view.drawing import CARRY, INK, PAPER, QUIET
from mechcalc.view.plotting import SMALLEST, sheet

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

MOST = 10**6 - 1  # a multiplier of more digits has no room on a sheet
HIGH, WIDE = 1.5, 2.4  # from line to line, from place to place, in units of the plot


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One way through one place of the multiplier.

    Attributes
    ----------
    place : int
        From 1 at the units. One more than the multiplier has is the carry out of the top.
    begin, end : int
        The carry into the place, and out of it.
    digit : int
        The turns made there; below nought for subtractive ones.
    best : bool
        It lies on the way that takes the fewest turns in all.
    """

    place: int
    begin: int
    end: int
    digit: int
    best: bool


def choices(multiplier: int) -> tuple[Choice, ...]:
    """Every choice at every place: as many turns as digit and carry say, or what is missing to ten, and a carry.

    Examples
    --------
    >>> [(one.begin, one.end, one.digit, one.best) for one in choices(8)]
    [(0, 0, 8, False), (0, 1, -2, True), (0, 0, 0, False), (1, 0, 1, True)]
    """
    own = plain_digits(multiplier)
    best = (*signed_digits(multiplier), 0)
    found, carry = [], 0
    for place, digit in enumerate(own, start=1):
        begins = (0, 1) if place > 1 else (0,)
        on = carry
        for begin in begins:
            for end in (0, 1):
                turned = digit + begin - 10 * end
                if -9 <= turned <= 9:
                    right = begin == on and turned == best[place - 1]
                    carry = end if right else carry
                    found.append(Choice(place=place, begin=begin, end=end, digit=turned, best=right))
    found += [Choice(place=len(own) + 1, begin=end, end=0, digit=end, best=end == carry) for end in (0, 1)]
    return tuple(found)


def cheapest(multiplier: int) -> tuple[tuple[int | None, int | None], ...]:
    """After each place, the fewest turns with which all below can be made: without a carry, and with one.

    The last entry is that of the whole multiplier, a carry out of the top counted. None: it cannot be made so.

    Examples
    --------
    >>> cheapest(65)
    ((0, None), (5, 5), (11, 8), (9, None))
    """
    ways: list[Way | None] = [(0, 0, ()), None]
    found = [(0, None)]
    for digit in plain_digits(multiplier):
        ways = _next_place(ways, digit, True)
        found.append(tuple(way[0] if way else None for way in ways))  # type: ignore[arg-type]
    plain, carried = found[-1]
    ends = [turns for turns in (plain, None if carried is None else carried + 1) if turns is not None]
    return (*found, (min(ends), None))


def digit_paths(multiplier: int) -> Figure:
    """The choices for a multiplier as paths on two lines, units at the right; the cheapest path is thick.

    A path on the lower line carries nothing; on the upper line a ten is owed by the next place, and one turn
    more is due there. In each circle: the fewest turns to get there.

    Parameters
    ----------
    multiplier : int
        From 1 to 999999.

    Examples
    --------
    >>> [text.get_text() for text in digit_paths(65).axes[0].texts][:2]
    ['65', 'carry 1']
    """
    number = whole(multiplier, "a multiplier on a sheet", 1, MOST)
    columns = len(plain_digits(number)) + 1
    with sheet(2.6 + 2.0 * columns, 3.6) as (figure, (ax,)):
        _names(ax, number, columns)
        for one in choices(number):
            _arrow(ax, one)
        for place, costs in enumerate(cheapest(number)):
            for carry, turns in enumerate(costs):
                if turns is not None:
                    ax.text(-WIDE * place, HIGH * carry, str(turns), ha="center", va="center", weight="bold", zorder=6,
                            bbox={"boxstyle": "circle,pad=0.35", "facecolor": PAPER, "edgecolor": INK, "linewidth": 2})
        ax.set_xlim(-WIDE * columns - 0.7, 2.2)
        ax.set_ylim(-0.5, HIGH + 1.05)
        ax.axis("off")
    return figure


def _names(ax: Axes, number: int, columns: int) -> None:
    ax.text(1.0, HIGH + 0.75, str(number), ha="left", va="center", weight="bold")
    ax.text(0.75, HIGH, "carry 1", ha="left", va="center", color=QUIET)
    ax.text(0.75, 0.0, "no carry", ha="left", va="center", color=QUIET)
    for place, digit in enumerate(plain_digits(number)):
        ax.text(-WIDE * (place + 0.5), HIGH + 0.75, str(digit), ha="center", va="center", weight="bold")
    ax.text(-WIDE * (columns - 0.5), HIGH + 0.75, "top", ha="center", va="center",
            color=QUIET)


def _arrow(ax: Axes, one: Choice) -> None:
    begin = (-WIDE * (one.place - 1), HIGH * one.begin)
    end = (-WIDE * one.place, HIGH * one.end)
    ax.annotate("", end, begin, zorder=3 + one.best, arrowprops={
        "arrowstyle": "-|>", "linewidth": 4.5 if one.best else 1.4, "color": CARRY if one.best else QUIET,
        "linestyle": "-" if one.best else (0, (5, 3)), "shrinkA": 17, "shrinkB": 19,
        "mutation_scale": 24 if one.best else 14})
    share = 0.5 if one.begin == one.end else 0.3
    at = (begin[0] + share * (end[0] - begin[0]), begin[1] + share * (end[1] - begin[1]))
    ax.text(*at, f"{one.digit:+d}".replace("-", "−") if one.digit else "0", ha="center", va="center", zorder=5,
            fontsize=SMALLEST + 1.5 * one.best, weight="bold" if one.best else "normal",
            bbox={"boxstyle": "round,pad=0.15", "facecolor": PAPER, "edgecolor": "none"})


def turns_compared(digits: int = 3) -> Figure:
    """At the left the turns for each multiplier from 0 to 100; at the right how many multipliers take how many turns.

    Plainly (thin, hatched) and by the fewest turns (thick, filled), with the averages.

    Parameters
    ----------
    digits : int
        Of the multipliers counted at the right, 1 to 4.

    Examples
    --------
    >>> turns_compared(2).axes[1].get_title()
    'all multipliers below 100'
    """
    size = 10**whole(digits, "a number of digits", 1, 4)
    with sheet(10.6, 4.8, columns=2) as (figure, (left, right)):
        _one_by_one(left)
        _counted(right, size)
    return figure


def _one_by_one(ax: Axes) -> None:
    numbers = range(101)
    ax.step(numbers, [turns_of(plain_digits(number)) for number in numbers], where="mid", color=QUIET, linewidth=1.2,
            label="plain")
    ax.step(numbers, [turns_of(signed_digits(number)) for number in numbers], where="mid", color=CARRY, linewidth=3,
            label="short cut")
    ax.set_title("multipliers 0 to 100")
    ax.set_xlabel("multiplier")
    ax.set_ylabel("turns")
    ax.set_ylim(0, 22)
    ax.set_yticks(range(0, 21, 5))
    ax.legend(loc="upper left", frameon=False, ncols=2)


def spread(size: int) -> tuple[list[int], list[int]]:
    """How many multipliers below `size` take 0, 1, 2, ... turns: plainly, and by the fewest.

    >>> spread(10)
    ([1, 1, 1, 1, 1, 1, 1, 1, 1, 1], [1, 1, 2, 2, 2, 2, 0, 0, 0, 0])
    """
    plain = [turns_of(plain_digits(number)) for number in range(size)]
    short = [turns_of(signed_digits(number)) for number in range(size)]
    most = max(plain) + 1
    return [plain.count(turns) for turns in range(most)], [short.count(turns) for turns in range(most)]


def _counted(ax: Axes, size: int) -> None:
    plain, short = spread(size)
    turns = range(len(plain))
    for counts, look, name in ((plain, {"color": "white", "edgecolor": QUIET, "hatch": "///"}, "plain"),
                               (short, {"color": CARRY, "edgecolor": INK, "alpha": 0.85}, "short cut")):
        average = sum(many * count for many, count in enumerate(counts)) / size
        ax.bar(turns, counts, width=0.9, label=f"{name}: {average:g} on average", **look)
    ax.set_title(f"all multipliers below {size}")
    ax.set_xlabel("turns")
    ax.set_ylabel("how many")
    ax.set_ylim(0, 1.45 * max(*plain, *short))
    ax.legend(loc="upper right", frameon=False)
