"""Four-arc ovals: two end arcs and two side arcs that meet tangent, exact."""

from __future__ import annotations

import math

from edgewright.design.shapes.figures import LEAST_MM, need_greater, need_positive
from edgewright.design.shapes.loop import named_loop
from edgewright.design.shapes.model import Shape
from edgewright.errors import GeometryError

__all__ = ["classical_end_radius", "end_radius_of", "four_arc_oval", "side_radius"]


def classical_end_radius(length: float, width: float) -> float:
    """End radius (mm) of the classical four-centre oval in a box.

    With half-axes a, b and h = √(a² + b²): r = h (h - (a - b)) / 2a. Drawn: join the ends of the half-axes, take
    a - b off that line from the end of the short one, and halve what is left at right angles; the halving line meets
    both axes in the centres.

    References
    ----------
    Common drawing practice, no source.
    """
    a, b = length / 2, width / 2
    h = math.hypot(a, b)
    return h * (h - (a - b)) / (2 * a)


def side_radius(length: float, width: float, end_radius: float) -> float:
    """Radius (mm) of the side arcs that meet end arcs of a given radius tangent: (a² + b² - 2ar) / 2(b - r).

    The centres of an end and a side arc are R - r apart: (a - r)² + (R - b)² = (R - r)².
    """
    a, b = length / 2, width / 2
    return (a * a + b * b - 2 * a * end_radius) / (2 * (b - end_radius))


def four_arc_oval(
    length: float, width: float, end_radius: float | None = None, quarter_width: float | None = None
) -> Shape:
    """Oval of four tangent arcs.

    Parameters
    ----------
    length, width
        In mm, the length greater than the width.
    end_radius
        Radius of the ends in mm, greater than 0 and less than half the width; None for the classical rule, see
        `classical_end_radius`.
    quarter_width
        Instead of the end radius: full width in mm at a quarter of the length from either end.

    Raises
    ------
    GeometryError
        If a figure is out of range, both ways are given, or no four-arc oval has that width at the quarter.
    """
    _need_oval(length, width)
    if end_radius is not None and quarter_width is not None:
        raise GeometryError(
            f"end radius {end_radius:g} mm and width at the quarter {quarter_width:g} mm are both given; at most "
            "one decides the oval: leave one out"
        )
    if quarter_width is not None:
        r = end_radius_of(length, width, quarter_width)
    elif end_radius is not None:
        r = end_radius
    else:
        r = classical_end_radius(length, width)
    need_positive("end radius", r)
    a, b = length / 2, width / 2
    if not r <= b - LEAST_MM:
        raise GeometryError(
            f"end radius is {r:.10g} mm; it must be less than half the width, {b:.10g} mm: "
            "give a racetrack for half-circle ends"
        )
    big = side_radius(length, width, r)
    # the joint lies on the line through both centres, beyond that of the end
    share = r / (big - r)
    x, y = (a - r) * (1 + share), (big - b) * share
    # half the turn of an end arc, and of a side arc
    end = math.atan2(big - b, a - r)
    end_bulge, side_bulge = math.tan(end / 2), math.tan((math.pi / 2 - end) / 2)
    return Shape(
        *named_loop(
            (
                ((a - x, b - y), side_bulge, "south"),
                ((a + x, b - y), end_bulge, "east end"),
                ((a + x, b + y), side_bulge, "north"),
                ((a - x, b + y), end_bulge, "west end"),
            )
        )
    )


def end_radius_of(length: float, width: float, quarter_width: float) -> float:
    """End radius (mm) of the four-arc oval that is ``quarter_width`` mm wide at a quarter of its length.

    Raises
    ------
    GeometryError
        If the width at the quarter is not between that of two arcs that meet in a point and that of a racetrack.
    """
    _need_oval(length, width)
    need_positive("width at a quarter of the length", quarter_width)
    least, most = _quarter_width(length, width, 0.0), _quarter_width(length, width, width / 2)
    if not least < quarter_width < most:
        raise GeometryError(
            f"width at a quarter of the length is {quarter_width:.10g} mm; a four-arc oval of {length:.10g} by "
            f"{width:.10g} mm allows more than {least:.6g} and less than {most:.6g} mm: measure it again, or give "
            "a boat or a racetrack"
        )
    low, high = 0.0, width / 2
    # the oval fills out as its ends grow, so halving finds the radius; 200 halvings exhaust a float
    for _ in range(200):
        middle = (low + high) / 2
        if not low < middle < high:
            break
        if _quarter_width(length, width, middle) < quarter_width:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def _quarter_width(length: float, width: float, r: float) -> float:
    """Width at a quarter of the length for an end radius from 0 (pointed) to half the width (racetrack)."""
    a, b = length / 2, width / 2
    at = a / 2
    if r < b:
        big = side_radius(length, width, r)
        joint = (a - r) * big / (big - r)
        if at <= joint:
            # b - (R - √(R² - x²)), written so that a flat side loses no digits
            return 2 * (b - at * at / (big + math.sqrt(big * big - at * at)))
    elif at <= a - b:
        return width
    return 2 * math.sqrt(max(r * r - (at - (a - r)) ** 2, 0.0))


def _need_oval(length: float, width: float) -> None:
    need_positive("length", length)
    need_positive("width", width)
    need_greater(
        "length of an oval",
        length,
        "its width ",
        width,
        "give the longer figure as the length, or a round top",
    )
