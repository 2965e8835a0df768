"""What finding numbers costs, as ratios within one run: python -m tests.benchmarks.finding

Run on demand, never by the test suite. A candidate that is reckoned is compared with the same one cranked, and a
search with what it would take if every candidate that it looked at had been cranked.
"""

from __future__ import annotations

from itertools import islice
from time import perf_counter

from mechcalc.preparing import NothingFound, Wish, find
from mechcalc.preparing.case import Case
from mechcalc.preparing.spans import numbers_in_order

SAMPLE = 150
SEARCHES = (
    Wish("multiply", digits="3x2", conditions=["ripple >= 4", "no nought in multiplier", "fewer turns by short cut"]),
    Wish("divide", digits="5x2", conditions=["no remainder", "nought inside quotient", "turns <= 20"]),
    Wish("add", digits="8x8", conditions=["ripple >= 9"]),
    Wish("multiply", digits="3x2", conditions=["ripple >= 5", "turns <= 12"]),
)


def seconds_each(wish: Wish, cranked: bool) -> float:
    """Seconds for the course of one candidate, carries and all, on average over the same sample."""
    sample = list(islice(numbers_in_order(wish.spans, 0), SAMPLE))
    begin = perf_counter()
    for numbers in sample:
        course = Case(wish, numbers, cranked).course
        assert course is None or course.runs is not None
    return (perf_counter() - begin) / SAMPLE


def main() -> None:
    """Print every figure, each with what it is compared with."""
    for wish in SEARCHES:
        reckoned, cranked = seconds_each(wish, False), seconds_each(wish, True)
        begin = perf_counter()
        try:
            said = find(wish).remark
        except NothingFound as no:
            said = f"proved impossible, {no.tried} candidates" if no.proved else f"{no.tried} tried, nothing found"
        took = perf_counter() - begin
        tried = int(next(word for word in said.split() if word.isdigit()))
        print(f"{wish.method} {wish.sizes}: {', '.join(one.text for one in wish.conditions)}\n"
              f"  {said}\n"
              f"  a candidate reckoned {reckoned * 1e6:7.0f} us, cranked {cranked * 1e6:7.0f} us: "
              f"{cranked / reckoned:.0f} times as long\n"
              f"  the search {took:6.2f} s; all of them cranked {tried * cranked:7.1f} s: "
              f"{tried * cranked / took:.0f} times as long")


if __name__ == "__main__":
    main()
