"""A picture in words: what stands where at a travel, always in the same order.

Only this file words a pose. Lessons assert these words, so that a picture that changes is noticed.
"""

from __future__ import annotations

from math import floor
from typing import Any

from mechcalc.numbers import from_digits
from mechcalc.view.pose import moment_at, pose, stroke_at, turning_at
from mechcalc.view.subject import timeline_of
from mechcalc.view.timeline import Timeline
from mechcalc.words import listed


def moment_text(what: Any, travel: float | None = None, **options: Any) -> str:
    """What a picture at `travel` shows, in words.

    Parameters
    ----------
    what : Machine, Working, strokes or a timeline
        As `mechcalc.view.timeline_of` takes it, with its options.
    travel : float, optional
        Degrees since the beginning of the first stroke; the end unless given.

    Examples
    --------
    >>> from mechcalc import Machine, load_spec
    >>> m = Machine(load_spec("slate"))
    >>> _ = m.set(9999); _ = m.turn(); _ = m.set(1); _ = m.crank(233.0)
    >>> print(moment_text(m))
    Crank at 233° of an additive turn; carriage at 0; setting 0001; result 009900; counter 001.
    Between two digits: wheel 2.
    Carry levers between home and out: of wheel 1. Carry pins pushed over: additive, place 2.
    The lever pushes the additive carry pin of place 2 sideways, into the idler's path.
    """
    told = what if isinstance(what, dict) else timeline_of(what, **options)
    travel = told["length"] if travel is None else travel
    return "\n".join(_lines(told, travel))


def _lines(told: Timeline, travel: float) -> list[str]:
    now, machine = pose(told, travel), told["machine"]
    lines = [f"{_crank(told, travel, now)}; {_carriage(now)}"
             f"; setting {_register(now, 'setting', machine['settingPlaces'])}"
             f"; result {_register(now, 'wheel', machine['resultPlaces'])}"
             f"; counter {_register(now, 'counter', machine['counterPlaces'])}."]
    between = [f"{word} {name.split('/')[1]}" for part, word in (("wheel", "wheel"), ("counter", "counter wheel"))
               for name, value in now.items() if name.startswith(part + "/") and abs(value - round(value)) > 1e-6]
    if between:
        lines.append(f"Between two digits: {listed(between)}.")
    lines += _carrying(now)
    faults = [f"{fault['letter']}, {fault['words']}" for fault in told.get("faults", [])]
    return [*lines, moment_at(told, travel)["words"], *([f"Faulty parts: {'; '.join(faults)}."] if faults else [])]


def _crank(told: Timeline, travel: float, now: dict[str, float]) -> str:
    if not now["pawl"] and now["crank"] % 360 == 0:
        return "Crank at rest"
    index = stroke_at(told, travel)
    operation = told["strokes"][index]["operation"] if index is not None else ""
    if operation == "clear setting":
        return f"Crank at {now['crank'] % 360:g}°, the comb in"
    backwards = turning_at(told, travel) < 0
    angle = round(-now["crank"] % 360 if backwards else now["crank"] % 360, 2)
    return f"Crank at {angle:g}° of {'a subtractive' if backwards else 'an additive'} turn"


def _carriage(now: dict[str, float]) -> str:
    at = now["carriage"]
    if at == round(at):
        return f"carriage at {at:g}{' (lifted)' if now['lift'] else ''}"
    return f"carriage between {int(at)} and {int(at) + 1}"


def _register(now: dict[str, float], part: str, places: int) -> str:
    """A register's digits, highest place first: each wheel at the digit that stands nearest its window."""
    return f"{from_digits(floor(now[f'{part}/{place}'] + 0.5) % 10 for place in range(1, places + 1)):0{places}d}"


def _carrying(now: dict[str, float]) -> list[str]:
    levers = {name.split("/")[1]: value for name, value in now.items() if name.startswith("lever/") and value > 0}
    pushed = [f"{'additive' if '/+/' in name else 'subtractive'}, place {name.split('/')[2]}"
              for name, value in now.items() if name.startswith("carrypin/") and value > 0]
    said = []
    for where, wheels in (("out", [wheel for wheel, value in levers.items() if value >= 1]),
                          ("between home and out", [wheel for wheel, value in levers.items() if value < 1])):
        if wheels:
            said.append(f"Carry levers {where}: of {'wheels' if len(wheels) > 1 else 'wheel'} {listed(wheels)}.")
    if pushed:
        said.append(f"Carry pins pushed over: {'; '.join(pushed)}.")
    return [" ".join(said)] if said else []
