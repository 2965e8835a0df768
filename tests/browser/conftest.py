"""One browser and one JupyterLab for all tests of this folder."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

import pytest
from playwright.sync_api import Browser, Page, sync_playwright

from tests.browser.lab import Lab, browser_flags


@pytest.fixture(scope="session")
def browser(system_browser: str) -> Iterator[Browser]:
    """The system's Chromium."""
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=system_browser, args=browser_flags())
        yield browser
        browser.close()


@contextmanager
def watched_page(browser: Browser) -> Iterator[Page]:
    """A new page, 1280 by 720, on which an uncaught error fails the test."""
    context = browser.new_context(viewport={"width": 1280, "height": 720})
    page = context.new_page()
    errors: list[str] = []
    page.on("pageerror", lambda error: errors.append(str(error)))
    yield page
    context.close()
    assert not errors, errors


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    """A page for one test."""
    with watched_page(browser) as page:
        yield page


@pytest.fixture(scope="module")
def notebook_page(browser: Browser) -> Iterator[Page]:
    """A page for all tests of a module."""
    with watched_page(browser) as page:
        yield page


@pytest.fixture(scope="session")
def lab(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Lab]:
    """A JupyterLab on an empty folder."""
    lab = Lab(tmp_path_factory.mktemp("notebooks"), tmp_path_factory.mktemp("lab"))
    try:
        lab.wait()
        yield lab
    finally:
        lab.stop()
