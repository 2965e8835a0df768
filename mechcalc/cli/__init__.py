"""The command line: it reads words, calls the kit and prints; it computes nothing itself."""

from mechcalc.cli.commands import run

__all__ = ["run"]
