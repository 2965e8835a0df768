"""Asking what was read, window by window.

Only this file asks for a reading in a terminal, and takes the answers apart.
"""

from __future__ import annotations

import textwrap
from collections.abc import Callable
from functools import partial

from mechcalc.bench.papers.blocks import REGISTERS
from mechcalc.bench.readings import Reading
from mechcalc.bench.step_words import Part
from mechcalc.cli.tables import WIDTH
from mechcalc.spec import MachineSpec

WHILE_READING = ("While you read: digits as they stand; - for what you did not read; < to go back one question; leave "
                 "to leave the test.")


def say(text: str, lead: str = "") -> None:
    """A paragraph that fits the terminal."""
    print("\n".join(textwrap.wrap(text, WIDTH, initial_indent=lead, subsequent_indent=" " * len(lead),
                                  break_long_words=False, break_on_hyphens=False)) or lead)


class Leave(Exception):
    """The test is not gone on with."""


class Back(Exception):
    """One question back."""


class Questions:
    """Asks for readings of a machine.

    Parameters
    ----------
    spec : MachineSpec
    ask : callable
        Gets a prompt, gives a line.
    """

    def __init__(self, spec: MachineSpec, ask: Callable[[str], str]) -> None:
        self._spec, self._ask = spec, ask

    def one_reading(self, part: Part) -> Reading | None:
        """All windows and questions of one place; one question back with <."""
        asked: list[tuple[str, Callable[[], int | bool | None]]] = [
            (name, partial(self._digits, name)) for name in REGISTERS]
        questions = [("bell", "did the bell ring in the last turn"), *(("yielded", one) for one in part.asked)]
        for name, question in questions:
            asked.append((name, partial(self.yes_or_no, f"  {question}? (yes, no, -) ")))
        found: list[int | bool | None] = []
        while len(found) < len(asked):
            try:
                found.append(asked[len(found)][1]())
            except Back:
                if not found:
                    raise
                found.pop()
        kept = {name: value for (name, _), value in zip(asked, found, strict=True) if value is not None}
        return Reading(**kept) if kept else None  # type: ignore[arg-type]

    def _answer(self, prompt: str) -> str:
        word = self._ask(prompt).strip().lower()
        if word == "leave":
            raise Leave
        if word == "<":
            raise Back
        return word

    def _digits(self, name: str) -> int | None:
        places = getattr(self._spec, REGISTERS[name])
        while True:
            word = "".join(self._answer(f"  {name} ({places} wheels): ").split())
            if word == "-":
                return None
            if word.isdecimal() and word.isascii() and len(word) <= places:
                return int(word)
            say(f"Type the digits of the {name}, 1 to {places} of them (noughts at the left may be left out), or - if "
                "you did not read it.", "  ")

    def yes_or_no(self, prompt: str) -> bool | None:
        while True:
            word = self._answer(prompt)
            if word in ("y", "yes", "n", "no"):
                return word[0] == "y"
            if word == "-" and "-" in prompt:
                return None
            say("Type yes or no" + (", or - if you cannot say." if "-" in prompt else "."), "  ")
