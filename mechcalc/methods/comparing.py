"""What a calculation costs the operator, and which way of doing it is the best on a given machine.

Only this file weighs strokes against each other. The weights are a modelling choice, with no source: an operator's
own, measured with a watch, are better (`Weights(turn=...)`).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, fields
from decimal import Decimal
from math import isclose
from typing import TYPE_CHECKING, Any

from mechcalc.catalogue import load_spec
from mechcalc.errors import CapacityError, InputError, Locked
from mechcalc.machine import Machine
from mechcalc.methods.table import grid, plain
from mechcalc.methods.working import Working
from mechcalc.numbers import finite, shown
from mechcalc.spec import MachineSpec

if TYPE_CHECKING:
    from matplotlib.axes import Axes

KINDS = ("turns", "shifts", "settings", "levers", "transfers", "clearings")


@dataclass(frozen=True, slots=True, kw_only=True)
class Weights:
    """What each kind of stroke counts, in units of one turn (a modelling choice, no source).

    Parameters
    ----------
    turn, shift : float
        A turn of the crank; a shift by one place.
    setting, lever : float
        A number to be looked up or read off and set, and each lever that is moved for it.
    transfer, clearing : float
        A back transfer; clearing a register or the setting.

    Examples
    --------
    >>> Weights(turn=1, shift=0.5).shift
    0.5
    """

    turn: float = 1.0
    shift: float = 0.7
    setting: float = 1.5
    lever: float = 0.5
    transfer: float = 2.0
    clearing: float = 1.5

    def __post_init__(self) -> None:
        for one in fields(self):
            weight = _weight(getattr(self, one.name), one.name)
            object.__setattr__(self, one.name, weight)


def _weight(value: Any, name: str) -> float:
    try:
        weight = finite(value, name)
    except InputError:
        raise InputError(f"the weight of a {name} must be a finite number, not {shown(value)}") from None
    if weight < 0:
        raise InputError(f"the weight of a {name} cannot be {weight:g}: it goes from 0 upwards")
    return weight


@dataclass(frozen=True, slots=True)
class Cost:
    """How many strokes of each kind.

    Attributes
    ----------
    turns, shifts, settings, transfers, clearings : int
        As a `Working` counts them.
    levers : int
        Levers moved by hand.
    crank_angle : float
        Degrees of crank, both directions added up.

    Examples
    --------
    >>> from mechcalc import Machine, load_spec
    >>> from mechcalc.methods import multiply
    >>> cost_of(multiply(Machine(load_spec("bench")), 347, 26))
    Cost(turns=8, shifts=1, settings=1, levers=3, transfers=0, clearings=0, crank_angle=2880.0)
    """

    turns: int
    shifts: int
    settings: int
    levers: int
    transfers: int
    clearings: int
    crank_angle: float

    def parts(self, weights: Weights) -> dict[str, float]:
        """What each kind of stroke adds to the total."""
        return {kind: getattr(self, kind) * getattr(weights, kind.removesuffix("s")) for kind in KINDS}

    def total(self, weights: Weights) -> float:
        """All together, in units of one turn if that counts 1."""
        return sum(self.parts(weights).values())


def cost_of(*workings: Working) -> Cost:
    """The cost of one or more workings together."""
    levers = sum(a != b for working in workings for stroke in working.strokes
                 if stroke.operation in ("set", "set lever")
                 for a, b in zip(stroke.before.setting, stroke.after.setting, strict=True))
    turns, shifts, settings, transfers, clearings = (
        sum(getattr(working, name) for working in workings)
        for name in ("turns", "shifts", "settings", "transfers", "clearings"))
    return Cost(turns, shifts, settings, levers, transfers, clearings,
                sum(working.crank_angle for working in workings))


@dataclass(frozen=True, slots=True)
class Calculation:
    """One way of doing something: what it is called, and a function that does it on a machine.

    The function takes a `Machine` and returns a `Working`, or anything with a `working` or `workings`.

    Examples
    --------
    >>> from mechcalc.methods import multiply
    >>> Calculation("347 × 26", lambda machine: multiply(machine, 347, 26)).label
    '347 × 26'
    """

    label: str
    work: Callable[[Machine], Any]


@dataclass(frozen=True, slots=True)
class Trial:
    """How a calculation went: its answer and cost, or why it was refused.

    Attributes
    ----------
    label : str
        The way, or the machine.
    answer : int or Decimal
        As it is read: with its decimals, where the method finds any. None where it was refused.
    cost : Cost or None
        What it took.
    refusal : str
        Why it was refused; empty where it was not.
    workings : tuple of Working
        The strokes.
    """

    label: str
    answer: Any = None
    cost: Cost | None = None
    refusal: str = ""
    workings: tuple[Working, ...] = ()


def try_out(spec: MachineSpec, calculation: Calculation, label: str = "") -> Trial:
    """Do a calculation on a new machine of a build; a refusal is a result like another."""
    label = label or calculation.label
    try:
        done = calculation.work(Machine(spec))
    except (CapacityError, Locked) as no:
        return Trial(label, refusal=str(no))
    if isinstance(done, Working):
        return Trial(label, _read(done), cost_of(done), "", (done,))
    workings = (done.working,) if hasattr(done, "working") else tuple(getattr(done, "workings", ()))
    if not workings or not all(isinstance(working, Working) for working in workings):
        raise InputError(f"{label} gave {shown(done)}, which has no working to count")
    return Trial(label, getattr(done, "value", _read(workings[-1])), cost_of(*workings), "", workings)


def _read(working: Working) -> int | Decimal:
    """The answer of a working, with its point: as many decimals as were worked, noughts at the end among them.

    >>> from mechcalc.methods import divide, square_root
    >>> _read(square_root(Machine(load_spec("bench")), 2, places=2)), _read(divide(Machine(load_spec("bench")), 9, 2))
    (Decimal('1.41'), 4)
    """
    return Decimal(f"{working.answer}e-{working.places}") if working.places else working.answer


@dataclass(frozen=True, slots=True, repr=False)
class Comparison:
    """Several trials side by side.

    Attributes
    ----------
    title : str
        Where or what was compared.
    trials : tuple of Trial
        In the order given.
    weights : Weights
        What each kind of stroke counts.
    """

    title: str
    trials: tuple[Trial, ...]
    weights: Weights

    @property
    def best(self) -> Trial | None:
        """The trial with the least total; the first of equals; None where all were refused."""
        done = [trial for trial in self.trials if trial.cost]
        return min(done, key=self.total) if done else None

    def total(self, trial: Trial) -> float:
        """A trial's weighted total; refused ones count as infinite."""
        return trial.cost.total(self.weights) if trial.cost else float("inf")

    def is_best(self, trial: Trial) -> bool:
        """Whether no other trial costs less; several may cost the same."""
        return self.best is not None and isclose(self.total(trial), self.total(self.best))

    @property
    def agree(self) -> bool:
        """Whether all trials that were not refused came to the same answer."""
        return len({trial.answer for trial in self.trials if trial.cost}) <= 1

    @property
    def headings(self) -> tuple[str, ...]:
        """Of the columns of `rows`."""
        return ("way", "answer", *KINDS, "crank, degrees", "total", "remark")

    def rows(self) -> tuple[tuple[Any, ...], ...]:
        """One row a trial, for whoever prints it in a way of their own."""
        return tuple(self._row(trial) for trial in self.trials)

    def _row(self, trial: Trial) -> tuple[Any, ...]:
        if not trial.cost:
            return (trial.label, *("" for _ in range(len(KINDS) + 3)), f"refused: {trial.refusal}")
        counts = (getattr(trial.cost, kind) for kind in KINDS)
        return (trial.label, trial.answer, *counts, round(trial.cost.crank_angle), round(self.total(trial), 1),
                "best" if self.is_best(trial) else "")

    def __repr__(self) -> str:
        best = f"best: {self.best.label}" if self.best else "all refused"
        return f"<Comparison {self.title}: {len(self.trials)} ways, {best}>"

    def __str__(self) -> str:
        return f"{self.title}\n{plain(self.headings, self.rows())}\n{self.note}"

    def _repr_html_(self) -> str:
        return grid(self.title, self.headings, self.rows()) + f"<p>{self.note}</p>\n"

    @property
    def note(self) -> str:
        """What the totals are made of, and whether the answers agree."""
        weights = ", ".join(f"{one.name} {getattr(self.weights, one.name):g}" for one in fields(self.weights))
        disagree = "" if self.agree else " The answers do not agree."
        return f"Total: each stroke counts {weights}.{disagree}"

    def plot(self, ax: Axes | None = None) -> Axes:
        """Bars of the weighted totals, one part for each kind of stroke (see `mechcalc.methods.cost_plot`)."""
        from mechcalc.methods.cost_plot import bars
        return bars(self, ax)


