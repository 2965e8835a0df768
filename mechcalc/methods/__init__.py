"""Written arithmetic on the machine: each method works a `Machine` and returns a `Working`.

>>> from mechcalc import Machine, load_spec
>>> from mechcalc.methods import multiply
>>> print(multiply(Machine(load_spec("slate")), 12, 11))
12 × 11 = 132
no.  the hand  algebra             setting  result  counter  carriage  bell  words
1    set 12    1 × 10 + 2 = 12          12       0        0         0        Set 12 on the levers.
2    turn      0 + 12 = 12              12      12        1         0        Turn: add 12.
3    shift +1  12 × 10 = 120            12      12        1         1        Shift the carriage to position 1: \
a turn now counts 10 times.
4    turn      12 + 12 × 10 = 132       12     132       11         1        Turn: add 12 × 10.
The result shows 132. The counter shows 11, the multiplier.

A calculation that does not fit is refused before the first stroke. sympy is imported when an equation is asked for
(``line.equation()``), or with `mechcalc.methods.algebra`. How to add a method stands in `mechcalc.methods.hand`.
"""

from mechcalc.methods.addition import add, subtract, subtract_by_complement
from mechcalc.methods.complement import (
    ComplementReading,
    complement_reading,
    nines_complement,
    signed_result,
    tens_complement,
)
from mechcalc.methods.cube_roots import cube_root
from mechcalc.methods.division import divide
from mechcalc.methods.division_turns import average_division_turns, division_turns
from mechcalc.methods.hand import Hand, work
from mechcalc.methods.multiplication import multiply, multiply_short_cut
from mechcalc.methods.quotients import divide_building_up, divide_by_reciprocal, reciprocal
from mechcalc.methods.roots import square_root
from mechcalc.methods.short_cut import handbook_digits, plain_digits, signed_digits, turns_of
from mechcalc.methods.working import Line, Outcome, Row, Working

__all__ = ["ComplementReading", "Hand", "Line", "Outcome", "Row", "Working", "add", "average_division_turns",
           "complement_reading", "cube_root", "divide", "divide_building_up", "divide_by_reciprocal", "division_turns",
           "handbook_digits", "multiply", "multiply_short_cut", "nines_complement", "plain_digits", "reciprocal",
           "signed_digits", "signed_result", "square_root", "subtract", "subtract_by_complement", "tens_complement",
           "turns_of", "work"]
