"""How a tracing goes, test by test, for lessons: what a test promises, what is left after it, where a misreading leads.

Only this file prepares that for a lesson. The reasoning is that of `mechcalc.bench.tracing`.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import TYPE_CHECKING

import numpy as np

from mechcalc.bench import Fault, Machine
from mechcalc.bench.cases import case
from mechcalc.bench.choosing import information
from mechcalc.bench.prior import Prior
from mechcalc.bench.readings import Reading
from mechcalc.bench.tracing import Tracing, readings_of
from mechcalc.catalogue import load_spec
from mechcalc.classroom.covers import book
from mechcalc.methods.table import Table
from mechcalc.view.plotting import SMALLEST, sheet

if TYPE_CHECKING:
    from matplotlib.figure import Figure

DARK, QUIET = "#251f19", "#a8997a"


@cache
def first_bits(name: str) -> dict[str, float]:
    """What each test promises before anything was read, in bits, one fault at most: by the kit's prior.

    >>> bits = first_bits("slate")
    >>> max(bits, key=bits.get), round(max(bits.values()), 2)
    ('ones taken off, ten times', 3.45)
    """
    known = book(name)
    seats = np.concatenate([known.seats, np.full_like(known.seats, -1)], axis=1)
    found = information(known.answers, Prior().weights(known.faults, seats))
    return {test.name: float(bits) for test, bits in zip(known.tests, found, strict=True)}


def bits_chart(name: str, tests: Sequence[str]) -> Figure:
    """Bars of what tests promise, the most first."""
    bits = first_bits(name)
    order = sorted(tests, key=lambda test: bits[test])
    with sheet(10.5, 0.6 * len(order) + 1.4) as (figure, (axes,)):
        bars = axes.barh(order, [bits[test] for test in order], color=DARK, height=0.62)
        axes.bar_label(bars, fmt="%.2f", padding=5, fontsize=SMALLEST)
        axes.set(xlabel="bits", xlim=(0, max(bits.values()) * 1.15))
    return figure


@cache
def _advised(number: int, seed: int) -> tuple[tuple[tuple[str, float, int], ...], tuple[Fault, ...], int]:
    """The kit's own way through a case: its tests, where it ends, how many explanations there were at first."""
    one = case(number, seed)
    trace = one.trace(misreadings=0)
    rows, at_first = [], trace.left
    while (advice := trace.next_test()) is not None:
        trace.record(advice.test, one.read(advice.test))
        rows.append((advice.test.name, advice.bits, trace.left))
    return tuple(rows), trace.explanations(1)[0].faults, at_first


def by_advice(number: int, seed: int = 0) -> tuple[Fault, ...]:
    """What the kit finds in a case, taking its own advice test by test."""
    return _advised(number, seed)[1]


def way_through(number: int, seed: int = 0) -> Table:
    """The kit's own way through a case: each test, what it promised, and how many explanations were left.

    >>> way_through(1).headings
    ('test', 'promised bits', 'left')
    """
    rows = tuple((name, f"{bits:.2f}", left) for name, bits, left in _advised(number, seed)[0])
    return Table(f"Case {number}, by the kit's advice", ("test", "promised bits", "left"), rows, ())


def left_after(number: int, seed: int = 0) -> list[int]:
    """How many explanations are left at first, and after each test of the kit's own way.

    >>> left_after(5)
    [184, 1]
    """
    rows, _, at_first = _advised(number, seed)
    return [at_first, *(left for _, _, left in rows)]


def left_chart(numbers: Sequence[int]) -> Figure:
    """Explanations left, test by test, for some cases; upwards each line is ten times as many."""
    marks, lines = ("o", "s", "^", "D", "v"), ("-", "--", "-.", ":", "-")
    with sheet(10.5, 5.6) as (figure, (axes,)):
        for place, number in enumerate(numbers):
            left = left_after(number)
            axes.plot(range(len(left)), left, marker=marks[place % 5], linestyle=lines[place % 5], color=DARK,
                      markersize=9, label=f"case {number}")
        axes.set_yscale("log")
        axes.set(xlabel="tests done", ylabel="explanations left")
        axes.legend()
        axes.grid(axis="y", color=QUIET, linewidth=0.5)
    return figure


def with_a_slip(name: str, fault: Fault, by: int = 10) -> Tracing:
    """A session by the kit's advice on a machine with one fault, the first result written down wrong by so much.

    >>> from mechcalc.bench import CarryPinGone
    >>> trace = with_a_slip("slate", CarryPinGone(place=3, direction=1))
    >>> standing(trace, CarryPinGone(place=3, direction=1))
    1
    """
    spec = load_spec(name)
    trace, machine = Tracing(spec, pairs=False), Machine(spec, faults=[fault])
    while (advice := trace.next_test()) is not None and len(trace.history) < 12:
        readings = readings_of(machine, advice.test)
        if not trace.history:
            wrong = ((readings[0].result or 0) + by) % 10**spec.result_places
            readings = (Reading(**{**readings[0].to_dict(), "result": wrong}), *readings[1:])
        trace.record(advice.test, readings)
    return trace


def standing(trace: Tracing, fault: Fault) -> int | None:
    """How many readings must be wrong if a fault is what is wrong; None where it has been given up."""
    for one in trace.explanations(len(trace.seats)):
        if one.faults == (fault,):
            return one.misreadings
    return None


