"""Corners of a build-up that are rounded after it is glued on: where no pin may stand."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from edgewright.design.anytop.model import ShapedDesign
from edgewright.design.outline import Arc, Point
from edgewright.design.pin_figures import CORNER_CLEAR_MM
from edgewright.design.segments import direction

__all__ = ["RoundedCorner", "rounded_corners"]

#: An arc that turns further is no rounded corner (radians).
_LARGEST_TURN: Final = math.radians(150)


@dataclass(frozen=True, slots=True)
class RoundedCorner:
    """A corner that is going to be rounded.

    Attributes
    ----------
    sharp
        The corner before it is rounded (mm).
    ways
        Unit vectors away from it along both edges.
    reach
        How far along each edge no pin may stand: to the end of the rounding and an inch beyond (mm).
    """

    sharp: Point
    ways: tuple[Point, Point]
    reach: float

    def at(self, one: float, other: float) -> Point:
        """Place that lies so far from the corner along both edges (mm)."""
        (ux, uy), (vx, vy) = self.ways
        return self.sharp[0] + one * ux + other * vx, self.sharp[1] + one * uy + other * vy

    def near(self, point: Point) -> bool:
        """Whether a place lies in the zone without pins."""
        (ux, uy), (vx, vy) = self.ways
        x, y = point[0] - self.sharp[0], point[1] - self.sharp[1]
        cross = ux * vy - uy * vx
        one, other = (x * vy - y * vx) / cross, (ux * y - uy * x) / cross
        return max(one, other) <= self.reach + 1e-6

    def zone(self, ring_width: float) -> tuple[Point, ...]:
        """Outline of the zone as far as the ring goes, a corner of the ring or all of it where it is small (mm)."""
        (ux, uy), (vx, vy) = self.ways
        # the ring's inner edge, measured along the other edge
        deep = ring_width / abs(ux * vy - uy * vx)
        far = self.reach
        if far <= deep:
            return self.at(0, 0), self.at(far, 0), self.at(far, far), self.at(0, far)
        places = ((0.0, 0.0), (far, 0.0), (far, deep), (deep, deep), (deep, far), (0.0, far))
        return tuple(self.at(*place) for place in places)


def rounded_corners(design: ShapedDesign) -> tuple[RoundedCorner, ...]:
    """Outside corners of the finished top that are arcs, but for those that have segments of their own."""
    curved = {name for piece in design.pieces if piece.kind == "segment" for name in piece.edges}
    found = []
    for name, edge in zip(design.finished.names, design.finished.outline.segments, strict=True):
        if not isinstance(edge, Arc) or not 0 < edge.sweep < _LARGEST_TURN or name in curved:
            continue
        tangent = edge.radius * math.tan(edge.sweep / 2)
        (bx, by), (ax, ay) = direction(edge, 0.0), direction(edge, 1.0)
        sharp = edge.start[0] + tangent * bx, edge.start[1] + tangent * by
        found.append(RoundedCorner(sharp, ((-bx, -by), (ax, ay)), tangent + CORNER_CLEAR_MM))
    return tuple(found)
