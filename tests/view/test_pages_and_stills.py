"""Pages to take home, stills, and pictures in words."""

from __future__ import annotations

import base64
import hashlib
import json
import re
import subprocess
import sys
from pathlib import Path
from xml.etree import ElementTree

import pytest

from mechcalc import InputError, Machine, load_spec, machine_names
from mechcalc.view import moment_text, still, still_svg, take_home, timeline_of
from mechcalc.view.drawing import Drawing, Shape, Words, draw
from tests.view.sessions import nines, random_session

NASTY = "</script><script>alert(1)</script> & \"quotes\" \u2028"


def scripts(text: str) -> dict[str, str]:
    """The page's script elements, by the kind of each."""
    return dict(re.findall(r'<script type="([\w/]+)"[^>]*>(.*?)</script>', text, re.DOTALL))


class TestThePage:
    def test_holds_the_timeline(self, tmp_path: Path) -> None:
        """The page carries exactly the timeline of what was shown."""
        machine = nines()
        text = take_home(machine, tmp_path / "a.html").read_text(encoding="utf-8")
        assert json.loads(scripts(text)["application/json"])["scene"]["timeline"] == timeline_of(machine)

    def test_lets_nothing_in_or_out(self, tmp_path: Path) -> None:
        """Its content policy forbids everything but its own script and style, named by their digests."""
        text = take_home(nines(), tmp_path / "a.html").read_text(encoding="utf-8")
        policy = re.search(r'Content-Security-Policy" content="([^"]+)"', text)
        assert policy is not None
        style = re.search(r"<style>(.*?)</style>", text, re.DOTALL)
        assert style is not None
        for body in (scripts(text)["module"], style[1]):
            digest = base64.b64encode(hashlib.sha256(body.encode()).digest()).decode()
            assert f"'sha256-{digest}'" in policy[1]
        assert policy[1].startswith("default-src 'none';")
        assert not re.search(r"unsafe|https?:|\*", policy[1])
        assert set(re.findall(r"https?://[\w./]+", text)) == {"http://www.w3.org/2000/svg"}

    def test_names_are_never_markup(self, tmp_path: Path) -> None:
        """A title with markup in it is text in the heading and in the data."""
        text = take_home(nines(), tmp_path / "a.html", title=NASTY).read_text(encoding="utf-8")
        assert "<script>alert" not in text
        assert text.count("</script>") == 2
        assert json.loads(scripts(text)["application/json"])["scene"]["timeline"]["title"] == NASTY

    def test_replaces_whole_or_not_at_all(self, tmp_path: Path) -> None:
        """A page that cannot be written says so, and leaves what was there and nothing else."""
        path = tmp_path / "a.html"
        path.write_text("before")
        with pytest.raises(InputError):
            take_home([], path, spec=load_spec("slate"))
        assert path.read_text() == "before"
        take_home(nines(), path)
        assert path.read_text(encoding="utf-8").startswith("<!doctype html>")
        assert [entry.name for entry in tmp_path.iterdir()] == ["a.html"]
        with pytest.raises(InputError, match="cannot be written"):
            take_home(nines(), tmp_path / "nowhere" / "a.html")


class TestWords:
    def test_in_a_ripple(self) -> None:
        """Half way through 9999 + 1: what stands where, and what is happening."""
        assert moment_text(nines(), 842.0) == (
            "Crank at 242° of an additive turn; carriage at 0; setting 0001; result 009000; counter 001.\n"
            "Between two digits: wheel 3.\n"
            "Carry levers out: of wheel 2. Carry pins pushed over: additive, place 3.\n"
            "The carry reaches wheel 3: one step on, to 0. The homing cam pushes the carry lever of wheel 2 home.")

    def test_subtractive(self) -> None:
        """The angle is that of the turn, from rest in its own direction."""
        machine = Machine(load_spec("slate"))
        machine.set(1)
        machine.crank(-220.0)
        assert moment_text(machine).startswith("Crank at 220° of a subtractive turn; carriage at 0; setting 0001; ")

    def test_at_rest_and_between(self) -> None:
        machine = Machine(load_spec("slate"))
        assert moment_text(machine).splitlines() == [
            "Crank at rest; carriage at 0; setting 0000; result 000000; counter 000.", "Nothing has moved yet."]
        machine.ease_carriage(1)
        assert "carriage between 0 and 1" in moment_text(machine)


