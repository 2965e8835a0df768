"""What can be pictured: a machine, a working, or strokes that follow one another.

Only this file decides how those become one timeline.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Any

from mechcalc.errors import InputError
from mechcalc.events import Stroke
from mechcalc.machine import Machine
from mechcalc.numbers import shown
from mechcalc.parts import SOUND
from mechcalc.spec import MachineSpec
from mechcalc.view.timeline import Timeline, timeline


def timeline_of(what: Any, *, spec: MachineSpec | None = None, title: str | None = None,
                last: int | None = None) -> Timeline:
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
    """
    if isinstance(what, Machine):
        strokes = what.strokes if last is None else what.strokes[len(what.strokes) - min(last, len(what.strokes)):]
        start = strokes[0].before if strokes else what.state
        return timeline(what.spec, start, strokes, title=what.spec.name if title is None else title,
                        parts=what._parts)
    lines: Sequence[Any] = ()
    if hasattr(what, "strokes") and hasattr(what, "spec"):
        strokes, lines, spec = tuple(what.strokes), tuple(what.lines), what.spec
        title = what.title if title is None else title
    else:
        strokes = _strokes(what)
    if spec is None:
        raise InputError("bare strokes do not say what machine they were made on: give spec=machine.spec")
    if last is not None:
        strokes, lines = strokes[-last:], lines[-last:]
    if not strokes:
        raise InputError("there is no stroke to show")
    for number, (one, following) in enumerate(pairwise(strokes), start=1):
        if one.after != following.before:
            raise InputError(f"stroke {number + 1} does not begin where stroke {number} ended")
    return timeline(spec, strokes[0].before, strokes, lines, spec.name if title is None else title, SOUND)


def _strokes(what: Any) -> tuple[Stroke, ...]:
    if isinstance(what, Stroke):
        return (what,)
    if isinstance(what, (tuple, list)) and all(isinstance(item, Stroke) for item in what):
        return tuple(what)
    raise InputError(f"a machine, a working or strokes can be shown, not {shown(what)} ({type(what).__name__})")
