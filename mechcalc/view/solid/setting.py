"""How a solid view is set, as plain data: which picture, from where, following or not.

Only this file names the pictures and viewpoints for Python; js/solidcamera.js and js/solidpanel.js have the same,
and a test holds them together.
"""

from __future__ import annotations

from typing import Any

from mechcalc.errors import InputError
from mechcalc.numbers import shown

PICTURES = ("solid", "both", "flat")
VIEWPOINTS = ("home", "front", "behind", "along", "above", "place")


def setting(picture: str = "solid", viewpoint: str = "home", follow: bool = False) -> dict[str, Any]:
    """The setting of a view.

    Raises
    ------
    InputError
        No such picture or viewpoint.

    Examples
    --------
    >>> setting("both", "behind")
    {'picture': 'both', 'viewpoint': 'behind', 'follow': False}
    >>> setting(viewpoint="below")
    Traceback (most recent call last):
        ...
    mechcalc.errors.InputError: 'below' is no viewpoint: there are home, front, behind, along, above, place
    """
    for value, known, what in ((picture, PICTURES, "picture"), (viewpoint, VIEWPOINTS, "viewpoint")):
        if value not in known:
            raise InputError(f"{shown(value)} is no {what}: there are {', '.join(known)}")
    return {"picture": picture, "viewpoint": viewpoint, "follow": bool(follow)}


def setting_for(solid: bool | str) -> dict[str, Any]:
    """What the option ``solid`` of `mechcalc.view.show` and `mechcalc.view.take_home` means.

    >>> setting_for("follow")
    {'picture': 'solid', 'viewpoint': 'home', 'follow': True}
    >>> setting_for("round")
    Traceback (most recent call last):
        ...
    mechcalc.errors.InputError: solid is True, 'both' or 'follow', not 'round'
    """
    if solid is not True and solid not in ("both", "follow"):
        raise InputError(f"solid is True, 'both' or 'follow', not {shown(solid)}")
    return setting("both" if solid == "both" else "solid", follow=solid == "follow")
