"""Who holds what: a field for each thing that can be off and each movement, filled where the movement stops.

Only this file draws that picture. Whether a movement stops is tried on machines (`mechcalc.classroom.locks`).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from mechcalc.classroom.locks import LETTERS, Move, letters, reachable, who_blocks
from mechcalc.view.plotting import plotted

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure
    from matplotlib.patches import Rectangle

MOVEMENTS: dict[str, Move] = {
    "crank\non": ("crank", 1.0), "crank\nback": ("crank", -1.0), "set a\nlever": ("set lever", (1, 3)),
    "shift": ("shift", 1), "clear\nresult": ("clear result", None), "clear\nsetting": ("clear setting", None),
    "transfer\nlever": ("transfer lever", True)}
GOES, STOPS = "goes", "stops"
DARK, LIGHT = "#251f19", "#fffaf0"


def lock_grid() -> dict[str, tuple[str, ...]]:
    """By what is off: ``"goes"`` or ``"stops"`` for each movement of `MOVEMENTS`, in order.

    >>> lock_grid()["back transfer is engaged"]
    ('stops', 'stops', 'goes', 'stops', 'goes', 'stops', 'goes')
    """
    first = {letters(machine.state): machine for machine in reversed(reachable())}
    named = {"all at home, crank at rest": "", **{words: letter for letter, words in LETTERS.items()}}
    return {words: tuple(STOPS if who_blocks(first[letter], *move) else GOES for move in MOVEMENTS.values())
            for words, letter in named.items()}


def lock_chart() -> Figure:
    """The picture of `lock_grid`: dark fields stop, light fields go; each says so.

    >>> sorted({text.get_text() for text in lock_chart().axes[0].texts})
    ['goes', 'stops']
    """
    return plotted(_draw, width=10.4, height=4.8)


def _draw(axes: Axes) -> None:
    grid = lock_grid()
    for row, answers in enumerate(grid.values()):
        for column, answer in enumerate(answers):
            dark = answer == STOPS
            axes.add_patch(_field(column, row, DARK if dark else LIGHT))
            axes.text(column, row, answer, ha="center", va="center", color=LIGHT if dark else DARK,
                      weight="bold" if dark else "normal")
    axes.set_xticks(range(len(MOVEMENTS)), list(MOVEMENTS))
    axes.set_yticks(range(len(grid)), list(grid))
    axes.set_xlim(-0.5, len(MOVEMENTS) - 0.5)
    axes.set_ylim(len(grid) - 0.5, -0.5)
    axes.xaxis.tick_top()
    axes.tick_params(length=0)
    for spine in axes.spines.values():
        spine.set_visible(False)


def _field(column: int, row: int, color: str) -> Rectangle:
    from matplotlib.patches import Rectangle

    return Rectangle((column - 0.46, row - 0.44), 0.92, 0.88, facecolor=color, edgecolor=DARK, linewidth=1.0)
