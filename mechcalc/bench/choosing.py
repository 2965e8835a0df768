"""Which test to do next: the one after which, as far as two tests ahead can tell, least is left to do.

Only this file weighs tests against each other. The expected information of a test (the entropy of its answers; J. de
Kleer and B. C. Williams, "Diagnosing multiple faults", Artificial Intelligence 32 (1987), 97-130) says which ones are
worth a closer look; among those the choice goes by the tests that would still be needed: one more where another test
tells everything apart that an answer leaves together, two where it does not.
"""

from __future__ import annotations

from typing import Any

import numpy as np

LOOKED_AT = 12    # tests, the most informative ones
WEIGHED = 500     # groups of explanations that look the same, the likeliest


def information(codes: Any, share: Any) -> Any:
    """The entropy of each test's answers, in bits: array (T,).

    Parameters
    ----------
    codes : array (T, N)
        What each of N explanations would answer to each of T tests; equal numbers for equal answers.
    share : array (N,)
        How likely each is; adding up to 1.

    Examples
    --------
    >>> information(np.array([[1, 1, 2, 2], [1, 2, 3, 4], [5, 5, 5, 5]]), np.full(4, 0.25)).tolist()
    [1.0, 2.0, 0.0]
    """
    bits = np.empty(len(codes))
    for test, row in enumerate(codes):
        parts = np.bincount(np.unique(row, return_inverse=True)[1].reshape(-1), weights=share)
        parts = parts[parts > 0]
        bits[test] = max(0.0, float(-(parts * np.log2(parts)).sum()))
    return bits


def best_test(codes: Any, share: Any, work: Any) -> tuple[int, float]:
    """The number of the test to do next, and its information in bits.

    Parameters
    ----------
    codes : array (T, N)
    share : array (N,)
    work : array (T,)
        What each costs; decides between tests that promise the same.

    Examples
    --------
    >>> best_test(np.array([[1, 1, 2, 2], [1, 2, 1, 2], [1, 2, 3, 3]]), np.full(4, 0.25), np.ones(3))
    (2, 1.5)
    """
    codes, share = _together(codes, share)
    bits = information(codes, share)
    order = np.lexsort((work, -np.round(bits, 9)))[:LOOKED_AT]
    left = [(round(_left_after(codes, share, test), 9), -round(float(bits[test]), 9), float(work[test]), int(test))
            for test in order if bits[test] > 0]
    best = min(left)[3] if left else int(order[0])
    return best, float(bits[best])


def _together(codes: Any, share: Any) -> tuple[Any, Any]:
    """Explanations that no test tells apart as one, the likeliest first, no more than can be weighed."""
    columns, which = np.unique(codes, axis=1, return_inverse=True)
    weight = np.bincount(which.reshape(-1), weights=share, minlength=columns.shape[1])
    kept = np.argsort(-weight, kind="stable")[:WEIGHED]
    return columns[:, kept], weight[kept] / weight[kept].sum()


def _left_after(codes: Any, share: Any, test: int) -> float:
    """Expected tests still to do after this one, two ahead."""
    groups = np.unique(codes[test], return_inverse=True)[1].reshape(-1)
    order = np.argsort(groups, kind="stable")
    borders = np.flatnonzero(np.diff(groups[order])) + 1
    return sum(_to_go(codes[:, members], share[members]) for members in np.split(order, borders) if len(members) > 1)


def _to_go(codes: Any, share: Any) -> float:
    """At least so many tests, times its likelihood, for a group that has to be told apart."""
    order = np.argsort(codes, axis=1, kind="stable")
    sorted_codes = np.take_along_axis(codes, order, axis=1)
    same = sorted_codes[:, 1:] == sorted_codes[:, :-1]
    crowded = np.zeros(codes.shape, bool)
    crowded[:, 1:] |= same
    crowded[:, :-1] |= same
    return float(share.sum() + (share[order] * crowded).sum(axis=1).min())
