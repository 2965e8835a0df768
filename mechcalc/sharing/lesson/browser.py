"""The system's browser as a printer: from an HTML page to a tagged PDF.

Only this file starts a browser. It is one of the Chromium family, run without a window and without a network, with a
profile of its own that is thrown away.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from mechcalc.errors import InputError

VARIABLE = "MECHCALC_BROWSER"
NAMES = ("chromium", "chromium-browser", "google-chrome-stable", "google-chrome", "chrome", "microsoft-edge", "msedge")
PATIENCE = 120  # seconds
QUIET = ("--headless", "--disable-gpu", "--no-first-run", "--disable-background-networking",
         "--disable-component-update", "--disable-sync", "--disable-quic", "--disable-extensions",
         "--no-pdf-header-footer", "--generate-pdf-document-outline",
         "--host-resolver-rules=MAP * ~NOTFOUND")
NONE_HERE = (f"a PDF of a lesson is printed by a browser of the Chromium family, and none was found: name one in "
             f"{VARIABLE}, or write an .html and print it from the browser that you have")


def browser() -> str | None:
    """The browser that the variable names, or the first of the usual names that is there."""
    named = os.environ.get(VARIABLE)
    return shutil.which(named) if named else next(filter(None, map(shutil.which, NAMES)), None)


def printed(page: str) -> bytes:
    """A page as PDF.

    Raises
    ------
    InputError
        There is no browser, or it prints nothing.
    """
    found = browser()
    if found is None:
        raise InputError(NONE_HERE)
    with tempfile.TemporaryDirectory(prefix="mechcalc-", ignore_cleanup_errors=True) as folder:
        source, target = Path(folder, "page.html"), Path(folder, "page.pdf")
        source.write_text(page, encoding="utf-8")
        command = [found, *QUIET, f"--user-data-dir={folder}/profile", f"--print-to-pdf={target}", source.as_uri()]
        if sys.platform == "linux" and os.geteuid() == 0:
            command.insert(1, "--no-sandbox")  # as root a browser has no sandbox; the page holds no script
        try:
            run = subprocess.run(command, capture_output=True, text=True, timeout=PATIENCE, check=False)
        except subprocess.TimeoutExpired:
            raise InputError(f"{found} has not printed the page within {PATIENCE} seconds") from None
        if not target.is_file() or not target.stat().st_size:
            said = (run.stderr.strip().splitlines() or ["it said nothing"])[-1]
            raise InputError(f"{found} has printed nothing: {said}")
        return target.read_bytes()
