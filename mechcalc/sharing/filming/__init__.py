"""A film of a working: MP4 or GIF, with its captions beside it.

Only this file puts script, frames and writer together.
"""

from __future__ import annotations

from os import PathLike
from pathlib import Path
from typing import TYPE_CHECKING, Any

from mechcalc.errors import InputError
from mechcalc.numbers import shown
from mechcalc.spec import MachineSpec
from mechcalc.view.subject import timeline_of
from mechcalc.whole_files import made_whole

if TYPE_CHECKING:
    from mechcalc.sharing.filming.frames import Camera, Frames
    from mechcalc.sharing.filming.script import Script
    from mechcalc.sharing.filming.writers import Writer
    from mechcalc.sharing.telling import Tell

__all__ = ["film"]
SIZE = (1920, 1080)
RATES = {".mp4": 30, ".gif": 10}
SOLID_RATE = 12  # of a solid MP4: each of its pictures takes a browser the better part of a second
SMALLEST, LARGEST = 240, 4320  # pixels of height
SAMPLES = 12


def film(what: Any, path: str | PathLike[str], *, spec: MachineSpec | None = None, title: str | None = None,
         speed: float = 1.0, words: bool = True, size: tuple[int, int] = SIZE, fps: int | None = None,
         camera: Camera | None = None, solid: bool | str = False, tell: Tell | None = None) -> tuple[Path, Path]:
    """Film a working: as MP4 or GIF, with a WebVTT file of captions beside it.

    Parameters
    ----------
    what : Machine, Working, Stroke or sequence of Stroke
        As `mechcalc.view.show` takes it; of a machine, all its strokes so far.
    path : path
        Where to; its ending, ``.mp4`` or ``.gif``, says what kind of film. The captions have the same name with
        ``.vtt``. Both files are there whole at the end, or neither.
    spec : MachineSpec, optional
        For bare strokes.
    title : str, optional
        Of the title card; the working's, or the machine's name, unless given.
    speed : float
        1 is the pace of the live view: slow where a carry is under way. Times for reading stay as they are.
    words : bool
        Whether the captions stand in the picture too; without them there is room for a player's own.
    size : tuple of int
        Width and height in pixels.
    fps : int, optional
        Frames a second; 30 for MP4 (12 for a solid one) and 10 for GIF unless given.
    camera : Camera, optional
        What takes the picture of the machine (`mechcalc.sharing.filming.frames.Camera`); the flat view unless given.
    solid : bool or str
        In three dimensions: True from one side, ``"follow"`` going near wherever a carry happens. A browser of the
        Chromium family draws it, the one that MECHCALC_BROWSER names or the first that is found, without a network.
    tell : callable, optional
        Called with the number of frames done and of all; progress is shown at the terminal or in the notebook unless
        given.

    Returns
    -------
    tuple of Path
        The film and its captions.

    Raises
    ------
    InputError
        Nothing that can be filmed; another ending; a size, a rate or a speed that cannot be; a file that cannot be
        written; no encoder here; for a solid film, no browser that draws it.
    """
    path = Path(path)
    _checked(path, size)
    from mechcalc.sharing.filming.captions import webvtt
    from mechcalc.sharing.filming.frames import Frames
    from mechcalc.sharing.filming.script import script
    camera, usual = _camera(camera, solid), RATES[path.suffix.lower()]
    usual = min(usual, SOLID_RATE) if solid else usual
    told = script(timeline_of(what, spec=spec, title=title), usual if fps is None else fps, speed)
    captions = path.with_suffix(".vtt")
    try:
        frames = Frames(told, size, camera, words)  # what cannot be drawn here is found out before a file is begun
        with made_whole(path, captions) as (film_file, captions_file):
            captions_file.write_text(webvtt(told), encoding="utf-8", newline="\n")
            _shoot(frames, film_file, size, tell, path.name)
    except OSError as error:
        raise InputError(f"{path}: the film cannot be written: {error.strerror or error}") from None
    finally:
        camera.close()
    return path, captions


def _camera(camera: Camera | None, solid: bool | str) -> Camera:
    if solid not in (False, True, "follow"):
        raise InputError(f"solid is True or 'follow', not {shown(solid)}")
    if solid and camera is not None:
        raise InputError("a film has one camera: give camera, or solid")
    if solid:
        from mechcalc.sharing.filming.solid import SolidCamera
        return SolidCamera(follow=solid == "follow")
    from mechcalc.sharing.filming.frames import FlatCamera
    return FlatCamera() if camera is None else camera


def _checked(path: Path, size: tuple[int, int]) -> None:
    if path.suffix.lower() not in RATES:
        raise InputError(f"a film is an .mp4 or a .gif, by the ending of its name: {path.name} is neither")
    fits = isinstance(size, (tuple, list)) and len(size) == 2 and all(type(side) is int for side in size)
    if not fits or not SMALLEST <= size[1] <= LARGEST or not size[1] <= size[0] <= 3 * size[1]:
        raise InputError(f"a film's size is (width, height) in pixels: a height from {SMALLEST} to {LARGEST}, and a "
                         f"width from once to three times that, not {shown(size)}")


def _shoot(frames: Frames, path: Path, size: tuple[int, int], tell: Tell | None, name: str) -> None:
    from mechcalc.sharing.telling import telling
    told = frames.script
    writer = _writer(path, size, told, frames)
    try:
        pictures = runs(frames, len(told))
        with telling(f"filming {name}, frame", tell, steps=len(pictures)) as done:
            for first, times in pictures:
                writer.add(frames.frame(first), times)
                done(first + times, len(told))
        writer.close()
    except BaseException:
        writer.abandon()
        raise


def runs(frames: Frames, count: int) -> list[tuple[int, int]]:
    """Frames that differ from the one before: the number of each, and how many times it is shown."""
    starts = [number for number in range(count) if number == 0 or not frames.same(number)]
    return [(first, then - first) for first, then in zip(starts, [*starts[1:], count], strict=True)]


def _writer(path: Path, size: tuple[int, int], told: Script, frames: Frames) -> Writer:
    from mechcalc.sharing.filming.writers import Gif, Mp4
    if path.suffix.lower() == ".mp4":
        return Mp4(path, size, told.fps)
    step = max(1, len(told) // SAMPLES)
    return Gif(path, size, told.fps, [frames.frame(number) for number in range(0, len(told), step)])
