"""Frames into a film: H.264 in MP4 by PyAV, or an animated GIF by Pillow.

Only this file knows encoders. Each writer takes a frame and how many times it is shown, keeps no more than a few in
memory, and is closed at the end.
"""

from __future__ import annotations

from collections.abc import Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from pathlib import Path
from typing import TYPE_CHECKING, Any, BinaryIO, Protocol

import numpy as np

from mechcalc.errors import InputError

if TYPE_CHECKING:
    from numpy.typing import NDArray
    from PIL import Image

    Pixels = NDArray[np.uint8]

QUALITY = {"crf": "20", "preset": "veryfast", "tune": "animation"}
KEYS = 2  # seconds from one frame that can be sought to the next
COLORS = 255  # of a GIF; the last entry of its table means "as before"
HUNDREDTHS = 100


class Writer(Protocol):
    """What a film is written with."""

    def add(self, frame: Pixels, times: int) -> None:
        """The next frame, (height, width, 4), shown `times` times."""

    def close(self) -> None:
        """Write what is left."""

    def abandon(self) -> None:
        """Stop, with the file half written."""


class Mp4:
    """A film for any player: H.264, 4:2:0, its index in front.

    Frames are converted and encoded in a thread of their own, while the next one is painted.
    """

    def __init__(self, path: Path, size: tuple[int, int], fps: int) -> None:
        try:
            import av
        except ModuleNotFoundError:
            raise InputError("an MP4 needs the package av (PyAV), which this Python does not have: install "
                             "mechcalc[film], or make a GIF") from None
        if size[0] % 2 or size[1] % 2:
            raise InputError(f"an MP4's width and height are even numbers, not {size[0]} x {size[1]}")
        self._box: Any = av.open(str(path), "w", format="mp4", options={"movflags": "+faststart"})
        self._stream: Any = self._box.add_stream("libx264", rate=fps)
        self._stream.width, self._stream.height = size
        self._stream.pix_fmt = "yuv420p"
        self._stream.options = {**QUALITY, "g": str(KEYS * fps)}
        self._new: Any = av.VideoFrame.from_ndarray
        self._thread = ThreadPoolExecutor(1)
        self._before: Future[None] | None = None

    def add(self, frame: Pixels, times: int) -> None:
        """See `Writer`."""
        if self._before is not None:
            self._before.result()
        self._before = self._thread.submit(self._encode, frame, times)

    def _encode(self, frame: Pixels, times: int) -> None:
        picture = self._new(frame, format="rgba").reformat(format="yuv420p")
        for _ in range(times):
            picture.pts = None  # one after another
            self._box.mux(self._stream.encode(picture))

    def close(self) -> None:
        """See `Writer`."""
        if self._before is not None:
            self._before.result()
        self._thread.shutdown()
        self._box.mux(self._stream.encode())
        self._box.close()

    def abandon(self) -> None:
        """See `Writer`."""
        self._thread.shutdown(cancel_futures=True)
        self._box.close()


class Gif:
    """A film that moves by itself wherever pictures are shown.

    All frames share one table of colours, made from `samples`. Of each only the rectangle that changed is written.
    """

    def __init__(self, path: Path, size: tuple[int, int], fps: int, samples: Sequence[Pixels]) -> None:
        self._fps = fps
        self._palette = shared_palette(samples)
        self._file: BinaryIO = open(path, "wb")  # noqa: SIM115  closed by close() or abandon()
        self._shown: Pixels | None = None        # what stands on the screen, as entries of the table
        self._next: Pixels | None = None         # the frame whose time is not known yet
        self._frames = self._written = 0         # so many frames ago, and hundredths of a second that were written

    def add(self, frame: Pixels, times: int) -> None:
        """See `Writer`."""
        picture = self._in_table(frame)
        if self._next is None or not np.array_equal(picture, self._next):
            self._put()
            self._next = picture
        self._frames += times

    def _in_table(self, frame: Pixels) -> Pixels:
        from PIL import Image
        picture = Image.fromarray(frame[:, :, :3]).quantize(palette=self._palette, dither=Image.Dither.NONE)
        return np.asarray(picture)

    def _put(self) -> None:
        """Write the frame that waits, with the time until now."""
        if self._next is None:
            return
        until = self._frames * HUNDREDTHS // self._fps
        self._block(self._next, until - self._written)
        self._shown, self._next, self._written = self._next, None, until

    def _block(self, picture: Pixels, hundredths: int) -> None:
        from PIL import GifImagePlugin
        if self._shown is None:
            for piece in GifImagePlugin.getheader(self._image(picture), info={"loop": 0})[0]:
                self._file.write(piece)
            part, at = picture, (0, 0)
        else:
            part, at = changed(self._shown, picture)
        while hundredths > 0:
            now = min(hundredths, 0xFFFF)
            for piece in GifImagePlugin.getdata(self._image(part), at, duration=10 * now, transparency=COLORS,
                                                disposal=1):
                self._file.write(piece)
            hundredths -= now
            part, at = np.full((1, 1), COLORS, dtype=np.uint8), (0, 0)

    def _image(self, picture: Pixels) -> Image.Image:
        from PIL import Image
        image = Image.fromarray(np.ascontiguousarray(picture))
        image.putpalette(self._palette.getpalette() or [])
        return image

    def close(self) -> None:
        """See `Writer`."""
        self._put()
        self._file.write(b";")
        self._file.close()

    def abandon(self) -> None:
        """See `Writer`."""
        self._file.close()


def shared_palette(samples: Sequence[Pixels]) -> Image.Image:
    """A picture with the table of colours that fits all samples; its last entry is left free."""
    from PIL import Image
    pixels = np.concatenate([sample[::2, ::2, :3].reshape(-1, 3) for sample in samples])
    wide = 512
    rows = -(-len(pixels) // wide)
    sheet = np.zeros((rows * wide, 3), dtype=np.uint8)
    sheet[:len(pixels)] = pixels
    found = Image.fromarray(sheet.reshape(rows, wide, 3)).quantize(COLORS, Image.Quantize.MEDIANCUT)
    table = (found.getpalette() or [])[:3 * COLORS]
    found.putpalette([*table, *[0] * (768 - len(table))])
    return found


def changed(before: Pixels, after: Pixels) -> tuple[Pixels, tuple[int, int]]:
    """The rectangle of `after` that is not as `before`, with what did not change in it left open, and its corner.

    >>> before = np.zeros((4, 5), dtype=np.uint8)
    >>> after = before.copy()
    >>> after[1, 2], after[2, 4] = 7, 8
    >>> part, at = changed(before, after)
    >>> part.tolist(), at
    ([[7, 255, 255], [255, 255, 8]], (2, 1))
    """
    differs = before != after
    rows, columns = np.flatnonzero(differs.any(axis=1)), np.flatnonzero(differs.any(axis=0))
    if not len(rows):
        return np.full((1, 1), COLORS, dtype=np.uint8), (0, 0)
    field = slice(rows[0], rows[-1] + 1), slice(columns[0], columns[-1] + 1)
    return np.where(differs[field], after[field], np.uint8(COLORS)), (int(columns[0]), int(rows[0]))