def compare(machine: str | MachineSpec, *calculations: Calculation | Iterable[Calculation],
            weights: Weights | None = None) -> Comparison:
    """Do several calculations, each on a new machine of the same build, and compare what they cost.

    Parameters
    ----------
    machine : str or MachineSpec
        A name in the catalogue, the path of a TOML file, or a spec.
    *calculations : Calculation, or several in a list
        See `ways_of_multiplying`, `ways_of_chaining` and `ways_of_dividing` for ready ones.
    weights : Weights, optional
        What each kind of stroke counts.

    Raises
    ------
    InputError
        Nothing to compare, or something that is no calculation.

    Examples
    --------
    >>> from mechcalc.methods import ways_of_multiplying
    >>> comparison = compare("bench", ways_of_multiplying(347, 98))
    >>> comparison
    <Comparison Bench: 5 ways, best: 347 × 98, short cut>
    >>> [(trial.label, trial.cost.turns, trial.cost.shifts) for trial in comparison.trials][:3]
    [('347 × 98', 17, 1), ('347 × 98, highest first', 17, 2), ('347 × 98, short cut', 3, 4)]
    >>> compare("bench", ways_of_multiplying(347, 98), weights=Weights(shift=10)).best.label
    '347 × 98'
    """
    spec = _spec(machine)
    return Comparison(spec.name or "a machine", tuple(try_out(spec, one) for one in _listed(calculations)),
                      weights or Weights())


