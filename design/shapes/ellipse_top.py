"""True ellipses: the exact curve, and the arcs that stand for it on the bench."""

from __future__ import annotations

import math
from typing import Final

from edgewright.design.ellipse import Ellipse
from edgewright.design.shapes.figures import need_positive
from edgewright.design.shapes.model import TAPE_MM, Shape, ShapeCheck
from edgewright.design.shapes.oval import end_radius_of
from edgewright.display import show_mm
from edgewright.errors import GeometryError
from edgewright.units import Units

__all__ = ["ELLIPSE_FIT_MM", "ellipse_shape"]

#: How far the arcs may lie from the ellipse: 0.002 in, far below a router's error (common practice, no source).
ELLIPSE_FIT_MM: Final = 0.05


def ellipse_shape(
    length: float, width: float, quarter_width: float | None = None, units: Units = "in"
) -> Shape:
    """Elliptical top.

    Parameters
    ----------
    length, width
        Axes in mm, along x and y.
    quarter_width
        Full width in mm at a quarter of the length, as a check: an ellipse has √3/2 = 0.866 of its width there.
    units
        In what the sentences speak.

    Returns
    -------
    Shape
        Outline of tangent arcs within `ELLIPSE_FIT_MM` of the exact curve, which it carries too.

    Raises
    ------
    GeometryError
        If a figure is not greater than 0.
    """
    need_positive("length", length)
    need_positive("width", width)
    exact = Ellipse(length, width, (length / 2, width / 2))
    outline = exact.arcs(ELLIPSE_FIT_MM)
    names = ("rim",) * len(outline.segments)
    checks: tuple[ShapeCheck, ...] = ()
    suggestions: tuple[str, ...] = ()
    if quarter_width is not None:
        need_positive("width at a quarter of the length", quarter_width)
        expected = math.sqrt(3) / 2 * width
        says = (
            f"the width at a quarter of the length is {show_mm(quarter_width, units)}; an ellipse has "
            f"{show_mm(expected, units)} there"
        )
        # the width at the middle, that at the quarter and where the quarter is are each off by a tape
        check = ShapeCheck("width at a quarter of the length", quarter_width, expected, 2 * TAPE_MM, says)
        checks = (check,)
        if not check.agrees:
            suggestions = (f"{says}: {_instead(length, width, quarter_width, units)}",)
    return Shape(outline, names, checks, suggestions, exact, ELLIPSE_FIT_MM)


def _instead(length: float, width: float, quarter_width: float, units: Units) -> str:
    """What the top may be if it is no ellipse."""
    try:
        radius = end_radius_of(length, width, quarter_width)
    except GeometryError:
        return "give a racetrack or a boat, or measure it again"
    return f"a four-arc oval with an end radius of {show_mm(radius, units)} has that width"
