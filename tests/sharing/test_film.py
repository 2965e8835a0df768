"""A film of a working, read back by a decoder that had no part in making it look right."""

from __future__ import annotations

import re
import sys
import tracemalloc
from html import unescape
from pathlib import Path

import numpy as np
import pytest

from mechcalc import InputError, Machine, load_spec
from mechcalc.methods import multiply
from mechcalc.sharing import film, telling as telling_room
from mechcalc.sharing.filming.captions import webvtt
from mechcalc.sharing.filming.frames import FlatCamera, Frames
from mechcalc.sharing.filming.script import BETWEEN, CARD, CLOSING, Script, script
from mechcalc.sharing.filming.writers import COLORS, changed
from mechcalc.view import timeline_of
from mechcalc.view.timeline import Timeline
from tests.sharing.films import SMALL, decoded, difference, nines

NASTY = "12 --> <b>34</b> & co"


def told(machine: Machine, **options: float) -> Script:
    return script(timeline_of(machine, title="nines"), **options)  # type: ignore[arg-type]


def quiet(done: int, total: int) -> None:
    """Progress for nobody."""


class TestTheScript:
    """Which frame shows what."""

    def test_it_shows_all_of_the_working(self) -> None:
        """From the first degree to the last, forwards, and never more than the live view's fastest pace."""
        reel = told(nines())
        steps = np.diff(np.array([0.0, *reel.travels]))
        assert reel.travels[-1] == reel.timeline["length"]
        assert steps.min() >= 0
        assert steps.max() <= 110 / reel.fps + 1e-9

    def test_every_stroke_and_carry_has_a_frame_of_its_own(self) -> None:
        """The end of each stroke, and the end of each carry's step, are seen exactly."""
        reel = told(nines())
        seen = set(reel.travels)
        assert {stroke["to"] for stroke in reel.timeline["strokes"]} <= seen
        assert {moment["at"] for moment in reel.timeline["moments"] if "carry step" in moment["kinds"]} <= seen

    def test_slow_where_a_carry_is_under_way(self) -> None:
        """One degree of a carry takes at least five times as long as one of a turn in which nothing happens."""
        reel = told(nines())
        travels = np.array(reel.travels)
        first = reel.timeline["strokes"][3]["from"]
        inside = np.count_nonzero((travels > first + 226) & (travels < first + 232)) / 6
        outside = np.count_nonzero((travels > first + 20) & (travels < first + 120)) / 100
        assert inside > 5 * outside

    def test_the_first_carry_can_be_read(self) -> None:
        """Each of its moments stands for one second in eighteen characters at least."""
        reel = told(nines())
        for words in ("the carry lever is out", "pushes the additive carry pin", "The carry reaches wheel 2"):
            cue = next(cue for cue in reel.cues if words in cue.words)
            assert (cue.end - cue.first) / reel.fps >= len(cue.words) / 18 - 0.05

    def test_captions_do_not_overlap_and_leave_no_gap(self) -> None:
        """One ends where the next begins; the last one ends with the film."""
        reel = told(nines())
        assert reel.cues[0].first == 0
        assert [cue.end for cue in reel.cues[:-1]] == [cue.first for cue in reel.cues[1:]]
        assert reel.cues[-1].end == len(reel)

    def test_no_caption_is_early(self) -> None:
        """What a caption says of a carry has begun when it comes up."""
        reel = told(nines())
        for moment in reel.timeline["moments"]:
            if {"carry step", "pin deflected"} & {*moment["kinds"]}:
                cue = next(cue for cue in reel.cues if moment["words"] in cue.words)
                assert reel.travel(cue.first) >= moment["from"] - 1e-6  # type: ignore[operator]

    def test_half_the_speed_takes_twice_as_long(self) -> None:
        """Times that stand still apart: the title card, rests between strokes, the end."""
        machine = Machine(load_spec("slate"))
        machine.set(12)
        machine.turn(2)
        still = CARD + 2 * BETWEEN + CLOSING
        one, half = (told(machine, speed=speed).seconds - still for speed in (1.0, 0.5))
        assert half == pytest.approx(2 * one, rel=0.02)

    @pytest.mark.parametrize("options", [{"fps": 0}, {"fps": 61}, {"fps": 12.5}, {"speed": 0.0}, {"speed": 21.0},
                                         {"speed": float("nan")}])
    def test_what_cannot_be(self, options: dict[str, float]) -> None:
        with pytest.raises(InputError, match="a film"):
            told(nines(), **options)


