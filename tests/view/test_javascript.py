"""The view's JavaScript, tested by node's own runner on timelines that Python writes for this run."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
from pathlib import Path

import pytest

from tests.view.sessions import for_javascript

FOLDER = Path(__file__).parent.parent / "js"


def test_javascript(tmp_path: Path) -> None:
    """All of tests/js/*.test.mjs pass; without node this is skipped, and in CI that is a failure."""
    node = shutil.which("node")
    if node is None:
        pytest.skip("node (20 or later) runs the tests of the view's JavaScript, and there is none")
    timelines = tmp_path / "timelines.json"
    timelines.write_text(json.dumps(for_javascript()), encoding="utf-8")
    files = sorted(str(path) for path in FOLDER.glob("*.test.mjs"))
    assert len(files) >= 4
    run = subprocess.run([node, "--test", "--test-reporter=spec", *files], capture_output=True, text=True, timeout=120,
                         env={**os.environ, "MECHCALC_TIMELINES": str(timelines)}, check=False)
    assert run.returncode == 0, run.stdout[-6000:] + run.stderr[-2000:]
    assert "pass 0" not in run.stdout
