"""The form in a notebook in which somebody describes the machine in front of them, checked as they type.

Only this file talks to the form's page. It holds no rule and no wording of a question: what is wrong is found by
`mechcalc.own.found`, and each answer is put into the draft at once.
"""

from __future__ import annotations

from functools import cache
from os import PathLike
from pathlib import Path
from typing import Any

import anywidget
import traitlets

from mechcalc.errors import InputError
from mechcalc.own.budget_bar import budget_bar
from mechcalc.own.draft import Draft
from mechcalc.own.fits import fitting
from mechcalc.own.found import findings
from mechcalc.own.mine import FILE
from mechcalc.own.questions import BY_FIELD, GUESS, MIND, STEPS
from mechcalc.own.sketches import sketch
from mechcalc.spec import MachineSpec
from mechcalc.view import bundle

FOLDER = Path(__file__).parent / "js"
SHARED = ("html",)  # modules of the view that the form uses too
LOST = "Python does not answer: what you type now is not kept. Run this cell again; what you typed before comes back."
NOT_KEPT = "Nothing is kept here until you save."


@cache
def _script() -> str:
    modules = {path.stem: path.read_text(encoding="utf-8") for path in sorted(FOLDER.glob("*.js"))}
    modules |= {name: (bundle.FOLDER / f"{name}.js").read_text(encoding="utf-8") for name in SHARED}
    return f"{bundle.join(modules, 'form')}\nexport default {{render}};\n"


def _question(field: str) -> dict[str, str]:
    one = BY_FIELD[field]
    example = f" For example: {one.example}." if one.example and one.kind in ("count", "angle") else ""
    empty = f" Left empty: {one.empty}." if one.empty and one.kind in ("count", "angle", "words") else ""
    return {"field": field, "ask": one.ask, "kind": one.kind, "how": f"{one.how}{example}{empty}"}


def _told() -> dict[str, Any]:
    """All that the page says and that does not change."""
    steps = [{"title": step.title, "before": list(step.before), "picture": sketch(step.picture),
              "questions": [_question(one.field) for one in step.questions]} for step in STEPS]
    return {"steps": steps, "before": [MIND, GUESS], "lost": LOST, "fileAsk": "Save it as",
            "fileHow": "A name that ends in .toml; it goes into the folder of this notebook.",
            "fitsLater": "Which lessons and methods fit it is tried out once nothing is missing."}


class MachineForm(anywidget.AnyWidget):
    """The form. Made by `machine_form`.

    Attributes
    ----------
    findings : Findings
        What is wrong with the answers so far, what is missing, and the machine once nothing is.
    """

    _esm = _script()
    _css = (FOLDER / "form.css").read_text(encoding="utf-8")
    told = traitlets.Dict().tag(sync=True)
    typed = traitlets.Dict().tag(sync=True)
    found = traitlets.Dict().tag(sync=True)
    file = traitlets.Unicode().tag(sync=True)

    def __init__(self, file: str | PathLike[str] = FILE) -> None:
        self._draft = Draft(file)
        answers = self._draft.take_up()
        self._said = self._draft.told if self._draft.kept else NOT_KEPT
        self.findings = findings(answers)
        super().__init__(told=_told(), typed={"sent": 0, "answers": answers}, found=self._outcome(0), file=str(file))
        self.observe(self._typed, "typed")
        self.on_msg(self._asked)

    @property
    def spec(self) -> MachineSpec | None:
        """The machine; None while something is wrong or missing."""
        return self.findings.spec

    def __repr__(self) -> str:
        return f"<MachineForm {Path(self.file).name}: {self.findings.verdict[:-1]}>"

    def _typed(self, change: dict[str, Any]) -> None:
        """Something was typed: into the draft with it, and look again."""
        new, old = change["new"], self.findings.answers
        answers = {field: text for field, text in new["answers"].items() if text.strip()}
        if answers != old:
            self.findings = findings(answers)
            try:
                self._draft.keep(answers)
                self._said = f"Kept in {self._draft.path.name}." if self._draft.kept else NOT_KEPT
            except InputError as error:
                self._said = str(error)
        self.found = self._outcome(new["sent"])

    def _outcome(self, sent: int) -> dict[str, Any]:
        """What the page shows of the findings."""
        now = self.findings
        fits = fitting(now.spec) if now.spec else None
        return {"sent": sent, "problems": {field: list(texts) for field, texts in now.problems.items()},
                "beside": {field: f"{' and '.join(BY_FIELD[other].short for other in others)}."
                           for field, others in now.beside.items()},
                "verdict": f"{now.verdict} {self._said}".strip(), "lines": now.lines(), "budget": now.budget,
                "drum": budget_bar(now.angles, now.values["carry_reach"]) if now.angles else "",
                "fits": f"{fits.verdict} {fits.sizes}" if fits else "", "table": fits.table() if fits else ""}

    def _asked(self, _: Any, content: Any, __: Any) -> None:
        """A message from the page: ``{act: "save", replace}`` or ``{act: "anew"}``."""
        act = content.get("act") if isinstance(content, dict) else None
        if act == "save":
            self._save(content.get("replace") is True)
        elif act == "anew":
            self._anew()

    def _save(self, replace: bool) -> None:
        now = self.findings
        try:
            path = now.save(self.file, replace=replace)
        except InputError as error:
            first = next((field for field in BY_FIELD if field in now.problems or field in now.missing), "")
            more = [] if now.spec is None else ["To put this one in its place, tick the box above and save again."]
            self.send({"words": [f"{error}.", *(more if "is there already" in str(error) else [])], "good": False,
                       "focus": first})
            return
        self._draft.done()
        self._said = f"Saved as {path.name}."
        self.found = self._outcome(self.typed["sent"])
        self.send({"good": True, "words": [
            f"Saved: {path.resolve()}", "In a notebook:", f"    load_spec({str(path)!r})", "In a terminal, in the same "
            "folder:", f"    python3 -m mechcalc machine {path}",
            f"    python3 -m mechcalc work \"347 x 26\" --machine {path}"]})

    def _anew(self) -> None:
        """Every answer is taken away; what there was is put aside."""
        aside = self._draft.anew()
        self.findings = findings({})
        self._said = f"What you had typed is kept as {aside.name}." if aside else ""
        self.typed = {"sent": self.typed["sent"] + 1, "answers": {}}
        self.send({"good": True, "words": [self._said or "Begun anew."]})


def machine_form(file: str | PathLike[str] = FILE) -> MachineForm:
    """A form for describing the machine in front of you, step by step.

    Parameters
    ----------
    file : path
        The machine's file, in the notebook's folder unless it says otherwise. Beside it a draft is kept until the
        machine is saved; a draft or a file that is there is taken up again.

    Raises
    ------
    InputError
        A file whose name does not end in ``.toml``.

    Examples
    --------
    >>> machine_form("no_such_machine.toml")
    <MachineForm no_such_machine.toml: 7 answers are missing>
    """
    return MachineForm(file)
