"""A turn as a timetable: which part of the drum passes the idlers from which crank angle to which.

Only this file cuts a turn into such spans. The angles are those of `mechcalc.layout`; the counter's are those of
`mechcalc.turning`.
"""

from __future__ import annotations

from dataclasses import dataclass

from mechcalc.errors import InputError
from mechcalc.layout import layout
from mechcalc.numbers import shown
from mechcalc.spec import MachineSpec

HELICES = {1: "additive", -1: "subtractive"}


@dataclass(frozen=True, slots=True)
class Span:
    """What passes the line of idlers for a while.

    Attributes
    ----------
    begin, end : float
        Degrees of crank from rest, in the direction being turned.
    part : str
        ``"rest"``, ``"number pins"``, ``"gap"``, ``"leading helix"``, ``"following helix"``, ``"counter"`` or
        ``"nothing"``.
    words : str
        What it is and does.
    """

    begin: float
    end: float
    part: str
    words: str

    @property
    def degrees(self) -> float:
        """How long it takes."""
        return round(self.end - self.begin, 9)


def direction_of(turn: str | int) -> int:
    """1 or -1, from ``"additive"``, ``"subtractive"``, 1 or -1.

    >>> direction_of("subtractive"), direction_of(1)
    (-1, 1)
    """
    for direction, name in HELICES.items():
        if not isinstance(turn, bool) and turn in (direction, name):
            return direction
    raise InputError(f"a turn is \"additive\" or \"subtractive\", not {shown(turn)}")


def spans(spec: MachineSpec, turn: str | int = "additive") -> tuple[Span, ...]:
    """The spans of one turn, in order; together they are 360 degrees.

    Parameters
    ----------
    spec : MachineSpec
        The machine.
    turn : str or int
        ``"additive"`` (1) or ``"subtractive"`` (-1).

    Notes
    -----
    The counter works while what is left of the turn passes by, half of the rest arc included: its fingers sit on
    their own part of the drum.

    Examples
    --------
    >>> from mechcalc import load_spec
    >>> [(span.begin, span.end, span.part) for span in spans(load_spec("slate"))][2:6]
    [(78.5, 135.5, 'leading helix'), (135.5, 139.5, 'gap'), (139.5, 220.5, 'number pins'), (220.5, 224.5, 'gap')]
    >>> sum(span.degrees for span in spans(load_spec("ledger"), "subtractive"))
    360.0
    """
    direction, drum = direction_of(turn), layout(spec)
    order = "1 to 9" if direction > 0 else "9 to 1"
    half, pins = spec.rest_arc / 2, (drum.number_pins[0].contact, drum.number_pins[-1].end)
    row = [Span(0.0, half, "rest", "rest arc")]
    if drum.leading:
        first, last = drum.leading[-1].contact, drum.leading[0].end
        row += [Span(half, first, "nothing", "nothing"),
                Span(first, last, "leading helix", f"{HELICES[-direction]} helix, place {_down(spec)}: leads, and "
                     f"finds no lever out"),
                Span(last, pins[0], "gap", "gap")]
    else:
        row.append(Span(half, pins[0], "nothing", "nothing"))
    row.append(Span(*pins, "number pins", f"number pins, pin {order}"))
    if drum.following:
        first, last = drum.following[0].contact, drum.following[-1].end
        row += [Span(pins[1], first, "gap", "gap"),
                Span(first, last, "following helix", f"{HELICES[direction]} helix, place {_up(spec)}: follows, and "
                     f"serves the levers")]
    row.append(Span(drum.close, 360.0, "counter", f"the counter; the rest arc from {_degrees(360 - half)} on"))
    return tuple(span for span in row if span.end > span.begin)


def _up(spec: MachineSpec) -> str:
    return "2" if spec.carry_reach == 2 else f"2 to {spec.carry_reach}"


def _down(spec: MachineSpec) -> str:
    return "2" if spec.carry_reach == 2 else f"{spec.carry_reach} to 2"


def _degrees(value: float) -> str:
    return f"{value:g}°"


def timetable_text(spec: MachineSpec, turn: str | int = "additive") -> str:
    """The spans of one turn as a table of plain text.

    >>> from mechcalc import load_spec
    >>> print(timetable_text(load_spec("slate")))
    Slate, additive turn
        0° to   7.5°   7.5°  rest arc
      7.5° to  78.5°    71°  nothing
     78.5° to 135.5°    57°  subtractive helix, place 6 to 2: leads, and finds no lever out
    135.5° to 139.5°     4°  gap
    139.5° to 220.5°    81°  number pins, pin 1 to 9
    220.5° to 224.5°     4°  gap
    224.5° to 281.5°    57°  additive helix, place 2 to 6: follows, and serves the levers
    281.5° to   360°  78.5°  the counter; the rest arc from 352.5° on
    """
    lines = [f"{_degrees(span.begin):>6} to {_degrees(span.end):>6} {_degrees(span.degrees):>6}  {span.words}"
             for span in spans(spec, turn)]
    return "\n".join([f"{spec.name or 'A machine'}, {HELICES[direction_of(turn)]} turn", *lines])
