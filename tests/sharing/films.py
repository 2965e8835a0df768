"""Machines to film, and a film read back frame by frame."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import av
import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageSequence

from mechcalc import Machine, load_spec

SMALL = (480, 270)


def nines(name: str = "slate") -> Machine:
    """As many nines as there are levers, + 1: a carry that goes through all of them."""
    machine = Machine(load_spec(name))
    machine.set(10**machine.spec.setting_places - 1)
    machine.turn()
    machine.set(1)
    machine.turn()
    return machine


@dataclass
class Decoded:
    """What came out of a decoder."""

    frames: list[NDArray[np.uint8]]
    seconds: list[float]  # how long each is shown
    size: tuple[int, int]

    def at(self, second: float) -> NDArray[np.uint8]:
        """The picture that is shown at a time."""
        ends = np.cumsum(self.seconds)
        return self.frames[int(np.searchsorted(ends, second, side="right"))]


def decoded(path: Path) -> Decoded:
    """Every frame of an MP4 or a GIF."""
    if path.suffix == ".gif":
        with Image.open(path) as gif:
            frames, times = [], []
            for frame in ImageSequence.Iterator(gif):
                frames.append(np.asarray(frame.convert("RGB")))
                times.append(frame.info["duration"] / 1000)
            return Decoded(frames, times, gif.size)
    with av.open(str(path)) as box:
        stream = box.streams.video[0]
        frames = [frame.to_ndarray(format="rgb24") for frame in box.decode(video=0)]
        assert stream.frames == len(frames)
        rate = float(stream.average_rate or 0)
        return Decoded(frames, [1 / rate] * len(frames), (stream.width, stream.height))


def difference(one: NDArray[np.uint8], other: NDArray[np.uint8]) -> float:
    """How far two pictures are apart: the mean over pixels and colours, of 255."""
    return float(np.abs(one[..., :3].astype(int) - other[..., :3]).mean())
