"""A film of the solid view, made with a real browser and read back by a decoder."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray

from mechcalc import InputError
from mechcalc.sharing import film
from mechcalc.sharing.filming import devtools
from mechcalc.sharing.filming.captions import webvtt
from mechcalc.sharing.filming.frames import Frames
from mechcalc.sharing.filming.script import Script, script
from mechcalc.sharing.filming.solid import SolidCamera
from mechcalc.view import timeline_of
from tests.sharing.films import SMALL, decoded, difference, nines

pytestmark = [pytest.mark.browser, pytest.mark.usefixtures("system_browser")]
RATE = 2


def told(fps: int = RATE) -> Script:
    return script(timeline_of(nines(), title="nines"), fps, 4.0)


def quiet(done: int, total: int) -> None:
    """Progress for nobody."""


def field(frame: NDArray[np.uint8]) -> NDArray[np.uint8]:
    """The picture of the machine, without heading and words."""
    height = frame.shape[0]
    return frame[round(0.1 * height):round(0.77 * height), 20:-20, :3]


def above(frame: NDArray[np.uint8]) -> NDArray[np.uint8]:
    """The top of the picture, right of the sentence that may stand there: paper, where the machine is whole."""
    picture = field(frame)
    return picture[:picture.shape[0] // 12, picture.shape[1] // 2:]


def orange(frame: NDArray[np.uint8]) -> int:
    """How many points are of the colour of a carry lever in action, in light or in shade."""
    red, green, blue = np.moveaxis(field(frame).astype(int), 2, 0)
    return int(np.count_nonzero((red > 100) & (red > 1.8 * green) & (red > 3 * blue)))


def colours(frame: NDArray[np.uint8]) -> int:
    """How many colours there are, of sixteen shades each."""
    return len(np.unique((field(frame) >> 4).reshape(-1, 3), axis=0))


@pytest.fixture
def temporary(monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """A folder of its own for what is temporary; its name is as short as such names are."""
    with tempfile.TemporaryDirectory() as folder:
        monkeypatch.setattr(tempfile, "tempdir", folder)
        yield Path(folder)


@pytest.fixture(scope="module")
def frames(system_browser: str) -> Iterator[Frames]:
    """Frames of a film that follows the carry."""
    camera = SolidCamera(follow=True)
    try:
        yield Frames(told(12), SMALL, camera)
    finally:
        camera.close()


class TestFilm:
    """What comes out of the decoder."""

    def test_follows_the_carry(self, tmp_path: Path, temporary: Path) -> None:
        """Size, length, frames and captions are those of the script; half way through the ripple a solid is seen, with
        the lever in action large in it; nothing is left behind."""
        path, captions = film(nines(), tmp_path / "nines.mp4", solid="follow", title="nines", size=SMALL, fps=RATE,
                              speed=4.0, tell=quiet)
        reel, shown = told(), decoded(path)
        assert shown.size == SMALL
        assert len(shown.frames) == len(reel)
        assert sum(shown.seconds) == pytest.approx(reel.seconds, abs=0.02)
        assert captions.read_text(encoding="utf-8") == webvtt(reel)
        moments = [moment for moment in reel.timeline["moments"] if "pin deflected" in moment["kinds"]]
        half_way = shown.frames[reel.frame_at(moments[len(moments) // 2]["at"])]
        whole = shown.frames[reel.frame_at(reel.timeline["strokes"][1]["from"] + 100)]
        assert colours(half_way) > 40
        assert orange(half_way) > 5 * orange(whole) + 100
        assert colours(whole) > 40
        assert difference(field(half_way), field(whole)) > 10
        assert list(temporary.iterdir()) == []

    def test_a_gif_from_one_side(self, tmp_path: Path) -> None:
        """The machine as a whole, and every frame of it the same but for what moves."""
        path, _ = film(nines(), tmp_path / "nines.gif", solid=True, size=SMALL, fps=1, speed=20.0, tell=quiet)
        first, last = (shown := decoded(path)).frames[1], shown.frames[-1]
        assert colours(first) > 40
        assert difference(above(first), above(last)) < 2
        assert difference(field(first), field(last)) > 0.2


class TestFrames:
    """Which frame shows what."""

    def test_a_frame_is_drawn_before_it_is_shot(self, frames: Frames) -> None:
        """Whatever was shot before it: to and fro, the same frame is the same picture."""
        reel = frames.script
        carry = next(moment for moment in reel.timeline["moments"] if "carry step" in moment["kinds"])
        near, far = reel.frame_at(carry["at"]), reel.card
        once = {number: frames.frame(number) for number in (near, far)}
        for number in (near, near + 1, far, near):
            again = frames.frame(number)
            if number in once:
                assert np.array_equal(again, once[number])
        assert difference(once[near], once[far]) > 5

    def test_the_camera_moves_while_the_machine_stands(self, frames: Frames) -> None:
        """So these frames are shot too; where neither moves, one is enough."""
        reel = frames.script
        stands = [number for number in range(reel.card + 1, len(reel))
                  if reel.travel(number) == reel.travel(number - 1)]
        goes = [number for number in stands if frames.moving and frames.moving.moves(number)]
        assert 0 < len(goes) < len(stands)
        assert not any(frames.same(number) for number in goes)
        assert difference(frames.frame(goes[0] - 1), frames.frame(goes[0])) > 0.5

    def test_it_ends_with_the_whole_machine(self, frames: Frames) -> None:
        """As it began: no lever large in the picture, and the paper free all round; near a carry it is not."""
        reel = frames.script
        first, last = frames.frame(reel.card), frames.frame(len(reel) - 1)
        carry = next(moment for moment in reel.timeline["moments"] if "carry step" in moment["kinds"])
        near = frames.frame(reel.frame_at(carry["at"]))
        assert orange(last) < 50
        assert difference(above(first), above(last)) < 1
        assert difference(above(first), above(near)) > 5


class TestNothingIsLeft:
    """No half film, no profile, no browser."""

    def test_interrupted(self, tmp_path: Path, temporary: Path) -> None:
        def stop(done: int, total: int) -> None:
            if done > total // 3:
                raise KeyboardInterrupt

        path = tmp_path / "a.mp4"
        path.write_bytes(b"before")
        with pytest.raises(KeyboardInterrupt):
            film(nines(), path, solid=True, size=SMALL, fps=1, speed=20.0, tell=stop)
        assert path.read_bytes() == b"before"
        assert [entry.name for entry in tmp_path.iterdir()] == ["a.mp4"]
        assert list(temporary.iterdir()) == []

    @pytest.mark.skipif(os.name == "nt", reason="Ctrl-C is sent to a process in another way there")
    def test_ctrl_c_at_the_command_line(self, tmp_path: Path, temporary: Path) -> None:
        """In the middle of the work: the folder holds what it held, and the browser is gone with its profile."""
        command = [sys.executable, "-m", "mechcalc", "film", "99 + 1", str(tmp_path / "a.mp4"), "--machine", "slate",
                   "--solid", "--follow", "--size", "480x270"]
        run = subprocess.Popen(command, env={**os.environ, "TMPDIR": str(temporary)}, stderr=subprocess.PIPE, text=True)
        until = time.monotonic() + 60
        while not list(tmp_path.glob(".a.*.mp4")) and run.poll() is None and time.monotonic() < until:
            time.sleep(0.05)
        time.sleep(1.0)
        run.send_signal(signal.SIGINT)
        _, said = run.communicate(timeout=60)
        assert run.returncode not in (0, None)
        assert "Traceback" not in said
        assert list(tmp_path.iterdir()) == []
        assert list(temporary.iterdir()) == []

    def test_without_webgl(self, tmp_path: Path, temporary: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        """It says why, before anything is written."""
        monkeypatch.setattr(devtools, "FLAGS", (*devtools.FLAGS, "--disable-3d-apis"))
        with pytest.raises(InputError, match=r"this browser gives no WebGL.*Film it flat, or name another browser"):
            film(nines(), tmp_path / "a.mp4", solid=True, size=SMALL, tell=quiet)
        assert list(tmp_path.iterdir()) == []
        assert list(temporary.iterdir()) == []
