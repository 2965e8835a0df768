"""Material that leaves the notebook: a film, a poster, a working or a lesson on paper, slides, a kiosk.

Only this file lists the public names; each loads its own room when it is first used.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from mechcalc.lazily import at_first_use

if TYPE_CHECKING:
    from mechcalc.sharing.filming import film
    from mechcalc.sharing.lesson import handout
    from mechcalc.sharing.looping import kiosk
    from mechcalc.sharing.paper.poster import poster
    from mechcalc.sharing.paper.working import working_sheet
    from mechcalc.sharing.slideshow import slides

_HOME = {"film": "filming", "handout": "lesson", "kiosk": "looping", "poster": "paper.poster", "slides": "slideshow",
         "working_sheet": "paper.working"}

__all__ = ["film", "handout", "kiosk", "poster", "slides", "working_sheet"]

__getattr__, __dir__ = at_first_use(__name__, _HOME, globals())
