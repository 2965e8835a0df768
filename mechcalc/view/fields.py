"""Two numbers side by side on the levers, two sums side by side in the windows: where one field ends.

Only this file draws a result register cut into fields. What stands in the windows is read from the strokes; what ought
to stand there is added up beside it, so that a sum that has outgrown its field is seen. matplotlib is loaded when a
chart is drawn.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from mechcalc.errors import InputError
from mechcalc.methods.capacity import places
from mechcalc.methods.working import Working
from mechcalc.numbers import whole
from mechcalc.view.drawing import INK, LEVER, PLATE
from mechcalc.view.figures import UNITS_AN_INCH, in_notebook

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

ROW, WINDOW = 46.0, 30.0      # pixels: height of a row, width of a window
BEFORE, BESIDE = 4.6, 4.4     # windows' widths of room for the setting, and for what ought to be read


@dataclass(frozen=True, slots=True)
class FieldRow:
    """The register after one setting has been turned in.

    Attributes
    ----------
    upper, lower : int
        What stood side by side on the levers.
    multiplier : int
        How often it was turned.
    result : int
        The whole register.
    read, meant : tuple of (int, int)
        The upper and the lower field as read, and what ought to stand there.
    """

    upper: int
    lower: int
    multiplier: int
    result: int
    read: tuple[int, int]
    meant: tuple[int, int]

    @property
    def kept(self) -> bool:
        """Whether no sum has run into the other field."""
        return self.read == self.meant


def field_rows(working: Working, gap: int) -> tuple[FieldRow, ...]:
    """A sum of products, row by row, its settings and its result cut into an upper and a lower field.

    Parameters
    ----------
    working : Working
        Of `mechcalc.methods.sum_of_products`, with multipliers above nought.
    gap : int
        How many places the lower field has.

    Examples
    --------
    >>> from mechcalc.classroom import ready
    >>> from mechcalc.methods import sum_of_products
    >>> rows = field_rows(sum_of_products(ready("bench"), (314, 3), (515, 5)), 2)
    >>> [(row.result, row.read, row.meant, row.kept) for row in rows]
    [(942, (9, 42), (9, 42), True), (3517, (35, 17), (34, 117), False)]
    """
    gap = whole(gap, "a number of places between the fields", 1, working.spec.result_places)
    rows: list[FieldRow] = []
    upper_sum = lower_sum = 0
    for setting, before, after in _portions(working):
        upper, lower = divmod(setting, 10**gap)
        multiplier = (after - before) // setting
        upper_sum, lower_sum = upper_sum + upper * multiplier, lower_sum + lower * multiplier
        read = divmod(after, 10**gap)
        rows.append(FieldRow(upper, lower, multiplier, after, read, (upper_sum, lower_sum)))
    return tuple(rows)


def _portions(working: Working) -> list[tuple[int, int, int]]:
    """(setting, result before its turns, result after them) for each setting that was turned in."""
    found: list[tuple[int, int, int]] = []
    for stroke in working.strokes:
        if stroke.operation != "crank":
            continue
        setting, before, after = stroke.reading.setting, stroke.before.reading.result, stroke.reading.result
        if setting and found and found[-1][0] == setting and found[-1][2] == before:
            found[-1] = (setting, found[-1][1], after)
        elif setting:
            found.append((setting, before, after))
    return found


def fields_text(working: Working, gap: int) -> str:
    """The rows of `field_rows` as plain text, the fields divided by an upright line.

    >>> from mechcalc.classroom import ready
    >>> from mechcalc.methods import sum_of_products
    >>> print(fields_text(sum_of_products(ready("bench"), (314, 3), (515, 5)), 2))
    (3 | 14) × 3   reads  9 | 42
    (5 | 15) × 5   reads 35 | 17   but ought to read 34 | 117
    """
    rows = field_rows(working, gap)
    if not rows:
        raise InputError(f"nothing was turned in: {working.title} has no rows to show")
    tops = [_width(row.upper for row in rows), _width(row.multiplier for row in rows),
            _width(row.read[0] for row in rows), gap]
    return "\n".join(
        f"({row.upper:{tops[0]}} | {row.lower:0{gap}}) × {row.multiplier:<{tops[1]}}   reads {row.read[0]:{tops[2]}} | "
        f"{row.read[1]:0{tops[3]}}" + ("" if row.kept else f"   but ought to read {row.meant[0]} | {row.meant[1]}")
        for row in rows)


def _width(numbers: object) -> int:
    return max(places(number) for number in numbers)  # type: ignore[attr-defined]


def fields_chart(workings: Mapping[int, Working], names: tuple[str, str]) -> Figure:
    """Registers cut into two fields, row by row, one panel for each gap.

    Parameters
    ----------
    workings : mapping of int to Working
        By the number of places of the lower field, the same products set with that gap.
    names : tuple of two str
        Of the upper and the lower sum.

    Examples
    --------
    >>> from mechcalc.classroom import ready
    >>> from mechcalc.methods import sum_of_products
    >>> near = sum_of_products(ready("bench"), (314, 3), (515, 5))
    >>> far = sum_of_products(ready("bench"), (30014, 3), (50015, 5))
    >>> [axes.get_title() for axes in fields_chart({2: near, 4: far}, ("Σx²", "Σxy")).axes]
    ['2 places apart', '4 places apart']
    """
    from matplotlib.figure import Figure

    if not workings:
        raise InputError("there is no register to draw: give at least one gap and its working")
    cut = {gap: field_rows(working, gap) for gap, working in workings.items()}
    windows = {gap: max(places(rows[-1].result), gap + 1) for gap, rows in cut.items()}
    spans = [BEFORE + windows[gap] + BESIDE * (not all(row.kept for row in rows)) for gap, rows in cut.items()]
    height = max(len(rows) for rows in cut.values()) * ROW + 110
    figure = Figure(figsize=(sum(spans) * WINDOW / UNITS_AN_INCH, height / UNITS_AN_INCH), layout="constrained")
    panels = figure.subplots(1, len(cut), squeeze=False, width_ratios=spans)[0]
    for axes, span, (gap, rows) in zip(panels, spans, cut.items(), strict=True):
        axes.set_xlim(-BEFORE, span - BEFORE)
        _register(axes, gap, rows, windows[gap], names)
    return in_notebook(figure)


def _register(axes: Axes, gap: int, rows: tuple[FieldRow, ...], windows: int, names: tuple[str, str]) -> None:
    from matplotlib.patches import Rectangle

    axes.set_title(f"{gap} places apart", fontsize=17)
    axes.set_ylim(len(rows) + 0.1, -0.9)
    axes.axis("off")
    border = windows - gap
    for x, name in ((border / 2, names[0]), (border + gap / 2, names[1])):
        axes.text(x, -0.4, name, fontsize=16, ha="center", va="center", color=INK)
    for number, row in enumerate(rows):
        axes.text(-0.3, number + 0.5, f"({row.upper} | {row.lower}) × {row.multiplier}", fontsize=14, ha="right",
                  va="center", color=INK)
        for place, digit in enumerate(f"{row.result:0{windows}d}"):
            own = place < border
            axes.add_patch(Rectangle((place + 0.05, number + 0.08), 0.9, 0.84, facecolor="0.88" if own else "white",
                                     edgecolor=PLATE, linewidth=1.2))
            axes.text(place + 0.5, number + 0.5, digit, fontsize=16, ha="center", va="center", color=INK,
                      weight="bold")
        if not row.kept:
            axes.text(windows + 0.3, number + 0.5, f"✗ {row.meant[0]} | {row.meant[1]}", fontsize=14, ha="left",
                      va="center", color=LEVER, weight="bold")
    if not all(row.kept for row in rows):
        axes.text(windows + 0.3, -0.4, "ought to be", fontsize=14, ha="left", va="center", color=LEVER)
    axes.plot([border, border], [-0.1, len(rows)], color=INK, linewidth=4)
