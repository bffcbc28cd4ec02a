"""Live-edge tops: offsets at stations along a snapped line, straight edges between them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import Final, Literal

from edgewright.design.outline import FIT_MM, Outline
from edgewright.design.shapes.figures import LARGEST_MM, LEAST_MM, need_place
from edgewright.design.shapes.loop import move_outline, named_loop
from edgewright.design.shapes.model import Shape, ShapeCheck
from edgewright.display import show_area
from edgewright.errors import GeometryError
from edgewright.units import Units

__all__ = ["AREA_SHARE", "corner_sides", "simpson_area", "station_side", "stations"]

#: Areas by straight lines and by parabolas that differ by more mean stations too far apart (common practice, no
#: source).
AREA_SHARE: Final = 0.01


def stations(
    at: Sequence[float],
    south: Sequence[float] | None,
    north: Sequence[float] | None,
    straight_side: Literal["south", "north"] | None = None,
    units: Units = "in",
) -> Shape:
    """Top from offsets on both sides of a snapped line, or on one side of a straight edge.

    Parameters
    ----------
    at
        Positions of the stations along the line in mm, from west to east, at least 2.
    south, north
        Offsets from the line to either edge at each station in mm; negative where the edge is on the other
        side of the line. The offsets of the straight side are left out (None or empty).
    straight_side
        The side that is straight and is the line itself, or None.
    units
        In what the sentences speak.

    Returns
    -------
    Shape
        South-west corner of its box at the origin. One check: its area against Simpson's rule.

    Raises
    ------
    GeometryError
        If counts differ, stations do not follow one another, or there is no wood at a station.
    """
    if straight_side not in (None, "south", "north"):
        raise GeometryError(
            f"straight side is `{straight_side}`; it must be south or north: name one or none"
        )
    if len(at) < 2:
        raise GeometryError(f"{len(at)} stations given; at least 2 are needed: measure every 4 to 6 in")
    for before, after in pairwise(at):
        need_place("station", before, 0.0)
        need_place("station", after, 0.0)
        if not after >= before + LEAST_MM:
            raise GeometryError(
                f"station at {after:g} mm comes after the one at {before:g} mm; stations must go from west to "
                "east: put them in order"
            )
    low, high = _offsets("south", south, at, straight_side), _offsets("north", north, at, straight_side)
    widths = [below + above for below, above in zip(low, high, strict=True)]
    for number, (place, width) in enumerate(zip(at, widths, strict=True), start=1):
        at_end = number in (1, len(at))
        pointed = abs(width) <= FIT_MM and at_end and len(at) > 2
        if not (width >= LEAST_MM or pointed):
            raise GeometryError(
                f"width at station {number}, {place:g} mm, is {width:g} mm; it must be greater than 0 mm: "
                "measure both offsets again"
            )
    outline, names = _loop(at, low, high, straight_side)
    area, smooth = outline.area, simpson_area(at, widths)
    says = (
        f"straight lines between the stations enclose {show_area(area, units)}, parabolas "
        f"{show_area(smooth, units)}"
    )
    check = ShapeCheck("area against Simpson's rule", area, smooth, AREA_SHARE * area, says)
    suggestions = () if check.agrees else (f"{says}: the edge bends between stations, take more of them",)
    west, bottom, _, _ = outline.bounds
    return Shape(move_outline(outline, (-west, -bottom)), names, (check,), suggestions)


def station_side(name: str) -> str | None:
    """Side that an edge is a traced part of, like ``north`` for ``north, station 1 to 2``; None for other edges."""
    side, found, _ = name.partition(", station ")
    return side if found and side in ("south", "north") else None


def corner_sides(name: str) -> tuple[str | None, str | None]:
    """Traced sides of the two edges that a rounding is named after; None for other edges."""
    one, _, other = name.removeprefix("inside ").removeprefix("corner of ").partition(" and ")
    return station_side(one), station_side(other)


def simpson_area(at: Sequence[float], widths: Sequence[float]) -> float:
    """Area (mm²) under widths at stations by parabolas through three of them each.

    Stations may be at any distances; an odd stretch left over is taken from the last parabola.

    References
    ----------
    Simpson's rule for unequal steps: the parabola through three points, integrated.
    """
    if len(at) < 3:
        return (at[1] - at[0]) * (widths[0] + widths[1]) / 2
    parts = []
    for first in range(0, len(at) - 1, 2):
        if first + 2 < len(at):
            parts.append(_under_parabola(at[first : first + 3], widths[first : first + 3], at[first]))
        else:
            parts.append(_under_parabola(at[first - 1 :], widths[first - 1 :], at[first]))
    return math.fsum(parts)


def _under_parabola(at: Sequence[float], widths: Sequence[float], begin: float) -> float:
    """Area under the parabola through three points, from ``begin`` to the last of them."""
    a, b, c = at
    slope = (widths[1] - widths[0]) / (b - a)
    bend = ((widths[2] - widths[1]) / (c - b) - slope) / (c - a)

    def under(x: float) -> float:
        u = x - a
        return widths[0] * u + slope * u * u / 2 + bend * (u**3 / 3 - (b - a) * u * u / 2)

    return under(c) - under(begin)


def _offsets(
    side: str, offsets: Sequence[float] | None, at: Sequence[float], straight_side: str | None
) -> list[float]:
    """Offsets of a side, checked; zeros for the straight one."""
    given = list(offsets or ())
    if side == straight_side:
        if any(offset != 0 for offset in given):
            raise GeometryError(
                f"{side} side is straight and has {len(given)} offsets; it must have none: the line is its edge"
            )
        return [0.0] * len(at)
    if len(given) != len(at):
        raise GeometryError(
            f"{len(given)} offsets given on the {side} side; exactly {len(at)} are needed: one for each station"
        )
    for number, offset in enumerate(given, start=1):
        if not abs(offset) <= LARGEST_MM:
            raise GeometryError(
                f"{side} offset at station {number} is {offset:g} mm; it must be at most {LARGEST_MM:.0f} mm: "
                "measure it again"
            )
    return given


def _loop(
    at: Sequence[float], low: Sequence[float], high: Sequence[float], straight_side: str | None
) -> tuple[Outline, tuple[str, ...]]:
    """Loop along the south edge to the east and back along the north edge, and the names of its edges."""
    count = len(at)
    below = [(x, -offset) for x, offset in zip(at, low, strict=True)]
    above = [(x, offset) for x, offset in zip(reversed(at), reversed(high), strict=True)]
    south = [f"south, station {number} to {number + 1}" for number in range(1, count)]
    north = [f"north, station {number} to {number + 1}" for number in range(count - 1, 0, -1)]
    if straight_side == "south":
        below, south = [below[0], below[-1]], ["south"]
    if straight_side == "north":
        above, north = [above[0], above[-1]], ["north"]
    names = (*south, "east end", *north, "west end")
    return named_loop([(point, 0.0, name) for point, name in zip((*below, *above), names, strict=True)])