class TestCaptions:
    """A WebVTT file, by the rules of the standard (W3C, WebVTT; the grammar below is from memory)."""

    def cues(self, text: str) -> list[tuple[float, float, str]]:
        head, *blocks = text.rstrip("\n").split("\n\n")
        assert head == "WEBVTT"
        found = []
        for number, block in enumerate(blocks, start=1):
            first, times, *words = block.split("\n")
            assert first == str(number)
            match = re.fullmatch(r"(\d\d+):(\d\d):(\d\d)\.(\d{3}) --> (\d\d+):(\d\d):(\d\d)\.(\d{3})", times)
            assert match is not None
            h, m, s, t, h2, m2, s2, t2 = map(int, match.groups())
            assert words
            assert not any("-->" in line or re.search(r"[<>]", line) for line in words)
            found.append((h * 3600 + m * 60 + s + t / 1000, h2 * 3600 + m2 * 60 + s2 + t2 / 1000,
                          unescape("\n".join(words))))
        return found

    def test_times_are_those_of_the_frames(self) -> None:
        """A caption begins when the first frame under it does, within a thousandth of a second."""
        reel = told(nines())
        for (begin, end, words), cue in zip(self.cues(webvtt(reel)), reel.cues, strict=True):
            assert (begin, end) == pytest.approx((cue.first / reel.fps, cue.end / reel.fps), abs=0.001)
            assert words == cue.words

    def test_a_title_is_text(self) -> None:
        """No tag and no time can be smuggled in by a name, nor a line that ends the cue."""
        reel = script(timeline_of(nines(), title=NASTY + "\n\n00:00 --> 01:00\nmore"))
        first = self.cues(webvtt(reel))[0][2]
        assert first == NASTY + "\n00:00 --> 01:00\nmore"


