"""README's command two: what tests need, and then every check of the project, one after another.

Only this file lists the checks. Each is a command line that a developer could type; all of them are run even where
an early one fails. In CI (the variable ``CI`` is set) nothing may be missing: no lesson, no node, no browser.
"""

from __future__ import annotations

import os
import subprocess
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from mechcalc.classroom.logbook import VARIABLE
from mechcalc.errors import InputError
from mechcalc.setup.clone import Clone, need_clone
from mechcalc.setup.environment import prepare
from mechcalc.setup.telling import say

WORKERS = 2
SANITIZE = "tests/lessons/nbval_sanitize.cfg"


@dataclass(frozen=True, slots=True)
class Missing:
    """Why a check cannot be run here."""

    reason: str


Plan = list[str] | Missing


def in_ci() -> bool:
    """Whether this runs in CI."""
    return os.environ.get("CI", "").lower() not in ("", "0", "false")


def lint(clone: Clone, python: str, extra: list[str]) -> Plan:
    """Ruff over all Python in the clone."""
    return [python, "-m", "ruff", "check", "."]


def types(clone: Clone, python: str, extra: list[str]) -> Plan:
    """Mypy over the package."""
    return [python, "-m", "mypy"]


def tests(clone: Clone, python: str, extra: list[str]) -> Plan:
    """Pytest over tests/ (node's tests of the JavaScript among them) and the package's doctests, on two workers."""
    spread = [] if any(word in ("-n", "--pdb") or word.startswith("-n") for word in extra) else \
        ["-n", str(WORKERS), "--dist", "loadfile"]
    return [python, "-m", "pytest", *spread, *extra]


def lessons(clone: Clone, python: str, extra: list[str]) -> Plan:
    """Every lesson executed, its outputs compared with the committed ones."""
    if not list((clone.root / "lessons").glob("*.ipynb")):
        return Missing("there are no lessons")
    clean = ["--nbval-sanitize-with", SANITIZE] if (clone.root / SANITIZE).exists() else []
    return [python, "-m", "pytest", "-p", "ci_rules", "--nbval", "--nbval-current-env", "-n", str(WORKERS), "--dist",
            "loadfile", *clean, "lessons"]


CHECKS: dict[str, Callable[[Clone, str, list[str]], Plan]] = {
    "lint": lint, "types": types, "lessons": lessons, "tests": tests}


@dataclass(frozen=True, slots=True)
class Outcome:
    """How one check went: ``"passed"``, ``"failed"`` or ``"skipped"``, with a reason or the seconds it took."""

    name: str
    state: str
    note: str


def run(only: list[str], extra: list[str], environment: Path | None = None, here: bool = False,
        pinned: bool = True) -> int:
    """Run the checks named in `only` (all of them where it is empty); `extra` goes to pytest. 0 if all passed."""
    clone = need_clone("check")
    unknown = [name for name in only if name not in CHECKS]
    if unknown:
        raise InputError(f"{unknown[0]!r} is no check: there are {', '.join(CHECKS)}")
    python = sys.executable if here else str(prepare(clone, "test", environment, pinned))
    outcomes = [perform(clone, name, python, extra) for name in CHECKS if not only or name in only]
    print()
    for outcome in outcomes:
        print(f"{outcome.name:<12}{outcome.state:<9}{outcome.note}")
    sys.stdout.flush()
    return 1 if any(outcome.state == "failed" for outcome in outcomes) else 0


def perform(clone: Clone, name: str, python: str, extra: list[str]) -> Outcome:
    """One check; what it prints goes straight through."""
    plan = CHECKS[name](clone, python, extra)
    if isinstance(plan, Missing):
        say(f"\n{name}: {plan.reason}")
        return Outcome(name, "failed", f"{plan.reason}, and CI skips nothing") if in_ci() else \
            Outcome(name, "skipped", plan.reason)
    print(f"\n{name}: {' '.join(['python', *plan[1:]])}", flush=True)
    began = time.monotonic()
    code = subprocess.run(plan, cwd=clone.root, env=_variables(clone), check=False).returncode
    return Outcome(name, "failed" if code else "passed", f"in {time.monotonic() - began:.0f} s")


def _variables(clone: Clone) -> dict[str, str]:
    """The checks' surroundings: CI's rules can be imported, pictures need no screen, nobody's progress is touched."""
    path = os.pathsep.join(filter(None, [str(clone.root / "tests"), os.environ.get("PYTHONPATH", "")]))
    return {"MPLBACKEND": "agg", **os.environ, VARIABLE: "", "PYTHONPATH": path}
