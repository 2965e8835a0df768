"""The commands, their words and their help.

Only this file reads the command line. Whatever the kit refuses comes out as one line on standard error and exit
code 2; set-up's errors may add the installer's last words.
"""

from __future__ import annotations

import argparse
import contextlib
import io
import os
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

from mechcalc import __version__
from mechcalc.errors import InputError, MechcalcError

if TYPE_CHECKING:
    from mechcalc.cli.working import Manner

DONE, REFUSED, INTERRUPTED = 0, 2, 130
USUAL_MACHINE = "bench"


class Parser(argparse.ArgumentParser):
    """A parser whose errors are one line."""

    def error(self, message: str) -> NoReturn:
        self.exit(REFUSED, f"{self.prog}: {message} (see {self.prog} --help)\n")


def run(argv: Sequence[str] | None = None) -> int:
    """Run one command line and return the exit code."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")
    try:
        wish = parser().parse_args(argv)
        code: int = wish.do(wish)
        sys.stdout.flush()
        return code
    except MechcalcError as error:
        print(f"mechcalc: {error}", file=sys.stderr)
        return REFUSED
    except ModuleNotFoundError as error:
        if (error.name or "mechcalc").partition(".")[0] == "mechcalc":
            raise
        print(f"mechcalc: this needs {error.name}, which this Python does not have; the kit's own environment has it "
              f"(python3 -m mechcalc open --prepare-only makes it; then run .venv/bin/mechcalc)", file=sys.stderr)
        return REFUSED
    except BrokenPipeError:  # The reader of our output has gone, as `head` does.
        with contextlib.suppress(OSError, ValueError):
            os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return DONE
    except OSError as error:
        place = f": {error.filename}" if error.filename else ""
        print(f"mechcalc: {error.strerror or error}{place}", file=sys.stderr)
        return REFUSED
    except KeyboardInterrupt:
        print("mechcalc: interrupted", file=sys.stderr)
        return INTERRUPTED


def parser() -> Parser:
    """All commands."""
    top = Parser(prog="mechcalc", description="A teaching kit on mechanical arithmetic: hand-cranked pinwheel "
                 "calculating machines, in the terminal and in JupyterLab.",
                 epilog="In a clone: python3 -m mechcalc COMMAND. Each command explains itself: mechcalc COMMAND "
                 "--help.")
    top.add_argument("--version", action="version", version=f"mechcalc {__version__}")
    commands = top.add_subparsers(metavar="COMMAND", required=True, parser_class=Parser)
    for add in (_open, _check, _lessons, _machines, _machine, _work, _compare, _table, _page, _sharing, _find,
                _worksheets, _answers, _bench):
        add(commands)
    return top


Commands = argparse._SubParsersAction


def _open(commands: Commands[Parser]) -> None:
    own = commands.add_parser("open", help="open a lesson in JupyterLab; makes an environment the first time",
                              description="Make an environment in the clone if there is none yet, copy the lessons to "
                              "a folder of your own, and open JupyterLab on one of them. A copy that you have changed "
                              "is never written over: a newer original is put beside it.")
    own.add_argument("lesson", nargs="?", default=None, metavar="LESSON",
                     help="which lesson, or the beginning of its name (start_here unless given)")
    own.add_argument("--folder", type=Path, metavar="FOLDER",
                     help="your working folder (mechcalc-lessons in your home unless given)")
    own.add_argument("--port", type=_port, metavar="N", help="the port to serve at, on this machine only")
    own.add_argument("--no-browser", action="store_true", help="print the address, open no browser")
    own.add_argument("--prepare-only", action="store_true", help="environment and copies only; start nothing")
    _environment_options(own)
    own.set_defaults(do=_do_open)


def _environment_options(own: Parser) -> None:
    own.add_argument("--environment", type=Path, metavar="FOLDER",
                     help="where the environment goes (.venv in the clone unless given)")
    own.add_argument("--here", action="store_true", help="make no environment: use the Python that runs this")
    own.add_argument("--newest", action="store_true",
                     help="install the newest versions allowed, not those that the kit is tested with")


def _port(text: str) -> int:
    if not (text.isdecimal() and text.isascii() and 1 <= int(text) <= 65535):
        raise argparse.ArgumentTypeError(f"a port is a whole number from 1 to 65535, not {text!r}")
    return int(text)


def _do_open(wish: argparse.Namespace) -> int:
    from mechcalc.setup import lab, lessons
    return lab.open_lesson(lab.Wish(
        lesson=wish.lesson or lessons.FIRST, folder=wish.folder or lab.usual_folder(), port=wish.port,
        browser=not wish.no_browser, start=not wish.prepare_only, here=wish.here, pinned=not wish.newest,
        environment=wish.environment and wish.environment.expanduser().absolute()))


def _check(commands: Commands[Parser]) -> None:
    own = commands.add_parser(
        "check", help="install what tests need, and run every check of the project",
        description="Make or update the environment, then run lint, types, the lessons and the tests. With CI set, "
                    "anything missing or skipped is a failure.",
        epilog="What stands after -- goes to pytest: mechcalc check --only tests -- -k carry")
    own.add_argument("--only", action="append", default=[], metavar="CHECK",
                     help="lint, types, lessons or tests; may be given several times")
    own.add_argument("pytest", nargs="*", metavar="ARGUMENT", help="arguments for pytest, after --")
    _environment_options(own)
    own.set_defaults(do=_do_check)


def _do_check(wish: argparse.Namespace) -> int:
    from mechcalc.setup import checks
    return checks.run(wish.only, wish.pytest, wish.environment and wish.environment.expanduser().absolute(),
                      wish.here, not wish.newest)


def _lessons(commands: Commands[Parser]) -> None:
    own = commands.add_parser("lessons", help="list the lessons",
                              description="List the lessons in the order of the course, with the minutes that each "
                              "takes in class and the paths that it is on.")
    own.add_argument("--path", metavar="PATH",
                     help="those on one path only: class (a class, over a term) or alone (a new restorer, studying "
                     "alone)")
    own.set_defaults(do=_do_lessons)


def _do_lessons(wish: argparse.Namespace) -> int:
    from mechcalc.cli.tables import lesson_list
    print(lesson_list(wish.path))
    return DONE


def _machines(commands: Commands[Parser]) -> None:
    own = commands.add_parser("machines", help="list the machines of the catalogue",
                              description="List the machines of the catalogue with their places.")
    own.set_defaults(do=_do_machines)


def _do_machines(wish: argparse.Namespace) -> int:
    from mechcalc.cli.tables import machine_list
    print(machine_list())
    return DONE


def _machine(commands: Commands[Parser]) -> None:
    own = commands.add_parser("machine", help="show one machine and the angle budget of its drum; or describe your own",
                              description="Show one machine and the angle budget of its drum. With --new, describe the "
                              "machine in front of you, question by question, and write its file; you can stop at any "
                              "time, and the same command goes on.")
    own.add_argument("name", nargs="?", metavar="NAME",
                     help="a machine of the catalogue, or the path of a TOML file of yours")
    own.add_argument("--new", type=Path, metavar="FILE",
                     help="describe a machine of your own and write it to this file, such as my_machine.toml")
    own.add_argument("--replace", action="store_true", help="with --new: change a machine that is there")
    own.set_defaults(do=_do_machine)


def _do_machine(wish: argparse.Namespace) -> int:
    if (wish.name is None) == (wish.new is None):
        raise InputError("name one machine to be shown, or describe a new one with --new FILE")
    if wish.new is not None:
        from mechcalc.cli.new_machine import describe
        return describe(wish.new.expanduser(), wish.replace)
    from mechcalc.cli.tables import machine_sheet
    print(machine_sheet(wish.name))
    return DONE


def _calculation_options(own: Parser) -> None:
    own.add_argument("--machine", default=USUAL_MACHINE, metavar="NAME",
                     help=f"a machine of the catalogue, or the path of a TOML file ({USUAL_MACHINE} unless given)")
    own.add_argument("--short-cut", action="store_true",
                     help="multiply in the fewest turns, subtractive ones among them")
    own.add_argument("--by-complement", action="store_true", help="take away by adding the complement")
    own.add_argument("--places", type=int, default=0, metavar="N",
                     help="decimals of a quotient or a root (0 unless given)")
    own.add_argument("--method", default="", metavar="NAME",
                     help="for a quotient: restoring, 'without putting back' or 'compare first'; for a root: 'compare "
                     "first', restoring or 'five times' (square roots)")
    own.add_argument("--by-hand", action="store_true",
                     help="in a product of several factors, set each result again by hand instead of by back transfer")


def _manner(wish: argparse.Namespace) -> Manner:
    from mechcalc.cli.working import Manner
    return Manner(short_cut=wish.short_cut, by_complement=wish.by_complement, places=wish.places, method=wish.method,
                  by_hand=wish.by_hand)


def _work(commands: Commands[Parser]) -> None:
    own = commands.add_parser("work", help="work a calculation, stroke by stroke",
                              description="Work a calculation on a machine and print every stroke of it.",
                              epilog="Signs: + - x /; several numbers can be added, taken away one after another, or "
                              "multiplied. Also 'root 2', 'cube root 10', '7 ^ 4' and '8!'. Quote a calculation that "
                              "holds a star: '347 * 26'.")
    own.add_argument("calculation", nargs="+", metavar="CALCULATION", help="for instance: 347 x 26")
    _calculation_options(own)
    own.add_argument("--brief", action="store_true", help="one line a stroke, without words and algebra")
    own.set_defaults(do=_do_work)


def _do_work(wish: argparse.Namespace) -> int:
    from mechcalc.cli.working import report, work
    working = work(" ".join(wish.calculation), wish.machine, _manner(wish))
    print(report(working, wish.brief))
    return DONE


def _compare(commands: Commands[Parser]) -> None:
    from mechcalc.cli.comparing import add_compare
    add_compare(commands.add_parser(
        "compare", help="compare the ways of a calculation, or the same one on several machines",
        description="Work a calculation in every way there is on one machine, or in one way on several, and compare "
        "what each costs the operator."), USUAL_MACHINE)


def _table(commands: Commands[Parser]) -> None:
    from mechcalc.cli.comparing import add_table
    add_table(commands.add_parser(
        "table", help="work a table by differences", description="Work the values of a polynomial by additions only, "
        "from their differences, and print the table."), USUAL_MACHINE)


def _find(commands: Commands[Parser]) -> None:
    from mechcalc.cli.finding import add_find
    add_find(commands.add_parser(
        "find", help="find numbers that show a point",
        description="Find numbers for a calculation that show what they shall show: a long carry, a bell, no noughts. "
        "A wish that cannot be met is told which of its conditions cannot be met together.",
        epilog="For instance: mechcalc find multiply --digits 3x2 --with 'ripple >= 4' --with 'no nought in "
        "multiplier' --seed 7. All conditions: mechcalc find --list."), USUAL_MACHINE)


def _page(commands: Commands[Parser]) -> None:
    own = commands.add_parser("page", help="write a calculation as a page to take home",
                              description="Work a calculation and write it as one HTML file that moves in any "
                              "browser, without JupyterLab and without a network.")
    own.add_argument("calculation", metavar="CALCULATION", help="for instance: '347 x 26'")
    own.add_argument("file", type=Path, metavar="FILE", help="the file to write; it must not be there yet")
    own.add_argument("--replace", action="store_true", help="write over a file that is there")
    own.add_argument("--solid", action="store_true", help="in three dimensions: to turn, cut open and follow a carry")
    _calculation_options(own)
    own.set_defaults(do=_do_page)


def _do_page(wish: argparse.Namespace) -> int:
    from mechcalc.cli.working import work, write_page
    working = work(wish.calculation, wish.machine, _manner(wish))
    write_page(working, wish.file.expanduser(), wish.replace, wish.solid)
    print(f"Written: {wish.file}")
    return DONE


def _sharing(commands: Commands[Parser]) -> None:
    from mechcalc.cli.sharing import COMMANDS
    for name, (add, words, description) in COMMANDS.items():
        add(commands.add_parser(name, help=words, description=description))


def _worksheets(commands: Commands[Parser]) -> None:
    from mechcalc.cli.preparing import add_worksheets
    add_worksheets(commands.add_parser(
        "worksheets", help="make worksheets and their key for a class",
        description="Make a worksheet for every learner of a class, each with numbers of its own that are equally "
        "hard, and the key with every stroke. Writes PDF and HTML, a file for the answers, and what is needed to mark "
        "them."))


def _answers(commands: Commands[Parser]) -> None:
    from mechcalc.cli.preparing import add_answers
    add_answers(commands.add_parser(
        "answers", help="mark a class's answers to its worksheets",
        description="Mark a file of answers: tables by learner, by question and by misconception, a plot and a page. "
        "What cannot be read or placed is listed; nothing is lost."))


def _bench(commands: Commands[Parser]) -> None:
    from mechcalc.cli.bench import add_bench
    add_bench(commands.add_parser(
        "bench", help="faults, test plans and tracing for a machine on your bench",
        description="For a machine on the bench: what can be wrong with it, the fewest tests that reveal it, as a "
        "paper to follow; tracing what is wrong, test by test; and the report."))
