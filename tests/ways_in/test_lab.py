"""JupyterLab as README's command one starts it."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
import time
import urllib.error
import urllib.request
from pathlib import Path

import pytest

from mechcalc.errors import InputError
from mechcalc.setup import lab, lessons
from mechcalc.setup.lab import Wish, command, settle, surroundings
from mechcalc.setup.lessons import find_lesson

ROOT = Path(__file__).parents[2]


@pytest.fixture
def source(tmp_path):
    folder = tmp_path / "originals"
    folder.mkdir()
    for name, cells in {"tens_carry": [{"cell_type": "markdown", "source": ["text\n", "# The tens carry\n"]}],
                        "ten_keys": [], "multiplication_by_shifting": None}.items():
        (folder / f"{name}.ipynb").write_text("no JSON" if cells is None else json.dumps({"cells": cells}))
    return folder


class TestLessons:
    """Which one is meant."""

    @pytest.mark.parametrize("name", ["tens_carry", "tens_carry.ipynb", "tens-carry", "Tens Carry", "tens"])
    def test_ways_of_naming_one(self, source, name):
        assert find_lesson(name, source).name == "tens_carry"

    @pytest.mark.parametrize(("name", "says"), [
        ("ten", "'ten' begins the names of several lessons: tens_carry, ten_keys"),
        ("tnes_carry", "'tnes_carry' is no lesson: did you mean 'tens_carry'?"),
        ("", "'' is no lesson: there are tens_carry, multiplication_by_shifting, ten_keys"),
        ("../secret", "'../secret' is no lesson")])
    def test_what_is_refused(self, source, name, says):
        with pytest.raises(InputError, match=re.escape(says)):
            find_lesson(name, source)

    def test_none_at_all(self, tmp_path):
        with pytest.raises(InputError, match="there are no lessons in"):
            find_lesson("tens_carry", tmp_path)

    def test_titles(self, source):
        """The first heading; the name where there is none."""
        assert [lesson.title for lesson in lessons.all_lessons(source)] == \
            ["The tens carry", "multiplication_by_shifting", "ten_keys"]

    def test_in_course_order(self, source):
        """The page that leads to them comes first; what the course does not know comes last."""
        (source / f"{lessons.FIRST}.ipynb").write_text("{}")
        assert [lesson.name for lesson in lessons.all_lessons(source)] == \
            [lessons.FIRST, "tens_carry", "multiplication_by_shifting", "ten_keys"]

    def test_it_opens_on_the_page_that_leads_to_the_lessons(self):
        assert Wish(folder=Path("mine")).lesson == lessons.FIRST == "start_here"
        assert find_lesson(lessons.FIRST).title == "Start here"


class TestCommand:
    """What JupyterLab is told."""

    def words(self, monkeypatch, user=1000, **wish):
        monkeypatch.setattr(lab.os, "geteuid", lambda: user, raising=False)
        return command(Path("python"), Path("mine"), "a.ipynb", Wish(folder=Path("mine"), **wish))

    def test_usual(self, monkeypatch):
        assert self.words(monkeypatch) == ["python", "-m", "jupyterlab", "--ip=127.0.0.1",
                                           "--ServerApp.root_dir=mine", "--LabApp.default_url=/lab/tree/a.ipynb"]

    def test_a_port_is_that_port(self, monkeypatch):
        """Not the next one that is free."""
        assert self.words(monkeypatch, port=9000)[-2:] == ["--port=9000", "--ServerApp.port_retries=0"]

    def test_no_browser(self, monkeypatch):
        assert self.words(monkeypatch, browser=False)[-1] == "--no-browser"

    def test_root(self, monkeypatch):
        """JupyterLab refuses to run as root unless told."""
        assert self.words(monkeypatch, user=0)[-1] == "--allow-root"

    def test_what_it_remembers_stays_in_the_working_folder(self, tmp_path, monkeypatch):
        """The question about news is off there; a user's later choice is kept."""
        settle(tmp_path)
        news = tmp_path / ".mechcalc" / "settings" / lab.NEWS
        assert json.loads(news.read_text()) == {"fetchNews": "false", "checkForUpdates": False}
        news.write_text('{"fetchNews": "true"}')
        settle(tmp_path)
        assert news.read_text() == '{"fetchNews": "true"}'
        variables = surroundings(tmp_path)
        assert news.is_relative_to(variables["JUPYTERLAB_SETTINGS_DIR"])
        assert Path(variables["JUPYTERLAB_WORKSPACES_DIR"]).is_relative_to(tmp_path)
        assert variables["MECHCALC_PROGRESS"] == str(tmp_path / ".mechcalc")


