"""How much of a straight seam lies in a top: a panel seam that stays in its face, a cut that crosses it."""

from __future__ import annotations

import math
from itertools import pairwise

from edgewright.design.intersect import intersections
from edgewright.design.outline import Line, Point
from edgewright.design.region import Region, point_in_region
from edgewright.design.segments import parameter, point_at
from edgewright.design.tolerances import NODE_MM

__all__ = ["line_across", "seam_length", "seam_stretches"]


def line_across(region: Region, through: Point, angle: float) -> Line:
    """Straight line through a point at an angle (radians from east), longer than the region is wide."""
    x0, y0, x1, y1 = region.bounds
    reach = math.dist((x0, y0), (x1, y1)) + math.dist(through, ((x0 + x1) / 2, (y0 + y1) / 2)) + 1.0
    dx, dy = reach * math.cos(angle), reach * math.sin(angle)
    return Line((through[0] - dx, through[1] - dy), (through[0] + dx, through[1] + dy))


def seam_stretches(region: Region, seam: Line) -> tuple[Line, ...]:
    """Parts of a straight seam that lie in the wood, in the seam's direction; an edge is no seam.

    Parameters
    ----------
    region
        The top, its cut-outs as holes.
    seam
        From end to end; what lies outside the top is left out.
    """
    shares = {0.0, 1.0}
    for segment in region.segments:
        shares |= {min(max(parameter(seam, point), 0.0), 1.0) for point in intersections(seam, segment)}
    inside: list[tuple[float, float]] = []
    for a, b in pairwise(sorted(shares)):
        if (b - a) * seam.length <= NODE_MM:
            continue
        if point_in_region(region, point_at(seam, (a + b) / 2)) == "inside":
            if inside and inside[-1][1] == a:
                inside[-1] = (inside[-1][0], b)
            else:
                inside.append((a, b))
    return tuple(Line(point_at(seam, a), point_at(seam, b)) for a, b in inside)


def seam_length(region: Region, seam: Line) -> float:
    """Length of a straight seam that lies in the wood (mm)."""
    return math.fsum(part.length for part in seam_stretches(region, seam))
