"""What is wrong with a machine that somebody is describing, what is missing, and what it would be.

Only this file holds answers against the rules. It takes them as they are typed, finished or not, and finds everything
at once; the form, the terminal and `own_machine` all say what it says.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from html import escape
from os import PathLike
from pathlib import Path
from types import SimpleNamespace
from typing import Any

from mechcalc import layout as drum
from mechcalc.errors import InputError
from mechcalc.numbers import shown
from mechcalc.own.questions import ANGLE, BY_FIELD, COUNT, MEASURED, MEASURES, QUESTIONS, USUAL, WORDS, YES_OR_NO
from mechcalc.own.reading import read
from mechcalc.own.usual import usual_angles, with_usual
from mechcalc.spec import MachineSpec
from mechcalc.spec_file import write_spec
from mechcalc.spec_rules import MOST_PLACES, broken_rules


@dataclass(frozen=True, slots=True, repr=False)
class Findings:
    """What came of holding answers against the rules. Made by `findings`.

    Attributes
    ----------
    answers : dict of str to str
        As they were typed, by field; empty ones left out.
    values : dict of str to object
        What could be read, with the angles that are taken where none were measured.
    origins : dict of str to str
        Where figures come from: ``"counted"``, ``"measured"`` or ``"guessed"``.
    problems : dict of str to tuple of str
        By field: what is wrong, each with its figures. A rule that speaks of several fields stands at the first.
    beside : dict of str to tuple of str
        By field: the fields at which a problem stands that speaks of this one too.
    missing : tuple of str
        Fields that need an answer and have none, in the order in which they are asked for.
    spec : MachineSpec or None
        The machine, once nothing is wrong or missing.
    """

    answers: dict[str, str]
    values: dict[str, Any]
    origins: dict[str, str]
    problems: dict[str, tuple[str, ...]]
    beside: dict[str, tuple[str, ...]]
    missing: tuple[str, ...]
    spec: MachineSpec | None

    @property
    def angles(self) -> dict[str, float] | None:
        """The five angles, measured or taken; None while one cannot be read or the reach is not known."""
        angles = {name: self.values[name] for name in MEASURES if name in self.values}
        good = len(angles) == len(MEASURES) and not any(_ill_formed(name, angle) for name, angle in angles.items())
        return angles if good and not _ill_formed("carry_reach", self.values.get("carry_reach", 0)) else None

    @property
    def largest_reach(self) -> int | None:
        """How many places a drum with these angles could carry; None while they are not known."""
        return None if self.angles is None else drum.largest_carry_reach(
            SimpleNamespace(**self.angles))  # type: ignore[arg-type]

    @property
    def verdict(self) -> str:
        """How it stands, in a sentence."""
        wrong, open_ = sum(map(len, self.problems.values())), len(self.missing)
        said = [f"{wrong} thing{'s are' if wrong > 1 else ' is'} wrong"] if wrong else []
        said += [f"{open_} answer{'s are' if open_ > 1 else ' is'} missing"] if open_ else []
        return f"{' and '.join(said)}." if said else "Nothing is missing, and every rule is kept."

    def lines(self) -> list[str]:
        """All that is wrong and all that is missing, a line each."""
        wrong = [f"{BY_FIELD[field].short}: {text}" for field, texts in self.problems.items() for text in texts]
        return wrong + [f"{BY_FIELD[field].short}: not answered yet" for field in self.missing]

    @property
    def budget(self) -> str:
        """The drum's angles in a sentence; empty while they are not known."""
        if self.angles is None:
            return ""
        reach = self.values["carry_reach"]
        machine: Any = SimpleNamespace(carry_reach=reach, **self.angles)
        used = drum.used_arc(machine) + drum.exact(machine.rest_arc)
        taken = "" if self.values.get("angles") == MEASURED else " (the usual ones, a guess)"
        return (f"With these angles{taken} a carry reach of {reach} takes {float(used):.6g} of the drum's 360 degrees; "
                f"the largest reach would be {self.largest_reach}.")

    def save(self, path: str | PathLike[str], *, replace: bool = False) -> Path:
        """Write the machine's file (see `mechcalc.spec_file.write_spec`).

        Raises
        ------
        InputError
            Something is wrong or missing; or the file cannot be written.
        """
        if self.spec is None:
            raise InputError(f"this machine cannot be saved yet: {'; '.join(self.lines())}")
        return write_spec(named(self.spec, path), path, origins=self.origins, replace=replace)

    def __repr__(self) -> str:
        return f"<Findings: {self.verdict[:-1]}>"

    def __str__(self) -> str:
        return "\n".join([self.verdict, *(f"  - {line}" for line in self.lines()), *filter(None, [self.budget])])

    def _repr_html_(self) -> str:
        listed = "".join(f"<li>{escape(line)}</li>" for line in self.lines())
        return (f"<p>{escape(self.verdict)}</p>\n" + (f"<ul>{listed}</ul>\n" if listed else "")
                + (f"<p>{escape(self.budget)}</p>\n" if self.budget else ""))


