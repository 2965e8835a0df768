"""What each mechanism asks for as numbers grow: the peak with the nines, the drum's angle with the places.

Only this file counts over many sums, and says which conclusions hold at which prices.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from mechcalc.carries.effort import Prices
from mechcalc.carries.mechanisms import NAMES, Carrying, arcs, carried
from mechcalc.numbers import whole
from mechcalc.spec import MOST_PLACES, MachineSpec

WHEELS_ALONE = Prices(lever=0, home=0, feel=0, counter=0)


def hardest(way: Carrying, prices: Prices | None = None) -> float:
    """The greatest effort of all turns that an addition takes.

    >>> from mechcalc import load_spec
    >>> [hardest(way) for way in carried(load_spec("slate"), 999, 1)]
    [4.0, 1.3, 3.0, 1.0]
    """
    return max(way.effort(prices, turn).peak for turn in range(1, way.turns + 1))


def work(way: Carrying, prices: Prices | None = None) -> float:
    """The work of all turns that an addition takes, in wheel steps.

    >>> from mechcalc import load_spec
    >>> [round(work(way), 2) for way in carried(load_spec("slate"), 99, 1)]
    [3.0, 3.4, 3.22, 3.0]
    """
    return sum(way.effort(prices, turn).work for turn in range(1, way.turns + 1))


def rows_of_nines(spec: MachineSpec) -> tuple[tuple[Carrying, ...], ...]:
    """0 + 1, 9 + 1, 99 + 1 and so on, on each mechanism, up to a row of nines that leaves one wheel free.

    Raises
    ------
    InputError
        A machine whose carries do not reach all its wheels.
    """
    return tuple(carried(spec, 10**nines - 1, 1) for nines in range(spec.result_places))


def peaks_by_nines(spec: MachineSpec, prices: Prices | None = None) -> dict[str, tuple[float, ...]]:
    """The greatest effort in 99...9 + 1, for each mechanism by the number of nines, from none.

    Raises
    ------
    InputError
        A machine whose carries do not reach all its wheels.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> for name, peaks in peaks_by_nines(load_spec("slate")).items():
    ...     print(name, *peaks)
    at once 1.0 2.0 3.0 4.0 5.0 6.0
    by lever and helix 1.0 1.3 1.3 1.3 1.3 1.3
    looking ahead 1.0 1.0 2.0 3.0 4.0 5.0
    in the head 1.0 1.0 1.0 1.0 1.0 1.0
    """
    rows = [[hardest(way, prices) for way in ways] for ways in rows_of_nines(spec)]
    return {name: tuple(row[number] for row in rows) for number, name in enumerate(NAMES)}


def angles_by_places(spec: MachineSpec, most: int = 20) -> dict[str, tuple[float, ...]]:
    """Degrees of drum for carries through 1, 2, 3, ... places, turned either way; more than a turn has, at the end.

    Parameters
    ----------
    spec : MachineSpec
        Whose angles are taken.
    most : int
        The most places, 1 to 40.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> angles_by_places(load_spec("slate"), 4)["by lever and helix"]
    (81.0, 107.0, 131.0, 155.0)
    """
    rows = [arcs(spec, places) for places in range(1, whole(most, "a number of places", 1, MOST_PLACES) + 1)]
    return {name: tuple(row[name][1] for row in rows) for name in NAMES}


@dataclass(frozen=True, slots=True)
class Conclusion:
    """Something that one may conclude from the comparison, and whether it holds.

    Attributes
    ----------
    says : str
        The conclusion.
    holds : bool
        Whether it does, at the prices asked about.
    """

    says: str
    holds: bool


def conclusions(spec: MachineSpec, prices: Prices | None = None) -> tuple[Conclusion, ...]:
    """Which conclusions about 99...9 + 1 hold at these prices, each one worked anew.

    Parameters
    ----------
    spec : MachineSpec
        With three number wheels or more; its carries reach all of them.
    prices : Prices, optional
        Those of the model unless given.

    Raises
    ------
    InputError
        A machine that cannot be compared.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> [one.says for one in conclusions(load_spec("slate"), Prices(lever=6, home=6)) if not one.holds]
    ['a full row of nines is easiest by the helix']
    """
    whole(spec.result_places, "number wheels to compare with", 3)
    peaks, full = peaks_by_nines(spec, prices), rows_of_nines(spec)[-1]
    once, helix, ahead, head = (peaks[name] for name in NAMES)
    works = [round(work(way, prices), 9) for way in full[:3]]
    turned = {round(work(way, WHEELS_ALONE), 9) for way in full}
    return (Conclusion("at once: every further nine makes the peak higher", _rises(once)),
            Conclusion("by the helix: from one nine on, the peak stays as it is", len(set(helix[1:])) == 1),
            Conclusion("looking ahead: a full row of nines is harder than one nine", ahead[-1] > ahead[1]),
            Conclusion("in the head: no turn is harder than the first", len(set(head)) == 1),
            Conclusion("a full row of nines is easiest by the helix", helix[-1] < min(once[-1], ahead[-1])),
            Conclusion("the helix asks for the most work", works[1] > max(works[0], works[2])),
            Conclusion("the wheels' own work is the same on all four", len(turned) == 1))


def _rises(peaks: tuple[float, ...]) -> bool:
    return all(before < after for before, after in pairwise(peaks))
