"""The best possible order of tests, by trying all: an oracle for small problems.

Only this file knows the whole truth about a decision tree. It is exhaustive with bounds, and independent of the kit's
entropy rule.
"""

from __future__ import annotations

from functools import cache


def least_expected_tests(columns, weights) -> float:
    """The expected number of tests of an optimal decision tree that tells all columns apart.

    Parameters
    ----------
    columns : sequence of tuple
        For each fault its answers to the tests, no two equal.
    weights : sequence of float
        How likely each is.
    """
    tests = range(len(columns[0]))

    @cache
    def best(members: frozenset[int], limit: float) -> float:
        """The least expected tests times weight for these, or anything above `limit`."""
        if len(members) == 1:
            return 0.0
        here = sum(weights[member] for member in members)
        found = float("inf")
        splits = []
        for test in tests:
            groups: dict[int, list[int]] = {}
            for member in members:
                groups.setdefault(columns[member][test], []).append(member)
            if len(groups) > 1:
                parts = sorted((frozenset(group) for group in groups.values() if len(group) > 1), key=len)
                bound = here + sum(sum(weights[member] for member in part) for part in parts)
                splits.append((bound, parts))
        for bound, parts in sorted(splits, key=lambda split: split[0]):
            ceiling = min(found, limit)
            if bound >= ceiling:
                break
            cost, rest = here, [sum(weights[member] for member in part) for part in parts]
            for number, part in enumerate(parts):
                cost += best(part, ceiling - cost - sum(rest[number + 1:]))
                if cost + sum(rest[number + 1:]) >= ceiling:
                    break
            else:
                found = min(found, cost)
        return found

    return best(frozenset(range(len(columns))), float("inf")) / sum(weights)
