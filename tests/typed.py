"""Commands as somebody types them, and what comes of them."""

from __future__ import annotations

from mechcalc.cli import run


def words(capsys, *argv: str) -> str:
    """What a command prints; it must succeed and be silent on standard error."""
    assert run(argv) == 0
    printed = capsys.readouterr()
    assert printed.err == ""
    return printed.out


def refused(capsys, *argv: str) -> str:
    """What a command refuses with, on standard error."""
    try:
        code = run(argv)
    except SystemExit as end:
        code = end.code
    printed = capsys.readouterr()
    assert code == 2
    assert printed.out == ""
    return printed.err
