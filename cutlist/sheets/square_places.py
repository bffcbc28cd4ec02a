"""Where a point of a top is found with tape and square: its distances from two edges that are not parallel."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from edgewright.design.intersect import intersections
from edgewright.design.outline import Line, Point
from edgewright.design.segments import direction, parameter, point_at
from edgewright.design.shapes.model import Shape

__all__ = ["FromEdge", "square_places"]

#: Two edges that cross at less than this place a point badly.
_LEAST_ANGLE: Final = math.radians(30)


@dataclass(frozen=True, slots=True)
class FromEdge:
    """Distance of a point square from a straight edge (mm), and the foot on that edge."""

    name: str
    distance: float
    foot: Point


def square_places(shape: Shape, point: Point) -> tuple[FromEdge, FromEdge]:
    """Distances of a point from two edges, the nearest that a square reaches.

    Where fewer than two such edges exist, as on a round top, they are taken from the south and the west of the box
    around the top.
    """
    near: list[tuple[float, int, FromEdge, Line]] = []
    for number, (name, edge) in enumerate(zip(shape.names, shape.outline.segments, strict=True)):
        if not isinstance(edge, Line):
            continue
        share = parameter(edge, point)
        foot = point_at(edge, share)
        far = math.dist(point, foot)
        if 0 <= share <= 1 and far > 1e-6 and _clear(shape, number, Line(point, foot)):
            near.append((far, number, FromEdge(name, far, foot), edge))
    near.sort(key=lambda found: found[:2])
    for _, _, one, first in near[:1]:
        ux, uy = direction(first, 0.5)
        for _, _, other, second in near[1:]:
            vx, vy = direction(second, 0.5)
            if abs(ux * vy - uy * vx) >= math.sin(_LEAST_ANGLE):
                return one, other
    x0, y0, _, _ = shape.outline.bounds
    x, y = point
    return (
        FromEdge("west of the box", x - x0, (x0, y)),
        FromEdge("south of the box", y - y0, (x, y0)),
    )


def _clear(shape: Shape, number: int, way: Line) -> bool:
    """Whether all of the way to the edge is wood."""
    return all(
        math.dist(met, way.end) < 1e-3 or math.dist(met, way.start) < 1e-3
        for other, edge in enumerate(shape.outline.segments)
        if other != number
        for met in intersections(way, edge)
    )