class TestTheFilm:
    """Files that a player can play."""

    @pytest.mark.parametrize("ending", [".mp4", ".gif"])
    def test_shows_the_ripple(self, tmp_path: Path, ending: str) -> None:
        """Size, length and frames are those of the script; half way through the ripple it looks like the still."""
        machine = nines()
        path, captions = film(machine, tmp_path / f"nines{ending}", size=SMALL, title="nines", tell=quiet)
        reel = told(machine, fps=30 if ending == ".mp4" else 10)
        shown = decoded(path)
        assert shown.size == SMALL
        assert sum(shown.seconds) == pytest.approx(len(reel) / reel.fps, abs=0.02)
        assert captions.read_text(encoding="utf-8") == webvtt(reel)
        travel = reel.timeline["strokes"][3]["from"] + 242.0
        number = reel.frame_at(travel)
        frames = Frames(reel, SMALL, FlatCamera())
        here = shown.at((number + 0.5) / reel.fps)
        assert difference(here, frames.frame(number)) < 4
        assert difference(here, frames.frame(reel.frame_at(travel - 60))) > difference(here, frames.frame(number)) + 1
        if ending == ".mp4":
            assert len(shown.frames) == len(reel)

    def test_a_gif_writes_only_what_changed(self) -> None:
        """The rest stays open, so that the frames before show through: worked by hand on four pixels."""
        before = np.array([[1, 1], [2, 2]], dtype=np.uint8)
        part, at = changed(before, np.array([[1, 9], [2, 2]], dtype=np.uint8))
        assert (part.tolist(), at) == ([[9]], (1, 0))
        part, at = changed(before, before)
        assert (part.tolist(), at) == ([[COLORS]], (0, 0))

    def test_full_size_is_1080p(self) -> None:
        """1920 by 1080, unless another size is asked for: the title card of it is drawn from edge to edge."""
        frames = Frames(told(nines()), (1920, 1080), FlatCamera())
        card = frames.frame(0)
        assert card.shape == (1080, 1920, 4)
        inked = np.flatnonzero((card[:, :, 0] < 100).any(axis=0))
        assert inked[0] < 200
        assert 1000 < inked[-1] < 1900

    @pytest.mark.filterwarnings("error")
    def test_no_title_becomes_boxes(self) -> None:
        """What matplotlib's fonts lack is written as its number; nothing warns of a missing glyph."""
        reel = script(timeline_of(nines(), title="李 + Đặng"))
        cards = [Frames(script(timeline_of(nines(), title=title)), SMALL, FlatCamera()).frame(0)
                 for title in ("李 + Đặng", "[U+674E] + Đặng")]
        assert np.array_equal(*cards)
        assert reel.cues[0].words == "李 + Đặng"

    @pytest.mark.parametrize("name", ["slate", "bench", "ledger"])
    def test_the_picture_lies_between_heading_and_words(self, name: str) -> None:
        """On the smallest and the largest machine nothing of the picture reaches into the words' band."""
        reel = told(nines(name))
        with_words, without = (Frames(reel, (960, 540), FlatCamera(), words).frame(len(reel) - 1)
                               for words in (True, False))
        changed_rows = np.flatnonzero((with_words != without).any(axis=(1, 2)))
        assert changed_rows[0] > 540 * 860 / 1080
        band = without[int(540 * 0.87):, :400, :3]
        assert np.ptp(band.reshape(-1, 3), axis=0).max() == 0

    def test_another_camera(self, tmp_path: Path) -> None:
        """Whatever paints the machine can be filmed: it is told the field, and is closed at the end."""
        seen: list[float] = []

        class Red:
            closed = False

            def aim(self, timeline: Timeline, width: int, height: int) -> None:
                self.picture = np.full((height, width, 3), (200, 0, 0), dtype=np.uint8)

            def shoot(self, canvas, travel, left, top):
                seen.append(travel)
                canvas.image(self.picture, left, top)

            def close(self) -> None:
                self.closed = True

        camera = Red()
        machine = Machine(load_spec("slate"))
        machine.set(3)
        path, _ = film(machine, tmp_path / "red.mp4", size=SMALL, camera=camera, tell=quiet)
        assert camera.closed
        assert seen == sorted(seen)
        middle = decoded(path).frames[-1][100, 240]
        assert middle[0] > 150
        assert middle[1] < 60

    def test_memory_stays_the_same(self, tmp_path: Path) -> None:
        """Hundreds of frames take no more memory than forty would; they are written as they are made."""
        machine = Machine(load_spec("slate"))
        machine.set(7)
        machine.turn(4)
        film(machine, tmp_path / "warm.gif", size=SMALL, tell=quiet)
        tracemalloc.start()
        film(machine, tmp_path / "one.gif", size=SMALL, tell=quiet)
        assert len(script(timeline_of(machine), 10)) > 200
        frame = SMALL[0] * SMALL[1] * 4
        assert tracemalloc.get_traced_memory()[1] < 40 * frame
        tracemalloc.stop()

    def test_tells_how_far_it_is(self, tmp_path: Path) -> None:
        """Numbers that grow, and end at all frames."""
        machine = Machine(load_spec("slate"))
        machine.set(7)
        heard: list[tuple[int, int]] = []
        film(machine, tmp_path / "a.gif", size=SMALL, tell=lambda done, total: heard.append((done, total)))
        assert heard == sorted(heard)
        assert heard[-1][0] == heard[-1][1] == len(script(timeline_of(machine), 10))


