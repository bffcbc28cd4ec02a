"""What each layer of wood shows on the routed edge: the forms cut at the depths where the layers meet."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from edgewright.design.form_integrals import chain_area
from edgewright.design.levels import Levels, perimeter_at
from edgewright.design.outline import FIT_MM, Arc, Line, Point, Segment
from edgewright.design.profile import EdgeProfile
from edgewright.design.segments import parameter

__all__ = ["chain_between", "layer_areas"]


def layer_areas(levels: Levels, profile: EdgeProfile, seams: Sequence[float]) -> tuple[float, ...]:
    """Area of the edge that each layer shows (mm²), the top layer first; together the whole edge.

    Parameters
    ----------
    levels
        Levels of the routed rim.
    profile
        Section of the edge.
    seams
        Depths of the glue seams below the top face, ascending, each within the edge (mm).

    Raises
    ------
    GeometryError
        If a form reaches beyond the last inset of the levels.
    """
    thickness = profile.thickness
    flat_from, flat_to = profile.top.depth, thickness - profile.bottom.depth
    found = []
    for upper, lower in pairwise((0.0, *seams, thickness)):
        flat = max(min(lower, flat_to) - max(upper, flat_from), 0.0)
        above = chain_between(profile.top.parts, upper, lower, first=upper == 0)
        below = chain_between(
            profile.bottom.parts, thickness - lower, thickness - upper, first=lower == thickness
        )
        area = perimeter_at(levels, 0.0) * flat
        found.append(math.fsum((area, chain_area(levels, above), chain_area(levels, below))))
    return tuple(found)


def chain_between(
    parts: Sequence[Segment], upper: float, lower: float, *, first: bool = True
) -> tuple[Segment, ...]:
    """Parts of a form between two depths (mm); a level step at the upper one belongs to the layer above it.

    ``first`` is set for the layer that begins at the face, to which a step in the face itself belongs.
    """
    found: list[Segment] = []
    for part in parts:
        z0, z1 = part.start[1], part.end[1]
        if z1 - z0 <= FIT_MM:
            if upper < z0 <= lower or (first and z0 == upper):
                found.append(part)
            continue
        a, b = max(z0, upper), min(z1, lower)
        if b - a > FIT_MM:
            found.append(_cut(part, a, b))
    return tuple(found)


def _cut(part: Segment, upper: float, lower: float) -> Segment:
    start = part.start if upper <= part.start[1] else _at(part, upper)
    end = part.end if lower >= part.end[1] else _at(part, lower)
    if isinstance(part, Line):
        return Line(start, end)
    share = parameter(part, end) - parameter(part, start)
    return Arc(start, end, part.centre, part.radius, part.sweep * share)


def _at(part: Segment, depth: float) -> Point:
    """Point of a part at a depth between its ends."""
    (d0, z0), (d1, z1) = part.start, part.end
    if isinstance(part, Line):
        return d0 + (d1 - d0) * (depth - z0) / (z1 - z0), depth
    half = math.sqrt(max(0.0, part.radius**2 - (depth - part.centre[1]) ** 2))
    return part.centre[0] + math.copysign(half, (d0 + d1) / 2 - part.centre[0]), depth
