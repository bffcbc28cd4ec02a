"""Router on a trammel: the pivot distances that put one side of the cut on a finished arc.

The side of the cut that stays is the finished arc of radius R; the cutter, of diameter c, runs in the waste. With
the waste outside the arc its centre runs at R + c/2, with the waste inside (a hollow edge) at R - c/2.
Common practice, no source.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from edgewright.design.outline import FIT_MM, Arc, Point
from edgewright.design.region import Region, point_in_region
from edgewright.design.shapes.offsets import arc_offsets
from edgewright.errors import GeometryError

__all__ = ["Trammel", "station_offsets", "trammel"]


@dataclass(frozen=True, slots=True)
class Trammel:
    """One arc cut with a router on a trammel (mm, degrees).

    Attributes
    ----------
    arc
        The finished arc, wood on its left.
    to_finished
        From the pivot to the side of the cutter that makes the finished edge: the arc's radius.
    to_cutter_centre
        From the pivot to the middle of the cutter.
    to_near_side
        From the pivot to the nearer side of the cutter, for setting with a tape.
    waste_outside
        True for an arc that bulges.
    pivot_in_wood
        False where the pivot needs a board bridged in or beside the top.
    """

    arc: Arc
    to_finished: float
    to_cutter_centre: float
    to_near_side: float
    waste_outside: bool
    pivot_in_wood: bool

    @property
    def pivot(self) -> Point:
        """Where the pivot pin stands (mm)."""
        return self.arc.centre


def trammel(arc: Arc, cutter: float, top: Region | None = None) -> Trammel:
    """Settings for one finished arc and a straight cutter of a diameter (mm).

    Parameters
    ----------
    top
        The uncut top, to tell whether the pivot stands in wood.

    Raises
    ------
    GeometryError
        If the cutter's diameter is not greater than 0 mm, or it does not fit into a hollow arc.
    """
    if not (math.isfinite(cutter) and cutter > 0):
        raise GeometryError(
            f"cutter diameter is {cutter:g} mm; it must be greater than 0 mm: measure the cutter"
        )
    outside = arc.sweep > 0
    centre = arc.radius + cutter / 2 if outside else arc.radius - cutter / 2
    if centre <= FIT_MM:
        raise GeometryError(
            f"cutter diameter is {cutter:g} mm; in a hollow arc of radius {arc.radius:g} mm it must be less than "
            f"{2 * arc.radius:g} mm: take a smaller cutter"
        )
    in_wood = top is not None and point_in_region(top, arc.centre) == "inside"
    return Trammel(arc, arc.radius, centre, centre - cutter / 2, outside, in_wood)


def station_offsets(arc: Arc, step: float) -> tuple[tuple[float, float], ...]:
    """Offsets of an arc from its chord, for a radius too long for a trammel.

    Returns
    -------
    tuple
        (distance from the chord's start, offset at right angles) in mm, every ``step`` mm and at the end; offsets
        are at least 0 on the side to which the arc bulges.

    Raises
    ------
    GeometryError
        If the step is not greater than 0 mm or the arc turns more than half a circle.
    """
    if not (math.isfinite(step) and step > 0):
        raise GeometryError(f"station step is {step:g} mm; it must be greater than 0 mm: give a distance")
    if abs(arc.sweep) > math.pi + 1e-9:
        raise GeometryError(
            f"the arc turns {math.degrees(abs(arc.sweep)):.4g}°; stations need at most 180°: use a trammel"
        )
    return tuple((along, abs(offset)) for along, offset in arc_offsets(arc, step))
