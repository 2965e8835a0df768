"""Plots of divisions: the way that the remainder takes, and the turns that each figure costs.

Only this file draws them. Every number on them comes from an account or from `division_turns`; shapes and positions
carry the meaning, colours only help.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby, pairwise, zip_longest
from typing import TYPE_CHECKING, Any

from mechcalc.errors import InputError
from mechcalc.methods.accounts import Entry, division_account
from mechcalc.methods.division_turns import average_division_turns, division_turns
from mechcalc.methods.working import Working
from mechcalc.view.drawing import CARRY, INK, LEVER, PAPER, QUIET
from mechcalc.view.plotting import SMALLEST, sheet

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

BELOW: dict[str, Any] = {"facecolor": "0.9", "edgecolor": "0.75", "hatch": ".."}
AROUND = 7.0  # points between a dot and its number
WAYS: dict[int, dict[str, Any]] = {-1: {"color": CARRY, "linestyle": "-", "linewidth": 2},
                                   1: {"color": LEVER, "linestyle": (0, (4, 2)), "linewidth": 2}}


def remainder_paths(*workings: Working, titles: Sequence[str] | None = None) -> Figure:
    """The remainder after each turn of one or more divisions, one above the other, on one scale of turns.

    The height of a dot is the remainder counted in what a turn takes away where the carriage stands, so that a shift
    to the right makes it ten times as high: a dotted line. Beside each dot stands the remainder itself. Below the
    line of nought the wheels show a complement.

    Parameters
    ----------
    workings : Working
        As `divide` returns them.
    titles : sequence of str, optional
        One a working; what was worked and in how many turns, unless given.

    Raises
    ------
    InputError
        No working, one that is no division, or a title too few.

    Examples
    --------
    >>> from mechcalc.classroom import ready
    >>> from mechcalc.methods import divide
    >>> figure = remainder_paths(divide(ready("slate"), 85, 37, quotient_places=2))
    >>> [text.get_text() for text in figure.axes[0].texts if text.get_text()][:3]
    ['85', '−285', '85']
    """
    accounts = [division_account(working) for working in workings]
    if not accounts or (titles is not None and len(titles) != len(accounts)):
        raise InputError("a path is drawn of at least one division, and with a title for each or for none")
    most = max(account[-1].turn for account in accounts)
    heights = [_height(entry, entry.carriage) for account in accounts for entry in account]
    lowest, highest = min(-1.0, *heights), max(1.0, *heights)
    with sheet(max(6.0, 0.62 * most), 4.3 * len(accounts), rows=len(accounts)) as (figure, axes):
        for number, (ax, account) in enumerate(zip(axes, accounts, strict=True)):
            said = titles[number] if titles else f"{workings[number].title}: {account[-1].turn} turns"
            ax.set_title(said, loc="left", pad=2 * SMALLEST + 12)
            ax.set_xlim(-0.4, most + 1)
            ax.set_ylim(lowest - 2, highest + max(2.0, 0.12 * (highest - lowest)))
            ax.set_xticks(range(0, most + 1, 1 if most < 20 else 5))
            ax.set_ylabel("remainder, in turns")
            _path(ax, account)
        axes[-1].set_xlabel("turn")
        _legend(figure, axes[0])
    return figure


def _path(ax: Axes, account: Sequence[Entry]) -> None:
    low, high = ax.get_ylim()
    ax.axhspan(low, 0, **BELOW)
    ax.axhline(0, color=INK, linewidth=2)
    for before, after in pairwise(account):
        start = _height(before, after.carriage)
        if before.carriage != after.carriage:
            ax.plot([before.turn] * 2, [_height(before, before.carriage), start], ":", color=INK, linewidth=2,
                    marker="o", markersize=4)
        ax.annotate("", (after.turn, _height(after, after.carriage)), (before.turn, start),
                    arrowprops={"arrowstyle": "-|>", "shrinkA": 0, "shrinkB": 0, **WAYS[after.direction]})
    for entry, following in zip_longest(account, account[1:]):
        _dot(ax, entry, following is not None and following.carriage != entry.carriage)
    short = False
    for carriage, entries in groupby(account[1:], key=lambda entry: entry.carriage):
        turns = [entry.turn for entry in entries]
        ax.annotate(f"position {carriage}", (turns[0] - 0.9, high), (0, SMALLEST + 4 if short else 2),
                    textcoords="offset points", color=QUIET, fontsize=SMALLEST, va="bottom", annotation_clip=False)
        short = len(turns) < 2 and not short


def _dot(ax: Axes, entry: Entry, shifts: bool) -> None:
    """A remainder's dot and its number; after putting back it is the number of two turns before: a line higher."""
    height, said = _height(entry, entry.carriage), str(entry.remainder).replace("-", "−")
    left, below = _beside(entry, shifts)
    up = -AROUND if below else AROUND - 3 + (SMALLEST if left and len(said) > 3 else 0)
    ax.plot(entry.turn, height, "o", color=INK, markersize=6)
    ax.annotate(said, (entry.turn, height), (-AROUND if left else AROUND, up), textcoords="offset points",
                ha="right" if left else "left", va="top" if below else "bottom", fontsize=SMALLEST)


