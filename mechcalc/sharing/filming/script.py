"""The script of a film: where the playhead stands in each frame, and which words stand under it.

Only this file decides how long a film takes over what. The speed is that of the live view (`mechcalc.view.pace`). What
a film adds is time to read: the first carry is explained, so each of its moments stands still until its words can
be read; later carries stand for a moment when the next wheel has stepped.
"""

from __future__ import annotations

from array import array
from dataclasses import dataclass, field
from typing import Any

from mechcalc.errors import InputError
from mechcalc.view.pace import Pace
from mechcalc.view.timeline import Timeline

CARD = 4.0        # seconds of the title card
CLOSING = 2.5     # seconds of the last picture
BETWEEN = 0.4     # seconds at rest after a stroke
READ = 18.0       # characters a second that are read at ease: common practice, no source
STAND = 0.9       # seconds after a carry that has been explained before
SHORTEST = 1.2    # seconds that words stand at least, while their stroke lasts: what follows sooner is added to them
LINES = 3         # moments that may share a caption
CARRYING = {"lever out", "pin deflected", "carry step", "bell"}


@dataclass(frozen=True, slots=True)
class Cue:
    """Words, and the frames under which they stand: from `first` to before `end`."""

    first: int
    end: int
    words: str


@dataclass(frozen=True, slots=True)
class Script:
    """A film before it is made.

    Attributes
    ----------
    timeline : dict
        What is filmed.
    fps : int
        Frames a second.
    card : int
        How many frames the title card stands.
    travels : array of float
        Degrees of travel, one for each frame after the card.
    cues : tuple of Cue
        Captions in order; the first is the card's. They do not overlap.
    """

    timeline: Timeline
    fps: int
    card: int
    travels: array[float]
    cues: tuple[Cue, ...]

    def __len__(self) -> int:
        return self.card + len(self.travels)

    @property
    def seconds(self) -> float:
        """How long the film is."""
        return len(self) / self.fps

    def travel(self, frame: int) -> float | None:
        """Where the playhead stands in a frame; None while the title card stands."""
        return None if frame < self.card else self.travels[frame - self.card]

    def frame_at(self, travel: float) -> int:
        """The first frame in which the playhead has come to a travel."""
        return self.card + next(number for number, at in enumerate(self.travels) if at >= travel - 1e-9)


def script(timeline: Timeline, fps: int = 30, speed: float = 1.0) -> Script:
    """The script for a timeline.

    Parameters
    ----------
    timeline : dict
        Of `mechcalc.view.timeline_of`, with at least one stroke.
    fps : int
        Frames a second.
    speed : float
        1 is the live view's own pace; 0.5 is half as fast. Times for reading stay.

    Raises
    ------
    InputError
        Nothing to film; a rate or a speed that cannot be.

    Examples
    --------
    >>> from mechcalc import Machine, load_spec
    >>> from mechcalc.view import timeline_of
    >>> m = Machine(load_spec("slate"))
    >>> _ = m.set(7); _ = m.turn(2)
    >>> told = script(timeline_of(m, title="7 and 7"))
    >>> [cue.words for cue in told.cues][:4]
    ['7 and 7', 'Set 7', 'One additive turn', 'One additive turn']
    >>> told.cues[4].words
    'Wheel 1 passed between 9 and 0: the carry lever is out.'
    """
    if not timeline["strokes"]:
        raise InputError("there is no stroke to film")
    if isinstance(fps, bool) or not isinstance(fps, int) or not 1 <= fps <= 60:
        raise InputError(f"a film has 1 to 60 frames a second, a whole number, not {fps!r}")
    if not 0.05 <= speed <= 20:
        raise InputError(f"a film's speed is from 0.05 to 20, not {speed!r}")
    reel = _Reel(timeline, fps, speed)
    reel.run()
    return Script(timeline, fps, reel.card, reel.travels, tuple(reel.cues))


@dataclass(slots=True)
class _Reel:
    """Frames as they are laid down, and the captions over them."""

    timeline: Timeline
    fps: int
    speed: float
    card: int = 0
    travels: array[float] = field(default_factory=lambda: array("d"))
    cues: list[Cue] = field(default_factory=list)
    explained: set[str] = field(default_factory=set)
    lines: list[str] = field(default_factory=list)
    begun: int = 0  # the frame from which what stands now is read
    laid: int = 0   # the frame since which it stands as it does

    def run(self) -> None:
        pace = Pace(self.timeline)
        self.card = round(CARD * self.fps)
        self.begun = self.laid = self.card
        self.cues.append(Cue(0, self.card, self.timeline["title"] or self.timeline["machine"]["name"]))
        moments = [moment for moment in self.timeline["moments"] if CARRYING & {*moment["kinds"]}]
        for index, stroke in enumerate(self.timeline["strokes"]):
            self._say(_sentence(stroke["words"]))
            for moment in (one for one in moments if one["stroke"] == index):
                self._glide(pace, moment["from"])
                self._say(moment["words"], joining=True)
                self._glide(pace, moment["at"])
                self._stand(self._pause(moment))
            self._glide(pace, stroke["to"])
            last = index == len(self.timeline["strokes"]) - 1
            self._stand(CLOSING if last else BETWEEN)
        self._say("")

    @property
    def frames(self) -> int:
        return self.card + len(self.travels)

    @property
    def at(self) -> float:
        return self.travels[-1] if self.travels else 0.0

    def _glide(self, pace: Pace, to: float) -> None:
        """Frames on the way to a travel; the last of them shows it exactly."""
        while self.at < to - 1e-9:
            self.travels.append(min(pace.advance(self.at, 1 / self.fps, self.speed), to))

    def _stand(self, seconds: float) -> None:
        self.travels.extend([self.at] * round(seconds * self.fps))

    def _pause(self, moment: dict[str, Any]) -> float:
        """Seconds for which a moment stands still."""
        kinds = CARRYING & {*moment["kinds"]}
        if kinds - self.explained:
            self.explained |= kinds
            return max(0.0, len(moment["words"]) / READ - (self.frames - self.begun) / self.fps)
        return STAND if kinds & {"carry step", "bell"} else 0.0

    def _say(self, words: str, joining: bool = False) -> None:
        """End the caption that stands and begin another; to a short one the next of its stroke is added."""
        if self.lines and self.frames > self.laid:
            self.cues.append(Cue(self.laid, self.frames, "\n".join(self.lines)))
        short = self.frames - self.begun < SHORTEST * self.fps
        self.laid = self.frames
        if joining and short and len(self.lines) in range(1, LINES):
            self.lines = [*self.lines, words]
        else:
            self.begun, self.lines = self.frames, [words] if words else []


def _sentence(words: str) -> str:
    return words[:1].upper() + words[1:]

