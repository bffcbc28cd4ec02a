"""Inner parallel of a region: every point of the wood at a given distance from the nearest edge.

Each line and arc moves to its left by d, and an arc of radius d is laid round each inside corner. All these
pieces are cut where they meet; those parts stay that are nowhere nearer to the region's edge than d. An arc
of radius R < d has no such part: beyond its centre every point is nearer to another point of the arc.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from edgewright.design.chain import regions_of
from edgewright.design.intersect import boxes, intersections, meeting_pairs
from edgewright.design.outline import FIT_MM, Arc, Line, Point, Segment
from edgewright.design.region import Region
from edgewright.design.segments import curvature, direction, point_at, split
from edgewright.design.tolerances import EVENT_MM, KEEP_MM, PARALLEL_RAD
from edgewright.errors import GeometryError

__all__ = ["inset"]


def inset(region: Region, d: float) -> tuple[Region, ...]:
    """Move all edges of the region inward by ``d`` (mm, at least 0).

    Outside corners stay sharp, arcs of radius up to ``d`` end in a corner, inside corners get an arc of
    radius ``d``. The result has as many parts as the region falls into, largest first; none if nothing of
    the region is further than ``d`` from its edge. Where a split or the end of a part falls within rounding
    of ``d`` but not on it, the inset may be taken `EVENT_MM` further in.

    Raises
    ------
    GeometryError
        If ``d`` is negative or not finite, or edges of the result cannot be told apart.
    """
    if not (math.isfinite(d) and d >= 0):
        raise GeometryError(f"inset is {d:g} mm; it must be at least 0 mm: give a distance inward")
    if d <= FIT_MM:
        return (region,)
    try:
        return _inset(region, d)
    except GeometryError:
        # an event within rounding of d, neither before nor after it: step past it
        return _inset(region, d + EVENT_MM)


def _inset(region: Region, d: float) -> tuple[Region, ...]:
    """Inset by exactly ``d``; may fail within `NODE_MM` of an event."""
    moved = _moved(region, d)
    cuts: list[list[Point]] = [[] for _ in moved]
    for i, j in meeting_pairs(moved):
        met = intersections(moved[i], moved[j])
        cuts[i] += met
        cuts[j] += met
    pieces = [piece for one, points in zip(moved, cuts, strict=True) for piece in split(one, points)]
    if not pieces:
        return ()
    middles = np.array([point_at(piece, 0.5) for piece in pieces])
    clear = _clear(region.segments, middles, d)
    return regions_of(piece for piece, stays in zip(pieces, clear, strict=True) if stays)


def _moved(region: Region, d: float) -> list[Segment]:
    """Segments moved to their left by d, and arcs round inside corners; what dies is left out."""
    found: list[Segment] = []
    for loop in region.loops:
        before = loop.segments[-1]
        for segment in loop.segments:
            corner = _round(before, segment, d)
            if corner is not None:
                found.append(corner)
            if isinstance(segment, Line) or segment.sweep < 0 or segment.radius - d > FIT_MM:
                found.append(_shifted(segment, d))
            before = segment
    return found


def _shifted(segment: Segment, d: float) -> Segment:
    """Move one segment to its left by d."""
    if isinstance(segment, Line):
        ux, uy = direction(segment, 0.0)
        (ax, ay), (bx, by) = segment.start, segment.end
        return Line((ax - d * uy, ay + d * ux), (bx - d * uy, by + d * ux))
    radius = segment.radius - math.copysign(d, segment.sweep)
    ends = []
    for x, y in (segment.start, segment.end):
        ux, uy = x - segment.centre[0], y - segment.centre[1]
        scale = radius / math.hypot(ux, uy)
        ends.append((segment.centre[0] + ux * scale, segment.centre[1] + uy * scale))
    return Arc(ends[0], ends[1], segment.centre, radius, segment.sweep)


def _round(before: Segment, segment: Segment, d: float) -> Arc | None:
    """Arc of radius d round an inside corner between two segments; None at any other joint."""
    bx, by = direction(before, 1.0)
    ax, ay = direction(segment, 0.0)
    turn = math.atan2(bx * ay - by * ax, bx * ax + by * ay)
    if abs(turn) > math.pi - PARALLEL_RAD:
        # a cusp: the wood is the point itself if the way back lies to the left of the way on
        turn = math.copysign(turn, -curvature(before) - curvature(segment))
    if turn * d >= -FIT_MM:
        return None
    x, y = segment.start
    return Arc((x - d * by, y + d * bx), (x - d * ay, y + d * ax), (x, y), d, turn)


def _clear(segments: Sequence[Segment], points: NDArray[np.float64], d: float) -> NDArray[np.bool_]:
    """Tell for each point whether no segment is nearer to it than d."""
    box = boxes(segments)
    x, y = points[:, :1], points[:, 1:]
    about = (x >= box[:, 0] - d) & (x <= box[:, 2] + d) & (y >= box[:, 1] - d) & (y <= box[:, 3] + d)
    # the few pairs of a point and a segment that can be that near, one row each
    at, of = np.nonzero(about)
    start = np.array([segment.start for segment in segments])[of]
    end = np.array([segment.end for segment in segments])[of]
    off = np.minimum(np.hypot(*(points[at] - start).T), np.hypot(*(points[at] - end).T))
    is_arc = np.array([isinstance(segment, Arc) for segment in segments])[of]

    on_line = np.nonzero(~is_arc)[0]
    (ux, uy), (wx, wy) = (end - start)[on_line].T, (points[at] - start)[on_line].T
    length, along = np.hypot(ux, uy), wx * ux + wy * uy
    beside = (along >= 0) & (along <= length * length)
    off[on_line] = np.where(beside, np.abs(ux * wy - uy * wx) / length, off[on_line])

    on_arc = np.nonzero(is_arc)[0]
    arcs = np.array([_arc_row(segment) for segment in segments])[of[on_arc]]
    wx, wy = (points[at[on_arc]] - arcs[:, :2]).T
    away = np.hypot(wx, wy)
    facing = wx * arcs[:, 3] + wy * arcs[:, 4] >= arcs[:, 5] * away
    off[on_arc] = np.where(facing, np.abs(away - arcs[:, 2]), off[on_arc])

    clear = np.ones(len(points), dtype=np.bool_)
    clear[at[off < d - KEEP_MM]] = False
    return clear


def _arc_row(segment: Segment) -> tuple[float, float, float, float, float, float]:
    """Centre, radius, direction to the arc's middle, and cosine of half its sweep; zeros for a line."""
    if isinstance(segment, Line):
        return (0.0,) * 6
    middle = segment.start_angle + segment.sweep / 2
    return (
        *segment.centre,
        segment.radius,
        math.cos(middle),
        math.sin(middle),
        math.cos(segment.sweep / 2),
    )
