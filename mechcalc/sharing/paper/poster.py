"""The poster of a mechanism: A3, all lines and letters, no bitmap.

Only this file words it. Every figure on it is computed from the machine's spec; nothing is drawn by hand. It is made
by the typesetter (`mechcalc.printing.typesetting`), so it holds real text in embedded fonts and is tagged.
"""

from __future__ import annotations

from os import PathLike
from pathlib import Path
from typing import Any

from mechcalc import layout
from mechcalc.catalogue import load_spec
from mechcalc.cli.tables import budget_rows
from mechcalc.errors import InputError
from mechcalc.printing.typesetting import Fonts, can_typeset, pictures, printable_texts, typeset
from mechcalc.sharing.paper.named import named_drawing, shown_machine
from mechcalc.sharing.paper.ripple import ripple_drawing, ripple_of
from mechcalc.sharing.paper.timetable import timetable_drawing
from mechcalc.spec import MachineSpec
from mechcalc.view.drawing import Drawing, Shape
from mechcalc.view.explain import moment_text
from mechcalc.whole_files import write_whole

TEMPLATE = Path(__file__).parent / "poster.typ"
CARRY = (
    "A number wheel that passes from 9 to 0 pushes its carry lever out.",
    "The lever stands in the way of the next place's carry pin. As the drum brings that pin past, the lever pushes it "
    "sideways, into the path of the idler.",
    "The pin moves the idler one tooth, and the idler moves the next wheel one step.",
    "Right after the pin a homing cam pushes the lever home. If that wheel has passed from 9 to 0 too, its own lever "
    "is out before the pin of the place after it arrives.")
NEEDS = "a poster needs a typesetter (the package typst; the kit's own environment has it)"


def poster(machine: MachineSpec | str, path: str | PathLike[str], *, fonts: Fonts | None = None) -> Path:
    """Write the poster of a machine.

    Parameters
    ----------
    machine : MachineSpec or str
        The machine, or its name in the catalogue, or the path of its TOML file.
    path : path
        A ``.pdf``; written in one step.
    fonts : Fonts, optional
        Where to look for more fonts, for a machine's own name.

    Returns
    -------
    Path
        The file written.

    Raises
    ------
    InputError
        Another ending, no typesetter here, or a file that cannot be written.
    """
    path = Path(path)
    if path.suffix.lower() != ".pdf":
        raise InputError(f"a poster is a .pdf: {path.name} ends otherwise")
    data = poster_pdf(load_spec(machine) if isinstance(machine, str) else machine, fonts)
    try:
        write_whole(path, data)
    except OSError as error:
        raise InputError(f"{path} cannot be written: {error.strerror}") from None
    return path


def poster_pdf(spec: MachineSpec, fonts: Fonts | None = None) -> bytes:
    """The poster as the bytes of a PDF."""
    if not can_typeset():
        raise InputError(NEEDS)
    fonts = fonts or Fonts()
    return typeset(TEMPLATE, poster_content(spec, fonts), fonts, "the machine's name or its note")


def poster_picture(spec: MachineSpec, *, ppi: float = 60.0) -> bytes:
    """The poster as PNG, for a look in a notebook."""
    fonts = Fonts()
    return pictures(TEMPLATE, poster_content(spec, fonts), fonts, ppi)[0]


def poster_content(spec: MachineSpec, fonts: Fonts) -> dict[str, Any]:
    """All that stands on the poster, as plain data."""
    title, note = printable_texts([spec.name or "A calculating machine", spec.note], fonts)
    steps = ripple_of(spec)
    wheels = sum(1 for step in steps if step.out)
    machine, angle = shown_machine(spec)
    nines, more = 10**spec.setting_places - 1, "" if spec.carry_reach > 2 else ", which needs no helix"
    return {
        "title": title, "note": note, "facts": _facts(spec),
        "machine": {"head": "The machine, and what its parts are called",
                    "more": f"Seen from the front, the drum's surface unrolled; {angle:g}° into the second "
                            f"additive turn of {machine.setting}. The drum turns downwards past the line of idlers.",
                    **plain(named_drawing(spec), "The machine with its parts named. " + moment_text(machine))},
        "timetable": {"head": "The drum's timetable", "more": "When each part of the drum passes the idler of its place"
                      f"{more}. An arrow shows how long a lever takes to come out.",
                      **plain(timetable_drawing(spec), _timetable_alt(spec))},
        "carry": {"head": "How it carries", "more": "In an additive turn; a subtractive one is its mirror image.",
                  "steps": list(CARRY)},
        "ripple": {"head": "The ripple, step by step", "more": f"{nines} + 1 in one turn of the crank: one carry "
                   f"passes through {wheels} wheels.", **plain(ripple_drawing(spec), " ".join(
                       f"{step.angle:g}°: {step.words}" for step in steps))},
        "budget": {"head": "The angle budget", "more": "A turn has 360 degrees, and everything must find room in them.",
                   "heads": ["what", "made up of", "degrees"], "rows": budget_rows(spec),
                   "rules": _rules(spec)},
    }


def plain(drawing: Drawing, alt: str) -> dict[str, Any]:
    """A drawing as the template takes it, with the words for those who do not see it."""
    items: list[dict[str, Any]] = []
    for item in drawing.items:
        if isinstance(item, Shape):
            items.append({"points": item.points, "fill": item.fill, "stroke": item.stroke, "pen": item.pen,
                          "closed": item.closed, "dashed": item.dashed})
        else:
            items.append({"x": item.at[0], "y": item.at[1], "text": item.text, "size": item.size, "color": item.color,
                          "align": item.align, "bold": item.bold, "slanted": item.slanted})
    return {"width": drawing.width, "height": drawing.height, "items": items, "alt": alt}


def _facts(spec: MachineSpec) -> str:
    return (f"{spec.setting_places} setting levers · {spec.result_places} number wheels · {spec.counter_places} "
            f"counter wheels · {spec.positions} carriage positions · carries through {spec.carry_reach} places")


def _rules(spec: MachineSpec) -> list[str]:
    """The two rules about lateness, with this machine's figures, kept or broken."""
    step, pitch, throw, gap = (layout.exact(value) for value in
                               (spec.helix_step, spec.pin_pitch, spec.lever_throw, spec.gap))
    told = []
    for what, left, value, right, least in (
            ("A carry ripples through all places in one turn", "helix step", step,
             f"pin pitch {float(pitch):g}° + lever throw {float(throw):g}°", pitch + throw),
            ("The first carry is in time", "gap", gap, f"lever throw {float(throw):g}°", throw)):
        kept, sign = ("", "≥") if value >= least else ("Broken: ", "<")
        told.append(f"{kept}{what}: {left} {float(value):g}° {sign} {right}.")
    return told


def _timetable_alt(spec: MachineSpec) -> str:
    from mechcalc.view.drum_spans import timetable_text
    return timetable_text(spec)