def _spec(machine: Any) -> MachineSpec:
    return machine if isinstance(machine, MachineSpec) else load_spec(machine)


def _listed(calculations: Iterable[Any]) -> list[Calculation]:
    found: list[Calculation] = []
    for one in calculations:
        found += [one] if isinstance(one, Calculation) or not isinstance(one, Iterable) else list(one)
    if not found:
        raise InputError("there is nothing to compare: give at least one calculation")
    for one in found:
        if not isinstance(one, Calculation):
            raise InputError(f"a calculation is Calculation(label, function), not {shown(one)}")
    return found


def compare_machines(calculation: Calculation, *machines: str | MachineSpec, weights: Weights | None = None
                     ) -> tuple[Comparison, Sequence[str]]:
    """Do the same calculation on several machines.

    Returns
    -------
    Comparison
        One row a machine.
    sequence of str
        What differs and why: each difference in build from the first machine, with what came of it here.

    Examples
    --------
    >>> from mechcalc.methods.chains import multiply_chain
    >>> chain = Calculation("12 × 34 × 56", lambda machine: multiply_chain(machine, 12, 34, 56))
    >>> comparison, why = compare_machines(chain, "bench", "plain")
    >>> print("\\n".join(why))
    Plain has no back transfer, Bench has: the product was set again by hand (2 settings of 5 levers, against \
1 of 2 and 1 back transfer).
    Plain's counter does not carry, Bench's does: here both counters show 56.
    Plain's carries reach 10 places from the drum, Bench's 11: no carry had to run that far here.
    Plain has 6 levers against 9, 10 number wheels against 13, 6 counter wheels against 8, 6 carriage positions \
against 8: both have room for this calculation.
    """
    from mechcalc.methods.builds import differences
    if not machines:
        raise InputError("there is nothing to compare: name at least one machine")
    (calculation,) = _listed([calculation])
    specs = [_spec(machine) for machine in machines]
    trials = [try_out(spec, calculation, spec.name or "a machine") for spec in specs]
    why = [line for spec, trial in zip(specs[1:], trials[1:], strict=True)
           for line in differences(specs[0], trials[0], spec, trial)]
    return Comparison(calculation.label, tuple(trials), weights or Weights()), why
