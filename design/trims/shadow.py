"""How far edges reach in a direction, and which stretch of a line they block.

Everything is exact for lines and arcs: a board lies in the wood if no edge comes into it, so the edges' shadows
on its long side are all that is needed.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from edgewright.design.outline import Arc, Line, Point, Segment
from edgewright.design.tolerances import TOUCH_MM
from edgewright.errors import GeometryError

__all__ = ["Frame", "free_between", "shadows", "span"]


@dataclass(frozen=True, slots=True)
class Frame:
    """Axes of a board: ``along`` a unit vector, ``across`` it turned left by a right angle (mm)."""

    origin: Point
    along: Point

    @classmethod
    def on(cls, line: Line) -> Frame:
        """Axes from the start of a line along it."""
        return cls.at(line.start, (line.end[0] - line.start[0], line.end[1] - line.start[1]))

    @classmethod
    def at(cls, origin: Point, direction: Point) -> Frame:
        """Axes from a point in a direction of any length but 0.

        Raises
        ------
        GeometryError
            If the direction has no length or a figure is not finite.
        """
        size = math.hypot(*direction)
        if not (size > 0 and all(map(math.isfinite, (*origin, size)))):
            raise GeometryError(
                f"a line's direction has length {size:g} mm; it must be greater than 0 mm: give two points"
            )
        return cls(origin, (direction[0] / size, direction[1] / size))

    def local(self, point: Point) -> Point:
        """Distances of a point along and across (to the left of) the line."""
        dx, dy = point[0] - self.origin[0], point[1] - self.origin[1]
        ux, uy = self.along
        return dx * ux + dy * uy, ux * dy - uy * dx

    def world(self, point: Point) -> Point:
        """Point of the plan from its distances along and across."""
        (x, y), (ux, uy) = point, self.along
        return self.origin[0] + x * ux - y * uy, self.origin[1] + x * uy + y * ux

    def moved(self, segment: Segment) -> Segment:
        """A segment seen from these axes."""
        start, end = self.local(segment.start), self.local(segment.end)
        if isinstance(segment, Line):
            return Line(start, end)
        return Arc(start, end, self.local(segment.centre), segment.radius, segment.sweep)


def span(segments: Iterable[Segment], direction: Point) -> tuple[float, float]:
    """Least and greatest distance of segments from the origin in a direction of length 1 (mm)."""
    ux, uy = direction
    found: list[float] = []
    for segment in segments:
        found += [x * ux + y * uy for x, y in (segment.start, segment.end)]
        if isinstance(segment, Arc):
            middle = segment.centre[0] * ux + segment.centre[1] * uy
            for angle, sign in ((math.atan2(uy, ux), 1.0), (math.atan2(-uy, -ux), -1.0)):
                if _reaches(segment, angle):
                    found.append(middle + sign * segment.radius)
    return min(found), max(found)


def shadows(segments: Iterable[Segment], low: float, high: float) -> list[tuple[float, float]]:
    """Ranges of x (mm) over which segments come between the heights ``low`` and ``high``, not counting both."""
    low, high = low + TOUCH_MM, high - TOUCH_MM
    found: list[tuple[float, float]] = []
    for segment in segments:
        shares = [0.0, 1.0]
        for height in (low, high):
            shares += _shares_at(segment, height)
        shares.sort()
        for begin, end in pairwise(shares):
            if low < _height(segment, (begin + end) / 2) < high:
                found.append(_x_range(segment, begin, end))
    return found


def free_between(
    blocked: Sequence[tuple[float, float]], begin: float, end: float
) -> list[tuple[float, float]]:
    """Stretches from ``begin`` to ``end`` (mm) that no range covers, in order."""
    free: list[tuple[float, float]] = []
    at = begin
    for low, high in sorted(blocked):
        if low > at:
            free.append((at, min(low, end)))
        at = max(at, high)
        if at >= end:
            break
    if at < end:
        free.append((at, end))
    return [(low, high) for low, high in free if high - low > TOUCH_MM]


def _reaches(arc: Arc, angle: float) -> bool:
    """Tell whether the arc has a point in this direction from its centre."""
    turned = math.copysign(1.0, arc.sweep) * (angle - arc.start_angle) % (2 * math.pi)
    return turned <= abs(arc.sweep)


def _height(segment: Segment, t: float) -> float:
    if isinstance(segment, Line):
        return segment.start[1] + t * (segment.end[1] - segment.start[1])
    return segment.centre[1] + segment.radius * math.sin(segment.start_angle + t * segment.sweep)


def _shares_at(segment: Segment, height: float) -> list[float]:
    """Shares of the length, within 0 to 1, at which the segment crosses a height."""
    if isinstance(segment, Line):
        rise = segment.end[1] - segment.start[1]
        shares = [(height - segment.start[1]) / rise] if rise else []
    else:
        sine = (height - segment.centre[1]) / segment.radius
        if abs(sine) >= 1:
            return []
        turn = math.copysign(1.0, segment.sweep)
        angles = (math.asin(sine), math.pi - math.asin(sine))
        shares = [
            turn * (angle - segment.start_angle) % (2 * math.pi) / abs(segment.sweep) for angle in angles
        ]
    return [share for share in shares if 0 < share < 1]


def _x_range(segment: Segment, begin: float, end: float) -> tuple[float, float]:
    """Least and greatest x of the piece between two shares."""
    if isinstance(segment, Line):
        ends = [segment.start[0] + t * (segment.end[0] - segment.start[0]) for t in (begin, end)]
        return min(ends), max(ends)
    first, last = (segment.start_angle + t * segment.sweep for t in (begin, end))
    xs = [segment.centre[0] + segment.radius * math.cos(angle) for angle in (first, last)]
    low, high = sorted((first, last))
    for half in range(math.ceil(low / math.pi), math.floor(high / math.pi) + 1):
        xs.append(segment.centre[0] + segment.radius * (-1) ** half)
    return min(xs), max(xs)
