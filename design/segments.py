"""What one line or arc can tell: points, directions, distances, and its pieces."""

from __future__ import annotations

import math
from collections.abc import Sequence

from edgewright.design.outline import Arc, Line, Outline, Point, Segment
from edgewright.design.tolerances import NODE_MM, PARALLEL_RAD

__all__ = [
    "curvature",
    "direction",
    "distance",
    "parameter",
    "point_at",
    "reversed_segment",
    "split",
    "turn_at",
    "turn_between",
    "winding",
]


def point_at(segment: Segment, t: float) -> Point:
    """Point at the share ``t`` of the length, 0 at the start, 1 at the end (mm)."""
    if isinstance(segment, Line):
        (ax, ay), (bx, by) = segment.start, segment.end
        return ax + t * (bx - ax), ay + t * (by - ay)
    angle = segment.start_angle + t * segment.sweep
    cx, cy = segment.centre
    return cx + segment.radius * math.cos(angle), cy + segment.radius * math.sin(angle)


def direction(segment: Segment, t: float) -> Point:
    """Unit vector along the segment at the share ``t`` of its length."""
    if isinstance(segment, Line):
        (ax, ay), (bx, by) = segment.start, segment.end
        length = segment.length
        return (bx - ax) / length, (by - ay) / length
    angle = segment.start_angle + t * segment.sweep
    turn = math.copysign(1.0, segment.sweep)
    return -turn * math.sin(angle), turn * math.cos(angle)


def curvature(segment: Segment) -> float:
    """Curvature in 1/mm, positive where the segment bends to the left."""
    return 0.0 if isinstance(segment, Line) else math.copysign(1 / segment.radius, segment.sweep)


def parameter(segment: Segment, point: Point) -> float:
    """Share of the length at which the segment's carrier is nearest to the point; below 0 before the start."""
    px, py = point
    if isinstance(segment, Line):
        (ax, ay), (bx, by) = segment.start, segment.end
        ux, uy = bx - ax, by - ay
        return ((px - ax) * ux + (py - ay) * uy) / (ux * ux + uy * uy)
    size = abs(segment.sweep)
    angle = math.atan2(py - segment.centre[1], px - segment.centre[0])
    turned = math.copysign(1.0, segment.sweep) * (angle - segment.start_angle) % (2 * math.pi)
    # beyond the middle of the open part the start is nearer than the end
    if turned > size / 2 + math.pi:
        turned -= 2 * math.pi
    return turned / size


def distance(segment: Segment, point: Point) -> float:
    """Distance from the point to the nearest point of the segment (mm)."""
    if isinstance(segment, Line):
        t = min(max(parameter(segment, point), 0.0), 1.0)
        return math.dist(point, point_at(segment, t))
    if 0 <= parameter(segment, point) <= 1:
        return abs(math.dist(point, segment.centre) - segment.radius)
    return min(math.dist(point, segment.start), math.dist(point, segment.end))


def split(segment: Segment, points: Sequence[Point]) -> list[Segment]:
    """Cut the segment at points on or very near it; no piece turns further than half a circle.

    The cuts are moved onto the segment: a piece never leaves its line or circle. Points nearer than
    `NODE_MM` to an end or to another cut make no piece of their own.
    """
    shares = [parameter(segment, point) for point in points]
    if isinstance(segment, Arc) and abs(segment.sweep) > math.pi * (1 + 1e-9):
        shares.append(0.5)
    least = NODE_MM / segment.length
    pieces: list[Segment] = []
    t, at = 0.0, segment.start
    for t_next in [*sorted(share for share in shares if share < 1 - least), 1.0]:
        if t_next <= t + least and t_next < 1:
            continue
        point = segment.end if t_next == 1 else point_at(segment, t_next)
        if isinstance(segment, Line):
            pieces.append(Line(at, point))
        else:
            share = (t_next - t) * segment.sweep
            pieces.append(Arc(at, point, segment.centre, segment.radius, share))
        t, at = t_next, point
    return pieces


def winding(outline: Outline, point: Point) -> int:
    """How often the loop runs counter-clockwise round a point that is not on it.

    The angle under which each chord is seen, and a full turn more where the point lies between an arc and
    its chord.
    """
    px, py = point
    total = 0.0
    for segment in outline.segments:
        ax, ay = segment.start[0] - px, segment.start[1] - py
        bx, by = segment.end[0] - px, segment.end[1] - py
        side = ax * by - ay * bx
        total += math.atan2(side, ax * bx + ay * by) if side else _on_chord_line(ax * bx + ay * by)
        if isinstance(segment, Arc) and math.dist(point, segment.centre) < segment.radius:
            if segment.sweep > 0 and side < 0:
                total += 2 * math.pi
            elif segment.sweep < 0 and side >= 0:
                total -= 2 * math.pi
    return round(total / (2 * math.pi))


def _on_chord_line(dot: float) -> float:
    """Angle of a chord seen from its own line, counted as if from the left."""
    return math.pi if dot < 0 else 0.0


def reversed_segment(segment: Segment) -> Segment:
    """The same piece run the other way."""
    if isinstance(segment, Line):
        return Line(segment.end, segment.start)
    return Arc(segment.end, segment.start, segment.centre, segment.radius, -segment.sweep)


def turn_between(before: Segment, after: Segment) -> float:
    """Angle by which an edge turns left from one segment to the next, radians, as floats give it."""
    ux, uy = direction(before, 1.0)
    vx, vy = direction(after, 0.0)
    return math.atan2(ux * vy - uy * vx, ux * vx + uy * vy)


def turn_at(before: Segment, after: Segment) -> float:
    """Angle by which an edge turns left from one segment to the next, radians; 0 where they run on smoothly."""
    turn = turn_between(before, after)
    if abs(turn) <= PARALLEL_RAD:
        return 0.0
    if abs(turn) > math.pi - PARALLEL_RAD:
        # a cusp: the wood is the point itself if the way back lies to the left of the way on
        return math.copysign(math.pi, -curvature(before) - curvature(after))
    return turn
