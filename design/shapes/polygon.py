"""Tops with straight edges: regular polygons, and any polygon measured by its sides and diagonals."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import accumulate
from typing import Final

from edgewright.design.outline import Outline, Point
from edgewright.design.shapes.figures import need_positive, need_triangle
from edgewright.design.shapes.loop import move_outline, named_loop
from edgewright.design.shapes.model import TAPE_MM, Shape, ShapeCheck
from edgewright.display import show_mm
from edgewright.errors import GeometryError
from edgewright.units import Units

__all__ = ["ANGLE_TOLERANCE_DEG", "corner_angles", "irregular_polygon", "regular_polygon"]

_MOST_SIDES: Final = 64

#: What a bevel gauge or a protractor may be off in one corner (common practice, no source).
ANGLE_TOLERANCE_DEG: Final = 0.5


def regular_polygon(
    sides: int,
    *,
    across_flats: float | None = None,
    across_corners: float | None = None,
    side: float | None = None,
    units: Units = "in",
) -> Shape:
    """Regular polygon with one side along the south.

    Parameters
    ----------
    sides
        Number of sides, 3 to 64.
    across_flats, across_corners, side
        At least one, in mm. The first one given decides, the others are checked against it. Across flats and
        across corners need an even number of sides.
    units
        In what the sentences speak.

    Raises
    ------
    GeometryError
        If a figure is out of range, none is given, or the number of sides is odd where it must be even.
    """
    if not (isinstance(sides, int) and 3 <= sides <= _MOST_SIDES):
        raise GeometryError(f"number of sides is {sides}; it must be 3 to {_MOST_SIDES}: count them again")
    step = math.pi / sides
    # each measurement is the radius of the corners times this
    given = {
        "across flats": (across_flats, 2 * math.cos(step)),
        "across corners": (across_corners, 2.0),
        "side": (side, 2 * math.sin(step)),
    }
    taken = {name: (value, factor) for name, (value, factor) in given.items() if value is not None}
    if not taken:
        raise GeometryError(
            "0 sizes of the polygon given; at least 1 is needed: measure across flats or a side"
        )
    for name, (value, _) in taken.items():
        need_positive(name, value)
        if name != "side" and sides % 2:
            raise GeometryError(
                f"{name} is {value:g} mm for {sides} sides; an even number of sides is needed for it: give the side"
            )
    first, (size, factor) = next(iter(taken.items()))
    radius = size / factor
    checks = []
    for name, (value, share) in list(taken.items())[1:]:
        expected = radius * share
        says = f"{name} is {show_mm(value, units)}; {first} {show_mm(size, units)} predicts {show_mm(expected, units)}"
        checks.append(ShapeCheck(name, value, expected, 2 * TAPE_MM, says))
    corners = [
        (radius * math.cos(angle), radius * math.sin(angle))
        for angle in (-math.pi / 2 - step + 2 * step * at for at in range(sides))
    ]
    outline, names = named_loop([(corner, 0.0, f"edge {at}") for at, corner in enumerate(corners, start=1)])
    return Shape(_to_origin(outline), names, tuple(checks))


def irregular_polygon(
    sides: Sequence[float],
    diagonals_from_first_corner: Sequence[float],
    angles: Sequence[float] | None = None,
    units: Units = "in",
) -> Shape:
    """Polygon set up triangle by triangle from its first corner, its first side along x.

    Parameters
    ----------
    sides
        All sides in mm, counter-clockwise, side 1 from corner 1 to corner 2; 3 to 64.
    diagonals_from_first_corner
        From corner 1 to corners 3, 4, ... in mm; three less than there are sides.
    angles
        Inside angles in degrees at corners 1, 2, ... as a check, if taken.
    units
        In what the sentences speak.

    Returns
    -------
    Shape
        With the angles given: a check of their sum and of each.

    Raises
    ------
    GeometryError
        If counts do not fit, a triangle does not close, or the triangles do not lie side by side.
    """
    count = len(sides)
    if not 3 <= count <= _MOST_SIDES:
        raise GeometryError(f"{count} sides given; 3 to {_MOST_SIDES} are read: measure every side")
    if len(diagonals_from_first_corner) != count - 3:
        raise GeometryError(
            f"{len(diagonals_from_first_corner)} diagonals given; {count} sides need exactly {count - 3}: "
            "measure from the first corner to every corner that is not its neighbour"
        )
    # lines from corner 1 to corners 2 ... n
    spokes = [sides[0], *diagonals_from_first_corner, sides[-1]]
    labels = ["side 1", *(f"diagonal 1-{at}" for at in range(3, count)), f"side {count}"]
    turns = [0.0]
    for at in range(count - 2):
        one, far, other = spokes[at], sides[at + 1], spokes[at + 1]
        need_triangle((labels[at], f"side {at + 2}", labels[at + 1]), (one, far, other))
        turns.append(_angle(one, other, far))
    directions = list(accumulate(turns))
    if not directions[-1] < 2 * math.pi:
        raise GeometryError(
            f"the triangles at corner 1 fill {math.degrees(directions[-1]):.4g}°; they must fill less than 360°: "
            "measure the diagonals again"
        )
    corners: list[Point] = [(0.0, 0.0)]
    corners += [(s * math.cos(at), s * math.sin(at)) for s, at in zip(spokes, directions, strict=True)]
    outline, names = named_loop([(corner, 0.0, f"edge {at}") for at, corner in enumerate(corners, start=1)])
    return Shape(_to_origin(outline), names, _angle_checks(outline, angles, units))


def corner_angles(outline: Outline) -> tuple[float, ...]:
    """Inside angle (degrees) at the start of each straight edge of a polygon."""
    found = []
    edges = outline.segments
    for before, after in zip((edges[-1], *edges[:-1]), edges, strict=True):
        ax, ay = before.start[0] - after.start[0], before.start[1] - after.start[1]
        bx, by = after.end[0] - after.start[0], after.end[1] - after.start[1]
        found.append(math.degrees(math.atan2(bx * ay - by * ax, ax * bx + ay * by) % (2 * math.pi)))
    return tuple(found)


def _angle_checks(outline: Outline, angles: Sequence[float] | None, units: Units) -> tuple[ShapeCheck, ...]:
    """Check measured inside angles: their sum, then each against the sides and diagonals."""
    if angles is None:
        return ()
    count = len(outline.segments)
    if len(angles) != count:
        raise GeometryError(f"{len(angles)} angles given; exactly {count} are needed: one for each corner")
    for number, angle in enumerate(angles, start=1):
        if not 0 < angle < 360:
            raise GeometryError(
                f"angle at corner {number} is {angle:g}°; it must be more than 0° and less than 360°: "
                "measure it on the wood side"
            )
    total, expected = math.fsum(angles), 180.0 * (count - 2)
    # gauge errors of independent corners add up like their root
    checks = [
        ShapeCheck(
            "sum of the angles",
            total,
            expected,
            ANGLE_TOLERANCE_DEG * math.sqrt(count),
            f"the {count} angles add up to {total:g}°, those of a polygon to {expected:g}°",
        )
    ]
    for number, (angle, found) in enumerate(zip(angles, corner_angles(outline), strict=True), start=1):
        reach = min(outline.segments[number - 2].length, outline.segments[number - 1].length)
        says = (
            f"the angle at corner {number} is {angle:g}°, sides and diagonals make it {found:.2f}°: "
            f"{show_mm(reach * math.radians(abs(angle - found)), units)} over the shorter side"
        )
        checks.append(ShapeCheck(f"angle at corner {number}", angle, found, ANGLE_TOLERANCE_DEG, says))
    return tuple(checks)


def _angle(one: float, other: float, far: float) -> float:
    """Angle (radians) between two sides of a triangle; the half-angle form is exact for slim triangles too."""
    half = (one + other + far) / 2
    return 2 * math.atan2(
        math.sqrt(max((half - one) * (half - other), 0.0)), math.sqrt(max(half * (half - far), 0.0))
    )


def _to_origin(outline: Outline) -> Outline:
    west, south, _, _ = outline.bounds
    return move_outline(outline, (-west, -south))
