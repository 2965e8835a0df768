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

from mechcalc.methods.accounts import division_account
from mechcalc.methods.addition import add, subtract, subtract_by_complement
from mechcalc.methods.chains import factorial, multiply_chain, power
from mechcalc.methods.checks import (
    Check,
    cast_out,
    check_by,
    check_product,
    check_quotient,
    check_sum,
    check_sum_of_products,
    other_way,
    slips_missed,
    work_backwards,
)
from mechcalc.methods.comparing import (
    Calculation,
    Comparison,
    Cost,
    Weights,
    compare,
    compare_machines,
    cost_of,
)
from mechcalc.methods.complement import (
    ComplementReading,
    complement_reading,
    nines_complement,
    signed_result,
    tens_complement,
)
from mechcalc.methods.cube_roots import cube_root
from mechcalc.methods.decimals import add_decimals, growth, multiply_decimals
from mechcalc.methods.differences import difference_start, table_by_differences, tabulate
from mechcalc.methods.division import divide
from mechcalc.methods.division_turns import average_division_turns, division_turns
from mechcalc.methods.gnomons import Gnomon, gnomons_of
from mechcalc.methods.hand import Hand, work
from mechcalc.methods.interest import interest_table
from mechcalc.methods.multiplication import multiply, multiply_short_cut
from mechcalc.methods.paper import OneVariable, TwoVariables
from mechcalc.methods.points import Answer, Points, places_to_keep
from mechcalc.methods.quotients import divide_building_up, divide_by_reciprocal, reciprocal
from mechcalc.methods.roots import square_root
from mechcalc.methods.short_cut import handbook_digits, plain_digits, signed_digits, turns_of
from mechcalc.methods.sums import (
    centred_sums,
    deviation_on_machine,
    mean_on_machine,
    sum_of_products,
    sums_of_one,
    sums_of_two,
)
from mechcalc.methods.table import Table
from mechcalc.methods.tables import fibonacci, multiples, percentages
from mechcalc.methods.ways import ways_of_chaining, ways_of_dividing, ways_of_multiplying, ways_of_rooting
from mechcalc.methods.working import Line, Outcome, Row, Working

__all__ = ["Answer", "Calculation", "Check", "Comparison", "ComplementReading", "Cost", "Gnomon", "Hand", "Line",
           "OneVariable", "Outcome", "Points", "Row", "Table", "TwoVariables", "Weights", "Working", "add",
           "add_decimals", "average_division_turns", "cast_out", "centred_sums", "check_by", "check_product",
           "check_quotient", "check_sum", "check_sum_of_products", "compare", "compare_machines", "complement_reading",
           "cost_of", "cube_root", "deviation_on_machine", "difference_start", "divide", "divide_building_up",
           "divide_by_reciprocal", "division_account", "division_turns", "factorial", "fibonacci", "gnomons_of",
           "growth", "handbook_digits", "interest_table", "mean_on_machine", "multiples", "multiply", "multiply_chain",
           "multiply_decimals", "multiply_short_cut", "nines_complement", "other_way", "percentages", "places_to_keep",
           "plain_digits", "power", "reciprocal", "signed_digits", "signed_result", "slips_missed", "square_root",
           "subtract", "subtract_by_complement", "sum_of_products", "sums_of_one", "sums_of_two",
           "table_by_differences", "tabulate", "tens_complement", "turns_of", "ways_of_chaining", "ways_of_dividing",
           "ways_of_multiplying", "ways_of_rooting", "work", "work_backwards"]
