"""Move and turn a shape."""

from __future__ import annotations

import math
from dataclasses import replace

from edgewright.design.outline import Point
from edgewright.design.shapes.figures import need_place
from edgewright.design.shapes.loop import move_outline
from edgewright.design.shapes.model import Shape
from edgewright.errors import GeometryError

__all__ = ["placed"]


def placed(shape: Shape, at: Point, turn: float = 0.0) -> Shape:
    """Turn a shape about the origin, then move it.

    Parameters
    ----------
    shape
        Any shape. Its edges keep their names: they are chalked on the wood and turn with it.
    at
        Where the origin goes, in mm.
    turn
        Radians counter-clockwise. A shape that was fitted to an ellipse keeps the exact curve when moved only; when
        turned it is the fit, still within ``fit_error_mm``.

    Raises
    ------
    GeometryError
        If a figure is not finite.
    """
    need_place("the origin of the shape", *at)
    if not math.isfinite(turn):
        raise GeometryError(f"turn is {math.degrees(turn):g}°; it must be finite: give an angle")
    exact = shape.ellipse
    if exact is not None:
        x, y = exact.centre
        exact = None if turn else replace(exact, centre=(x + at[0], y + at[1]))
    return replace(shape, outline=move_outline(shape.outline, at, turn), ellipse=exact)
