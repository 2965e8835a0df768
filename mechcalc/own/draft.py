"""Answers that are not a machine yet, kept in a file so that nothing typed is lost.

Only this file knows where a draft stands and what is in it. It stands beside the machine's file, as
``NAME.draft.json``, from the first answer until the machine is saved: a JSON object with ``kind``, ``version`` and
``answers``, which holds each answer as it was typed, by field (an empty one was passed over). A draft that cannot be
read is put aside under a name of its own, never thrown away. Where the variable ``MECHCALC_PROGRESS`` is set to
nothing, no draft is read or written.
"""

from __future__ import annotations

import json
import os
from collections.abc import Mapping
from itertools import count
from pathlib import Path

from mechcalc.catalogue import load_spec
from mechcalc.classroom.logbook import VARIABLE
from mechcalc.errors import InputError, SpecError
from mechcalc.own.questions import ANGLE, BY_FIELD, MEASURED, USUAL, WORDS
from mechcalc.own.reading import typed
from mechcalc.own.usual import usual_angles
from mechcalc.spec_file import SUFFIX, read_origins
from mechcalc.whole_files import write_whole

KIND, VERSION = "mechcalc machine draft", 1


class Draft:
    """The answers for one machine's file.

    Parameters
    ----------
    file : path
        The machine's file, which need not be there.

    Attributes
    ----------
    file, path : Path
        The machine's file, and the draft's.
    told : str
        What to tell whoever goes on: what was taken up, or put aside. Empty where there was nothing.

    Raises
    ------
    InputError
        A file whose name does not end in ``.toml``.
    """

    def __init__(self, file: str | os.PathLike[str]) -> None:
        self.file = Path(file).expanduser()
        if self.file.suffix != SUFFIX:
            raise InputError(f"{file}: a machine's file is named something{SUFFIX}")
        self.path = self.file.with_suffix(".draft.json")
        self.told = ""

    @property
    def kept(self) -> bool:
        """Whether drafts are read and written at all."""
        return os.environ.get(VARIABLE) != ""

    def take_up(self) -> dict[str, str]:
        """The answers so far: those of the draft, or else those of the machine's file; none where there is neither."""
        self.told = ""
        if not self.kept:
            return {}
        try:
            data = self.path.read_bytes()
        except FileNotFoundError:
            return self._from_file()
        except OSError as error:
            self.told = f"{self.path.name} cannot be read ({error.strerror}), and is left as it is."
            return {}
        try:
            answers = _understood(json.loads(data.decode("utf-8")))
        except (ValueError, RecursionError) as error:
            why = str(error) if type(error) is _Unfit else "it is damaged"
            self.told = f"{self.path.name} could not be taken up: {why}. It is kept as {self._aside().name}."
            return {}
        many = sum(bool(text.strip()) for field, text in answers.items() if field != "angles")
        self.told = f"Taken up from {self.path.name}: {many} answer{'s' * (many != 1)}."
        return answers

    def _from_file(self) -> dict[str, str]:
        if not self.file.is_file():
            return {}
        try:
            answers = answers_of_file(self.file)
        except SpecError as error:
            self.told = f"{self.file.name} is there, and cannot be taken up: {'; '.join(error.problems)}."
            return {}
        self.told = f"Taken up from {self.file.name}, as it was saved."
        return answers

    def keep(self, answers: Mapping[str, str]) -> None:
        """Put down the answers so far.

        Raises
        ------
        InputError
            The draft cannot be written; what was in it before is still there.
        """
        if not self.kept:
            return
        data = {"kind": KIND, "version": VERSION, "answers": dict(answers)}
        try:
            write_whole(self.path, (json.dumps(data, indent=1) + "\n").encode("utf-8"))
        except OSError as error:
            raise InputError(f"{self.path.name} cannot be written: {error.strerror or error}") from None

    def done(self) -> None:
        """The machine is saved: its file holds everything, and the draft goes."""
        if self.kept:
            self.path.unlink(missing_ok=True)

    def anew(self) -> Path | None:
        """Begin anew: put the draft aside; where it now is, or None where there was none."""
        return self._aside() if self.kept and self.path.exists() else None

    def _aside(self) -> Path:
        """The draft under another name beside it, one that nobody has."""
        names = (self.path.with_name(f"{self.file.stem}.draft.set-aside-{number}.json") for number in count(1))
        aside = next(name for name in names if not name.exists())
        os.replace(self.path, aside)
        return aside


class _Unfit(ValueError):
    """JSON, and no draft of ours; the message says why."""


def _understood(data: object) -> dict[str, str]:
    """The answers in a draft that has been read; a field that this kit does not ask for makes it unfit."""
    if not isinstance(data, dict) or data.get("kind") != KIND:
        raise _Unfit("it is no draft of a machine")
    if data.get("version") != VERSION:
        raise _Unfit("it was written by another version of the kit")
    answers = data.get("answers")
    if not isinstance(answers, dict) or not all(
            field in BY_FIELD and isinstance(text, str) for field, text in answers.items()):
        raise _Unfit("it holds something else than answers")
    return answers


def answers_of_file(path: Path) -> dict[str, str]:
    """A machine's file as the answers that would give it, guesses among them; empty where nothing has to be answered.

    Raises
    ------
    SpecError
        The file describes no machine that can be built.
    """
    spec, origins = load_spec(path), read_origins(path)
    angles = {field: getattr(spec, field) for field, one in BY_FIELD.items() if one.kind == ANGLE}
    guessed = all(origins.get(field) == "guessed" for field in angles)
    usual = guessed and angles == usual_angles(spec.carry_reach)
    answers = {"angles": USUAL if usual else MEASURED}
    for field, one in BY_FIELD.items():
        if field == "angles" or (usual and one.kind == ANGLE):
            continue
        mark = "?" if one.kind != WORDS and origins.get(field) == "guessed" else ""
        answers[field] = typed(getattr(spec, field)) + mark
    if origins.get("positions") == "guessed" and spec.positions == min(spec.counter_places, spec.result_places):
        del answers["positions"]  # nobody counted them
    return {field: answers.get(field, "") for field in BY_FIELD}
