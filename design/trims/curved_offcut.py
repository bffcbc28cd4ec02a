"""Offcuts of a shape cut with a router: what lies beyond the far side of the cutter.

Unlike a saw's, their edge along the cut is curved or has corners; straight blanks come out of them with a cut more.
"""

from __future__ import annotations

import math

from edgewright.design.chain import regions_of
from edgewright.design.intersect import intersections
from edgewright.design.outline import Outline, Segment
from edgewright.design.region import Region, point_in_region
from edgewright.design.segments import point_at, reversed_segment, split
from edgewright.design.trims.clear_rectangle import widest_blank
from edgewright.design.trims.golden import peak_between
from edgewright.design.trims.turned_rectangle import TurnedRectangle

__all__ = ["beyond", "widest_blank_any_way"]


def beyond(region: Region, shape: Outline) -> tuple[Region, ...]:
    """Parts of a region outside a counter-clockwise outline, largest first.

    For the offcuts of a routed shape give the outline of the far side of the cutter. The outline may run beyond the
    region and along its edges.
    """
    inner = Region(shape)
    kept: list[Segment] = []
    for segment in region.segments:
        met = [point for other in shape.segments for point in intersections(segment, other)]
        for piece in split(segment, met):
            if point_in_region(inner, point_at(piece, 0.5)) == "outside":
                kept.append(piece)
    for segment in shape.segments:
        met = [point for other in region.segments for point in intersections(segment, other)]
        for piece in split(segment, met):
            if point_in_region(region, point_at(piece, 0.5)) == "inside":
                kept.append(reversed_segment(piece))
    return regions_of(kept)


def widest_blank_any_way(region: Region, length: float) -> TurnedRectangle | None:
    """Widest true rectangle of a length (mm) at any angle, by samples of 6° and golden section; None if none.

    Not proven: a hill narrower than 6° may be missed.
    """

    def at(angle: float) -> TurnedRectangle | None:
        return widest_blank(region, length, (math.cos(angle), math.sin(angle)))

    def width(angle: float) -> float:
        found = at(angle)
        return found.width if found else 0.0

    return at(peak_between(width, (0.0, math.pi), samples=30, steps=24))
