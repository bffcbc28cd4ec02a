"""Volume and centre of a routed top, slice by slice: at each depth it is as large as its outline moved in.

    V = ∫ A(d(z)) dz        V c = ∫ A(d(z)) c(d(z)) dz

Area and centre of each level are exact (Green's theorem); the integral over the depth is taken by Gauss's rule on
each part of the profile, with the depth bent so that the steep start of a round-over does no harm.

References
----------
Abramowitz and Stegun, Handbook of Mathematical Functions, 25.4.29 (Gauss's integration formula)
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from edgewright.design.outline import FIT_MM, Outline
from edgewright.design.profile import EdgeProfile
from edgewright.errors import GeometryError

__all__ = ["Body", "joined", "prism", "profile_inset", "slice_body"]

Loops = Sequence[Outline]
_NODES, _WEIGHTS = (tuple(map(float, column)) for column in np.polynomial.legendre.leggauss(16))


@dataclass(frozen=True, slots=True)
class Body:
    """A lump of wood.

    Attributes
    ----------
    volume
        In mm³.
    centre
        Centre of the volume: x, y and depth below the top face, mm.
    """

    volume: float
    centre: tuple[float, float, float]


def profile_inset(profile: EdgeProfile, depth: float) -> float:
    """How far in the edge lies at a depth below the top face (mm, 0 to the thickness)."""
    up = profile.thickness - depth
    return max(profile.top.inset_at(depth), profile.bottom.inset_at(up))


def slice_body(loops_at: Callable[[float], Loops], profile: EdgeProfile, upper: float, lower: float) -> Body:
    """Wood between two depths below the top face.

    Parameters
    ----------
    loops_at
        Gives the loops of the top moved in by an inset (mm): outer ones counter-clockwise, holes clockwise.
    profile
        Profile of the edge.
    upper, lower
        Depths in mm, 0 <= upper < lower <= thickness.

    Raises
    ------
    GeometryError
        If the depths are not in order within the thickness.
    """
    if not 0 <= upper < lower <= profile.thickness + FIT_MM:
        raise GeometryError(
            f"the slice goes from {upper:g} mm to {lower:g} mm of depth; it must lie within the edge of "
            f"{profile.thickness:g} mm, the upper depth first: correct the depths"
        )
    slices = []
    for a, b in pairwise(_breaks(profile, upper, lower)):
        for node, weight in zip(_NODES, _WEIGHTS, strict=True):
            t = (node + 1) / 2
            depth = a + (b - a) * t * t * (3 - 2 * t)
            thick = (b - a) * 6 * t * (1 - t) * weight / 2
            slices.append(prism(loops_at(profile_inset(profile, depth)), depth - thick / 2, thick))
    return joined(slices)


def prism(loops: Loops, upper: float, thickness: float) -> Body:
    """Wood of one outline, holes taken off, from a depth downwards (mm)."""
    area = math.fsum(loop.area for loop in loops)
    centres = [(loop.area, loop.centroid) for loop in loops]
    x, y = (math.fsum(part * centre[axis] for part, centre in centres) / area for axis in (0, 1))
    return Body(area * thickness, (x, y, upper + thickness / 2))


def joined(bodies: Iterable[Body], densities: Iterable[float] | None = None) -> Body:
    """All bodies as one; with densities its volume is their mass and its centre the centre of mass.

    Raises
    ------
    GeometryError
        If together they hold nothing.
    """
    parts = list(bodies)
    weights = [1.0] * len(parts) if densities is None else list(densities)
    shares = [part.volume * weight for part, weight in zip(parts, weights, strict=True)]
    total = math.fsum(shares)
    if not total > 0:
        raise GeometryError(f"the bodies hold {total:g} mm³; it must be more than 0 mm³: check the figures")
    x, y, depth = (
        math.fsum(share * part.centre[axis] for share, part in zip(shares, parts, strict=True)) / total
        for axis in (0, 1, 2)
    )
    return Body(total, (x, y, depth))


def _breaks(profile: EdgeProfile, upper: float, lower: float) -> list[float]:
    """Depths at which a part of the profile begins or ends, within the slice, its ends included."""
    depths = {upper, lower}
    for part in profile.top.parts:
        depths |= {part.start[1], part.end[1]}
    for part in profile.bottom.parts:
        depths |= {profile.thickness - part.start[1], profile.thickness - part.end[1]}
    found = [upper]
    for depth in sorted(depths):
        if upper < depth <= lower and depth - found[-1] > FIT_MM:
            found.append(depth)
    return found
