"""``mechcalc bench``: what can be wrong with a machine, a plan of tests on paper, tracing, and the report.

Only this file words these commands; `mechcalc.bench` does the work, and `mechcalc.cli.bench_trace` leads the talk of
tracing.
"""

from __future__ import annotations

import argparse
import textwrap
from pathlib import Path
from typing import TYPE_CHECKING, Any

from mechcalc.cli.tables import WIDTH, table
from mechcalc.errors import InputError
from mechcalc.setup.telling import Progress, say

if TYPE_CHECKING:
    from mechcalc.bench.dictionary import FaultDictionary
    from mechcalc.bench.plan import Plan
    from mechcalc.spec import MachineSpec

DONE = 0
MACHINE = "a machine of the catalogue, or the path of a TOML file of yours"
PAPERS = ("a4", "letter")


def add_bench(own: argparse.ArgumentParser) -> None:
    """The commands of the bench."""
    parts = own.add_subparsers(metavar="WHAT", required=True, parser_class=type(own), help="what to do at the bench")
    _faults(parts.add_parser("faults", help="list what can be wrong with a machine", description=(
        "List the faults that a machine can have, kind by kind, how each is written, and which of them no reading from "
        "outside can reveal.")))
    _sheet(parts.add_parser("sheet", help="write a plan of tests as a paper for the bench", description=(
        "Choose the fewest tests (or the least work) that reveal every fault and tell faults apart, and write them as "
        "a paper that a person can follow with the machine on the table.")))
    _trace(parts.add_parser("trace", help="trace what is wrong with a machine, test by test", description=(
        "Trace what is wrong with a machine on your bench: you are told which test to do, you enter what you read, and "
        "you see what still explains it. Everything is saved in a file as you go, and can be taken up again.")))
    _report(parts.add_parser("report", help="write the report of a tracing session", description=(
        "Write what was done, read and concluded in a session as a paper with room for signatures.")))


def _output(own: argparse.ArgumentParser) -> None:
    own.add_argument("--out", type=Path, required=True, metavar="FILE", help="the file to write: its ending, .pdf or "
                     ".html, says as what")
    own.add_argument("--paper", choices=PAPERS, default="a4", help="a4 unless given")
    own.add_argument("--replace", action="store_true", help="write over a file that is there")


def _faults(own: argparse.ArgumentParser) -> None:
    own.add_argument("machine", metavar="MACHINE", help=MACHINE)
    own.add_argument("--each", action="store_true", help="list every single one")
    own.set_defaults(do=do_faults)


def do_faults(wish: argparse.Namespace) -> int:
    """List faults."""
    from mechcalc import load_spec
    from mechcalc.bench import every_fault
    from mechcalc.bench.fault_list import text_of
    spec = load_spec(wish.machine)
    faults = every_fault(spec)
    if wish.each:
        print(table(["written", "what it is"], [[text_of(fault), fault] for fault in faults], left=(0, 1)))
        return DONE
    kinds: dict[str, list[Any]] = {}
    for fault in faults:
        kinds.setdefault(fault.name, []).append(fault)
    rows = [[name, len(some), some[-1]] for name, some in kinds.items()]
    print(table(["kind", "places", "for instance"], rows, left=(0, 2)))
    print()
    print("\n".join(_hidden(dictionary(spec))))
    return DONE


def _hidden(book: FaultDictionary) -> list[str]:
    from mechcalc.bench.hidden import why_hidden
    faults = [book.faults_of(machine)[0] for machine in book.undetected]
    many = f"{len(book.faults)} single faults, {len(book.tests)} tests to choose from."
    if not faults:
        return textwrap.wrap(f"{many} Every one of the faults shows in a test from outside.", WIDTH)
    lines = textwrap.wrap(f"{many} {len(faults)} of the faults show in no test from outside:", WIDTH)
    for fault in faults:
        lines += textwrap.wrap(f"{fault}: {why_hidden(book.spec, fault)}", WIDTH, initial_indent="  ",
                               subsequent_indent="    ")
    return lines


def dictionary(spec: MachineSpec, pairs: bool = False) -> FaultDictionary:
    """The fault dictionary, kept or worked out, with a line of progress on a terminal."""
    from mechcalc.bench.cache import kept_dictionary
    with Progress() as progress:
        progress.show("every fault against every test")
        return kept_dictionary(spec, pairs=pairs, say=lambda text: say(f"mechcalc: {text}"), told=lambda done, of: (
            progress.show(f"every fault against every test: {done} of {of} parts")))


def _sheet(own: argparse.ArgumentParser) -> None:
    own.add_argument("machine", metavar="MACHINE", help=MACHINE)
    _output(own)
    own.add_argument("--label", default="", metavar="TEXT",
                     help="the machine's own name or number, printed on the sheet")
    own.add_argument("--least-work", action="store_true", help="the least work instead of the fewest tests")
    own.add_argument("--reveal-only", action="store_true", help="reveal faults only; do not tell them apart")
    own.add_argument("--with-pairs", action="store_true",
                     help="reveal every pair of faults too (takes longer; pairs are not told apart)")
    own.set_defaults(do=do_sheet)


