"""A straight saw cut through a region: what stays on its left."""

from __future__ import annotations

import math
from itertools import pairwise

from edgewright.design.chain import regions_of
from edgewright.design.intersect import intersections
from edgewright.design.outline import Line, Point, Segment
from edgewright.design.region import Region, point_in_region
from edgewright.design.segments import point_at, split
from edgewright.design.tolerances import NODE_MM
from edgewright.errors import GeometryError

__all__ = ["clip_half_plane"]


def clip_half_plane(region: Region, point: Point, direction: Point) -> tuple[Region, ...]:
    """Parts of the region on the left of a line, largest first; none if all of it lies on the right.

    Parameters
    ----------
    region
        What is cut.
    point
        A point of the line (mm).
    direction
        Direction in which the line runs, of any length but 0.

    Raises
    ------
    GeometryError
        If a figure is not finite or the direction has no length.
    """
    if not all(map(math.isfinite, (*point, *direction))):
        raise GeometryError("the cut has a figure that is not finite: give numbers in mm")
    size = math.hypot(*direction)
    if not size > 0:
        raise GeometryError("the cut's direction has length 0; it must be greater than 0: give two points")
    ux, uy = direction[0] / size, direction[1] / size
    # a cut a little longer than the region, so that it can be met like any other line
    west, south, east, north = region.bounds
    middle = ((west + east) / 2, (south + north) / 2)
    along = (middle[0] - point[0]) * ux + (middle[1] - point[1]) * uy
    reach = math.hypot(east - west, north - south) + 1
    cut = Line(
        (point[0] + (along - reach) * ux, point[1] + (along - reach) * uy),
        (point[0] + (along + reach) * ux, point[1] + (along + reach) * uy),
    )
    kept: list[Segment] = []
    crossings: list[Point] = []
    for segment in region.segments:
        met = list(intersections(segment, cut))
        crossings += met
        for piece in split(segment, met):
            mx, my = point_at(piece, 0.5)
            left = ux * (my - point[1]) - uy * (mx - point[0])
            onward = (piece.end[0] - piece.start[0]) * ux + (piece.end[1] - piece.start[1]) * uy
            if left > NODE_MM or (abs(left) <= NODE_MM and onward > 0):
                kept.append(piece)
    crossings.sort(key=lambda at: at[0] * ux + at[1] * uy)
    for begin, end in pairwise(crossings):
        between = ((begin[0] + end[0]) / 2, (begin[1] + end[1]) / 2)
        if math.dist(begin, end) > NODE_MM and point_in_region(region, between) == "inside":
            kept.append(Line(begin, end))
    return regions_of(kept)