def _beside(entry: Entry, shifts: bool) -> tuple[bool, bool]:
    """Whether a number stands left of its dot, and whether below it: where the path neither comes from nor goes to.

    After a shift the path goes on to the right, so there the number stands on the side that it did not come from.
    """
    if shifts and entry.turn:
        return True, entry.direction < 0
    return False, shifts or entry.remainder < 0


def _legend(figure: Figure, ax: Axes) -> None:
    """Above all paths, where none of them goes."""
    for direction, name in ((-1, "take away"), (1, "add")):
        ax.plot([], [], label=name, **WAYS[direction])
    ax.axhspan(0, 0, label="below nought: a complement", **BELOW)
    figure.legend(loc="outside upper right", frameon=False, ncols=3 if figure.get_figwidth() > 7 else 1)


def _height(entry: Entry, carriage: int) -> float:
    """The remainder in units of what a turn takes away at that position."""
    return entry.remainder / (entry.divisor * 10**carriage)


def turns_for_each_figure() -> Figure:
    """How many turns each figure 0 to 9 of a quotient takes, by each method of `divide`, with the averages.

    Without putting back there are two lines: one for figures worked by taking away, one for those worked by adding.

    Examples
    --------
    >>> [line.get_label() for line in turns_for_each_figure().axes[0].lines][0]
    '1st, 3rd, … without putting back: 5.5'
    """
    figures = range(10)
    first = [division_turns(figure * 10, 2, "without putting back") - 10 for figure in figures]
    second = [division_turns(figure, 2, "without putting back") - 1 for figure in figures]
    lines = [(first, "^--", LEVER, "1st, 3rd, … without putting back"),
             (second, "v--", LEVER, "2nd, 4th, … without putting back"),
             (_alone("restoring"), "s-", CARRY, "restoring"), (_alone("compare first"), "o-", INK, "compare first")]
    with sheet(11.0, 5.4) as (drawn, (ax,)):
        for turns, look, color, name in lines:
            label = f"{name}: {sum(turns) / len(turns):g}"
            ax.plot(figures, turns, look, color=color, markersize=13 if look[0] == "v" else 9, linewidth=2, label=label,
                    markerfacecolor=PAPER if look[0] == "v" else color)
            ax.annotate(label, (9, turns[9]), (14, 0), textcoords="offset points", va="center", annotation_clip=False)
        ax.set_xticks(figures)
        ax.set_yticks(range(0, 13, 2))
        ax.set_xlabel("figure of the quotient")
        ax.set_ylabel("turns")
        ax.set_title("Turns for a figure, and the average over the ten figures", loc="left")
        ax.grid(axis="y", color="0.85")
    return drawn


def _alone(method: str) -> list[int]:
    """The turns for a quotient of one figure; the average of these is that of `average_division_turns`."""
    turns = [division_turns(figure, 1, method) for figure in range(10)]
    assert sum(turns) == 10 * average_division_turns(1, method)
    return turns