class TestNothingIsLost:
    """What goes wrong leaves no half film, and no film that was there is lost."""

    @pytest.mark.parametrize("ending", [".mp4", ".gif"])
    @pytest.mark.parametrize("error", [KeyboardInterrupt, RuntimeError])
    def test_interrupted(self, tmp_path: Path, ending: str, error: type[BaseException]) -> None:
        path = tmp_path / f"a{ending}"
        path.write_bytes(b"before")

        def stop(done: int, total: int) -> None:
            if done > total // 2:
                raise error

        with pytest.raises(error):
            film(nines(), path, size=SMALL, tell=stop)
        assert path.read_bytes() == b"before"
        assert [entry.name for entry in tmp_path.iterdir()] == [path.name]

    def test_a_folder_that_is_not_there(self, tmp_path: Path) -> None:
        with pytest.raises(InputError, match="the film cannot be written: No such file"):
            film(nines(), tmp_path / "nowhere" / "a.gif", tell=quiet)

    def test_no_film_by_its_name(self, tmp_path: Path) -> None:
        with pytest.raises(InputError, match=r"an \.mp4 or a \.gif, by the ending of its name: a\.avi is neither"):
            film(nines(), tmp_path / "a.avi", tell=quiet)

    @pytest.mark.parametrize("size", [(100, 100), (1920, 100), (1080, 1920), (5000, 270), (480.0, 270), 480, "1080p"])
    def test_no_size(self, tmp_path: Path, size: object) -> None:
        with pytest.raises(InputError, match="a film's size is"):
            film(nines(), tmp_path / "a.gif", size=size, tell=quiet)  # type: ignore[arg-type]

    def test_odd_sizes_are_for_gifs(self, tmp_path: Path) -> None:
        """H.264 as players want it halves the colours' resolution, so sides are even."""
        with pytest.raises(InputError, match="even numbers, not 481 x 270"):
            film(nines(), tmp_path / "a.mp4", size=(481, 270), tell=quiet)
        assert list(tmp_path.iterdir()) == []

    def test_nothing_to_film(self, tmp_path: Path) -> None:
        with pytest.raises(InputError, match="no stroke to film"):
            film(Machine(load_spec("slate")), tmp_path / "a.gif", tell=quiet)

    def test_without_an_encoder(self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        """It says which package is missing, and what can be made without."""
        monkeypatch.setitem(sys.modules, "av", None)
        with pytest.raises(InputError, match=r"install mechcalc\[film\], or make a GIF"):
            film(nines(), tmp_path / "a.mp4", size=SMALL, tell=quiet)
        assert list(tmp_path.iterdir()) == []


class TestSolidFilmsThatCannotBe:
    """What is missing for a solid film is said before anything is written; films themselves: tests/browser."""

    def refused(self, tmp_path: Path, words: str, **options: object) -> None:
        with pytest.raises(InputError, match=words):
            film(nines(), tmp_path / "a.mp4", size=SMALL, tell=quiet, **{"solid": True, **options})  # type: ignore[arg-type]
        assert list(tmp_path.iterdir()) == []

    def test_without_a_browser(self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        monkeypatch.setenv("MECHCALC_BROWSER", "no-such-browser")
        self.refused(tmp_path, "a solid film is drawn by a browser of the Chromium family, and none was found")

    def test_a_browser_that_is_none(self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        monkeypatch.setenv("MECHCALC_BROWSER", sys.executable)
        self.refused(tmp_path, "has ended before a page was open in it")

    def test_without_the_package(self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        monkeypatch.setitem(sys.modules, "websocket", None)
        self.refused(tmp_path, r"needs the package websocket-client.*install mechcalc\[film\]")

    def test_options(self, tmp_path: Path) -> None:
        self.refused(tmp_path, "solid is True or 'follow', not 'both'", solid="both")
        self.refused(tmp_path, "one camera: give camera, or solid", camera=FlatCamera())


class TestTheTimeThatIsLeft:
    """It is reckoned by what takes time."""

    def test_by_pictures(self, monkeypatch: pytest.MonkeyPatch) -> None:
        """Frames that show what the one before showed take none: 4 of 5 pictures are to come after 10 s, so 40 s."""
        now, shown = [0.0], []
        monkeypatch.setattr(telling_room.time, "monotonic", lambda: now[0])
        monkeypatch.setattr(telling_room.Progress, "show", lambda self, text: shown.append(text))
        with telling_room.telling("filming", steps=5) as done:
            now[0] = 10.0
            done(80, 100)
        assert shown == ["filming: 80 of 100, about 40 s left"]



def test_a_working_of_ten_turns_is_short_enough_to_watch() -> None:
    """Two and a half minutes at most, with every carry in it readable."""
    reel = script(timeline_of(multiply(Machine(load_spec("bench")), 347, 28)))
    assert 60 < reel.seconds < 150
