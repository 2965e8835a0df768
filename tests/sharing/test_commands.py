"""What leaves the notebook, from the command line."""

from __future__ import annotations

from pathlib import Path

import pytest

from mechcalc.cli import run
from mechcalc.cli.sharing import COMMANDS

SLATE = ("--machine", "slate")


def said(capsys: pytest.CaptureFixture[str], *argv: str, code: int = 0) -> str:
    """What a command prints; where it refuses, on standard error."""
    assert run(argv) == code
    printed = capsys.readouterr()
    assert (printed.err == "") == (code == 0)
    return printed.out if code == 0 else printed.err


def test_a_film_with_its_captions(capsys, tmp_path: Path) -> None:
    path = tmp_path / "a.gif"
    out = said(capsys, "film", "34 + 8", str(path), *SLATE, "--size", "480x270", "--speed", "20", "--no-words")
    assert out == f"Written: {path}\nWritten: {tmp_path / 'a.vtt'}\n"
    assert path.read_bytes()[:6] == b"GIF89a"


def test_a_poster(capsys, tmp_path: Path) -> None:
    path = tmp_path / "a.pdf"
    assert said(capsys, "poster", "slate", str(path)) == f"Written: {path}\n"
    assert path.read_bytes()[:5] == b"%PDF-"


def test_a_working_on_paper(capsys, tmp_path: Path) -> None:
    path = tmp_path / "a.html"
    assert said(capsys, "print", "34 x 8", str(path), *SLATE, "--paper", "letter") == f"Written: {path}\n"
    assert "34 × 8 = 272" in path.read_text(encoding="utf-8")


def test_a_lesson_on_paper(capsys, tmp_path: Path) -> None:
    path = tmp_path / "a.html"
    assert said(capsys, "handout", "tens", str(path), "--teacher") == f"Written: {path}\n"
    assert "For the teacher" in path.read_text(encoding="utf-8")


def test_slides(capsys, tmp_path: Path) -> None:
    out = said(capsys, "slides", "99 + 1", str(tmp_path / "s"), *SLATE)
    assert out == f"2 slides\nWritten: {tmp_path / 's' / 'index.html'}\n"
    out = said(capsys, "slides", "99 + 1", str(tmp_path / "s"), *SLATE, "--at", "100", "--replace")
    assert out.startswith("1 slide\n")


def test_a_kiosk(capsys, tmp_path: Path) -> None:
    path = tmp_path / "a.html"
    assert said(capsys, "kiosk", "99 + 1", str(path), *SLATE, "--idle", "90") == f"Written: {path}\n"
    assert '{"idle": 90.0' in path.read_text(encoding="utf-8")


@pytest.mark.parametrize("argv", [("film", "3 + 4", "a.gif"), ("poster", "slate", "a.pdf"),
                                  ("print", "3 + 4", "a.html"), ("handout", "tens", "a.html"),
                                  ("kiosk", "3 + 4", "a.html")])
def test_what_is_there_stays(capsys, tmp_path: Path, argv: tuple[str, ...]) -> None:
    """Without --replace, and before any work is done."""
    path = tmp_path / argv[-1]
    path.write_text("before")
    error = said(capsys, *argv[:-1], str(path), code=2)
    assert error == f"mechcalc: {path} is there already: choose another name, or add --replace\n"
    assert path.read_text() == "before"


@pytest.mark.parametrize("size", ["480", "480x", "x270", "-1x5", "wide"])
def test_sizes(capsys, size: str) -> None:
    with pytest.raises(SystemExit):
        run(["film", "3 + 4", "a.gif", f"--size={size}"])
    assert "a size is a width and a height, such as 1280x720" in capsys.readouterr().err


@pytest.mark.parametrize("name", COMMANDS)
def test_each_explains_itself(capsys, name: str) -> None:
    with pytest.raises(SystemExit):
        run([name, "--help"])
    assert COMMANDS[name][2].split()[0] in capsys.readouterr().out