def named(spec: MachineSpec, path: str | PathLike[str]) -> MachineSpec:
    """The same machine; one without a name is called by its file's."""
    return spec if spec.name else MachineSpec.from_dict({**spec.to_dict(), "name": Path(path).stem})


def findings(answers: Mapping[str, str]) -> Findings:
    """Hold answers against the rules.

    Parameters
    ----------
    answers : mapping of str to str
        By field, as they were typed; as many as there are so far. See `mechcalc.own.questions.QUESTIONS`.

    Raises
    ------
    InputError
        An answer to a question that is not asked, or one that is no text.

    Examples
    --------
    >>> found = findings({"setting_places": "9", "carry_reach": "8", "positions": "nine"})
    >>> print(*found.lines()[:3], sep="\\n")
    carriage positions: 'nine' is no whole number: write figures, such as 8
    carry reach: the carry reach must cover the setting: carry reach 8, setting places 9
    number wheels: not answered yet
    """
    given = {field: text for field, text in answers.items() if _checked(field, text).strip()}
    values, guessed, problems = _read(given)
    values |= _angles(values, problems)
    beside: dict[str, list[str]] = {}
    for rule in broken_rules({field: value for field, value in values.items() if field != "angles"}):
        problems.setdefault(rule.fields[0], []).append(rule.text)
        for other in rule.fields[1:]:
            if other in given and rule.fields[0] not in beside.setdefault(other, []):
                beside[other].append(rule.fields[0])
    order = list(BY_FIELD)
    missing = tuple(one.field for one in QUESTIONS if not one.empty and one.field not in given)
    found = {field: tuple(problems[field]) for field in sorted(problems, key=order.index)}
    spec = None if found or missing else MachineSpec(**{key: one for key, one in values.items() if key != "angles"})
    return Findings(given, values, _origins(given, values, guessed), found,
                    {field: tuple(others) for field, others in beside.items()}, missing, spec)


def _checked(field: str, text: Any) -> str:
    if field not in BY_FIELD:
        raise InputError(f"{shown(field)} is not asked for: the fields are {', '.join(BY_FIELD)}")
    if not isinstance(text, str):
        raise InputError(f"{field}: an answer is a text, as it is typed, not {shown(text)}")
    return text


def _read(given: Mapping[str, str]) -> tuple[dict[str, Any], set[str], dict[str, list[str]]]:
    """What can be read, what of it is a guess, and what cannot be read; measures count only where they were chosen."""
    values: dict[str, Any] = {"angles": USUAL}
    guessed: set[str] = set()
    problems: dict[str, list[str]] = {}
    for field, text in given.items():
        try:
            values[field], guess = read(BY_FIELD[field], text)
        except InputError as error:
            problems[field] = [str(error)]
            continue
        if guess:
            guessed.add(field)
    if values["angles"] != MEASURED:
        for field in MEASURES:
            values.pop(field, None), problems.pop(field, None)
    return values, guessed, problems


def _angles(values: Mapping[str, Any], problems: Mapping[str, list[str]]) -> dict[str, float]:
    """The angles to be taken where none are given: only once the reach is known, and nothing about them is unclear."""
    reach = values.get("carry_reach", 0)
    measured = {field: values[field] for field in MEASURES if field in values}
    if not 1 <= reach <= MOST_PLACES or any(field in problems for field in ("angles", *MEASURES)):
        return {}
    if values["angles"] != MEASURED:
        return usual_angles(reach)
    return {} if any(_ill_formed(field, angle) for field, angle in measured.items()) else with_usual(measured, reach)


def _ill_formed(field: str, value: Any) -> bool:
    """Whether a value is wrong by itself, whatever stands beside it."""
    return bool(broken_rules({field: value}))


def _origins(given: Mapping[str, str], values: Mapping[str, Any], guessed: set[str]) -> dict[str, str]:
    """Where each figure comes from."""
    measured = values.get("angles") == MEASURED
    found = {}
    for one in QUESTIONS:
        if one.kind in (COUNT, YES_OR_NO) and one.field in values:
            found[one.field] = "guessed" if one.field in guessed else "counted"
        elif one.kind == ANGLE and one.field in values:
            found[one.field] = "measured" if measured and one.field in given and one.field not in guessed else "guessed"
        elif one.field == "positions":
            found[one.field] = "guessed"
    return {field: origin for field, origin in found.items() if BY_FIELD[field].kind != WORDS}
