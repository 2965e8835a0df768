"""Very many machines at once: the same steps on each, with other faults and from other states.

A structure of arrays: one row a wheel, lever or pin, one column (*lane*) a machine. It is a second telling of the
mechanism, for speed; `tests/bench/test_batch.py` holds it to the event-level machine, step by step. numpy is imported
here and nowhere else in the bench.
"""

from mechcalc.bench.batch.engine import Batch, Views, views_of
from mechcalc.bench.batch.lanes import Lanes, lanes_of

__all__ = ["Batch", "Lanes", "Views", "lanes_of", "views_of"]
