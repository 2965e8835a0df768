"""Predictions: written down before a run, compared after it.

Only this file decides what is said to a prediction. A wrong one is never blamed: it is the reason to look.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from mechcalc.classroom import logbook
from mechcalc.classroom.answers import YES_OR_NO, Choice, Digits, Kind, Number, Unreadable, plainly
from mechcalc.numbers import is_truth, shown
from mechcalc.view import asking

NO_PREDICTION = "No prediction yet. Write yours down in place of None and run both cells; a wrong one teaches most."


def foretold(prediction: Any, happened: Any) -> None:
    """Print a prediction beside what happened.

    Parameters
    ----------
    prediction : object
        What the learner wrote down before the run; None prints one fixed line.
    happened : int, tuple of int, str or bool
        What the machine then showed. It says what kind of answer is read: a number, digits units first, a word, or
        yes and no.

    Examples
    --------
    >>> foretold(None, 1000)
    No prediction yet. Write yours down in place of None and run both cells; a wrong one teaches most.
    >>> foretold("1 000", 1000)
    You foretold 1000, and 1000 it is.
    >>> foretold("no", True)
    You foretold no; it came to yes. Good: now find out why.
    """
    print(compared(prediction, happened))
    if prediction is not None:
        _kept(prediction, happened)


def _kept(prediction: Any, happened: Any) -> None:
    """The prediction in the learner's file, where there is one."""
    kind = _kind_of(happened)
    seen = kind.read(happened)
    try:
        thought = logbook.writable(kind.read(prediction))
        outcome = "right" if thought == logbook.writable(seen) else "wrong"
    except Unreadable:
        thought, outcome = shown(prediction), "unreadable"
    logbook.keep(kind="prediction", lesson=logbook.notebook(), about=logbook.cell(), given=thought, outcome=outcome,
                 happened=logbook.writable(seen))


def _keeper() -> Callable[[asking.Prediction], None]:
    """For a picture that asks (`mechcalc.view.show` with `predict`): its predictions, under the cell that showed it."""
    lesson, about = logbook.notebook(), logbook.cell()

    def keep(made: asking.Prediction) -> None:
        logbook.keep(kind="prediction", lesson=lesson, about=about, given=logbook.writable(made.foretold),
                     outcome="right" if made.right else "wrong", happened=logbook.writable(made.happened))
    return keep


asking.LISTENERS.append(_keeper)


def compared(prediction: Any, happened: Any) -> str:
    """The line that `foretold` prints."""
    if prediction is None:
        return NO_PREDICTION
    kind = _kind_of(happened)
    seen = kind.read(happened)
    try:
        thought = kind.read(prediction)
    except Unreadable as line:
        return f"This prediction cannot be compared. {line}"
    if thought == seen:
        return f"You foretold {plainly(seen)}, and {plainly(seen)} it is."
    return f"You foretold {plainly(thought)}; it came to {plainly(seen)}. Good: now find out why."


def _kind_of(happened: Any) -> Kind:
    if is_truth(happened):
        return YES_OR_NO
    if isinstance(happened, tuple):
        return Digits(len(happened))
    return _Word(happened) if isinstance(happened, str) else Number()


class _Word(Choice):
    """Any word at all, compared with the one that came true."""

    __slots__ = ()

    def read(self, given: Any) -> str:
        if not isinstance(given, str):
            raise Unreadable(f"Write a word, quotes included, such as \"{self.words[0]}\".")
        said = " ".join(given.split())
        return self.words[0] if said.casefold() == self.words[0].casefold() else said