@pytest.fixture
def home(tmp_path):
    """Surroundings in which JupyterLab finds and leaves nothing of the user's."""
    return {**os.environ, "HOME": str(tmp_path), "JUPYTER_CONFIG_DIR": str(tmp_path / "config"),
            "JUPYTER_DATA_DIR": str(tmp_path / "data"), "JUPYTER_RUNTIME_DIR": str(tmp_path / "run"),
            "IPYTHONDIR": str(tmp_path / "ipython")}


def test_only_prepare(home, tmp_path):
    """The lessons are in the user's home, and nothing is started."""
    done = subprocess.run([sys.executable, "-m", "mechcalc", "open", "--here", "--prepare-only"], cwd=ROOT, env=home,
                          text=True, capture_output=True, check=False)
    assert (done.returncode, done.stdout) == (0, f"Your lessons are in {tmp_path / 'mechcalc-lessons'}\n")
    assert {path.name for path in (tmp_path / "mechcalc-lessons").glob("*.ipynb")} == \
        {path.name for path in (ROOT / "lessons").glob("*.ipynb")}


def answer(address: str) -> bytes:
    """What the server says; its address is printed a moment before it listens."""
    for _ in range(100):
        try:
            with urllib.request.urlopen(address, timeout=30) as said:
                return said.read()
        except urllib.error.HTTPError:
            raise
        except urllib.error.URLError:
            time.sleep(0.1)
    pytest.fail(f"no answer from {address}")


@pytest.fixture
def served(home, tmp_path):
    """JupyterLab as `open` starts it: the address that it prints, and the working folder."""
    folder = tmp_path / "mine"
    server = subprocess.Popen([sys.executable, "-m", "mechcalc", "open", "tens", "--here", "--no-browser", "--folder",
                               str(folder)], cwd=ROOT, env=home, text=True, stdout=subprocess.PIPE,
                              stderr=subprocess.STDOUT)
    try:
        said = []
        for line in server.stdout:
            said.append(line)
            if address := re.search(r"(http://127\.0\.0\.1:\d+)/lab/tree/tens_carry\.ipynb\?token=(\w+)", line):
                break
        else:
            pytest.fail("".join(said))
        yield address, folder
    finally:
        server.terminate()
        try:
            server.communicate(timeout=20)
        except subprocess.TimeoutExpired:
            server.kill()
            server.communicate()


def test_a_real_one_serves_the_lesson(served):
    """JupyterLab answers at its address, and the working copy is what it serves."""
    address, folder = served
    assert b"JupyterLab" in answer(address[0])
    about = answer(f"{address[1]}/api/contents/tens_carry.ipynb?content=0&token={address[2]}")
    assert json.loads(about)["writable"] is True
    mine, original = (json.loads((where / "tens_carry.ipynb").read_text("utf-8"))["cells"]
                      for where in (folder, ROOT / "lessons"))
    assert [cell["source"] for cell in mine] == [cell["source"] for cell in original]
    assert any(cell.get("outputs") for cell in original)
    assert not any(cell.get("outputs") or cell.get("execution_count") for cell in mine)  # answers would show


@pytest.mark.browser
def test_it_opens_on_the_lesson(served, system_browser):
    """The lesson is in front, nothing asks about news, and what JupyterLab remembers stays in the folder."""
    from playwright.sync_api import sync_playwright
    address, folder = served
    answer(address[0])
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=system_browser, args=[
            "--no-sandbox", "--disable-quic", "--no-first-run", "--disable-background-networking"])
        page = browser.new_page()
        page.goto(address[0])
        page.wait_for_selector(".jp-NotebookPanel:not(.lm-mod-hidden) h1", timeout=60_000)
        title = page.inner_text(".jp-NotebookPanel:not(.lm-mod-hidden) h1 >> nth=0")
        page.wait_for_timeout(3000)
        assert page.query_selector_all(".Toastify__toast, .jp-Dialog") == []
        browser.close()
    assert title.rstrip("\N{PILCROW SIGN}").strip() == find_lesson("tens").title
    assert list((folder / ".mechcalc" / "workspaces").iterdir())
