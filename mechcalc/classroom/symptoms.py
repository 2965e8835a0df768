"""Symptoms: what a faulty machine shows where a sound one shows something else, and where it moves with the carriage.

Only this file sets faulty and sound machines side by side for lessons. What they show comes out of the mechanism.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from mechcalc.bench import Fault, Machine
from mechcalc.bench.steps import run, steps_from_text
from mechcalc.catalogue import load_spec
from mechcalc.methods.table import Words
from mechcalc.view.plotting import SMALLEST, sheet

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

DARK, LIGHT = "#251f19", "#fffaf0"
RIGHT = "right"
NINES = "set 999; turn; set 1; turn"   # one carry sets off the next
FIVES = "set 5555; turn 2"            # a carry in every place, each from its own pins
LESS_ONE = "set 1; turn -1"           # a borrow through all wheels


def bench(name: str, *faults: Fault, steps: str = "") -> Machine:
    """A machine of the catalogue with faults, after some steps.

    >>> from mechcalc.bench import CarryPinGone
    >>> bench("slate", CarryPinGone(place=3, direction=1), steps="set 999; turn; set 1; turn").result
    900
    """
    machine = Machine(load_spec(name), faults=faults)
    run(machine, steps_from_text(steps))
    return machine


def seen_after(name: str, faults: Sequence[Fault], steps: str) -> str:
    """The result after some steps, every wheel, and ``bell`` where it rang in the last turn.

    >>> seen_after("slate", [], "set 1; turn -1")
    '999999 bell'
    """
    machine = bench(name, *faults, steps=steps)
    return f"{machine.result:0{machine.spec.result_places}d}{' bell' if machine.bell else ''}"


def symptom_table(name: str, faults: Sequence[Fault], tests: Mapping[str, str]) -> Words:
    """What each fault makes of each test: the result, or "right" where a sound machine shows the same.

    >>> from mechcalc.bench import NumberPinGone
    >>> tests = {"fives": "set 55; turn", "fours": "set 44; turn"}
    >>> print(symptom_table("slate", [NumberPinGone(place=1, pin=5)], tests))
    Symptoms
    what is wrong               fives   fours
    nothing                     000055  000044
    pin 5 of pinwheel 1 is gone 000054  right
    """
    sound = {title: seen_after(name, [], steps) for title, steps in tests.items()}
    rows = [("nothing", *sound.values())]
    for fault in faults:
        shown = {title: seen_after(name, [fault], steps) for title, steps in tests.items()}
        rows.append((str(fault), *(RIGHT if shown[title] == sound[title] else shown[title] for title in tests)))
    return Words("Symptoms", ("what is wrong", *tests), tuple(rows), ())


def wrong_wheels(name: str, faults: Sequence[Fault], steps: str) -> tuple[int, ...]:
    """Number wheels that show something else than on a sound machine, units first.

    >>> from mechcalc.bench import CarryLeverWeak
    >>> wrong_wheels("slate", [CarryLeverWeak(wheel=2)], "set 5555; turn 2")
    (3,)
    """
    sound, faulty = bench(name, steps=steps), bench(name, *faults, steps=steps)
    pairs = zip(sound.result_digits, faulty.result_digits, strict=True)
    return tuple(wheel for wheel, (one, other) in enumerate(pairs, start=1) if one != other)


def by_position(name: str, fault: Fault, steps: str) -> dict[int, tuple[int, ...]]:
    """Wrong wheels by carriage position, the same steps done at each.

    >>> from mechcalc.bench import CarryPinGone
    >>> by_position("slate", CarryPinGone(place=3, direction=1), "set 5555; turn 2")
    {0: (3,), 1: (4,), 2: (5,)}
    """
    positions = range(load_spec(name).positions)
    return {place: wrong_wheels(name, [fault], f"shift {place}; {steps}" if place else steps) for place in positions}


def carriage_chart(name: str, faults: Sequence[Fault], steps: str) -> Figure:
    """For each fault a field of carriage positions and wheels, dark and marked where a wheel is wrong."""
    with sheet(5.2 * len(faults), 3.6, columns=len(faults)) as (figure, axes):
        for one, fault in zip(axes, faults, strict=True):
            _field(one, load_spec(name).result_places, by_position(name, fault, steps), str(fault))
    return figure


def _field(axes: Axes, wheels: int, found: Mapping[int, Sequence[int]], title: str) -> None:
    from matplotlib.patches import Rectangle

    for position, wrong in found.items():
        for wheel in range(1, wheels + 1):
            bad = wheel in wrong
            axes.add_patch(Rectangle((wheel - 0.45, position - 0.42), 0.9, 0.84, facecolor=DARK if bad else LIGHT,
                                     edgecolor=DARK, linewidth=1.0))
            axes.text(wheel, position, "wrong" if bad else "", ha="center", va="center", color=LIGHT,
                      fontsize=SMALLEST - 1)
    axes.set(xlim=(wheels + 0.6, 0.4), ylim=(len(found) - 0.4, -0.6), xticks=range(1, wheels + 1),
             yticks=list(found), xlabel="number wheel", ylabel="carriage at")
    axes.set_title(_broken(title), fontsize=SMALLEST)
    axes.tick_params(length=0)
    for spine in axes.spines.values():
        spine.set_visible(False)


def _broken(title: str) -> str:
    from textwrap import fill

    return fill(title[:1].upper() + title[1:], 34)
