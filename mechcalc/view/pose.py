"""Where every part stands at a travel: the one function that stills, pages and tests share with the browser.

Only this file reads tracks in Python; js/pose.js is its twin and is tested against it.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
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


def moment_at(timeline: dict[str, Any], travel: float) -> dict[str, Any]:
    """The moment that a picture at `travel` speaks of.

    The one in action; between two, the one that was completed last in the same stroke; before the first, the stroke
    itself. ``active`` tells whether its parts are in action.
    """
    moments, index = timeline["moments"], stroke_at(timeline, travel)
    first = bisect_left(moments, travel, key=lambda moment: moment["at"])
    for moment in moments[first:]:
        if moment["from"] < travel or moment["at"] == travel:
            return {**moment, "active": True}
        if moment["stroke"] != index:
            break
    if first and moments[first - 1]["stroke"] == index:
        return {**moments[first - 1], "active": False}
    if index is None:
        words = "Nothing has moved yet."
    else:
        words = timeline["strokes"][index]["words"]
        words = words[:1].upper() + words[1:] + ("" if words[-1:] in ".!?" else ".")
    return {"at": travel, "from": travel, "stroke": index, "kinds": [], "words": words, "parts": [], "active": False}


def stroke_at(timeline: dict[str, Any], travel: float) -> int | None:
    """The index of the stroke under way at `travel`; at a boundary the one that ends there; None at the start."""
    strokes = timeline["strokes"]
    if not strokes or travel <= strokes[0]["from"]:
        return None
    return min(bisect_left(strokes, travel, key=lambda stroke: stroke["to"]), len(strokes) - 1)


def turning_at(timeline: dict[str, Any], travel: float) -> int:
    """Which way the crank is being turned, or was turned last: 1 additive, -1 subtractive, 0 not yet."""
    keys = timeline["tracks"]["crank"]
    for index in range(min(bisect_left(keys, travel, key=lambda key: key[0]), len(keys) - 1), 0, -1):
        change = keys[index][1] - keys[index - 1][1]
        if change:
            return 1 if change > 0 else -1
    return (keys[0][1] > 0) - (keys[0][1] < 0)
