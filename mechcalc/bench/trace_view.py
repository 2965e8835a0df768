"""Tracing a fault in a notebook, with the machine on the table or a hidden one in the kernel.

Only this file talks to the page of a tracing session. What stands on it is `mechcalc.bench.trace_page`'s business; what
is typed into it stays there until it can be read.
"""

from __future__ import annotations

from os import PathLike
from pathlib import Path
from typing import Any

import anywidget
import traitlets

from mechcalc.bench.candidates import Test
from mechcalc.bench.cases import Case
from mechcalc.bench.fault_list import text_of
from mechcalc.bench.papers.blocks import CAUTIONS, DEFER
from mechcalc.bench.prior import Prior
from mechcalc.bench.readings import Reading
from mechcalc.bench.trace_file import KeptTrace, begin_trace, take_up_trace
from mechcalc.bench.trace_page import entries_of, grouped, page, told_done, typed
from mechcalc.bench.tracing import Done, Tracing, readings_of
from mechcalc.catalogue import load_spec
from mechcalc.errors import InputError, MechcalcError
from mechcalc.machine import Machine
from mechcalc.numbers import shown
from mechcalc.spec import MachineSpec

JS = Path(__file__).parent / "js"
DO_FIRST = "Do the test on the machine first: press “Do it on the machine”."
RECORD_FIRST = "The machine has done this test: record what it showed before you choose another."


class TraceView(anywidget.AnyWidget):
    """The page of a tracing session. Made by `trace`.

    Attributes
    ----------
    trace : Tracing
        The session: what was read, what is left.
    kept : KeptTrace or None
        The session with its file, where there is one.
    """

    _esm = (JS / "trace.js").read_text(encoding="utf-8")
    _css = (JS / "trace.css").read_text(encoding="utf-8")
    page = traitlets.Dict().tag(sync=True)

    def __init__(self, trace: Tracing, *, kept: KeptTrace | None = None, on: Case | Machine | None = None) -> None:
        self.trace, self.kept, self._on = trace, kept, on
        self._chosen: Test | None = None
        self._seen: tuple[Reading | None, ...] | None = None  # what the simulated machine showed, not yet recorded
        self._last_seen: tuple[Reading | None, ...] | None = None
        self._number = 0
        super().__init__(page=self._first_page())
        self.on_msg(self._asked)

    def __repr__(self) -> str:
        many = len(self.trace.history)
        return (f"<TraceView {self.trace.spec.name!r}: {many} test{'' if many == 1 else 's'} done, {self.trace.left} "
                f"explanations left>")

    def _first_page(self) -> dict[str, Any]:
        """A test that was begun in the session's file, with what was read of it so far; otherwise the advised one."""
        draft = self.kept.draft if self.kept and self._on is None else None
        if draft is None:
            return self._page("")
        self._chosen = draft.test
        read = (*draft.readings, *[None] * (len(draft.test.reads) - len(draft.readings)))
        return self._page("A test was begun in this session. What was read of it stands in the fields.",
                          draft={"test": draft.test.name,
                                 "entries": entries_of(self.trace.spec, Done(draft.test, read))})

    def _page(self, said: str, **more: Any) -> dict[str, Any]:
        self._advice = self.trace.next_test()
        self._number += 1
        return {**page(self.trace, self._advice, self._chosen), "number": self._number, "said": said,
                "coupled": self._on is not None, "judged": isinstance(self._on, Case),
                "cautions": [] if self._on is not None else [*CAUTIONS, DEFER],
                "told": self._on.told if isinstance(self._on, Case) else "", "windows": self._windows(),
                "file": str(self.kept.path) if self.kept else "", **more}

    @property
    def _test(self) -> Test | None:
        return self._chosen or (self._advice.test if self._advice else None)

    def _windows(self) -> list[dict[str, str]] | None:
        """What the simulated machine's windows show, after it has done the test."""
        if self._seen is None or self._test is None:
            return None
        return entries_of(self.trace.spec, Done(self._test, self._seen))

    # What the page asks for.

    def _asked(self, _: Any, content: Any, __: Any) -> None:
        """A message from the page: ``{do, ...}``."""
        doings = {"record": self._record, "choose": self._choose, "back": self._take_back, "machine": self._do_it,
                  "judge": self._judge}
        doing = doings.get(str(content.get("do"))) if isinstance(content, dict) else None
        if doing is None:
            return
        try:
            doing(content)
        except MechcalcError as error:
            self.send({"said": str(error), "problems": []})

    def _record(self, content: dict[str, Any]) -> None:
        test = self._test
        if test is None or content.get("test") != test.name:
            raise InputError(f"{shown(content.get('test'))} is not the test on the page")
        if self._on is not None and self._seen is None:
            raise InputError(DO_FIRST)
        readings, problems = typed(self.trace.spec, test, content.get("entries"))
        if problems:
            many = "One field cannot" if len(problems) == 1 else f"{len(problems)} fields cannot"
            self.send({"said": f"Not recorded: {many} be read. What you typed is still there.", "problems": problems})
            return
        (self.kept or self.trace).record(test, readings)
        self._chosen = self._seen = None
        self.page = self._page(f"Recorded: {test.name}. {self._standing()}", recorded=test.name)

    def _standing(self) -> str:
        if not self.trace.left:
            return "Nothing fits what was read."
        best = self.trace.explanations(1)[0]
        return f"{self.trace.left} explanations left; likeliest: {best}."

    def _choose(self, content: dict[str, Any]) -> None:
        named = [test for test in self.trace.tests if test.name == content.get("test")]
        if not named:
            raise InputError(f"there is no test {shown(content.get('test'))}")
        if self._seen is not None and named[0] != self._test:
            raise InputError(RECORD_FIRST)
        self._chosen = None if self._advice and named[0] == self._advice.test else named[0]
        self.page = self._page(f"The test on the page is “{named[0].name}”.")

    def _take_back(self, _: dict[str, Any]) -> None:
        if self._seen is not None:
            raise InputError(RECORD_FIRST.replace("choose another", "take an earlier one back"))
        last = (self.kept or self.trace).take_back()
        if last is None:
            raise InputError("There is nothing to take back.")
        self._chosen = last.test
        if isinstance(self._on, Case):
            self._seen = self._on.done[-1].readings
        elif self._on is not None:
            self._seen = self._last_seen
        self.page = self._page(f"Taken back: {last.test.name}. Its readings stand in the fields again.",
                               draft={"test": last.test.name, "entries": entries_of(self.trace.spec, last)})

    def _do_it(self, _: dict[str, Any]) -> None:
        test = self._test
        if self._on is None or test is None or self._seen is not None:
            return
        self._seen = self._on.read(test) if isinstance(self._on, Case) else readings_of(self._on, test)
        self._last_seen = self._seen
        self.page = self._page("The machine has done the test. Read its windows.")

    def _judge(self, content: dict[str, Any]) -> None:
        """An answer for a case: one of the groups on the page, by its number from 0."""
        groups = grouped(self.trace, self.trace.explanations(200))
        which = content.get("group")
        if not isinstance(self._on, Case) or type(which) is not int or not 0 <= which < len(groups):
            return
        faults = groups[which][0].faults
        said = str(self._on.verdict(*map(text_of, faults)))
        self.send({"said": said, "problems": [], "verdict": said})

    def sheet(self) -> str:
        """What was done so far, as text.

        >>> from mechcalc.bench.cases import case
        >>> print(trace(on=case(1)).sheet())
        Nothing was done yet.
        """
        lines = []
        for number, done in enumerate(self.trace.history, start=1):
            told = told_done(self.trace.spec, done)
            lines += [f"{number}. {told['name']}: {told['steps']}", *(f"   {line}" for line in told["readings"])]
        return "\n".join(lines) or "Nothing was done yet."


