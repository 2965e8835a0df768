"""What a skipped test and a missing browser mean, in CI and elsewhere."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path
from xml.etree import ElementTree

import pytest
from ci_rules import find_browser, in_ci, why_no_browser

TESTS = Path(__file__).parents[1]
SAMPLES = {
    "test_call.py": "import pytest\ndef test_one(): pytest.skip('because')\n",
    "test_mark.py": "import pytest\n@pytest.mark.skipif(True, reason='because')\ndef test_one(): pass\n",
    "test_import.py": "import pytest\npytest.importorskip('no_such_module_at_all', reason='because')\n"
                      "def test_one(): pass\n",
    "test_expected.py": "import pytest\n@pytest.mark.xfail\ndef test_one(): assert False\n",
    "test_browser.py": "def test_one(system_browser): pass\n",
}


@pytest.fixture(scope="module")
def outcomes(tmp_path_factory):
    """By ``CI``'s value and by sample: what pytest made of it, and its reason. Workers are used, as always."""
    folder, found = tmp_path_factory.mktemp("samples"), {}
    for name, text in SAMPLES.items():
        (folder / name).write_text(text)
    for ci in ("true", ""):
        record = folder / "record.xml"
        code = subprocess.run(
            [sys.executable, "-m", "pytest", "-p", "ci_rules", "-p", "no:cacheprovider", "-n", "1", "--rootdir",
             str(folder), "--junitxml", str(record), str(folder)], cwd=folder, capture_output=True, check=False,
            env={**os.environ, "CI": ci, "PYTHONPATH": str(TESTS), "MECHCALC_BROWSER": "no-such-program"}).returncode
        for case in ElementTree.parse(record).iter("testcase"):
            name = (case.get("classname") or case.get("name")).split(".")[-1]
            found[ci, name] = [(part.tag, f"{part.get('message')} {part.text}") for part in case]
        found[ci, "exit code"] = code
    return found


@pytest.mark.parametrize("name", ["test_call", "test_mark", "test_import", "test_browser"])
def test_skipped_is_failed_in_ci(outcomes, name):
    """Whichever way a test was skipped; elsewhere it is skipped, with its reason."""
    reason = "MECHCALC_BROWSER is 'no-such-program'" if name == "test_browser" else "because"
    ((strict, why),) = outcomes["true", name]
    assert strict in ("failure", "error")
    assert "nothing is skipped in CI, and this was" in why
    assert reason in why
    ((easy, why),) = outcomes["", name]
    assert easy == "skipped"
    assert reason in why


def test_the_run_fails_in_ci_only(outcomes):
    """An expected failure is no skip: it was executed."""
    assert outcomes["true", "exit code"] != 0
    assert outcomes["", "exit code"] == 0
    assert outcomes["true", "test_expected"] == outcomes["", "test_expected"]


class TestBrowser:
    """Which one the browser tests use."""

    def test_the_first_usual_name(self, tmp_path):
        for name in ("google-chrome", "chromium"):
            (tmp_path / name).write_text("#!/bin/sh\n")
            (tmp_path / name).chmod(0o755)
        assert find_browser({"PATH": str(tmp_path)}) == str(tmp_path / "chromium")

    def test_the_one_that_is_named(self, tmp_path):
        mine = tmp_path / "mine"
        mine.write_text("#!/bin/sh\n")
        mine.chmod(0o755)
        assert find_browser({"PATH": "", "MECHCALC_BROWSER": str(mine)}) == str(mine)

    def test_a_named_one_that_is_not_there(self):
        """Is not replaced by another on the quiet."""
        surroundings = {**os.environ, "MECHCALC_BROWSER": "no-such-program"}
        assert find_browser(surroundings) is None
        assert why_no_browser(surroundings) == \
            "MECHCALC_BROWSER is 'no-such-program', which is no program on this machine"

    def test_none_at_all(self):
        assert find_browser({"PATH": ""}) is None
        assert "set MECHCALC_BROWSER to one" in why_no_browser({"PATH": ""})


@pytest.mark.parametrize(("value", "yes"), [("true", True), ("1", True), ("", False), ("false", False), ("0", False)])
def test_what_counts_as_ci(value, yes):
    """The variable that CI services set."""
    assert in_ci({"CI": value}) is yes
