"""What can be pictured: a machine, a working, or strokes that follow one another.

Only this file decides how those become one story: where it starts, its strokes, their lines, and what the parts do.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from mechcalc.errors import InputError
from mechcalc.events import Stroke
from mechcalc.machine import Machine
from mechcalc.numbers import shown
from mechcalc.parts import SOUND, Parts
from mechcalc.spec import MachineSpec
from mechcalc.state import State
from mechcalc.view.timeline import Said, Timeline, timeline


@dataclass(frozen=True, slots=True, kw_only=True)
class Subject:
    """Strokes that follow one another, and all that a picture of them needs.

    Attributes
    ----------
    spec, parts
        The machine that they were made on.
    start : State
        Where it stood before the first.
    strokes : tuple of Stroke
    lines : tuple
        Words and algebra for each, or none at all.
    title : str
    before : int
        How many strokes came before the first that is shown.
    """

    spec: MachineSpec
    start: State
    strokes: tuple[Stroke, ...]
    lines: tuple[Said, ...] = ()
    title: str = ""
    parts: Parts = SOUND
    before: int = 0

    def timeline(self, *, reveal: bool = True, covered: bool = False) -> Timeline:
        """The timeline (see `mechcalc.view.timeline.timeline`)."""
        return timeline(self.spec, self.start, self.strokes, self.lines, self.title, self.parts, reveal=reveal,
                        covered=covered)


def timeline_of(what: Any, *, spec: MachineSpec | None = None, title: str | None = None, last: int | None = None,
                parts: Parts | None = None, reveal: bool = True) -> Timeline:
    """The timeline of whatever can be pictured.

    Parameters
    ----------
    what : Machine, Working, Stroke or sequence of Stroke
        A machine gives all its strokes so far; a working its strokes with a line of words and algebra each.
    spec : MachineSpec, optional
        Needed for bare strokes, which do not say what machine they were made on.
    title : str, optional
        The picture's heading; the working's title or the machine's name unless given.
    last : int, optional
        Only the last so many strokes.
    parts : Parts, optional
        For bare strokes that were made on a machine with faults: ``machine.parts``.
    reveal : bool
        Whether faulty parts are marked and named; otherwise only what is seen of them is there.

    Raises
    ------
    InputError
        Something else; strokes without a spec; strokes that do not follow one another.

    Examples
    --------
    >>> from mechcalc import Machine, load_spec
    >>> m = Machine(load_spec("slate"))
    >>> _ = m.set(7); _ = m.turn()
    >>> told = timeline_of(m)
    >>> told["title"], told["length"], [stroke["words"] for stroke in told["strokes"]]
    ('Slate', 390.0, ['set 7', 'one additive turn'])
    >>> timeline_of(m, last=1)["length"]
    360.0
    >>> from mechcalc.bench import CarryLeverWeak, Machine as BenchMachine
    >>> worn = BenchMachine(load_spec("slate"), faults=[CarryLeverWeak(wheel=1)])
    >>> timeline_of(worn)["faults"][0]["words"]
    'the carry lever of wheel 1 will not stay out'
    >>> "faults" in timeline_of(worn, reveal=False)
    False
    """
    return subject_of(what, spec=spec, title=title, last=last, parts=parts).timeline(reveal=reveal)


def subject_of(what: Any, *, spec: MachineSpec | None = None, title: str | None = None, last: int | None = None,
               parts: Parts | None = None) -> Subject:
    """What is to be pictured; parameters and errors are those of `timeline_of`."""
    if isinstance(what, Machine):
        strokes = what.strokes
        first = 0 if last is None else len(strokes) - min(last, len(strokes))
        return Subject(spec=what.spec, start=strokes[first].before if strokes[first:] else what.state,
                       strokes=strokes[first:], title=what.spec.name if title is None else title, parts=what.parts,
                       before=first)
    lines: Sequence[Said] = ()
    if hasattr(what, "strokes") and hasattr(what, "spec"):
        strokes, lines, spec = tuple(what.strokes), tuple(what.lines), what.spec
        title, parts = what.title if title is None else title, getattr(what, "parts", SOUND)
    else:
        strokes = _strokes(what)
    if spec is None:
        raise InputError("bare strokes do not say what machine they were made on: give spec=machine.spec")
    first = 0 if last is None else max(0, len(strokes) - last)
    strokes, lines = strokes[first:], lines[first:]
    if not strokes:
        raise InputError("there is no stroke to show")
    for number, (one, following) in enumerate(pairwise(strokes), start=1):
        if one.after != following.before:
            raise InputError(f"stroke {number + 1} does not begin where stroke {number} ended")
    return Subject(spec=spec, start=strokes[0].before, strokes=strokes, lines=tuple(lines), before=first,
                   title=spec.name if title is None else title, parts=SOUND if parts is None else parts)


def _strokes(what: Any) -> tuple[Stroke, ...]:
    if isinstance(what, Stroke):
        return (what,)
    if isinstance(what, (tuple, list)) and all(isinstance(item, Stroke) for item in what):
        return tuple(what)
    raise InputError(f"a machine, a working or strokes can be shown, not {shown(what)} ({type(what).__name__})")
