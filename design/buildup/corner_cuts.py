"""Where the cuts at a corner of the ring run: on its bisector, through its inner corner, square to an edge."""

from __future__ import annotations

import math

from edgewright.design.buildup.curve_path import inward_at
from edgewright.design.buildup.ring_model import Cut
from edgewright.design.buildup.roundings import Corner
from edgewright.design.outline import Line, Point, Segment

__all__ = ["along_edge", "corner_cut", "square_cut"]


def square_cut(line: Line, at: Point) -> Cut:
    """Cut square to a line at a point of it."""
    return Cut(at, inward_at(line, 0.0), at)


def along_edge(line: Line, depth: float, at: Point) -> Cut:
    """Cut along a line that is moved into the wood by ``depth``, negative for outside."""
    nx, ny = inward_at(line, 0.0)
    (ax, ay), (bx, by) = line.start, line.end
    size = line.length
    return Cut((ax + depth * nx, ay + depth * ny), ((bx - ax) / size, (by - ay) / size), at)


def corner_cut(before: Segment, after: Segment, corner: Corner, ring: float) -> Cut:
    """Mitre between two runs, the same for both.

    Between straight edges, and at an inside corner, it runs on the bisector. At an outside corner with a curve
    it runs from the corner to where the two inner edges of the ring meet, so that each piece covers the ring
    width under its own edge.
    """
    (ax, ay), (bx, by) = inward_at(before, 1.0), inward_at(after, 0.0)
    x, y = ax + bx, ay + by
    size = math.hypot(x, y)
    if size < 1e-9:
        # a cusp: straight back into the wood, or out of it
        x, y, size = -ay * math.copysign(1.0, corner.turn), ax * math.copysign(1.0, corner.turn), 1.0
    bisector = (x / size, y / size)
    vertex = corner.vertex
    if (
        corner.turn > 0
        and corner.kind != "smooth"
        and not (isinstance(before, Line) and isinstance(after, Line))
    ):
        met = _inner_corner(before, after, vertex, bisector, ring, math.cos(corner.turn / 2))
        if met is not None:
            reach = math.dist(met, vertex)
            return Cut(vertex, ((met[0] - vertex[0]) / reach, (met[1] - vertex[1]) / reach), vertex)
    return Cut(vertex, bisector, vertex)


def _inner_corner(
    before: Segment, after: Segment, vertex: Point, bisector: Point, ring: float, cosine: float
) -> Point | None:
    """Point at the ring width from both edges' lines or circles, by Newton's method; None if there is none near."""
    reach = ring / max(cosine, 0.05)
    x, y = vertex[0] + reach * bisector[0], vertex[1] + reach * bisector[1]
    for _ in range(50):
        (da, nax, nay), (db, nbx, nby) = (_depth(edge, (x, y)) for edge in (before, after))
        cross = nax * nby - nay * nbx
        if abs(cross) < 1e-9:
            return None
        ra, rb = ring - da, ring - db
        dx, dy = (ra * nby - rb * nay) / cross, (nax * rb - nbx * ra) / cross
        x, y = x + dx, y + dy
        if math.hypot(dx, dy) < 1e-10 * ring:
            near = math.dist((x, y), vertex) < 4 * reach
            ahead = (x - vertex[0]) * bisector[0] + (y - vertex[1]) * bisector[1] > 0
            return (x, y) if near and ahead else None
    return None


def _depth(edge: Segment, point: Point) -> tuple[float, float, float]:
    """Depth of a point inside an edge's line or circle, and the unit vector in which it grows."""
    if isinstance(edge, Line):
        nx, ny = inward_at(edge, 0.0)
        return (point[0] - edge.start[0]) * nx + (point[1] - edge.start[1]) * ny, nx, ny
    wx, wy = edge.centre[0] - point[0], edge.centre[1] - point[1]
    away = math.hypot(wx, wy)
    sign = math.copysign(1.0, edge.sweep)
    return sign * (edge.radius - away), sign * wx / away, sign * wy / away
