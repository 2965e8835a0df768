"""The report of a session at the bench: a paper with what was done, read and concluded, to be signed and filed.

Only this file decides what stands on it. Its headings follow what is commonly asked of the record of an object's
condition: which object, on what occasion, how it was found, what was examined and how, findings, what was not
examined, what is recommended, who and when. There is a European standard on such records, EN 16095:2012, "Conservation
of cultural property. Condition recording for movable cultural heritage"; only its title was seen, its contents are
followed from memory, and the report says so.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from os import PathLike
from pathlib import Path
from typing import Any

from mechcalc import __version__
from mechcalc.bench import findings
from mechcalc.bench.papers import blocks
from mechcalc.bench.papers.printing import checked_size, pages, pdf, write_paper
from mechcalc.bench.papers.web_page import web_page
from mechcalc.bench.step_words import in_short, parts_of
from mechcalc.bench.trace_file import KeptTrace
from mechcalc.bench.tracing import Tracing
from mechcalc.printing.typesetting import Fonts

Block = dict[str, Any]
MOST = 12
BEYOND = ("The tests ask only what the windows show, whether the bell rings and whether interlocks hold. Not examined: "
          "force and play, noise, lubrication, wear that does not yet move a digit, corrosion, cracks, coatings, "
          "completeness, case and covers, and any fault of a kind that the kit does not know.")
BASIS = ("The headings follow the common practice of condition records (EN 16095:2012 from memory; its text was not "
         "consulted). A share is what the chosen weights and the readings together give an explanation; it is no "
         "measured frequency.")
IF_WRONG = ("“If one reading was wrong”: it explains everything but one reading, which may have been misread or "
            "written down wrong.")
DEPARTING = ("Readings that depart from a sound machine: above, what should be there; in the boxes, what was read; "
             "digits that differ stand in heavy boxes.")


def report_paper(session: KeptTrace | Tracing, *, label: str = "", who: str = "", condition: str = "",
                 paper: str = "a4") -> dict[str, Any]:
    """The report as data, as `mechcalc.bench.papers` describes it.

    Parameters
    ----------
    session : KeptTrace or Tracing
        A session from a file has its own label, reader, condition, times and notes.
    label, who, condition : str
        For a session without a file, or in place of the file's.
    paper : str
        ``"a4"`` or ``"letter"``.
    """
    kept = session if isinstance(session, KeptTrace) else None
    trace = session.trace if isinstance(session, KeptTrace) else session
    label, who, condition = (given or getattr(kept, name, "") for name, given in
                             (("label", label), ("who", who), ("condition", condition)))
    spec, times = trace.spec, times_of(kept.times, kept.begun) if kept else ["" for _ in trace.history]
    span = moment(kept.begun) + (f" to {times[-1]}" if times else "") if kept else ""
    return {"title": "Bench report", "name": spec.name or "a machine", "machine": blocks.machine_line(spec),
            "label": label, "paper": checked_size(paper), "foot": f"mechcalc {__version__}", "blocks": [
                {"kind": "fields", "rows": [["Object (label, number)", label], ["Examined by", who],
                                            ["When", span], ["Occasion", ""]]},
                blocks.cautions(),
                blocks.heading("Condition as found"),
                *([blocks.words(condition)] if condition else [{"kind": "room", "lines": 3}]),
                blocks.heading("Conclusion"), *_conclusion(trace),
                blocks.heading("Tests done"), *_tests(trace, times),
                *_readings(trace), *_notes(kept),
                blocks.heading("What was not tested"), *_untested(trace),
                blocks.heading("Recommended: treatment, use, next look"), {"kind": "room", "lines": 4},
                blocks.heading("How to read this"), blocks.words(BASIS),
                {"kind": "signatures", "people": ["examined by", "seen by"]}]}


def moment(when: str) -> str:
    """A time as people write it.

    >>> moment("2031-05-04T10:30:00+02:00")
    '4 May 2031, 10:30'
    """
    at = datetime.fromisoformat(when)
    months = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
              "November", "December")
    return f"{at.day} {months[at.month - 1]} {at.year}, {at:%H:%M}"


def times_of(whens: Sequence[str], begun: str) -> list[str]:
    """Times as people write them in a list: the hour alone on the day on which it began.

    >>> times_of(["2031-05-04T10:30:00", "2031-05-05T08:00:00"], "2031-05-04T10:00:00")
    ['10:30', '5 May 2031, 08:00']
    """
    day = moment(begun).partition(",")[0]
    return [moment(when).removeprefix(f"{day}, ") for when in whens]


def _conclusion(trace: Tracing) -> list[Block]:
    found: list[Block] = [blocks.words(" ".join(findings.conclusion(trace)))]
    if not trace.history:
        return found
    if not trace.left:
        for one in trace.closest(3):
            name = blocks.sentence_case(str(type(one)(one.faults, one.share, 0)))
            found += [blocks.words(f"{name} would differ here:"),
                      blocks.points([f"{part}." for part in map(str, findings.departures(
                          trace.spec, trace.history, one.faults)[:MOST])])]
        return found
    named = trace.explanations(MOST)
    rows = [[str(number), findings.share(one.share), blocks.sentence_case(str(one))]
            for number, one in enumerate(named, start=1)]
    if trace.left > len(named):
        rows.append(["", findings.share(1 - sum(one.share for one in named)), f"{trace.left - len(named)} others"])
    found.append({"kind": "table", "heads": ["", "share", "what explains all readings"], "rows": rows, "left": [2],
                  "wide": 2})
    if any(one.misreadings for one in named):
        found.append(blocks.words(IF_WRONG))
    advice = trace.next_test()
    if trace.left > 1:
        found.append(blocks.words(
            f"The test that would tell most next: {advice.test.name} ({advice.test}). {advice.why}" if advice else
            "No test of the list promises enough to be worth its work."))
    return found


def _tests(trace: Tracing, times: list[str]) -> list[Block]:
    if not trace.history:
        return [blocks.words("None.")]
    away: dict[int, int] = {}
    for one in findings.departures(trace.spec, trace.history):
        away[one.test] = away.get(one.test, 0) + 1
    rows, missing = [], []
    for number, (done, when) in enumerate(zip(trace.history, times, strict=True), start=1):
        verdict = f"{away[number]} depart" if number in away else "as it should be"
        rows.append([str(number), when, f"{blocks.sentence_case(done.test.name)}. {in_short(done.test)}", verdict])
        missing += [f"Test {number}, {line}." for line in findings.left_out(done)]
    table = {"kind": "table", "heads": ["", "when", "test and its steps", "readings"], "rows": rows, "left": [1, 2, 3],
             "wide": 2}
    return [table, *([blocks.words("Not read:"), blocks.points(missing)] if missing else [])]


def _readings(trace: Tracing) -> list[Block]:
    """Every reading; those that depart, with what should be there and the digits that differ marked."""
    if not trace.history:
        return []
    spec, rows, away = trace.spec, [], []
    for number, (done, should) in enumerate(zip(trace.history, findings.shown_by(spec, trace.history), strict=True),
                                            start=1):
        parts = parts_of(spec, done.test)
        for place, (would, was) in enumerate(zip(should, done.readings, strict=True), start=1):
            differs = was is not None and bool(blocks.differing(would, was))
            tried = bool(parts[place - 1].asked)
            rows.append([f"{number}.{place}", *(findings.written(spec, field, getattr(was, field, None))
                                                if field != "yielded" or tried else "" for field in findings.FIELDS),
                         "departs" if differs else "" if was else "not read"])
            if was is not None and differs:
                away.append(blocks.reading_block(spec, f"{number}.{place} {blocks.sentence_case(done.test.name)}",
                                                 parts[place - 1].asked, would, was, only_read=True))
    table = {"kind": "table", "heads": ["", "result", "counter", "setting", "bell", "gave way", ""], "rows": rows,
             "left": [6], "wide": 6}
    found = [blocks.heading("Readings"), table]
    if away:
        found += [blocks.words(DEPARTING), {"kind": "readings", "readings": away}]
    return found


def _notes(kept: KeptTrace | None) -> list[Block]:
    if not kept or not kept.notes:
        return []
    rows = [[moment(note.when), note.text] for note in kept.notes]
    return [blocks.heading("Notes"), {"kind": "fields", "rows": rows}]


def _untested(trace: Tracing) -> list[Block]:
    left = findings.untested(trace.spec, trace.history)
    said: list[Block] = [blocks.points([f"{blocks.sentence_case(line)}." for line in left])] if left else [
        blocks.words("Of the single faults that the kit knows on this machine, every one would have shown in what was "
                     "read.")]
    return [*said, blocks.words(BEYOND)]


def report_html(session: KeptTrace | Tracing, **given: str) -> str:
    """The report as one HTML page to be printed; what can be given is that of `report_paper`."""
    return web_page(report_paper(session, **given))


def report_pdf(session: KeptTrace | Tracing, *, fonts: Fonts | None = None, **given: str) -> bytes:
    """The report as PDF."""
    return pdf(report_paper(session, **given), fonts)


def report_pages(session: KeptTrace | Tracing, *, ppi: float = 110.0, **given: str) -> list[bytes]:
    """The report's pages as PNG, for a look in a notebook."""
    return pages(report_paper(session, **given), ppi=ppi)


def write_report(session: KeptTrace | Tracing, path: str | PathLike[str], *, replace: bool = False,
                 fonts: Fonts | None = None, **given: str) -> Path:
    """Write the report to a file, ``.html`` or ``.pdf``."""
    return write_paper(report_paper(session, **given), path, replace=replace, fonts=fonts)
