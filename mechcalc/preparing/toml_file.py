"""A teacher's TOML file, read with errors that a teacher understands.

Only this file opens one.
"""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

from mechcalc.errors import InputError


def toml_data(path: Path) -> dict[str, Any]:
    """What a TOML file says; a byte order mark, as some editors write it, is passed over.

    Raises
    ------
    InputError
        The file cannot be read, or is no TOML.
    """
    try:
        return tomllib.loads(path.read_text(encoding="utf-8-sig"))
    except OSError as error:
        raise InputError(f"{path} cannot be read: {error.strerror}") from None
    except (ValueError, RecursionError) as error:
        raise InputError(f"{path} is no TOML file: {error}") from None