def do_sheet(wish: argparse.Namespace) -> int:
    """Choose tests and write the sheet."""
    from mechcalc import load_spec
    from mechcalc.bench.sheet import write_sheet
    _free(wish.out, wish.replace)
    if wish.with_pairs and not wish.reveal_only:
        raise InputError("with pairs, faults are revealed and not told apart: add --reveal-only")
    spec = load_spec(wish.machine)
    book = dictionary(spec, wish.with_pairs)
    chosen = _chosen(book, wish)
    with Progress() as progress:
        progress.show("printing")
        path = write_sheet(chosen, wish.out, label=wish.label, paper=wish.paper, replace=wish.replace)
    print(_told_plan(chosen))
    print(f"\nWritten: {path}")
    return DONE


def _chosen(book: FaultDictionary, wish: argparse.Namespace) -> Plan:
    from mechcalc.bench.plan import plan
    with Progress() as progress:
        progress.show("choosing tests")
        return plan(book, aim="least work" if wish.least_work else "fewest tests", tell_apart=not wish.reveal_only)


def _told_plan(chosen: Plan) -> str:
    rows = [[number, test.name, test.turns, f"{test.work:g}"] for number, test in enumerate(chosen.tests, start=1)]
    proof = "no choice does it with less" if chosen.proved else f"at most {chosen.gap:.1%} above the least"
    return (f"{table(['', 'test', 'turns', 'work'], rows, left=(1,))}\n\n{len(chosen.tests)} tests, "
            f"{chosen.turns} turns, {chosen.work:g} turns' worth of work: {proof}.")


def _free(path: Path, replace: bool) -> None:
    """Refuse before the work rather than after it."""
    if path.suffix not in (".html", ".pdf"):
        raise InputError(f"{path}: the file's ending says what is written, .html or .pdf")
    if path.exists() and not replace:
        raise InputError(f"{path} is there already: choose another name, or add --replace")


def _trace(own: argparse.ArgumentParser) -> None:
    own.add_argument("machine", nargs="?", metavar="MACHINE",
                     help=f"{MACHINE}; not needed for a session that is taken up")
    own.add_argument("--session", type=Path, required=True, metavar="FILE",
                     help="where the session is kept; one that is there is taken up")
    own.add_argument("--label", default="", metavar="TEXT", help="the machine's own name or number")
    own.add_argument("--who", default="", metavar="NAME", help="who reads")
    own.add_argument("--condition", default="", metavar="TEXT", help="how the machine was found")
    own.add_argument("--single", action="store_true", help="think of single faults only, not of two together")
    own.set_defaults(do=do_trace)


def do_trace(wish: argparse.Namespace) -> int:
    """Lead a session in the terminal."""
    from mechcalc import load_spec
    from mechcalc.bench.trace_file import begin_trace, take_up_trace
    from mechcalc.cli.bench_trace import Talk
    head = {name: getattr(wish, name) for name in ("label", "who", "condition")}
    spec = load_spec(wish.machine) if wish.machine else None
    with Progress() as progress:
        progress.show("setting out every machine that it could be")
        if wish.session.exists():
            kept = take_up_trace(wish.session)
            if spec is not None and spec != kept.trace.spec:
                name = kept.trace.spec.name or "one without a name"
                raise InputError(f"{wish.session} is a session on another machine, {name}: leave the machine out, or "
                                 "name another file")
            if given := {name: text for name, text in head.items() if text}:
                kept.describe(**given)
        elif spec is None:
            raise InputError(f"{wish.session}: there is no such session; to begin one, name the machine first")
        else:
            kept = begin_trace(wish.session, spec, pairs=not wish.single, **head)
    return Talk(kept, input).lead()


def _report(own: argparse.ArgumentParser) -> None:
    own.add_argument("session", type=Path, metavar="SESSION", help="the file of a session")
    _output(own)
    own.set_defaults(do=do_report)


def do_report(wish: argparse.Namespace) -> int:
    """Write a report."""
    from mechcalc.bench.findings import conclusion
    from mechcalc.bench.report import write_report
    from mechcalc.bench.trace_file import take_up_trace
    _free(wish.out, wish.replace)
    with Progress() as progress:
        progress.show("taking up the session")
        kept = take_up_trace(wish.session)
        progress.show("printing")
        path = write_report(kept, wish.out, paper=wish.paper, replace=wish.replace)
    for remark in kept.remarks:
        say(f"mechcalc: {wish.session}: {remark}")
    print("\n".join(textwrap.wrap(" ".join(conclusion(kept.trace)), WIDTH)))
    print(f"\nWritten: {path}")
    return DONE
