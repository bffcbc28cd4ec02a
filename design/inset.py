"""Inner parallel of a region: every point of the wood at a given distance from the nearest edge.

Each line and arc moves to its left by d, and an arc of radius d is laid round each inside corner. All these
pieces are cut where they meet; those parts stay that are nowhere nearer to the region's edge than d. An arc
of radius R < d has no such part: beyond its centre every point is nearer to another point of the arc.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from edgewright.design.chain import regions_of
from edgewright.design.meetings import along, boxes_of, meetings, table
from edgewright.design.outline import FIT_MM, Arc, Line, Point, Segment
from edgewright.design.region import Region
from edgewright.design.segments import curvature, point_at, split
from edgewright.design.tolerances import EVENT_MM, KEEP_MM, PARALLEL_RAD
from edgewright.errors import GeometryError

__all__ = ["inset"]

Floats = NDArray[np.float64]


def inset(region: Region, d: float) -> tuple[Region, ...]:
    """Move all edges of the region inward by ``d`` (mm, at least 0).

    Outside corners stay sharp, arcs of radius up to ``d`` end in a corner, inside corners get an arc of
    radius ``d``. The result has as many parts as the region falls into, largest first; none if nothing of
    the region is further than ``d`` from its edge. Where a split or the end of a part falls within rounding
    of ``d`` but not on it, the inset may be taken `EVENT_MM` further in, ten times that where two such events fall
    together.

    Raises
    ------
    GeometryError
        If ``d`` is negative or not finite, or edges of the result cannot be told apart.
    """
    if not (math.isfinite(d) and d >= 0):
        raise GeometryError(f"inset is {d:g} mm; it must be at least 0 mm: give a distance inward")
    if d <= FIT_MM:
        return (region,)
    for step in (0.0, EVENT_MM):
        try:
            return _inset(region, d + step)
        except GeometryError:
            # an event within rounding of d, neither before nor after it: step past it
            continue
    return _inset(region, d + 10 * EVENT_MM)


def _inset(region: Region, d: float) -> tuple[Region, ...]:
    """Inset by exactly ``d``; may fail within `NODE_MM` of an event."""
    rows = table(region.segments)
    moved = _moved(region, rows, d)
    cuts: list[list[Point]] = [[] for _ in moved]
    for i, j, met in meetings(moved, table(moved)):
        cuts[i] += met
        cuts[j] += met
    pieces = [
        piece
        for one, points in zip(moved, cuts, strict=True)
        for piece in (
            (one,)
            if not points and (isinstance(one, Line) or abs(one.sweep) < math.pi)
            else split(one, points)
        )
    ]
    if not pieces:
        return ()
    middles = np.array([point_at(piece, 0.5) for piece in pieces])
    clear = _clear(rows, middles, d)
    return regions_of(piece for piece, stays in zip(pieces, clear, strict=True) if stays)


def _moved(region: Region, rows: Floats, d: float) -> list[Segment]:
    """Segments moved to their left by d, and arcs round inside corners; what dies is left out.

    ``rows`` is the `table` of the region's segments.
    """
    segments = region.segments
    before = _before(region)
    ways = along(rows, rows[:, :2]), along(rows, rows[:, 2:4])
    way_in, way_out = ways[1][before], ways[0]
    turns = np.arctan2(
        way_in[:, 0] * way_out[:, 1] - way_in[:, 1] * way_out[:, 0], np.sum(way_in * way_out, axis=1)
    )
    straight = rows[:, 6] == 0
    radii = rows[:, 6] - np.copysign(d, rows[:, 7])
    shifted = []
    for ends, way in zip((rows[:, :2], rows[:, 2:4]), ways, strict=True):
        arm = ends - rows[:, 4:6]
        scale = radii / np.where(straight, 1.0, np.hypot(arm[:, 0], arm[:, 1]))
        on_line = ends + d * np.column_stack((-way[:, 1], way[:, 0]))
        shifted.append(np.where(straight[:, None], on_line, rows[:, 4:6] + arm * scale[:, None]))
    # an arc about an inside corner runs from where the segment before it ends to where the next begins
    found: list[Segment] = []
    begins, stops = ([(x, y) for x, y in points.tolist()] for points in shifted)
    for at, (segment, start, end, turn) in enumerate(
        zip(segments, begins, stops, turns.tolist(), strict=True)
    ):
        if abs(turn) > math.pi - PARALLEL_RAD:
            # a cusp: the wood is the point itself if the way back lies to the left of the way on
            turn = math.copysign(turn, -curvature(segments[before[at]]) - curvature(segment))
        if turn * d < -FIT_MM:
            found.append(_round(segment.start, way_in[at], way_out[at], d, turn))
        if isinstance(segment, Line):
            found.append(Line(start, end))
        elif segment.sweep < 0 or segment.radius - d > FIT_MM:
            found.append(Arc(start, end, segment.centre, float(radii[at]), segment.sweep))
    return found


def _before(region: Region) -> list[int]:
    """For each of the region's segments the number of the one before it in its loop."""
    found: list[int] = []
    for loop in region.loops:
        first, count = len(found), len(loop.segments)
        found += [first + (at - 1) % count for at in range(count)]
    return found


def _round(point: Point, way_in: Floats, way_out: Floats, d: float, turn: float) -> Arc:
    """Arc of radius d round an inside corner."""
    x, y = point
    (bx, by), (ax, ay) = way_in.tolist(), way_out.tolist()
    return Arc((x - d * by, y + d * bx), (x - d * ay, y + d * ax), point, d, turn)


def _about(box: Floats, points: Floats, d: float) -> NDArray[np.intp]:
    """Numbers of the pairs of a point and a box that it lies in or no further than ``d`` from, point by point."""
    # columns of their own: a stride costs more than the comparison
    west, south, east, north = np.ascontiguousarray(box.T)
    x, y = points[:, :1], points[:, 1:]
    about = x >= west - d
    about &= x <= east + d
    about &= y >= south - d
    about &= y <= north + d
    return np.flatnonzero(about)


def _clear(rows: Floats, points: Floats, d: float) -> NDArray[np.bool_]:
    """Tell for each point whether no segment of a table is nearer to it than d."""
    # the few pairs of a point and a segment that can be that near, one row each
    at, of = np.divmod(_about(boxes_of(rows), points, d), len(rows))
    px, py = points[at].T
    ax, ay, bx, by, cx, cy, radius, sweep = rows[of].T
    off = np.sqrt(np.minimum((px - ax) ** 2 + (py - ay) ** 2, (px - bx) ** 2 + (py - by) ** 2))

    on_line = radius == 0
    ux, uy, wx, wy = bx - ax, by - ay, px - ax, py - ay
    length, along = np.hypot(ux, uy), wx * ux + wy * uy
    beside = on_line & (along >= 0) & (along <= length * length)
    off = np.where(beside, np.abs(ux * wy - uy * wx) / np.where(beside, length, 1.0), off)

    middle = np.arctan2(ay - cy, ax - cx) + sweep / 2
    wx, wy = px - cx, py - cy
    away = np.hypot(wx, wy)
    facing = wx * np.cos(middle) + wy * np.sin(middle) >= np.cos(sweep / 2) * away
    off = np.where(~on_line & facing, np.abs(away - radius), off)

    clear = np.ones(len(points), dtype=np.bool_)
    clear[at[off < d - KEEP_MM]] = False
    return clear
