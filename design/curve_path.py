"""A curve of the edge divided for ring segments: where the joints lie, and the stretch between two of them.

Joints lie at equal shares of ∫√κ ds (κ curvature). A stretch of length L bulges L² κ / 8 over its chord, so
that equal shares give blanks of equal width: one rip. On a circle these are equal lengths.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from edgewright.design.outline import Arc, Line, Point, Segment
from edgewright.design.segments import direction, point_at

__all__ = ["CurvePath", "extremes", "inward_at"]

#: A stretch shorter than this share of a segment is rounding.
_NOTHING = 1e-9


def inward_at(segment: Segment, t: float) -> Point:
    """Unit vector square to the edge into the wood, on the left."""
    ux, uy = direction(segment, t)
    return -uy, ux


@dataclass(frozen=True, slots=True)
class CurvePath:
    """Arcs that run on into each other.

    Attributes
    ----------
    segments, names
        Arcs and the plain name of each.
    closed
        Whether the last runs on into the first: shares then count on over 1.
    """

    segments: tuple[Arc, ...]
    names: tuple[str, ...]
    closed: bool = False

    @property
    def turn(self) -> float:
        """Turned angle, radians, of either sign."""
        return math.fsum(arc.sweep for arc in self.segments)

    def place(self, share: float) -> tuple[int, float]:
        """Number of the arc and share of its length at a share of the whole."""
        weights = [arc.length / math.sqrt(arc.radius) for arc in self.segments]
        left = share * math.fsum(weights)
        for at, weight in enumerate(weights):
            if left <= weight * (1 + _NOTHING) or at == len(weights) - 1:
                return at, min(max(left / weight, 0.0), 1.0)
            left -= weight
        raise AssertionError("a curve has at least one arc")

    def joint(self, share: float) -> tuple[Point, Point]:
        """Point of the edge at a share, and the unit vector from there into the wood."""
        at, t = self.place(share % 1 if self.closed else share)
        arc = self.segments[at]
        return point_at(arc, t), inward_at(arc, t)

    def between(self, start: float, end: float) -> tuple[tuple[Arc, ...], tuple[str, ...]]:
        """Arcs from one share to a later one, and the names they bear."""
        if self.closed:
            whole = math.floor(start)
            start, end = start - whole, end - whole
            if end > 1 + _NOTHING:
                first, second = self._stretch(start, 1.0), self._stretch(0.0, end - 1)
                return self._named([*first, *second])
        return self._named(self._stretch(start, end))

    def _named(self, found: Sequence[tuple[Arc, str]]) -> tuple[tuple[Arc, ...], tuple[str, ...]]:
        return tuple(arc for arc, _ in found), tuple(dict.fromkeys(name for _, name in found))

    def _stretch(self, start: float, end: float) -> list[tuple[Arc, str]]:
        (first, from_t), (last, to_t) = self.place(start), self.place(end)
        found = []
        for at in range(first, last + 1):
            arc = self.segments[at]
            a, b = (from_t if at == first else 0.0), (to_t if at == last else 1.0)
            if b - a > _NOTHING:
                found.append((_part(arc, a, b), self.names[at]))
        return found


def _part(arc: Arc, a: float, b: float) -> Arc:
    start, end = (arc.start if a == 0 else point_at(arc, a)), (arc.end if b == 1 else point_at(arc, b))
    return Arc(start, end, arc.centre, arc.radius, (b - a) * arc.sweep)


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
