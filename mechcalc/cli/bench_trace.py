"""The talk at the bench: which test to do, what was read, what is left.

Only this file leads a tracing session in a terminal. It asks through a function that it is given, so that a test can
answer, and what is entered is in the session's file before the next question.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from mechcalc.bench.candidates import Test
from mechcalc.bench.findings import conclusion, departures, share
from mechcalc.bench.papers.blocks import CAUTIONS, DEFER, machine_line, sentence_case
from mechcalc.bench.readings import Reading
from mechcalc.bench.step_words import Part, parts_of, repeated, times
from mechcalc.bench.steps import fits_spec
from mechcalc.bench.trace_file import KeptTrace
from mechcalc.bench.tracing import Advice
from mechcalc.cli.bench_reading import WHILE_READING, Back, Leave, Questions, say
from mechcalc.cli.tables import table
from mechcalc.errors import InputError, MechcalcError
from mechcalc.setup.telling import Progress

DONE, INTERRUPTED = 0, 130
LISTED = 8
NO_MORE = "No further test promises enough to be worth its work."
BROUGHT_BACK = ("Bring the machine back: carriage to position 0, clear everything; what does not clear is turned to "
                "what stood there before this test.")
CHOICES = """\
  Enter        do this test: enter what you read, window by window
  why          why this test comes next
  left         what still explains everything, likeliest first
  tests        all tests, numbered; then its NUMBER takes another test
  own STEPS    a test of your own, such as: own set 99; turn; read
  take back    take back the last test that was entered
  note TEXT    write something down
  stop         stop here; the session can be taken up again"""


class Talk:
    """A session in a terminal.

    Parameters
    ----------
    kept : KeptTrace
    ask : callable
        Gets a prompt, gives a line; raises EOFError at the end of the input.
    """

    def __init__(self, kept: KeptTrace, ask: Callable[[str], str]) -> None:
        self.kept, self.trace, self._ask = kept, kept.trace, ask
        self._questions = Questions(kept.trace.spec, ask)
        self._chosen: Test | None = None
        self._advice: Advice | None = None
        self._told = False  # whether what comes next has been said

    def lead(self) -> int:
        """The whole talk; the exit code."""
        self._greet()
        try:
            if self.kept.draft:
                self._go_on()
            while self._one_test():
                pass
        except (EOFError, KeyboardInterrupt):
            print()
            say(f"Interrupted. Everything entered so far is in {self.kept.path}; the same command takes it up again.")
            return INTERRUPTED
        self._part()
        return DONE

    def _greet(self) -> None:
        kept = self.kept
        say(machine_line(self.trace.spec) + (f" ({kept.label})" if kept.label else ""))
        print()
        for caution in CAUTIONS:
            say(caution, "! ")
        say(DEFER)
        print()
        for remark in kept.remarks:
            say(f"Note: {remark}")
        many = len(self.trace.history)
        say(f"The session is kept in {kept.path}: {many} test{'s' * (many != 1)} so far.")
        if not many:
            say("Before the first test: carriage at position 0, everything cleared. What clearing does not bring to 0 "
                "is turned there by hand now, and never again: from then on leave it as it is.")

    # One test.

    def _one_test(self) -> bool:
        """Advise, listen, read; whether the talk goes on."""
        test = self._chosen or self._advised()
        if not self._told:
            self._told = True
            if test is not None:
                self._show(test)
            else:
                say(" ".join([*conclusion(self.trace), *([NO_MORE] if self.trace.left else [])]))
        word = self._ask("\n> ").strip()
        verb, _, rest = word.partition(" ")
        if word in ("stop", "end", "quit"):
            return False
        try:
            self._do(word, verb, rest.strip(), test)
        except Leave:
            self._chosen, self._told = None, False
            say(f"Left; nothing of it counts. {BROUGHT_BACK}")
        except MechcalcError as error:
            say(f"Not done: {error}.")
        return True

    def _do(self, word: str, verb: str, rest: str, test: Test | None) -> None:
        if not word and test is not None:
            self._read(test)
        elif word == "why" and test is not None:
            self._why(test)
        elif word == "left":
            self._left()
        elif word == "tests":
            rows = [[number, one.name, one.turns, f"{one.work:g}", one.looks_at]
                    for number, one in enumerate(self.trace.tests, start=1)]
            print(table(["", "test", "turns", "work", "for"], rows, left=(1, 4)))
        elif word.isdecimal() and word[0] != "0" and int(word) <= len(self.trace.tests):  # "002" is a reading, too soon
            self._chosen, self._told = self.trace.tests[int(word) - 1], False
        elif verb == "own" and rest:
            self._chosen, self._told = self._own(rest), False
        elif word == "take back":
            last = self.kept.take_back()
            self._chosen, self._advice, self._told = None, None, False
            say(f"Taken back: {last.test.name}." if last else "There is nothing to take back.")
        elif verb == "note" and rest:
            self.kept.note(rest)
            say("Written down.")
        else:
            print(CHOICES)

    def _own(self, text: str) -> Test:
        test = Test.of("a test of one's own", text)
        fits_spec(self.trace.spec, test.steps)
        return test

    def _advised(self) -> Test | None:
        if self._advice is None:
            with Progress() as progress:
                progress.show("looking for the test that tells most")
                self._advice = self.trace.next_test()
        return self._advice.test if self._advice else None

    def _show(self, test: Test) -> None:
        """The test with its steps."""
        parts = parts_of(self.trace.spec, test)
        print()
        say(f"Test {len(self.trace.history) + 1}: {test.name} ({test.turns} turn{'s' * (test.turns != 1)}, work "
             f"{test.work:g}; for {test.looks_at or 'a look'})")
        if repeated(parts):
            say(f"Do this {times(len(parts))}, and read each time:", "  ")
            parts = parts[:1]
        for part in parts:
            self._steps(part)
        say("Enter when you are ready to read, or: why, left, tests, own, take back, note, stop.", "  ")

    def _steps(self, part: Part) -> None:
        for step in part.words:
            say(step, "  - ")
        say("Read.", "  - ")

    def _why(self, test: Test) -> None:
        if self._advice and test == self._advice.test:
            say(self._advice.why)
        else:
            say(f"It is your own choice; the kit's would be {self._advice.test.name if self._advice else 'none'}.")

    # Reading.

    def _go_on(self) -> None:
        """A test that was under way when the session was left."""
        draft = self.kept.draft
        assert draft is not None
        print()
        say(f"The test \"{draft.test.name}\" is under way: {len(draft.readings)} of {len(draft.test.reads)} places "
            "were read. If the machine has been touched since, begin it anew.")
        if self._questions.yes_or_no("Go on with it? (yes, no) "):
            try:
                self._read(draft.test, draft.readings)
            except Leave:
                self.kept.keep_draft(draft.test, [])
        else:
            self.kept.keep_draft(draft.test, [])
            say(BROUGHT_BACK)

    def _read(self, test: Test, before: Sequence[Reading | None] = ()) -> None:
        """Everything that is read in a test, place by place; then it is recorded."""
        say(WHILE_READING)
        parts, readings = parts_of(self.trace.spec, test), list(before)
        while len(readings) < len(parts):
            part = parts[len(readings)]
            if len(parts) > 1:
                print()
                say(f"Reading {len(readings) + 1} of {len(parts)}, after: {' '.join(part.words)}")
            try:
                readings.append(self._questions.one_reading(part))
            except Back:
                if readings:
                    readings.pop()
            except Leave:
                self.kept.keep_draft(test, [])
                raise
            if len(readings) < len(parts):
                self.kept.keep_draft(test, readings)
        if not any(readings):
            self.kept.keep_draft(test, [])
            raise InputError("nothing was read")
        self.kept.record(test, readings)
        self._chosen, self._advice, self._told = None, None, False
        self._after(test)

    def _after(self, test: Test) -> None:
        number = len(self.trace.history)
        away = [one for one in departures(self.trace.spec, self.trace.history) if one.test == number]
        home = "shift the carriage to position 0, " if any(step.what == "shift" for step in test.steps) else ""
        print()
        for one in away:
            place = f"reading {one.reading}: " if len(test.reads) > 1 else ""
            name = {"yielded": "whether it gave way", "bell": "the bell"}.get(one.field, f"the {one.field}")
            say(f"{place}{name} should be {one.should}, you read {one.read}", "  * ")
        say("Departs from a sound machine." if away else "As it should be.")
        say(f"Saved. Now {home}clear result, counter and setting; leave what does not show 0 as it is.")
        if self.trace.left:
            self._left(5)
        else:
            say(" ".join(conclusion(self.trace)))
            self._told = True
            say("left tells where.")

    # What is left.

    def _left(self, most: int = LISTED) -> None:
        """What still explains everything, likeliest first."""
        if not self.trace.left:
            say(" ".join(conclusion(self.trace)))
            for one in self.trace.closest(1):
                for part in departures(self.trace.spec, self.trace.history, one.faults)[:LISTED]:
                    say(f"it differs at {part}", "  * ")
            return
        found = self.trace.explanations(most)
        rows = [[share(one.share), sentence_case(str(one))] for one in found]
        if self.trace.left > len(found):
            rest = max(0.0, 1 - sum(one.share for one in found))
            rows.append([share(rest), f"{self.trace.left - len(found)} others"])
        print(table(["share", "what explains everything read"], rows, left=(1,)))

    def _part(self) -> None:
        print()
        say(" ".join(conclusion(self.trace)))
        print(f"\nThe session is kept. For a report:\n  mechcalc bench report {self.kept.path} --out report.pdf")
