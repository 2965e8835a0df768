"""Data from outside the project, from data/outside/*.csv; each file's head names its source and certified values.

Only this file reads them for tests.
"""

from __future__ import annotations

import csv
from pathlib import Path

FOLDER = Path(__file__).parents[2] / "data" / "outside"


def columns(name: str) -> dict[str, list[str]]:
    """The columns of a file as texts, by their headings."""
    lines = (FOLDER / f"{name}.csv").read_text(encoding="utf-8").splitlines()
    rows = list(csv.DictReader(line for line in lines if not line.startswith("#")))
    return {heading: [row[heading] for row in rows] for heading in rows[0]}
