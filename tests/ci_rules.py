"""The rules that differ between CI and everybody else's machine.

Only this file decides what a missing browser or a skipped test means. In CI a skipped test is a failed one, at the
very test; elsewhere it is skipped with its reason. `conftest.py` takes this file in as a plugin.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Mapping

import pytest

BROWSERS = ("chromium", "chromium-browser", "google-chrome-stable", "google-chrome", "chrome", "microsoft-edge",
            "msedge")
VARIABLE = "MECHCALC_BROWSER"


def in_ci(environ: Mapping[str, str] = os.environ) -> bool:
    """Whether this is a run in CI."""
    return environ.get("CI", "").lower() not in ("", "0", "false")


def find_browser(environ: Mapping[str, str] = os.environ) -> str | None:
    """The path of a browser of the Chromium family: the one that MECHCALC_BROWSER names, or the first usual name."""
    named = environ.get(VARIABLE)
    names = (named,) if named else BROWSERS
    paths = (shutil.which(name, path=environ.get("PATH")) for name in names)
    return next((path for path in paths if path), None)


def why_no_browser(environ: Mapping[str, str] = os.environ) -> str:
    """The reason to give where `find_browser` finds none."""
    if environ.get(VARIABLE):
        return f"{VARIABLE} is {environ[VARIABLE]!r}, which is no program on this machine"
    return f"no browser of the Chromium family found ({', '.join(BROWSERS)}); set {VARIABLE} to one"


@pytest.fixture(scope="session")
def system_browser() -> str:
    """The system's Chromium, as a path; the test is skipped where there is none (and so fails in CI)."""
    path = find_browser()
    if path is None:
        pytest.skip(why_no_browser())
    return path


def _not_in_ci(report: pytest.TestReport | pytest.CollectReport, where: str) -> None:
    if report.outcome != "skipped" or hasattr(report, "wasxfail") or not in_ci():
        return
    reason = report.longrepr[2] if isinstance(report.longrepr, tuple) else str(report.longrepr)
    report.outcome = "failed"
    report.longrepr = f"{where}: nothing is skipped in CI, and this was: {reason}"


@pytest.hookimpl(wrapper=True, tryfirst=True)
def pytest_runtest_makereport(item, call):
    report = yield
    _not_in_ci(report, item.nodeid)
    return report


@pytest.hookimpl(wrapper=True, tryfirst=True)
def pytest_make_collect_report(collector):
    report = yield
    _not_in_ci(report, collector.nodeid)
    return report
