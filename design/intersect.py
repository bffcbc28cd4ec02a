"""Where two segments meet: line and line, line and arc, arc and arc, exact but for rounding.

Near tangency the two points of a shallow crossing are the roots of a quadratic; where rounding makes it have
none although the curves miss by less than `TOUCH_MM`, they touch at one point.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from edgewright.design.outline import Arc, Line, Point, Segment
from edgewright.design.segments import distance, parameter, point_at
from edgewright.design.tolerances import NODE_MM, TOUCH_MM

__all__ = ["boxes", "intersections", "meeting_pairs"]

#: Sine of an angle below which two lines have no crossing that floats can place: 1e-12 mm at a metre.
_NO_CROSSING = 1e-12


def intersections(a: Segment, b: Segment) -> tuple[Point, ...]:
    """Points that two segments share (mm), none twice.

    Where they run along each other, the ends of the shared stretch. An end that lies within `TOUCH_MM` of
    the other segment counts as lying on it.
    """
    found: list[Point] = []
    for end in (a.start, a.end):
        if _touches(b, end):
            _add(found, end)
    for end in (b.start, b.end):
        if _touches(a, end):
            _add(found, end)
    for point in _carriers(a, b):
        if _within(a, point) and _within(b, point):
            _add(found, point)
    return tuple(found)


def boxes(segments: Sequence[Segment]) -> NDArray[np.float64]:
    """Upright boxes around segments, one row each: x min, y min, x max, y max (mm); an arc's may be wide."""
    rows = []
    for segment in segments:
        (ax, ay), (bx, by) = segment.start, segment.end
        sag = 0.0
        if isinstance(segment, Arc):
            # no arc bulges further than its chord's ends by this
            sag = segment.radius * (1 - math.cos(min(abs(segment.sweep) / 2, math.pi)))
        rows.append((min(ax, bx) - sag, min(ay, by) - sag, max(ax, bx) + sag, max(ay, by) + sag))
    return np.array(rows, dtype=np.float64).reshape(-1, 4)


def meeting_pairs(segments: Sequence[Segment]) -> list[tuple[int, int]]:
    """Pairs of different segments, the smaller number first, whose boxes overlap."""
    box = boxes(segments)
    low, high = box[:, :2] - NODE_MM, box[:, 2:] + NODE_MM
    meet = np.ones((len(box), len(box)), dtype=np.bool_)
    for axis in (0, 1):
        meet &= low[:, None, axis] <= high[None, :, axis]
    meet &= meet.T
    first, second = np.nonzero(np.triu(meet, 1))
    return list(zip(first.tolist(), second.tolist(), strict=True))


def _add(found: list[Point], point: Point) -> None:
    """Add a point unless it is there already."""
    if all(math.dist(point, other) > NODE_MM for other in found):
        found.append(point)


def _within(segment: Segment, point: Point) -> bool:
    """Tell whether a point of the segment's carrier lies between its ends."""
    return (
        0 <= parameter(segment, point) <= 1
        or math.dist(point, segment.start) <= NODE_MM
        or math.dist(point, segment.end) <= NODE_MM
    )


def _touches(segment: Segment, point: Point) -> bool:
    """Tell whether a point lies on the segment; most lie off its line or circle, which is seen at once."""
    if isinstance(segment, Line):
        (ax, ay), (bx, by) = segment.start, segment.end
        off = abs((bx - ax) * (point[1] - ay) - (by - ay) * (point[0] - ax)) / segment.length
    else:
        off = abs(math.dist(point, segment.centre) - segment.radius)
    return off <= TOUCH_MM and distance(segment, point) <= TOUCH_MM


def _carriers(a: Segment, b: Segment) -> tuple[Point, ...]:
    """Points shared by the whole line or circle of each segment."""
    if isinstance(a, Line):
        return _line_line(a, b) if isinstance(b, Line) else _line_arc(a, b)
    return _line_arc(b, a) if isinstance(b, Line) else _arc_arc(a, b)


def _line_line(a: Line, b: Line) -> tuple[Point, ...]:
    ux, uy = a.end[0] - a.start[0], a.end[1] - a.start[1]
    vx, vy = b.end[0] - b.start[0], b.end[1] - b.start[1]
    cross = ux * vy - uy * vx
    if abs(cross) <= _NO_CROSSING * math.hypot(ux, uy) * math.hypot(vx, vy):
        return ()
    wx, wy = b.start[0] - a.start[0], b.start[1] - a.start[1]
    return (point_at(a, (wx * vy - wy * vx) / cross),)


def _line_arc(line: Line, arc: Arc) -> tuple[Point, ...]:
    length = line.length
    ux, uy = (line.end[0] - line.start[0]) / length, (line.end[1] - line.start[1]) / length
    wx, wy = arc.centre[0] - line.start[0], arc.centre[1] - line.start[1]
    along, off = wx * ux + wy * uy, ux * wy - uy * wx
    foot = (line.start[0] + along * ux, line.start[1] + along * uy)
    return _either_side(foot, (ux, uy), arc.radius - abs(off), arc.radius + abs(off))


def _arc_arc(a: Arc, b: Arc) -> tuple[Point, ...]:
    if (b.radius, b.centre) < (a.radius, a.centre):
        # always measured from the smaller circle: a touch is one point or two whichever is named first, and
        # what is small beside the larger circle is not lost
        a, b = b, a
    dx, dy = b.centre[0] - a.centre[0], b.centre[1] - a.centre[1]
    apart = math.hypot(dx, dy)
    if apart <= TOUCH_MM:
        return ()  # concentric: the same circle or none in common
    between = apart - a.radius - b.radius
    if between > TOUCH_MM or apart < abs(a.radius - b.radius) - TOUCH_MM:
        return ()
    ux, uy = dx / apart, dy / apart
    if between > -TOUCH_MM:
        along = a.radius + between / 2  # the quotient below would blow up a miss of two small circles
    else:
        along = (apart + (a.radius - b.radius) * (a.radius + b.radius) / apart) / 2
    along = min(max(along, -a.radius), a.radius)
    foot = (a.centre[0] + along * ux, a.centre[1] + along * uy)
    return _either_side(foot, (-uy, ux), a.radius - abs(along), a.radius + abs(along))


def _either_side(foot: Point, along: Point, inner: float, outer: float) -> tuple[Point, ...]:
    """Points at ±√(inner × outer) from the foot; the foot itself where they touch."""
    if inner < -TOUCH_MM:
        return ()
    half = math.sqrt(max(inner, 0.0) * outer)
    if half == 0:
        return (foot,)
    return (
        (foot[0] + half * along[0], foot[1] + half * along[1]),
        (foot[0] - half * along[0], foot[1] - half * along[1]),
    )
