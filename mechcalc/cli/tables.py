"""What the command line prints: plain text that fits 80 columns, on a terminal or through a pipe.

Only this file lays text out.
"""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from fractions import Fraction

from mechcalc import layout
from mechcalc.catalogue import load_spec, machine_names
from mechcalc.classroom.course import COURSE, PATHS, on_path
from mechcalc.setup.lessons import all_lessons
from mechcalc.spec import MachineSpec

WIDTH = 80


def table(head: Sequence[str], rows: Sequence[Sequence[object]], left: Sequence[int] = (0,)) -> str:
    """Columns under their heads, two spaces apart; those of `left` start at the left, the others end at the right.

    The last column, if it stands at the left, is folded where it would pass the 80th column.

    >>> print(table(["name", "places"], [["slate", "4"], ["ledger", "10"]]))
    name    places
    slate        4
    ledger      10
    """
    texts = [[str(cell) for cell in row] for row in [head, *rows]]
    widths = [max(len(row[column]) for row in texts) for column in range(len(head))]
    last = len(head) - 1
    room = max(20, WIDTH - sum(widths[:-1]) - 2 * last)
    lines = []
    for row in texts:
        cells = [cell.ljust(width) if column in left else cell.rjust(width)
                 for column, (cell, width) in enumerate(zip(row, widths, strict=True))]
        if last in left:
            start = "  ".join(cells[:-1])
            folded = textwrap.wrap(row[last], room) or [""]
            lines += [f"{start if number == 0 else ' ' * len(start)}  {part}" for number, part in enumerate(folded)]
        else:
            lines.append("  ".join(cells))
    return "\n".join(line.rstrip() for line in lines)


def lesson_list(path: str | None = None) -> str:
    """The lessons that are here, one a line, in the order of the course; those of one path where it is named."""
    course = {lesson.name: lesson for lesson in (COURSE if path is None else on_path(path))}
    here = [lesson for lesson in all_lessons() if path is None or lesson.name in course]
    rows = [[one.name, one.minutes, ", ".join(one.paths), one.title] if (one := course.get(lesson.name)) else
            [lesson.name, "", "", lesson.title] for lesson in here]
    listed = [course[lesson.name] for lesson in here if lesson.name in course]
    who = "" if path is None else f" for {PATHS[path]}"
    return (f"{table(['lesson', 'minutes', 'paths', 'title'], rows, left=(0, 2, 3))}\n\n{len(listed)} lessons{who}: "
            f"{sum(lesson.minutes for lesson in listed)} minutes in class, exercises not counted")


def machine_list() -> str:
    """The catalogue, one machine a line."""
    rows = []
    for name in machine_names():
        spec = load_spec(name)
        rows.append([name, spec.setting_places, spec.result_places, spec.counter_places, spec.carry_reach,
                     _oddities(spec)])
    return table(["machine", "levers", "wheels", "counter", "reach", "remarks"], rows, left=(0, 5))


def _oddities(spec: MachineSpec) -> str:
    """What sets a machine apart from the everyday one."""
    said = []
    if spec.carry_reach < spec.result_places:
        said.append(f"carries {spec.carry_reach} of {spec.result_places} places")
    if not spec.counter_carry:
        said.append("counter does not carry")
    if not spec.back_transfer:
        said.append("no back transfer")
    if spec.check_register:
        said.append("check register")
    return ", ".join(said)


def machine_sheet(name: str) -> str:
    """One machine, with the timetable of its drum."""
    spec = load_spec(name)
    facts = {"setting levers": spec.setting_places, "number wheels": spec.result_places,
             "counter wheels": spec.counter_places, "carriage positions": spec.positions,
             "carry reach": f"{spec.carry_reach} places; a drum with these angles could carry "
                            f"{spec.largest_carry_reach}",
             "counter": "carries" if spec.counter_carry else "does not carry",
             "back transfer": "fitted" if spec.back_transfer else "not fitted",
             "check register": "fitted" if spec.check_register else "not fitted"}
    head = f"{spec.name or name}" + (f": {spec.note}" if spec.note else "")
    return "\n".join([*textwrap.wrap(head, WIDTH), "", *(f"{key:<20}{value}" for key, value in facts.items()), "",
                      "Angle budget, in degrees of crank", "", budget(spec), "", *_rules(spec)])


def _degrees(value: float | Fraction) -> str:
    return f"{float(value):.10g}"


def budget(spec: MachineSpec) -> str:
    """What takes up the 360 degrees of a turn."""
    return table(["what", "made up of", "degrees"], budget_rows(spec), left=(0, 1))


def budget_rows(spec: MachineSpec) -> list[list[str]]:
    """What takes up the 360 degrees: what, made up of, degrees."""
    helix = layout.helix_arc(spec)
    pitch, gap, step = _degrees(spec.pin_pitch), _degrees(spec.gap), _degrees(spec.helix_step)
    per_helix = f"gap {gap} + {spec.carry_reach - 2} steps of {step} + pin {pitch}" if helix else "no carry pins"
    pins = layout.PINS * layout.exact(spec.pin_pitch)
    return [["number pins", f"{layout.PINS} pins of {pitch}", _degrees(pins)],
            ["helix after the pins", per_helix, _degrees(helix)],
            ["helix before the pins", "the same, mirrored", _degrees(helix)],
            ["rest arc", "kept free", _degrees(spec.rest_arc)],
            ["spare", "", _degrees(spec.spare_arc)],
            ["one turn", "", "360"]]


def _rules(spec: MachineSpec) -> list[str]:
    """The two rules about lateness, with this machine's figures."""
    step, pitch, throw, gap = (layout.exact(value) for value in
                               (spec.helix_step, spec.pin_pitch, spec.lever_throw, spec.gap))
    return [_rule("a carry ripples through all places in one turn", "helix step", step,
                  f"pin pitch {_degrees(pitch)} + lever throw {_degrees(throw)}", pitch + throw),
            _rule("the first carry is in time", "gap", gap, f"lever throw {_degrees(throw)}", throw)]


def _rule(what: str, left: str, value: Fraction, right: str, least: Fraction) -> str:
    kept = value >= least
    sign = ">=" if kept else "<"
    return f"{'holds ' if kept else 'broken'}  {what}:\n        {left} {_degrees(value)} {sign} {right}"