def digits_in(drawing: Drawing, part: str) -> int:
    """The number that large digits of a still show in one row, read from where the words stand."""
    rows: dict[float, list[Words]] = {}
    for item in drawing.items:
        if isinstance(item, Words) and item.text.isdigit() and item.bold:
            rows.setdefault(round(item.at[1]), []).append(item)
    row = [rows[y] for y in sorted(rows)][{"setting": 0, "wheel": 1, "counter": 2}[part]]
    return int("".join(word.text for word in sorted(row, key=lambda word: word.at[0])))


class TestStills:
    @pytest.mark.parametrize("name", machine_names())
    def test_show_the_registers(self, name: str) -> None:
        """At rest the digits of a still, read from left to right, are the registers."""
        machine = Machine(load_spec(name))
        machine.set(min(4207, 10**machine.spec.setting_places - 1))
        machine.turn(3)
        machine.shift(1)
        drawing = draw(timeline_of(machine), 1e9)
        assert (digits_in(drawing, "setting"), digits_in(drawing, "wheel"),
                digits_in(drawing, "counter")) == (machine.setting, machine.result, machine.counter)

    @pytest.mark.parametrize("name", machine_names())
    def test_stay_on_the_sheet(self, name: str) -> None:
        """Nothing is drawn outside, whatever was done."""
        for seed in range(3):
            told = timeline_of(random_session(name, seed))
            for share in (0.0, 0.37, 0.8, 1.0):
                drawing = draw(told, share * told["length"])
                points = [point for item in drawing.items
                          for point in (item.points if isinstance(item, Shape) else (item.at,))]
                assert all(0 <= x <= drawing.width and 0 <= y <= drawing.height for x, y in points)

    def test_svg_is_well_formed_and_stable(self) -> None:
        """The same input gives the same text, well formed, with the picture in words as its title."""
        text = still_svg(nines(), 842.0)
        assert text == still_svg(nines(), 842.0)
        title = ElementTree.fromstring(text).find("{http://www.w3.org/2000/svg}title")
        assert title is not None
        assert title.text == moment_text(nines(), 842.0)
        assert still_svg(nines(), 842.0, title="<b> & co").count("<b>") == 0

    def test_figure(self) -> None:
        """matplotlib draws the same words as the SVG file."""
        figure = still(nines(), 842.0)
        words = [text.get_text() for text in figure.axes[0].texts]
        assert words == [item.text for item in draw(timeline_of(nines()), 842.0).items if isinstance(item, Words)]

    def test_svg_needs_no_matplotlib(self) -> None:
        """Where matplotlib is not there an SVG still is drawn all the same."""
        code = ("import sys; sys.modules['matplotlib'] = None\n"
                "from mechcalc import Machine, load_spec\nfrom mechcalc.view import still_svg\n"
                "print(len(still_svg(Machine(load_spec('slate')))) > 1000, 'anywidget' in sys.modules)")
        done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
        assert done.stdout.split() == ["True", "False"]

    def test_a_name_that_is_a_rooms_name(self) -> None:
        """`still` is the function, whichever name of its room was used first."""
        code = ("from mechcalc.view import still_svg\nfrom mechcalc.view import still\nprint(callable(still))\n"
                "import mechcalc.sharing.filming.frames\nimport mechcalc.sharing as s\n"
                "print(all(callable(getattr(s, name)) for name in s.__all__))")
        done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
        assert done.stdout.split() == ["True", "True"]
