"""An outline moved outwards: the finished edge of a top that a skirt covers, its corners mitred."""

from __future__ import annotations

import math
from dataclasses import replace

from edgewright.design.outline import FIT_MM, Arc, Line, Outline, Point, Segment
from edgewright.design.segments import direction
from edgewright.design.tolerances import PARALLEL_RAD
from edgewright.errors import GeometryError

__all__ = ["outset"]


def outset(outline: Outline, out: float) -> Outline:
    """Outline ``out`` mm (at least 0) outside a counter-clockwise one: smooth joints stay smooth, corners sharp.

    Raises
    ------
    GeometryError
        If a hollow arc is not larger than the distance, or a corner joins an arc at an angle.
    """
    if out <= FIT_MM:
        return outline
    moved = [_moved(segment, out) for segment in outline.segments]
    count = len(moved)
    corners = [
        _corner(outline.segments[at - 1], outline.segments[at], moved[at - 1], moved[at])
        for at in range(count)
    ]
    return Outline(
        tuple(
            replace(segment, start=corners[at], end=corners[(at + 1) % count])
            for at, segment in enumerate(moved)
        )
    )


def _moved(segment: Segment, out: float) -> Segment:
    if isinstance(segment, Line):
        ux, uy = direction(segment, 0.0)
        dx, dy = out * uy, -out * ux
        (ax, ay), (bx, by) = segment.start, segment.end
        return Line((ax + dx, ay + dy), (bx + dx, by + dy))
    radius = segment.radius + math.copysign(out, segment.sweep)
    if radius <= FIT_MM:
        raise GeometryError(
            f"the skirt is {out:.4g} mm thick on a hollow edge of radius {segment.radius:.4g} mm; it must be thinner "
            "than that: use a solid corner"
        )
    cx, cy = segment.centre

    def away(point: Point) -> Point:
        return (
            cx + (point[0] - cx) * radius / segment.radius,
            cy + (point[1] - cy) * radius / segment.radius,
        )

    return Arc(away(segment.start), away(segment.end), segment.centre, radius, segment.sweep)


def _corner(before: Segment, after: Segment, moved_before: Segment, moved_after: Segment) -> Point:
    (ux, uy), (vx, vy) = direction(before, 1.0), direction(after, 0.0)
    cross = ux * vy - uy * vx
    if abs(math.atan2(cross, ux * vx + uy * vy)) <= PARALLEL_RAD:
        return moved_after.start
    if not (isinstance(moved_before, Line) and isinstance(moved_after, Line)):
        x, y = after.start
        raise GeometryError(
            f"the edge has an angle between an arc and its neighbour at ({x:.5g}, {y:.5g}) mm; a skirt on the edge "
            "needs smooth joints there: round the corner, or put the skirt under the edge"
        )
    (px, py), (qx, qy) = moved_before.start, moved_after.start
    t = ((qx - px) * vy - (qy - py) * vx) / cross
    return px + t * ux, py + t * uy
