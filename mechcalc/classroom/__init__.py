"""The classroom: predictions, exercises that answer back, and the gate that every lesson goes through.

A lesson needs seven names: `foretold` for a prediction written down before a run, `look_over` for an answer, `nudge`
for a hint, `worked_out` for a folded solution, `ready` for a machine that already shows something, `told` for what
happened inside a stroke, and `refusal` for what the machine says to a movement that it does not make.
"""

from __future__ import annotations

from mechcalc.classroom.exercises import Exercise, Slip, look_over, nudge, worked_out
from mechcalc.classroom.machines import ready
from mechcalc.classroom.predictions import foretold
from mechcalc.classroom.refusals import refusal
from mechcalc.classroom.telling import told

__all__ = ["Exercise", "Slip", "foretold", "look_over", "nudge", "ready", "refusal", "told", "worked_out"]
