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
from edgewright.design.intersect import intersections, meeting_pairs
from edgewright.design.outline import FIT_MM, Arc, Line, Point, Segment
from edgewright.design.region import Region
from edgewright.design.segments import curvature, direction, point_at, split
from edgewright.design.tolerances import KEEP_MM, PARALLEL_RAD
from edgewright.errors import GeometryError

__all__ = ["inset"]


def inset(region: Region, d: float) -> tuple[Region, ...]:
    """Move all edges of the region inward by ``d`` (mm, at least 0).

    Outside corners stay sharp, arcs of radius up to ``d`` end in a corner, inside corners get an arc of
    radius ``d``. The result has as many parts as the region falls into, largest first; none if nothing of
    the region is further than ``d`` from its edge.

    Raises
    ------
    GeometryError
        If ``d`` is negative or not finite.
    """
    if not (math.isfinite(d) and d >= 0):
        raise GeometryError(f"inset is {d:g} mm; it must be at least 0 mm: give a distance inward")
    if d <= FIT_MM:
        return (region,)
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
    clear = _clearance(region.segments, middles) >= d - KEEP_MM
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


def _clearance(segments: Sequence[Segment], points: NDArray[np.float64]) -> NDArray[np.float64]:
    """Distance (mm) from each point to the nearest of the segments."""
    nearest = np.full(len(points), np.inf)
    px, py = points[:, :1], points[:, 1:]
    # the ends of every segment, so that the rest need only look between them
    starts = np.array([segment.start for segment in segments])
    nearest = np.min(np.hypot(px - starts[:, 0], py - starts[:, 1]), axis=1)
    lines = [segment for segment in segments if isinstance(segment, Line)]
    if lines:
        begin = np.array([line.start for line in lines])
        ux, uy = (np.array([line.end for line in lines]) - begin).T
        length = np.hypot(ux, uy)
        wx, wy = px - begin[:, 0], py - begin[:, 1]
        along = wx * ux + wy * uy
        off = np.abs(ux * wy - uy * wx) / length
        between = (along >= 0) & (along <= length * length)
        nearest = np.minimum(nearest, np.min(np.where(between, off, np.inf), axis=1))
    arcs = [segment for segment in segments if isinstance(segment, Arc)]
    if arcs:
        centre = np.array([arc.centre for arc in arcs])
        radius = np.array([arc.radius for arc in arcs])
        middle = np.array([point_at(arc, 0.5) for arc in arcs]) - centre
        wx, wy = px - centre[:, 0], py - centre[:, 1]
        away = np.hypot(wx, wy)
        # within half the sweep of the arc's middle
        least = np.array([math.cos(arc.sweep / 2) for arc in arcs]) * radius
        facing = wx * middle[:, 0] + wy * middle[:, 1] >= least * away
        nearest = np.minimum(nearest, np.min(np.where(facing, np.abs(away - radius), np.inf), axis=1))
    return nearest
