"""Tops that fill a box: rectangles with round or clipped corners, racetracks, tapered tops."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final, Literal

from edgewright.design.outline import CornerRadii, Point
from edgewright.design.shapes.figures import need_at_most, need_greater, need_not_negative, need_positive
from edgewright.design.shapes.loop import Vertex, named_loop
from edgewright.design.shapes.model import CORNERS, SIDES, Shape
from edgewright.errors import GeometryError

__all__ = ["Clip", "racetrack", "rectangle_shape", "tapered"]

#: Cut-back of a clipped corner in mm: along the length, across it (along the width).
Clip = tuple[float, float]

#: tan of an eighth of a half turn: the bulge of a quarter circle.
_QUARTER: Final = math.sqrt(2) - 1


def rectangle_shape(
    length: float,
    width: float,
    radii: CornerRadii = (0.0, 0.0, 0.0, 0.0),
    clips: Sequence[Clip | None] = (None, None, None, None),
) -> Shape:
    """Rectangle whose corners are sharp, round or clipped, each on its own.

    Parameters
    ----------
    length, width
        Size along x and y in mm, greater than 0.
    radii
        Corner radii in mm: south-west, south-east, north-east, north-west; 0 for none.
    clips
        Cut-backs of the same corners in mm, both greater than 0; None for none.

    Raises
    ------
    GeometryError
        If a figure is out of range, a corner is both round and clipped, or two corners do not fit on a side.
    """
    need_positive("length", length)
    need_positive("width", width)
    for what, given in (("corner radii", radii), ("corner cut-backs", clips)):
        if len(given) != len(CORNERS):
            raise GeometryError(f"{len(given)} {what} given; exactly 4 are needed: one for each corner")
    reaches = [_reach(*corner) for corner in zip(CORNERS, radii, clips, strict=True)]
    for at, side in enumerate(SIDES):
        # the south and the north side run along the length
        here, after, axis = reaches[at], reaches[(at + 1) % 4], at % 2
        need_at_most(
            f"corners {CORNERS[at]} {here[axis]:.10g} mm and {CORNERS[(at + 1) % 4]} {after[axis]:.10g} mm together",
            here[axis] + after[axis],
            f"the {side} side",
            (length, width)[axis],
            "make a corner smaller",
        )
    points = ((0.0, 0.0), (length, 0.0), (length, width), (0.0, width))
    inward = ((1, 1), (-1, 1), (-1, -1), (1, -1))
    vertices: list[Vertex] = []
    for at, ((x, y), (ix, iy), (along, across)) in enumerate(zip(points, inward, reaches, strict=True)):
        on_length, on_width = (x + ix * along, y), (x, y + iy * across)
        stop, begin = (on_width, on_length) if at % 2 == 0 else (on_length, on_width)
        vertices.append((stop, _QUARTER if clips[at] is None and radii[at] else 0.0, f"{CORNERS[at]} corner"))
        vertices.append((begin, 0.0, SIDES[at]))
    # the south side comes first
    return Shape(*named_loop([*vertices[1:], vertices[0]]))


def racetrack(length: float, width: float) -> Shape:
    """Racetrack: two straight sides and half a circle of radius width/2 at each end (mm).

    Raises
    ------
    GeometryError
        If a size is not greater than 0, or the length not greater than the width.
    """
    need_positive("length", length)
    need_positive("width", width)
    need_greater(
        "length of a racetrack",
        length,
        "its width ",
        width,
        "give the longer figure as the length, or a round top",
    )
    r = width / 2
    return Shape(
        *named_loop(
            (
                ((r, 0.0), 0.0, "south"),
                ((length - r, 0.0), 1.0, "east end"),
                ((length - r, width), 0.0, "north"),
                ((r, width), 1.0, "west end"),
            )
        )
    )


def tapered(
    length: float,
    west_width: float,
    east_width: float,
    square_side: Literal["south", "north", "centre"],
) -> Shape:
    """Tapered top: ends parallel to one another, of different widths.

    Parameters
    ----------
    length
        Measured square to the ends, in mm.
    west_width, east_width
        Widths of the ends in mm, greater than 0.
    square_side
        The side that is square to both ends; ``"centre"`` if both sides taper alike.

    Raises
    ------
    GeometryError
        If a figure is not greater than 0 or the square side has another name.
    """
    need_positive("length", length)
    need_positive("width at the west end", west_width)
    need_positive("width at the east end", east_width)
    if square_side not in ("south", "north", "centre"):
        raise GeometryError(f"square side is `{square_side}`; it must be south, north or centre: name one")
    most = max(west_width, east_width)
    share = {"south": 0.0, "north": 1.0, "centre": 0.5}[square_side]
    west, east = share * (most - west_width), share * (most - east_width)
    points: tuple[Point, ...] = (
        (0.0, west),
        (length, east),
        (length, east + east_width),
        (0.0, west + west_width),
    )
    return Shape(*named_loop([(point, 0.0, side) for point, side in zip(points, SIDES, strict=True)]))


def _reach(corner: str, radius: float, clip: Clip | None) -> Clip:
    """How far a corner reaches along the length and across it, its figures checked."""
    need_not_negative(f"{corner} corner radius", radius, "give 0 for a sharp corner")
    if clip is None:
        return radius, radius
    if radius:
        raise GeometryError(
            f"{corner} corner has a radius of {radius:g} mm and a cut-back; at most one of the two is possible: "
            "leave one out"
        )
    along, across = clip
    need_positive(f"{corner} cut-back along the length", along, "leave the cut-back out for a sharp corner")
    need_positive(f"{corner} cut-back across the length", across, "leave the cut-back out for a sharp corner")
    return along, across
