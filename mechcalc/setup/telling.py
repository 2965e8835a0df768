"""What set-up says while it works.

Only this file writes progress: whole lines to standard error, and on a terminal one line that keeps changing.
"""

from __future__ import annotations

import shutil
import sys
import time
from types import TracebackType
from typing import TextIO


def say(text: str) -> None:
    """One line to standard error, at once."""
    print(text, file=sys.stderr, flush=True)


class Progress:
    """A line at the foot of the terminal that shows the latest step and the seconds so far; nothing elsewhere.

    Parameters
    ----------
    stream : text stream, optional
        Standard error unless given.
    """

    def __init__(self, stream: TextIO | None = None) -> None:
        self.stream = sys.stderr if stream is None else stream
        self.live = self.stream.isatty()
        self.began = time.monotonic()

    def __enter__(self) -> Progress:
        return self

    def show(self, step: str) -> None:
        """Put `step` in place of what stood there."""
        if not self.live:
            return
        width = shutil.get_terminal_size().columns - 1
        text = f"{time.monotonic() - self.began:4.0f} s  {step}"
        self.stream.write(f"\r{text[:width]:<{width}}")
        self.stream.flush()

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None,
                 trace: TracebackType | None) -> None:
        if self.live:
            width = shutil.get_terminal_size().columns - 1
            self.stream.write(f"\r{'':<{width}}\r")
            self.stream.flush()
