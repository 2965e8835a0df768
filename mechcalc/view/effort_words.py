"""Effort in words: what the crank drives from angle to angle, and the numbers behind the plots, as plain text.

Only this file writes them. The efforts are those of `mechcalc.carries`.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise

from mechcalc.carries import (
    Carrying,
    Doing,
    Prices,
    angles_by_places,
    doings_of,
    effort_of,
    hardest,
    peaks_by_nines,
    work,
)
from mechcalc.errors import InputError
from mechcalc.events import Stroke
from mechcalc.numbers import shown
from mechcalc.spec import MachineSpec
from mechcalc.words import listed

SAYS = {"wheel": "wheel {} driven", "lever": "lever of wheel {} thrown", "home": "lever of wheel {} pushed home",
        "feel": "wheel {} felt for its nine", "counter": "counter wheel {} driven"}
SEVERAL = {"wheel": "wheels {} driven", "lever": "levers of wheels {} thrown",
           "home": "levers of wheels {} pushed home", "feel": "wheels {} felt for their nines",
           "counter": "counter wheels {} driven"}


def done_in(what: Stroke | Carrying, spec: MachineSpec | None = None, prices: Prices | None = None
            ) -> tuple[tuple[Doing, ...], float]:
    """What the crank does, and the degrees of one wheel step: of a turn, or of an addition's hardest turn.

    Raises
    ------
    InputError
        No turn of the crank and no `Carrying`; a turn without its spec.
    """
    if isinstance(what, Carrying):
        turns = range(1, what.turns + 1)
        return what.doings[max(turns, key=lambda turn: what.effort(prices, turn).peak) - 1], what.pitch
    if not isinstance(what, Stroke) or what.operation != "crank":
        raise InputError(f"effort is asked of one turn of the crank, or of an addition by `carried`, not of "
                         f"{what.operation if isinstance(what, Stroke) else shown(what)}")
    if not isinstance(spec, MachineSpec):
        raise InputError("a turn does not know its machine: give the spec as well")
    return doings_of(what, spec), spec.pin_pitch


def effort_text(what: Stroke | Carrying, spec: MachineSpec | None = None, prices: Prices | None = None) -> str:
    """Effort from angle to angle, and what asks for it; one line as long as nothing changes.

    Parameters
    ----------
    what : Stroke or Carrying
        A turn of the crank, or an addition of `mechcalc.carries.carried` (of several turns the hardest, the first
        of them).
    spec : MachineSpec, optional
        The machine; needed for a turn.
    prices : Prices, optional
        Those of the model unless given.

    Raises
    ------
    InputError
        Something else.

    Examples
    --------
    >>> from mechcalc.classroom import ready
    >>> machine = ready("slate", setting=1, result=9)
    >>> print(effort_text(machine.turn(), machine.spec, Prices(counter=0)))
     139.5° to  148.5°  1     wheel 1 driven
     148.5° to  151.5°  0.3   lever of wheel 1 thrown
     151.5° to  224.5°  0
     224.5° to  230.5°  1     wheel 2 driven
     230.5° to  233.5°  1.3   lever of wheel 1 pushed home, wheel 2 driven
     233.5° to  281.5°  0
     281.5° to 307.67°  0     counter wheel 1 driven
    at most 1.3; work 2.2 wheel steps
    """
    doings, pitch = done_in(what, spec, prices)
    effort = effort_of(doings, pitch, prices)
    lines = [f"{_degrees(begin):>7} to {_degrees(end):>7}  {_number(level):<4}  {_asked(doings, begin)}".rstrip()
             for (begin, end), level in zip(pairwise(effort.angles), effort.levels, strict=True)]
    return "\n".join([*lines, f"at most {_number(effort.peak)}; work {_number(effort.work)} wheel steps"])


def _asked(doings: Iterable[Doing], angle: float) -> str:
    """What is being done at an angle, each sort once."""
    sorts: dict[str, list[str]] = {}
    for doing in doings:
        if doing.begin <= angle < doing.end:
            sorts.setdefault(doing.what, []).append(str(doing.place))
    return ", ".join((SAYS if len(places) == 1 else SEVERAL)[what].format(listed(places))
                     for what, places in sorted(sorts.items()))


def carries_text(ways: Sequence[Carrying], prices: Prices | None = None) -> str:
    """An addition on several mechanisms as a table: peak, wheels at that, work, turns, and when the wheels are at rest.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> from mechcalc.carries import carried
    >>> print(carries_text(carried(load_spec("slate"), 999, 1)))
                        peak  wheels at once  work  turns  last wheel at rest
    at once                4               4     4      1              148.5°
    by lever and helix   1.3               1   4.6      1              257.5°
    looking ahead          3               3  4.22      1              233.5°
    in the head            1               1     4      4              148.5°
    """
    lines = [f"{'':18}{'peak':>6}{'wheels at once':>16}{'work':>6}{'turns':>7}{'last wheel at rest':>20}"]
    for way in ways:
        ends = [doing.end for doing in way.doings[-1] if doing.what == "wheel"]
        lines.append(f"{way.name:18}{_number(hardest(way, prices)):>6}{way.longest:>16}"
                     f"{_number(work(way, prices)):>6}{way.turns:>7}{_degrees(max(ends)) if ends else '-':>20}")
    return "\n".join(lines)


def peaks_text(spec: MachineSpec, prices: Prices | None = None) -> str:
    """The peak of 99...9 + 1 by the number of nines, a line for each mechanism.

    >>> from mechcalc import load_spec
    >>> print(peaks_text(load_spec("slate")))
    nines                  0     1     2     3     4     5
    at once                1     2     3     4     5     6
    by lever and helix     1   1.3   1.3   1.3   1.3   1.3
    looking ahead          1     1     2     3     4     5
    in the head            1     1     1     1     1     1
    """
    return _table("nines", range(spec.result_places), peaks_by_nines(spec, prices))


def angles_text(spec: MachineSpec, places: Iterable[int] = range(2, 15, 2)) -> str:
    """Degrees of drum for carries through so many places, turned either way, and what a turn has room for.

    >>> from mechcalc import load_spec
    >>> print(angles_text(load_spec("slate"), (2, 6, 11, 12)))
    places                 2     6    11    12
    at once               81    81    81    81
    by lever and helix   107   203   323   347
    looking ahead        107   107   107   107
    in the head           81    81    81    81
    there is room for 345 degrees; by the helix it is full with 11 places
    """
    asked = tuple(places)
    rows = {name: [angles[at - 1] for at in asked] for name, angles in
            angles_by_places(spec, max(asked, default=1)).items()}
    return "\n".join([_table("places", asked, rows), f"there is room for {360 - spec.rest_arc:g} degrees; by the helix "
                      f"it is full with {spec.largest_carry_reach} places"])


def _table(head: str, sizes: Iterable[int], rows: Mapping[str, Sequence[float]]) -> str:
    lines = [f"{head:18}" + "".join(f"{size:>6}" for size in sizes)]
    return "\n".join(lines + [f"{name:18}" + "".join(f"{_number(value):>6}" for value in row)
                              for name, row in rows.items()])


def _number(value: float) -> str:
    return f"{round(value, 2):g}"


def _degrees(angle: float) -> str:
    return f"{_number(angle)}°"
