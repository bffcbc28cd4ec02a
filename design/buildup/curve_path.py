"""A curve of the edge divided for ring segments: where the joints lie, and the stretch between two of them.

Joints lie at equal shares of ∫√κ ds (κ curvature). A stretch of length L bulges L² κ / 8 over its chord, so
that equal shares give blanks of equal width: one rip. On a circle these are equal lengths. A curve may also be
of short straight facets, which turn at kinks.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from edgewright.design.outline import Arc, Line, Point, Segment
from edgewright.design.segments import direction, point_at

__all__ = ["CurvePath", "extremes", "inward_at"]

#: A stretch shorter than this share of a segment is rounding.
_NOTHING = 1e-9
#: A joint this near to the end of a segment, as a share of its length, lies on the kink.
_AT_KINK = 1e-6
#: Turn that even a straight facet counts for, radians, so that joints do not crowd where the edge bends.
_STRAIGHT = 0.02


def inward_at(segment: Segment, t: float) -> Point:
    """Unit vector square to the edge into the wood, on the left."""
    ux, uy = direction(segment, t)
    return -uy, ux


@dataclass(frozen=True, slots=True)
class CurvePath:
    """Segments that run on into each other.

    Attributes
    ----------
    segments, names
        Arcs or facets and the plain name of each.
    closed
        Whether the last runs on into the first: shares then count on over 1.
    kinks
        Turn at the end of each segment, radians; 0 at the end of an open curve.
    weights
        ∫√κ ds of each segment; a facet has half the turn of both its ends, and a little more.
    """

    segments: tuple[Segment, ...]
    names: tuple[str, ...]
    closed: bool = False
    kinks: tuple[float, ...] = field(init=False, repr=False, compare=False)
    weights: tuple[float, ...] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        last = _kink(self.segments[-1], self.segments[0]) if self.closed else 0.0
        kinks = (*(_kink(a, b) for a, b in pairwise(self.segments)), last)
        weights = []
        for at, segment in enumerate(self.segments):
            turn = abs(segment.sweep) if isinstance(segment, Arc) else _STRAIGHT
            if isinstance(segment, Line):
                turn += (abs(kinks[at - 1]) + abs(kinks[at])) / 2
            weights.append(math.sqrt(segment.length * turn))
        object.__setattr__(self, "kinks", kinks)
        object.__setattr__(self, "weights", tuple(weights))

    @property
    def length(self) -> float:
        """Length in mm."""
        return math.fsum(segment.length for segment in self.segments)

    @property
    def bend(self) -> float:
        """All turning added up, whichever way it goes, radians."""
        arcs = math.fsum(abs(arc.sweep) for arc in self.segments if isinstance(arc, Arc))
        return arcs + math.fsum(map(abs, self.kinks))

    def place(self, share: float) -> tuple[int, float]:
        """Number of the segment and share of its length at a share of the whole."""
        left = share * math.fsum(self.weights)
        for at, weight in enumerate(self.weights):
            if left <= weight * (1 + _NOTHING) or at == len(self.weights) - 1:
                return at, min(max(left / weight, 0.0), 1.0)
            left -= weight
        raise AssertionError("a curve has at least one segment")

    def joint(self, share: float) -> tuple[Point, Point]:
        """Point of the edge at a share, and the unit vector from there into the wood."""
        at, t = self.place(share % 1 if self.closed else share)
        here = self.segments[at]
        x, y = inward_at(here, t)
        # at a kink, square to both sides alike
        other = None
        if t > 1 - _AT_KINK and (self.closed or at + 1 < len(self.segments)):
            other = inward_at(self.segments[(at + 1) % len(self.segments)], 0.0)
        elif t < _AT_KINK and (self.closed or at > 0):
            other = inward_at(self.segments[at - 1], 1.0)
        if other is not None:
            x, y = x + other[0], y + other[1]
            size = math.hypot(x, y)
            x, y = x / size, y / size
        return point_at(here, t), (x, y)

    def between(self, start: float, end: float) -> tuple[tuple[Segment, ...], tuple[str, ...]]:
        """Segments from one share to a later one, and the names they bear."""
        if self.closed:
            whole = math.floor(start)
            start, end = start - whole, end - whole
            if end > 1 + _NOTHING:
                first, second = self._stretch(start, 1.0), self._stretch(0.0, end - 1)
                return self._named([*first, *second])
        return self._named(self._stretch(start, end))

    def _named(self, found: Sequence[tuple[Segment, str]]) -> tuple[tuple[Segment, ...], tuple[str, ...]]:
        return tuple(segment for segment, _ in found), tuple(dict.fromkeys(name for _, name in found))

    def _stretch(self, start: float, end: float) -> list[tuple[Segment, str]]:
        (first, from_t), (last, to_t) = self.place(start), self.place(end)
        found = []
        for at in range(first, last + 1):
            a, b = (from_t if at == first else 0.0), (to_t if at == last else 1.0)
            if b - a > _NOTHING:
                found.append((_part(self.segments[at], a, b), self.names[at]))
        return found


def _kink(before: Segment, after: Segment) -> float:
    (ax, ay), (bx, by) = direction(before, 1.0), direction(after, 0.0)
    return math.atan2(ax * by - ay * bx, ax * bx + ay * by)


def _part(segment: Segment, a: float, b: float) -> Segment:
    start = segment.start if a == 0 else point_at(segment, a)
    end = segment.end if b == 1 else point_at(segment, b)
    if isinstance(segment, Line):
        return Line(start, end)
    return Arc(start, end, segment.centre, segment.radius, (b - a) * segment.sweep)


def extremes(segments: Sequence[Segment], towards: Point, shift: float) -> tuple[float, float]:
    """Least and most of a coordinate over segments moved to their left.

    Parameters
    ----------
    segments
        Lines and arcs.
    towards
        Unit vector of the coordinate.
    shift
        How far each is moved to its left (mm); less than the radius of an arc that bends left.
    """
    tx, ty = towards
    found = []
    for segment in segments:
        for t in (0.0, 1.0):
            (x, y), (nx, ny) = point_at(segment, t), inward_at(segment, t)
            found.append((x + shift * nx) * tx + (y + shift * ny) * ty)
        if isinstance(segment, Line):
            continue
        middle = segment.centre[0] * tx + segment.centre[1] * ty
        radius = segment.radius - shift * math.copysign(1.0, segment.sweep)
        for sign, angle in ((1, math.atan2(ty, tx)), (-1, math.atan2(-ty, -tx))):
            turned = (angle - segment.start_angle) * math.copysign(1.0, segment.sweep) % (2 * math.pi)
            if turned < abs(segment.sweep):
                found.append(middle + sign * radius)
    return min(found), max(found)
