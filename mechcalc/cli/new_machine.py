"""Describing a machine of one's own in a terminal, question by question.

Only this file leads through the questions without a form. Each answer is put into the draft at once, so that one can
stop anywhere and go on later; what is wrong is found by `mechcalc.own.found`.
"""

from __future__ import annotations

import sys
import textwrap
from collections.abc import Iterable
from pathlib import Path

from mechcalc.cli.tables import WIDTH, machine_sheet
from mechcalc.errors import InputError
from mechcalc.own.draft import Draft
from mechcalc.own.found import Findings, findings
from mechcalc.own.questions import ANGLE, BY_FIELD, GUESS, MEASURED, MIND, STEPS, Question, Step

SAVED, STOPPED, ENDED = 0, 130, 2
BACK, NOTHING = "back", "-"
KEYS = (f"Enter leaves a question as it stands (in brackets). \"{BACK}\" goes back to the one before, \"{NOTHING}\" "
        "takes an answer away. Ctrl-C stops: nothing is lost, and the same command goes on.")


def describe(path: Path, replace: bool = False) -> int:
    """Ask for a machine, and write its file.

    Parameters
    ----------
    path : Path
        The machine's file. A draft beside it is taken up.
    replace : bool
        Change a machine that has been saved: its file's answers are taken up, and it is written over at the end.

    Returns
    -------
    int
        0 once it is saved; 130 where it was interrupted, 2 where the answers ended.

    Raises
    ------
    InputError
        A file that is there already, or that cannot be one.
    """
    draft = Draft(path)
    if path.exists() and not replace:
        raise InputError(f"{path} is there already: choose another name, or add --replace to change that machine")
    if not path.absolute().parent.is_dir():
        raise InputError(f"{path} cannot be written: there is no folder {path.parent}")
    try:
        return _Talk(draft, replace).hold()
    except (KeyboardInterrupt, EOFError) as stopped:
        kept = (f"Your answers are kept in {draft.path}. Go on with: python3 -m mechcalc machine --new {path}"
                f"{' --replace' * replace}" if draft.path.exists() else "Nothing was answered, and nothing is kept.")
        print(f"\n{kept}", file=sys.stderr)
        return STOPPED if isinstance(stopped, KeyboardInterrupt) else ENDED


class _Talk:
    """One round of questions and answers."""

    def __init__(self, draft: Draft, replace: bool) -> None:
        self.draft, self.replace = draft, replace
        self.answers = draft.take_up()
        self.found = findings(self.answers)

    def hold(self) -> int:
        for words in (MIND, GUESS, KEYS, self.draft.told):
            if words:
                _say(words, "")
        self._go_through(self._open())
        while True:
            while self.found.spec is None:
                _say(self.found.verdict, *(f"- {line}" for line in self.found.lines()), "")
                self._go_through({*self.found.problems, *self.found.beside, *self.found.missing})
            if self._saved():
                return SAVED

    def _open(self) -> set[str]:
        """What has been neither answered nor passed over, and what is wrong."""
        return {field for field in BY_FIELD if field not in self.answers or field in self.found.problems}

    def _go_through(self, fields: Iterable[str]) -> None:
        """Ask for these fields, in order; `BACK` asks again for the one before, whichever it was."""
        row = [(step, one) for step in STEPS for one in step.questions]
        wanted, place, told = set(fields), 0, None
        while place < len(row):
            step, one = row[place]
            if one.field not in wanted or (one.kind == ANGLE and self.found.values["angles"] != MEASURED):
                place += 1
                continue
            if step is not told:
                told = step
                _head(step)
            if self._ask(one):
                place += 1
                continue
            place = max(place - 1, 0)
            while place and row[place][1].kind == ANGLE and self.found.values["angles"] != MEASURED:
                place -= 1
            wanted.add(row[place][1].field)

    def _ask(self, one: Question) -> bool:
        """Ask until there is an answer with which nothing is wrong, or none is wanted; false to go back."""
        empty = f" Left empty: {one.empty}." if one.empty else ""
        _say(one.ask, f"{one.how}{empty}", indent="  ")
        while True:
            stands = self.answers.get(one.field, "")
            typed = _line(f"  [{stands}] > " if stands else "  > ")
            if typed.casefold() == BACK:
                return False
            if not typed:
                if one.empty and not stands:
                    self._answer(one.field, "")  # passed over: it is not asked again
                print()
                return True
            self._answer(one.field, "" if typed == NOTHING else typed)
            wrong = self.found.problems.get(one.field, ())
            _say(*(f"Not right: {text}" for text in wrong),
                 *(f"Now not right, at {BY_FIELD[other].short}: {text}" for other, texts in self.found.problems.items()
                   if one.field in self.found.beside and other in self.found.beside[one.field] for text in texts),
                 indent="  ")
            if not wrong:
                print()
                return True

    def _answer(self, field: str, text: str) -> None:
        self.answers[field] = text
        self.found = findings(self.answers)
        self.draft.keep(self.answers)

    def _saved(self) -> bool:
        """Ask whether to save, and do so; false where something is to be gone over again."""
        _say("", self.found.verdict, self.found.budget, "")
        for number, step in enumerate(STEPS, start=1):
            shown = "; ".join(_shown(self.found, one) for one in step.questions if one.kind != ANGLE or
                              self.found.values["angles"] == MEASURED)
            _say(f"{number}. {step.title}: {shown}")
        typed = _line(f"\nSave it as {self.draft.file}? \"yes\", or the number of what you want to change > ")
        if typed.isdecimal() and 1 <= int(typed) <= len(STEPS):
            self._go_through(one.field for one in STEPS[int(typed) - 1].questions)
            return False
        if typed.casefold() not in ("yes", "y"):
            return False
        try:
            self.found.save(self.draft.file, replace=self.replace)
        except InputError as error:
            _say(f"It is not saved: {error}.")
            return False
        self.draft.done()
        print(f"\n{machine_sheet(str(self.draft.file))}\n\nSaved: {self.draft.file}\nUse it:  python3 -m mechcalc work "
              f"\"347 x 26\" --machine {self.draft.file}\nIn Python:  mechcalc.load_spec({str(self.draft.file)!r})")
        return True


def _head(step: Step) -> None:
    print(f"{STEPS.index(step) + 1}. {step.title}\n")
    for words in step.before:
        _say(words, "", indent="  ")


def _shown(found: Findings, one: Question) -> str:
    return f"{one.short} {found.answers.get(one.field, f'({one.empty})')}"


def _say(*lines: str, indent: str = "") -> None:
    for line in lines:
        print("\n".join(textwrap.wrap(line, WIDTH, initial_indent=indent, subsequent_indent=indent)))


def _line(prompt: str) -> str:
    """A line that was typed; what is no text is asked for again."""
    while True:
        try:
            return input(prompt).strip()
        except UnicodeDecodeError:
            print("  That cannot be read as text. Type it again.")
