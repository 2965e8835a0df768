"""Which test reveals which fault: the table, its picture, and a proof of the fewest that a person can follow.

Only this file turns a fault dictionary into what a lesson shows of it. What the answers are, and which choice is least,
is worked out in `mechcalc.bench`.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cache
from typing import TYPE_CHECKING, Any

import numpy as np

from mechcalc.bench import FAULTS, Fault, NumberPinStuckOut
from mechcalc.bench.candidates import Test
from mechcalc.bench.dictionary import FaultDictionary, fault_dictionary
from mechcalc.bench.plan import Plan, minimal, needs_of, plan
from mechcalc.bench.sheet import sound_readings
from mechcalc.bench.step_words import parts_of
from mechcalc.catalogue import load_spec
from mechcalc.methods.table import Table
from mechcalc.view.plotting import SMALLEST, sheet

if TYPE_CHECKING:
    from matplotlib.figure import Figure

DARK, LIGHT, QUIET = "#251f19", "#fffaf0", "#a8997a"


@cache
def book(name: str) -> FaultDictionary:
    """Every single fault of a machine of the catalogue against every test of the list; worked once a session."""
    return fault_dictionary(load_spec(name))


@cache
def best_plan(name: str, tell_apart: bool) -> Plan:
    """The fewest tests that reveal every fault, or tell all apart too; solved once a session."""
    return plan(book(name), tell_apart=tell_apart)


def revealed_by(name: str, test: str) -> tuple[Fault, ...]:
    """The faults with which a machine answers a test otherwise than a sound one.

    >>> len(revealed_by("slate", "noughts")), len(revealed_by("slate", "gently back"))
    (38, 39)
    """
    known = book(name)
    row = known.answers[_number(known, test)]
    return tuple(known.faults[machine - 1] for machine in np.flatnonzero(row))


def _number(known: FaultDictionary, test: str) -> int:
    return next(number for number, one in enumerate(known.tests) if one.name == test)


def sees(name: str, fault: Fault) -> tuple[str, ...]:
    """The names of the tests that reveal a fault.

    >>> from mechcalc.bench import RatchetWorn
    >>> sees("slate", RatchetWorn())
    ('gently back',)
    """
    known = book(name)
    column = known.answers[:, known.faults.index(fault) + 1]
    return tuple(known.tests[test].name for test in np.flatnonzero(column))


def small_table(name: str, faults: Sequence[Fault], tests: Sequence[str]) -> Table:
    """Faults against tests: ``seen`` where the test reveals the fault."""
    rows = [(str(fault), *("seen" if test in sees(name, fault) else "·" for test in tests)) for fault in faults]
    return Table("Which test sees which fault", ("fault", *tests), tuple(rows), ())


def rarest(name: str, most: int = 1) -> tuple[Fault, ...]:
    """The faults that no more than so many tests reveal.

    >>> [str(fault) for fault in rarest("slate")][-2:]
    ['the full-stroke ratchet is worn', 'the setting lock is worn']
    """
    return tuple(fault for fault in book(name).faults if 0 < len(sees(name, fault)) <= most)


def apart(needs: Iterable[int]) -> list[int]:
    """As many needs as possible of which no two can be met by the same test (each need a set of tests, as bits).

    Every choice that meets all needs has at least so many tests: one for each.

    >>> apart([0b0011, 0b0110, 0b1100])
    [3, 12]
    """
    best: list[int] = []
    order = sorted(needs, key=lambda need: (need.bit_count(), need))

    def grow(kept: list[int], left: list[int]) -> None:
        nonlocal best
        if len(kept) > len(best):
            best = kept
        for number, need in enumerate(left):
            if len(kept) + len(left) - number <= len(best):
                return
            grow([*kept, need], [other for other in left[number + 1:] if not other & need])

    grow([], order)
    return best


def witnesses(name: str) -> tuple[Fault, ...]:
    """Faults of which no test reveals two: as many as there are of this sort. So many tests are needed at least.

    >>> len(witnesses("slate"))
    7
    """
    known = book(name)
    weights = [1 << test for test in range(len(known.tests))]
    needs = [sum(weights[test] for test in np.flatnonzero(column)) for column in known.answers[:, 1:].T]
    return tuple(known.faults[needs.index(need)] for need in apart(minimal(set(needs) - {0})))


def bound_apart(name: str) -> int:
    """So many tests at least are needed to tell all faults apart: by needs of which no test meets two.

    >>> bound_apart("slate")
    15
    """
    return len(apart(minimal(needs_of(book(name).answers, True))))


def cover_chart(name: str, chosen: Sequence[Test] = ()) -> Figure:
    """Tests down, faults across, a mark where a test reveals a fault; chosen tests stand on top, darker and
    named."""
    known = book(name)
    picked = [_number(known, test.name) for test in chosen]
    others = [number for number in range(len(known.tests)) if number not in picked]
    with sheet(13.0, 8.2) as (figure, (axes,)):
        for row, number in enumerate((*picked, *others)):
            where = np.flatnonzero(known.answers[number, 1:])
            height = 2.2 * row if number in picked else row + 1.2 * len(picked) + 1
            axes.plot(where, np.full(len(where), height), "s", markersize=5.0 if number in picked else 2.6,
                      color=DARK if number in picked else QUIET, markeredgewidth=0)
        axes.set_yticks([2.2 * row for row in range(len(picked))],
                        [test.name.replace(", every digit", "") for test in chosen], fontsize=SMALLEST)
        starts, labels = _kinds(known)
        axes.set_xticks(starts, labels, fontsize=SMALLEST, rotation=60, ha="right", rotation_mode="anchor")
        axes.set(xlim=(-1.5, len(known.faults) + 0.5), ylim=(len(known.tests) + 1.2 * len(picked) + 1, -1.5))
        axes.set_title(f"{len(known.tests)} tests against {len(known.faults)} faults")
    return figure


def _kinds(known: FaultDictionary) -> tuple[list[float], list[str]]:
    """Where each kind of fault stands, for kinds with room for a word."""
    found: list[tuple[float, str]] = []
    for kind in FAULTS:
        where = [number for number, fault in enumerate(known.faults) if fault.name == kind]
        if len(where) >= 6:
            found.append((sum(where) / len(where), kind))
    return [place for place, _ in found], [kind for _, kind in found]


def counting_bound(things: int, answers: int) -> int:
    """Tests that are needed at least to tell so many things apart, if a test has so many different answers at most.

    >>> counting_bound(184, 2), counting_bound(184, 66), counting_bound(1, 2)
    (8, 2, 0)
    """
    tests, told = 0, 1
    while told < things:
        tests, told = tests + 1, told * answers
    return tests


def most_answers(name: str) -> int:
    """How many different answers the best of the tests has.

    >>> most_answers("slate")
    66
    """
    return max(len(np.unique(row)) for row in book(name).answers)


def growth(chosen: Plan) -> list[int]:
    """How many faults are revealed after the first, the first two, ... of the chosen tests.

    >>> growth(best_plan("slate", False))[-1]
    183
    """
    known = chosen.book
    rows: list[Any] = [known.answers[_number(known, test.name)] != 0 for test in chosen.tests]
    return [int(np.any(rows[:many], axis=0).sum()) for many in range(1, len(rows) + 1)]


def confused_without(name: str, left_out: str) -> int:
    """How many pairs of machines (single faults, or sound) the plan that tells all apart confuses, one test left out.

    >>> confused_without("slate", "all 1"), confused_without("slate", "no test of the plan")
    (5, 0)
    """
    chosen = best_plan(name, True)
    numbers = [_number(chosen.book, test.name) for test in chosen.tests if test.name != left_out]
    _, many = np.unique(chosen.book.classes(numbers), return_counts=True)
    return int((many * (many - 1) // 2).sum())


def on_paper(name: str, test: Test) -> str:
    """A test as a bench sheet has it: what to do, and what a sound machine shows.

    >>> print(on_paper("slate", best_plan("slate", True).tests[0]))
    nines taken off twice
    - Set 9999: all levers.
    - Turn the crank twice, subtractive.
    - Read: result 980002, counter 002, levers 9999; no bell.
    """
    spec = load_spec(name)
    lines = [test.name]
    for part, reading in zip(parts_of(spec, test), sound_readings(spec, test), strict=True):
        lines += [f"- {words}" for words in part.words]
        lines.append(f"- Read: result {reading.result:0{spec.result_places}d}, counter "
                     f"{reading.counter:0{spec.counter_places}d}, levers {reading.setting:0{spec.setting_places}d}; "
                     f"{'the bell' if reading.bell else 'no bell'}.")
    return "\n".join(lines)


def pin_grid(name: str) -> dict[int, tuple[int, ...]]:
    """For each pin of the units pinwheel, stuck out: the digits whose row, set in every lever, reveals it.

    >>> pin_grid("slate")[3]
    (1, 2)
    """
    return {pin: tuple(digit for digit in range(1, 10)
                       if f"all {digit}" in sees(name, NumberPinStuckOut(place=1, pin=pin))) for pin in range(1, 10)}


def pin_chart(name: str) -> Figure:
    """The picture of `pin_grid`: dark where the row of digits reveals the stuck pin."""
    from matplotlib.patches import Rectangle

    with sheet(8.4, 5.6) as (figure, (axes,)):
        for pin, digits in pin_grid(name).items():
            for digit in range(1, 10):
                seen = digit in digits
                axes.add_patch(Rectangle((digit - 0.45, pin - 0.43), 0.9, 0.86, facecolor=DARK if seen else LIGHT,
                                         edgecolor=DARK, linewidth=1.0))
                axes.text(digit, pin, "seen" if seen else "", color=LIGHT, ha="center", va="center", fontsize=SMALLEST)
        axes.set(xlim=(0.4, 9.6), ylim=(9.6, 0.4), xticks=range(1, 10), yticks=range(1, 10),
                 xlabel="digit set in every lever", ylabel="pin that is stuck out")
        axes.tick_params(length=0)
        for spine in axes.spines.values():
            spine.set_visible(False)
    return figure
