"""A lesson on paper, from its notebook with the outputs that it was committed with.

Only this file lists what the room gives. The way goes through one HTML page, which is of use by itself, and the
system's browser: a notebook's outputs are HTML already (tables, formulas, coloured code), and a typesetter would need a
second layout of each. The page holds no script and needs no network; formulas are MathML, which browsers set
themselves.
"""

from mechcalc.sharing.lesson.write import handout

__all__ = ["handout"]
