"""A piece of the levels on which lengths are no polynomial: exact values at each inset."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from edgewright.design.front import Front
from edgewright.design.outline import Line
from edgewright.design.segments import direction

__all__ = ["CurvedLevel"]


@dataclass(frozen=True, slots=True)
class CurvedLevel:
    """P(d) and A(d) for ``d_from <= d <= d_to`` (mm), where a corner runs along a curve.

    Attributes
    ----------
    front
        The moving edge.
    area_off
        Added to the area within the moved loop (mm²): 0 unless the area is counted otherwise.
    """

    d_from: float
    d_to: float
    front: Front
    area_off: float = 0.0

    def perimeter(self, d: float) -> float:
        """Length of the inner parallel at inset ``d`` (mm)."""
        return _routed_length(self.front, d)

    def area(self, d: float) -> float:
        """Area within the inner parallel at inset ``d`` (mm to mm²); negative for a hole."""
        return self.area_off + _enclosed(self.front, d)


def _routed_length(front: Front, d: float) -> float:
    """Length of what is routed, mm: as the front's own, each corner sought once."""
    corners = [front.corner_at(number, d) for number in range(len(front.live))]
    found = []
    for number, one in enumerate(front.live):
        if not one.speed:
            continue
        start, end = corners[number - 1][1], corners[number][0]
        if isinstance(one.segment, Line):
            ux, uy = direction(one.segment, 0.0)
            found.append((end[0] - start[0]) * ux + (end[1] - start[1]) * uy)
        else:
            found.append(one.radius(d) * one.left * front.sweep(number, start, end))
    return math.fsum(found)


def _enclosed(front: Front, d: float) -> float:
    """Area within a moved loop by Green's theorem, mm²: triangles to one corner of it, and the segments of arcs."""
    corners = [front.corner_at(number, d) for number in range(len(front.live))]
    x0, y0 = corners[-1][1]
    found = []
    for number, one in enumerate(front.live):
        # a square corner has straight edges of its own between its two points
        before, begin = corners[number - 1]
        via = front.corners[number - 1].via
        way = (before, *([via] if via is not None else []), begin, corners[number][0])
        for (ax, ay), (bx, by) in pairwise(way):
            found.append(((ax - x0) * (by - y0) - (ay - y0) * (bx - x0)) / 2)
        if not one.is_line:
            turn = front.sweep(number, corners[number - 1][1], corners[number][0])
            found.append(one.radius(d) ** 2 / 2 * (turn - math.sin(turn)))
    return math.fsum(found)
