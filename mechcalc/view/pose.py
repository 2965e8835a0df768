"""Where every part stands at a travel: the one function that stills, pages and tests share with the browser.

Only this file reads tracks in Python; js/pose.js is its twin and is tested against it.
"""

from __future__ import annotations

from bisect import bisect_right
from typing import Any

Pose = dict[str, float]


def value(keys: list[list[float]], travel: float) -> float:
    """The value of one track.

    >>> keys = [[0, 3], [10, 3], [20, 4], [20, 7]]
    >>> [value(keys, travel) for travel in (-5, 10, 15, 20, 99)]
    [3, 3.0, 3.5, 7, 7]
    """
    index = bisect_right(keys, travel, key=lambda key: key[0])
    if index == 0:
        return keys[0][1]
    if index == len(keys):
        return keys[-1][1]
    (begin, was), (end, becomes) = keys[index - 1], keys[index]
    return was + (becomes - was) * (travel - begin) / (end - begin)


def pose(timeline: dict[str, Any], travel: float) -> Pose:
    """Every part's value at `travel` (degrees since the timeline's beginning).

    Units: ``wheel``, ``counter``, ``idler``: steps, counted on past 9; ``setting``: the lever's digit; ``pin``,
    ``lever``, ``carrypin``, ``pawl``, ``lock``, ``comb``, ``transfer``, ``lift``, ``clearing``: 0 in or home to 1 out
    or down; ``crank``: degrees, additive positive; ``carriage``: positions; ``direction``: 1, -1, or 0 while free.
    """
    return {name: value(keys, travel) for name, keys in timeline["tracks"].items()}
