"""Carry mechanisms compared: why this carry and no other.

The same addition on four mechanisms: wheels that carry at once and directly, carry levers with a helix (the machine of
this kit), a carry that looks ahead, and none. For each what happens at which angle, how much of a turn it needs, and
how hard the crank is to turn, by a stated, simple model.

>>> from mechcalc import load_spec
>>> for way in carried(load_spec("slate"), 999, 1):
...     print(f"{way.name}: {way.result}, at most {way.effort().peak:g}")
at once: 1000, at most 4
by lever and helix: 1000, at most 1.3
looking ahead: 1000, at most 3
in the head: 1000, at most 1
"""

from mechcalc.carries.effort import Doing, Effort, Prices, doings_of, effort_of
from mechcalc.carries.growing import angles_by_places, conclusions, hardest, peaks_by_nines, work
from mechcalc.carries.mechanisms import Carrying, arcs, carried

__all__ = ["Carrying", "Doing", "Effort", "Prices", "angles_by_places", "arcs", "carried", "conclusions", "doings_of",
           "effort_of", "hardest", "peaks_by_nines", "work"]
