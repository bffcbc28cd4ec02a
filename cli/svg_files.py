"""SVG files of a plan: each drawn view at its true size on paper, the cut drawings at full size."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from edgewright.cli.view_words import view_title, view_words
from edgewright.cutlist.plan import Plan
from edgewright.drawing.svg import svg_text
from edgewright.drawing.svg_light import light_svg
from edgewright.drawing.view import View

if TYPE_CHECKING:
    from edgewright.cutlist.shaped_plan import ShapedPlan

__all__ = ["svg_files"]


def svg_files(plan: Plan | ShapedPlan, views: Iterable[View]) -> dict[str, bytes]:
    """One file for each view, named after it: ``svg/trim_1.svg``.

    Parameters
    ----------
    plan
        A plan that is ready.
    views
        Views of that plan; no two have the same name.

    Raises
    ------
    ValueError
        For a plan that is not ready, for nobody must cut by it, or two views of one name (a mistake in our own code).
    """
    if not plan.ready:
        raise ValueError("a plan that is NOT FOR CUTTING has no drawings of its own")
    files: dict[str, bytes] = {}
    for view in views:
        name = f"svg/{view.name.replace('-', '_')}.svg"
        if name in files:
            raise ValueError(f"two views are called {view.name}")
        text = svg_text(view, title=view_title(plan, view), description=view_words(plan, view))
        # a picture is shaded faces, too many for full precision
        files[name] = (light_svg(text) if view.name == "picture" else text).encode("utf-8")
    return files
