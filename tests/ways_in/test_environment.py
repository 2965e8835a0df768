"""When an environment is used, brought up to date, made again, or left alone. The installer itself is replaced here;
CI runs the real one."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest

from mechcalc.setup import environment as module
from mechcalc.setup.clone import Clone, SetupError, find_clone
from mechcalc.setup.environment import NOTE, Environment, prepare


@pytest.fixture
def clone(tmp_path):
    root = tmp_path / "clone"
    (root / ".ci").mkdir(parents=True)
    (root / "pyproject.toml").write_text('[project]\nname = "mechcalc"\n')
    (root / ".ci" / "constraints.txt").write_text("attrs==1\n")
    return Clone(root)


@pytest.fixture
def installs(monkeypatch):
    """What the installer was asked for; it makes an environment without pip, which is quick."""
    asked = []
    monkeypatch.setattr(module, "_install", lambda clone, environment, extras, pinned, lock:
                        asked.append((tuple(extras), pinned)))
    monkeypatch.setattr(module, "_prove", lambda environment, extra: None)
    builder = module.venv.EnvBuilder
    monkeypatch.setattr(module.venv, "EnvBuilder", lambda with_pip, symlinks: builder(with_pip=False,
                                                                                       symlinks=symlinks))
    return asked


def interrupted(*_, **__):
    raise KeyboardInterrupt


class TestPrepare:
    """The note says ``ready`` only after the last check."""

    def test_made_once(self, clone, installs):
        """The second time nothing is installed."""
        python = prepare(clone, "lab")
        assert python == prepare(clone, "lab")
        assert installs == [(("lab",), True)]
        assert subprocess.run([python, "-c", "import sys; print(sys.prefix)"], capture_output=True, text=True,
                              check=True).stdout.strip() == str(clone.environment)

    def test_what_was_asked_for_earlier_stays(self, clone, installs):
        """Tests after lessons: both."""
        prepare(clone, "lab")
        prepare(clone, "test")
        prepare(clone, "lab")
        assert installs == [(("lab",), True), (("lab", "test"), True)]

    @pytest.mark.parametrize("file", ["pyproject.toml", ".ci/constraints.txt"])
    def test_brought_up_to_date_after_a_pull(self, clone, installs, file, capsys):
        """When what it depends on has changed."""
        prepare(clone, "lab")
        with (clone.root / file).open("a") as text:
            text.write("# changed\n")
        prepare(clone, "lab")
        assert len(installs) == 2
        assert "Bringing the environment up to date." in capsys.readouterr().err

    def test_newest_versions_are_another_environment(self, clone, installs):
        """Pinned and newest do not pass for each other."""
        prepare(clone, "lab")
        prepare(clone, "lab", pinned=False)
        assert [pinned for _, pinned in installs] == [True, False]

    @pytest.mark.parametrize("step", ["_install", "_prove"])
    def test_an_interrupted_one_is_made_again_from_nothing(self, clone, installs, monkeypatch, step, capsys):
        """Nobody can say which of its packages are whole."""
        with monkeypatch.context() as patch:
            patch.setattr(module, step, interrupted)
            with pytest.raises(KeyboardInterrupt):
                prepare(clone, "lab")
        half = clone.environment / "lib" / "half-a-package"
        half.write_text("half")
        prepare(clone, "lab")
        assert not half.exists()
        assert json.loads((clone.environment / NOTE).read_text())["state"] == "ready"
        assert "was not finished; making it again" in capsys.readouterr().err

    def test_interrupted_before_the_first_file(self, clone, installs, monkeypatch):
        """The note is written first of all."""
        with monkeypatch.context() as patch:
            patch.setattr(module.venv, "EnvBuilder", interrupted)
            with pytest.raises(KeyboardInterrupt):
                prepare(clone, "lab")
        (clone.environment / NOTE).rename(clone.environment / f"{NOTE}.new")  # as if cut off a moment earlier
        assert prepare(clone, "lab").exists()

    def test_one_whose_python_has_gone(self, clone, installs):
        """It is made again."""
        python = prepare(clone, "lab")
        python.unlink()
        assert prepare(clone, "lab").exists()
        assert len(installs) == 2

    @pytest.mark.parametrize("note", ["{", "[]", "3", ""])
    def test_a_damaged_note_counts_as_unfinished(self, clone, installs, note):
        prepare(clone, "lab")
        (clone.environment / NOTE).write_text(note)
        prepare(clone, "lab")
        assert len(installs) == 2

    def test_somebody_elses_is_left_alone(self, clone, installs):
        """It may hold anything."""
        clone.environment.mkdir()
        (clone.environment / "precious").write_text("x")
        with pytest.raises(SetupError, match="was not made by mechcalc and is left alone: choose another folder"):
            prepare(clone, "lab")
        assert [path.name for path in clone.environment.iterdir()] == ["precious"]
        assert installs == []

    def test_a_python_that_cannot_make_environments(self, clone, installs, monkeypatch):
        """As Debian ships it."""
        monkeypatch.setattr(module, "find_spec", lambda name: None)
        with pytest.raises(SetupError, match="on Debian and Ubuntu it comes with: apt install python3-venv"):
            prepare(clone, "lab")
        assert not clone.environment.exists()


class TestInstaller:
    """What happens when it fails."""

    def test_its_last_words_are_shown(self, clone):
        """Here the interpreter is a program that says no; the log keeps everything."""
        environment = Environment(clone.environment)
        environment.python.parent.mkdir(parents=True)
        environment.python.write_text("#!/bin/sh\necho no such package >&2\nexit 1\n")
        environment.python.chmod(0o755)
        with pytest.raises(SetupError, match=r"the installer failed.*\n    no such package"):
            module._install(clone, environment, ["lab"], True, ())
        assert (clone.environment / module.LOG).read_text() == "no such package\n"

    def test_an_environment_that_does_not_work_is_not_ready(self, clone):
        """The last check imports what it is for."""
        environment = Environment(clone.environment)
        environment.python.parent.mkdir(parents=True)
        environment.python.symlink_to(sys.executable)
        with pytest.raises(SetupError, match="does not work: ModuleNotFoundError"):
            module._prove(environment, "lab")


def test_this_is_a_clone():
    """The tests run from one."""
    clone = find_clone()
    assert clone is not None
    assert clone.constraints.is_file()


def test_an_installed_package_is_no_clone(tmp_path):
    """Nor is a package that lies beside another project's file."""
    assert find_clone(tmp_path / "mechcalc") is None
    (tmp_path / "pyproject.toml").write_text('[project]\nname = "other"\n')
    assert find_clone(tmp_path / "mechcalc") is None