def trace(what: str | PathLike[str] | MachineSpec | None = None, *, session: str | PathLike[str] | None = None,
          on: Case | Machine | None = None, prior: Prior | None = None, pairs: bool = True) -> TraceView:
    """A page on which a fault is traced: the test that tells most, fields for what was read, and what is left.

    Parameters
    ----------
    what : str, path or MachineSpec, optional
        The machine: of the catalogue, from a TOML file, or a spec. Not needed with `on`, or to take a session up.
    session : str or path, optional
        A file for the session: taken up if it is there, begun if it is not. Saved after every entry.
    on : Case or Machine, optional
        Do the tests on this machine in the kernel; its windows are shown, and read by whoever is learning. It stands
        at nought, carriage at home.
    prior : Prior, optional
        How likely each fault is before anything was read.
    pairs : bool
        Whether two faults together are thought of.

    Returns
    -------
    TraceView

    Raises
    ------
    SpecError, SessionError, InputError
        No such machine; a file that is no session; a session of another machine; a machine that stands elsewhere.

    Examples
    --------
    >>> trace("slate")
    <TraceView 'Slate': 0 tests done, 16799 explanations left>
    >>> from mechcalc.bench.cases import case
    >>> trace(on=case(3))
    <TraceView 'Slate': 0 tests done, 184 explanations left>
    """
    if on is not None and not isinstance(on, (Case, Machine)):
        raise InputError(f"tests are done on a case or a machine, not on {shown(on)}")
    spec = _spec(what, on)
    if session is not None:
        kept = _session(Path(session), spec, prior, pairs, on)
        return TraceView(kept.trace, kept=kept, on=on)
    if spec is None:
        raise InputError("which machine? Give its name in the catalogue, a TOML file, a spec, or on=...")
    if isinstance(on, Case):
        return TraceView(on.trace(), on=on)
    return TraceView(Tracing(spec, prior=prior, pairs=pairs), on=on)


def _spec(what: Any, on: Case | Machine | None) -> MachineSpec | None:
    spec = what if what is None or isinstance(what, MachineSpec) else load_spec(what)
    if on is None:
        return spec
    if spec is not None and spec != on.spec:
        raise InputError(f"{shown(what)} is not the machine that the tests are done on: {on.spec.name}")
    if isinstance(on, Machine) and (any((on.result, on.counter, on.setting, on.carriage)) or on.state.angle):
        raise InputError("the machine to do tests on stands at nought, carriage at home and crank at rest")
    return on.spec


def _session(path: Path, spec: MachineSpec | None, prior: Prior | None, pairs: bool,
             on: Case | Machine | None) -> KeptTrace:
    """The file's session, or a new one."""
    if path.exists():
        kept = take_up_trace(path)
        if spec is not None and spec != kept.trace.spec:
            raise InputError(f"{path}: the session is on another machine, {kept.trace.spec.name}")
        if on is not None and kept.trace.history:
            raise InputError(f"{path}: the session has begun, and the simulated machine has not done its tests")
        return kept
    if spec is None:
        raise InputError(f"{path}: there is no such session yet; to begin one, say which machine it is")
    if isinstance(on, Case):
        fresh = on.trace()
        return begin_trace(path, spec, prior=fresh.prior, pairs=fresh.pairs)
    return begin_trace(path, spec, prior=prior, pairs=pairs)
