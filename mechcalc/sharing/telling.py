"""How far a long piece of work has come, wherever one works: a terminal, a notebook, or nobody looking.

Only this file chooses where progress is shown.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any

from mechcalc.setup.telling import Progress

Tell = Callable[[int, int], None]
PAUSE = 0.25  # seconds from one showing to the next


@contextmanager
def telling(what: str, tell: Tell | None = None, steps: int | None = None) -> Iterator[Tell]:
    """A function to be called with how much is done, and of how much; it shows the share and the time that is left.

    Parameters
    ----------
    what : str
        What is being done.
    tell : callable, optional
        Somebody else's function; it is called every time, and nothing is shown here.
    steps : int, optional
        How often it will be called, where the calls take about as long as one another whatever they add to what is
        done: the time that is left is then reckoned by them.
    """
    if tell is not None:
        yield tell
        return
    began, last, calls = time.monotonic(), 0.0, 0

    def say(show: Callable[[str], None], done: int, total: int) -> None:
        nonlocal last, calls
        calls += 1
        now = time.monotonic()
        if now - last < PAUSE and done < total:
            return
        last = now
        passed, to_come = (calls, steps - calls) if steps else (done, total - done)
        left = (now - began) * to_come / passed if passed else 0.0
        show(f"{what}: {done} of {total}" + (f", about {left:.0f} s left" if 0 < done < total else ""))

    if _in_notebook():
        from IPython.display import display
        handle: Any = display({"text/plain": what}, raw=True, display_id=True)
        yield lambda done, total: say(lambda text: handle.update({"text/plain": text}, raw=True), done, total)
    else:
        with Progress() as progress:
            yield lambda done, total: say(progress.show, done, total)


def _in_notebook() -> bool:
    shell = sys.modules["IPython"].get_ipython() if "IPython" in sys.modules else None
    return shell is not None and getattr(shell, "kernel", None) is not None
