"""A film's captions as a WebVTT file (W3C, "WebVTT: The Web Video Text Tracks Format").

Only this file writes captions. Whatever a title holds is text in them, never a tag or a time.
"""

from __future__ import annotations

from html import escape

from mechcalc.sharing.filming.script import Script


def webvtt(script: Script) -> str:
    """The text of the file: a cue for each caption, with the times of its frames.

    Examples
    --------
    >>> from mechcalc import Machine, load_spec
    >>> from mechcalc.sharing.filming.script import script
    >>> from mechcalc.view import timeline_of
    >>> m = Machine(load_spec("slate"))
    >>> _ = m.set(7)
    >>> print(webvtt(script(timeline_of(m, title="7 --> <b>"))))
    WEBVTT
    <BLANKLINE>
    1
    00:00:00.000 --> 00:00:04.000
    7 --&gt; &lt;b&gt;
    <BLANKLINE>
    2
    00:00:04.000 --> 00:00:06.800
    Set 7
    <BLANKLINE>
    """
    blocks = ["WEBVTT\n"]
    for number, cue in enumerate(script.cues, start=1):
        lines = [escape(" ".join(line.split()), quote=False) for line in cue.words.splitlines()]
        words = "\n".join(line for line in lines if line)
        blocks.append(f"{number}\n{_time(cue.first, script.fps)} --> {_time(cue.end, script.fps)}\n{words}\n")
    return "\n".join(blocks)


def _time(frame: int, fps: int) -> str:
    """The moment at which a frame begins, in milliseconds cut off.

    >>> _time(100, 30), _time(3600 * 25 + 61, 25)
    ('00:00:03.333', '01:00:02.440')
    """
    seconds, thousandths = divmod(frame * 1000 // fps, 1000)
    minutes, seconds = divmod(seconds, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours:02}:{minutes:02}:{seconds:02}.{thousandths:03}"
