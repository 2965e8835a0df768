"""Joining the view's modules: what is joined, and what is refused."""

from __future__ import annotations

import re

import pytest

from mechcalc.view.bundle import FOLDER, BundleError, join, module, script


class TestJoining:
    def test_each_after_what_it_imports(self) -> None:
        """A module that two others need comes once, before both."""
        joined = join({"top": 'import {a} from "./a.js";\nimport {b} from "./b.js";\n'
                              'export function top() { return a + b; }',
                       "a": 'import {base} from "./base.js";\nexport const a = base;',
                       "b": 'import {base} from "./base.js";\nexport const b = base;',
                       "base": "export const base = 1;", "unused": "export const unused = 0;"}, "top")
        assert joined == ("const base = 1;\nconst a = base;\nconst b = base;\nfunction top() { return a + b; }")

    @pytest.mark.parametrize(("modules", "message"), [
        ({"top": 'import {a} from "./a.js";'}, "top: there is no module a.js"),
        ({"top": 'import {a, b} from "./a.js";', "a": "export const a = 1;\nconst b = 2;"},
         "top.js imports b, which a.js does not export"),
        ({"top": 'import {a} from "./a.js";\nconst b = 1;', "a": "export const a = 1;\nfunction b() {}"},
         "b is declared in a.js and again in top.js"),
        ({"top": 'import {a} from "./a.js";\nexport const t = 1;',
          "a": 'import {t} from "./top.js";\nexport const a = 1;'},
         "modules import one another in a circle: top -> a -> top"),
        ({"top": 'import a from "./a.js";', "a": ""},
         'top.js: the joiner does not know this form: import a from "./a.js";'),
        ({"top": "export default 1;"}, "top.js: the joiner does not know this form: export default 1;"),
        ({}, "the entry: there is no module top.js"),
    ])
    def test_refuses(self, modules: dict[str, str], message: str) -> None:
        """What cannot be joined is refused, with the module and the name."""
        with pytest.raises(BundleError) as refusal:
            join(modules, "top")
        assert str(refusal.value) == message


class TestTheView:
    def test_is_one_script(self) -> None:
        """The view's own modules join: nothing is imported or exported any more, but render is there."""
        assert not re.search(r"^(import|export)\b", script(), re.MULTILINE)
        assert "\nfunction render({model, el})" in script()
        assert module().endswith("export default {render};\n")

    def test_holds_every_module(self) -> None:
        """No module lies there unused."""
        for path in FOLDER.glob("*.js"):
            first = path.read_text(encoding="utf-8").splitlines()[0]
            assert first.startswith("// "), f"{path.name} opens with its scope"
            assert first in script(), f"{path.name} is not part of the view"

    def test_asks_no_network(self) -> None:
        """Nothing in the view names an address, but the SVG name space."""
        assert set(re.findall(r"https?://[\w./]+", script())) == {"http://www.w3.org/2000/svg"}
