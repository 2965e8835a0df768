"""What the repository may hold, and whether README, CI and the program say the same."""

from __future__ import annotations

import doctest
import re
import shlex
import subprocess
from pathlib import Path

import pytest

from mechcalc.cli.commands import parser
from mechcalc.setup import checks

ROOT = Path(__file__).parents[2]
TOP = {"README.md", "DEVELOPERS.md", "pyproject.toml", "lessons", "mechcalc", "tests", "data", "LICENSE"}
# Put together here, so that this file does not hold them itself.
FOLDERS = [f"/{name}/" for name in ("work", "tmp", "root", "home", "Users")]
HOSTS = [".".join(parts) for parts in (("pypi", "org"), ("pythonhosted", "org"), ("registry", "npmjs"),
                                       ("deb", "debian"), ("anaconda", "org"))]
TEXT = {".py", ".md", ".toml", ".ipynb", ".txt", ".js", ".mjs", ".css", ".cfg", ".json", ".html", ".svg", ""}


def tracked() -> list[Path]:
    """Every file that git keeps, or would keep: what is new and not ignored counts too."""
    listed = subprocess.run(["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"], cwd=ROOT,
                            capture_output=True, check=True).stdout.decode()
    return [ROOT / name for name in listed.split("\0") if name and (ROOT / name).is_file()]


def readme_commands() -> list[str]:
    """Every line of README's code blocks that runs the kit."""
    blocks = re.findall(r"```(?:sh|console)?\n(.*?)```", (ROOT / "README.md").read_text(encoding="utf-8"), re.S)
    lines = [line.partition(" #")[0].strip() for block in blocks for line in block.splitlines()]
    return [line for line in lines if line.startswith(("python3 -m mechcalc", "mechcalc "))]


class TestHoldings:
    """Files and what stands in them."""

    def test_the_top_level(self):
        """A few names, and dot-files."""
        names = {path.relative_to(ROOT).parts[0] for path in tracked()}
        assert {name for name in names if not name.startswith(".")} <= TOP

    def test_no_lock_files(self):
        """They record where a registry was reached."""
        assert not {path.name for path in tracked()} & {"uv.lock", "poetry.lock", "pylock.toml", "package-lock.json",
                                                        "Pipfile.lock", "yarn.lock"}

    def test_no_machines_path_and_no_registry(self):
        """In any text; long runs of base64 apart, which may spell anything."""
        found = []
        for path in tracked():
            if path.suffix not in TEXT:
                continue
            text = re.sub(r"[A-Za-z0-9+/=]{200,}", "", path.read_text(encoding="utf-8"))
            found += [(path.name, word) for word in (*FOLDERS, *HOSTS) if re.search(rf"(?<![\w.~}}]){re.escape(word)}",
                                                                                    text)]
        assert found == []

    def test_constraints_are_versions_and_nothing_else(self):
        """One package a line: no address, no path, no option.

        Made by: uv pip compile --universal --no-annotate --no-header --no-emit-index-url --no-emit-find-links
        --python-version 3.11 --extra lab --extra test pyproject.toml -o .ci/constraints.txt
        """
        lines = (ROOT / ".ci" / "constraints.txt").read_text(encoding="utf-8").splitlines()
        assert len(lines) > 50
        assert [line for line in lines if not re.fullmatch(
            r"[a-z0-9-]+==[A-Za-z0-9.+!]+( ; [a-z_]+ (==|!=|<|>=|<=|>) '[\w.]+'.*)?", line)] == []
        assert not re.search(r"[/@\\]|-\w+ |file:", "\n".join(lines))

    def test_every_direct_requirement_is_pinned(self):
        """Otherwise the constraints are out of date."""
        import tomllib
        project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
        wanted = [*project["dependencies"], *(line for group in project["optional-dependencies"].values()
                                              for line in group)]
        pinned = {line.partition("==")[0] for line in
                  (ROOT / ".ci" / "constraints.txt").read_text(encoding="utf-8").splitlines()}
        assert {re.split(r"[<>=\[; ]", line)[0] for line in wanted} <= pinned


class TestReadme:
    """It says what the program does."""

    def test_two_commands(self):
        """The first opens a lesson, the second runs the checks."""
        assert readme_commands()[:2] == ["python3 -m mechcalc open", "python3 -m mechcalc check"]

    @pytest.mark.parametrize("line", readme_commands())
    def test_every_command_is_one(self, line):
        """The command line takes it as it stands."""
        words = shlex.split(line)
        argv = words[1:] if words[0] == "mechcalc" else words[3:]
        wish = parser().parse_args(argv)
        assert callable(wish.do)

    def test_ci_runs_the_second(self):
        """And nothing else that checks."""
        lines = [line for line in (ROOT / ".ci" / "run").read_text(encoding="utf-8").splitlines() if "mechcalc" in line]
        assert lines == ["python3 -m mechcalc check"]

    def test_its_python_does_what_it_shows(self):
        """Every example, run."""
        failed, tried = doctest.testfile(str(ROOT / "README.md"), module_relative=False)
        assert failed == 0
        assert tried > 5

    def test_what_it_points_to_is_there(self):
        """Pictures and links."""
        links = re.findall(r"\]\(([^)]+)\)", (ROOT / "README.md").read_text(encoding="utf-8"))
        assert links
        assert [link for link in links if not (ROOT / link).exists()] == []

    def test_it_names_the_browsers(self):
        """Those that the browser tests look for, and the variable."""
        from ci_rules import BROWSERS, VARIABLE
        text = (ROOT / "README.md").read_text(encoding="utf-8")
        assert all(f"`{name}`" in text for name in (*BROWSERS, VARIABLE))


class TestChecks:
    """What command two runs."""

    @pytest.fixture
    def clone(self, tmp_path):
        return checks.Clone(tmp_path)

    def test_missing_is_skipped_here_and_failed_in_ci(self, clone, monkeypatch):
        """Here: a clone without lessons."""
        monkeypatch.setenv("CI", "")
        assert checks.perform(clone, "lessons", "python", []) == \
            checks.Outcome("lessons", "skipped", "there are no lessons")
        monkeypatch.setenv("CI", "true")
        assert checks.perform(clone, "lessons", "python", []) == \
            checks.Outcome("lessons", "failed", "there are no lessons, and CI skips nothing")

    def test_arguments_go_to_pytest(self, clone):
        """One's own number of workers takes the place of ours."""
        assert checks.tests(clone, "python", ["-k", "carry"]) == \
            ["python", "-m", "pytest", "-n", "2", "--dist", "loadfile", "-k", "carry"]
        assert checks.tests(clone, "python", ["-n0"]) == ["python", "-m", "pytest", "-n0"]

    def test_one_failure_fails_the_whole_and_stops_nothing(self, monkeypatch, capfd):
        """Every check is run, and the last lines say how each went."""
        import sys
        monkeypatch.setattr(checks, "CHECKS", {
            "first": lambda *_: [sys.executable, "-c", "raise SystemExit(3)"],
            "second": lambda *_: [sys.executable, "-c", "print('done')"]})
        assert checks.run([], [], here=True) == 1
        assert [line.split()[:2] for line in capfd.readouterr().out.splitlines()[-2:]] == \
            [["first", "failed"], ["second", "passed"]]
        assert checks.run(["second"], [], here=True) == 0
