"""The kit as a package: it carries its machines and its lessons, and its command works."""

from __future__ import annotations

import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def wheel(tmp_path_factory):
    """Built without a network."""
    folder = tmp_path_factory.mktemp("wheel")
    subprocess.run([sys.executable, "-m", "pip", "wheel", "--quiet", "--no-deps", "--no-index",
                    "--no-build-isolation", "--wheel-dir", str(folder), str(ROOT)], check=True, capture_output=True,
                   cwd=folder)
    (path,) = folder.glob("mechcalc-*.whl")
    return path


@pytest.fixture(scope="module")
def installed(wheel, tmp_path_factory):
    """Put into a folder of its own."""
    folder = tmp_path_factory.mktemp("installed")
    subprocess.run([sys.executable, "-m", "pip", "install", "--quiet", "--no-deps", "--no-index", "--no-compile",
                    "--target", str(folder), str(wheel)], check=True, capture_output=True, cwd=folder)
    return folder


def run(installed: Path, *argv: str) -> subprocess.CompletedProcess[str]:
    """A command of the installed kit, somewhere else than in the clone."""
    return subprocess.run([sys.executable, *argv], cwd=installed, text=True, capture_output=True, check=False,
                          env={**os.environ, "PYTHONPATH": str(installed), "HOME": str(installed)})


@pytest.mark.parametrize("folder", ["data", "lessons"])
def test_everything_is_in_it(wheel, folder):
    """Every machine and every lesson."""
    names = set(zipfile.ZipFile(wheel).namelist())
    ours = {f"mechcalc/{path.relative_to(ROOT).as_posix()}" for path in (ROOT / folder).rglob("*")
            if path.is_file() and not any(part.startswith((".", "__")) for part in path.relative_to(ROOT).parts)}
    assert ours
    assert ours <= names


def test_nothing_else_is(wheel):
    """No tests, no caches."""
    tops = {name.split("/")[0] for name in zipfile.ZipFile(wheel).namelist()}
    assert {top for top in tops if not top.endswith(".dist-info")} == {"mechcalc"}
    assert not [name for name in zipfile.ZipFile(wheel).namelist() if "__pycache__" in name or "/." in name]


def test_the_console_command_works(installed):
    """It reads the machines that came with it."""
    done = run(installed, str(installed / "bin" / "mechcalc"), "machines")
    assert (done.returncode, done.stderr) == (0, "")
    assert "bench" in done.stdout
    where = run(installed, "-c", "import mechcalc.catalogue as c; print(c.shipped('data'))").stdout.strip()
    assert where == str(installed / "mechcalc" / "data")


def test_lessons_come_from_the_package(installed):
    """With JupyterLab in the same Python; no clone and no environment of the kit's own is needed."""
    done = run(installed, "-m", "mechcalc", "open", "--prepare-only", "--folder", "mine")
    assert done.returncode == 0, done.stderr
    assert done.stdout == f"Your lessons are in {installed / 'mine'}\n"
    assert (installed / "mine" / "tens_carry.ipynb").is_file()


def test_checks_need_a_clone(installed):
    """Said in one line."""
    done = run(installed, "-m", "mechcalc", "check")
    assert done.returncode == 2
    assert done.stderr == ("mechcalc: check works in a clone of the project only, and this mechcalc was installed as "
                           "a package\n")
