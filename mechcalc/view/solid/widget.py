"""The solid view in a notebook: the flat view's widget with a solid picture that follows the same playhead.

Only this file hands the solid view's code to a page. It does so when a page asks, which it does once, however many
views it shows; what a widget saves is the small loader and how the view was set.
"""

from __future__ import annotations

from typing import Any

import traitlets

from mechcalc.view.solid.script import loader, page_script, solid_styles, version
from mechcalc.view.solid.setting import setting
from mechcalc.view.widget import MachineView


class SolidView(MachineView):
    """A picture of a machine in three dimensions. Made by `show` with ``solid=True``.

    Attributes
    ----------
    solid : dict
        How the view is set: ``picture`` (``"solid"``, ``"both"``: solid and flat on one playhead, ``"flat"``),
        ``viewpoint`` (``"home", "front", "behind", "along", "above", "place"``, or ``""`` once it was turned by hand),
        ``follow`` (whether the camera follows the carry).
    """

    _esm = loader()
    _css = ""
    solid = traitlets.Dict().tag(sync=True)

    def __init__(self, what: Any, *, picture: str = "solid", viewpoint: str = "home", follow: bool = False,
                 **given: Any) -> None:
        told = setting(picture, viewpoint, follow)
        super().__init__(what, **given)
        self.solid = told

    def _asked(self, view: Any, content: Any, buffers: Any) -> None:
        """A message from the page: the code is wanted, or what the flat view's page asks for."""
        if isinstance(content, dict) and content.get("fetch") == version():
            self.send({"solid": version(), "code": page_script(), "styles": solid_styles()})
        else:
            super()._asked(view, content, buffers)

    def look(self, viewpoint: str, picture: str | None = None, follow: bool = False) -> None:
        """Go to a viewpoint, or follow the carry, from Python.

        Raises
        ------
        InputError
            No such viewpoint or picture.
        """
        self.solid = setting(picture or self.solid["picture"], viewpoint, follow)
