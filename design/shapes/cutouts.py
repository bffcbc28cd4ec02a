"""Cut-outs in a top: round or rectangular, with wood enough around each."""

from __future__ import annotations

import math
from collections.abc import Sequence

from edgewright.design.intersect import intersections
from edgewright.design.outline import Arc, Line, Outline, Point, Segment, rectangle
from edgewright.design.region import Region
from edgewright.design.segments import distance, parameter, point_at, winding
from edgewright.design.shapes.figures import need_not_negative, need_place, need_positive
from edgewright.design.shapes.loop import move_outline, reversed_outline
from edgewright.errors import GeometryError

__all__ = [
    "check_cut_out",
    "nearest_between",
    "nearest_segments",
    "rectangle_cut_out",
    "round_cut_out",
    "with_cut_outs",
]


def round_cut_out(centre: Point, diameter: float) -> Outline:
    """Round cut-out as a clockwise loop (mm).

    Raises
    ------
    GeometryError
        If the diameter is not greater than 0 or the centre not finite.
    """
    need_place("cut-out centre", *centre)
    need_positive("cut-out diameter", diameter)
    r = diameter / 2
    (x, y), east = centre, (centre[0] + r, centre[1])
    west = (x - r, y)
    return Outline((Arc(east, west, centre, r, -math.pi), Arc(west, east, centre, r, -math.pi)))


def rectangle_cut_out(
    centre: Point, length: float, width: float, radius: float = 0.0, turn: float = 0.0
) -> Outline:
    """Rectangular cut-out as a clockwise loop.

    Parameters
    ----------
    centre
        Middle of the cut-out in mm.
    length, width
        In mm, along x and y before it is turned.
    radius
        Of its corners in mm.
    turn
        Radians counter-clockwise about its middle.

    Raises
    ------
    GeometryError
        If a size is not greater than 0 or the radius does not fit.
    """
    need_place("cut-out centre", *centre)
    need_positive("cut-out length", length)
    need_positive("cut-out width", width)
    need_not_negative("cut-out corner radius", radius, "give 0 for sharp corners")
    if 2 * radius > min(length, width):
        raise GeometryError(
            f"cut-out corner radius is {radius:.10g} mm; a cut-out of {length:.10g} by {width:.10g} mm allows at "
            f"most {min(length, width) / 2:.10g} mm: make it smaller"
        )
    if not math.isfinite(turn):
        raise GeometryError(f"cut-out turn is {math.degrees(turn):g}°; it must be finite: give an angle")
    loop = rectangle(length, width, (radius,) * 4, (-length / 2, -width / 2))
    return reversed_outline(move_outline(loop, centre, turn))


def with_cut_outs(
    outer: Outline,
    cut_outs: Sequence[Outline],
    least_margin: float,
    least_between: float | None = None,
) -> Region:
    """Top with cut-outs, each far enough from the rim and from its neighbours.

    Parameters
    ----------
    outer
        Rim of the top, counter-clockwise.
    cut_outs
        Clockwise loops.
    least_margin
        Least wood between a cut-out and the rim, in mm.
    least_between
        Least wood between two cut-outs in mm; None for the same as to the rim.

    Raises
    ------
    GeometryError
        If a cut-out is not within the top, overlaps another, or is too near the rim or another.
    """
    need_not_negative("least margin of a cut-out", least_margin)
    between = least_margin if least_between is None else least_between
    need_not_negative("least wood between cut-outs", between)
    for number in range(1, len(cut_outs) + 1):
        check_cut_out(outer, cut_outs[:number], least_margin, between)
    return Region(outer, tuple(cut_outs))


def check_cut_out(
    outer: Outline,
    cut_outs: Sequence[Outline],
    least_margin: float,
    between: float,
    names: Sequence[str] = (),
) -> None:
    """Raise GeometryError unless the last of some cut-outs has its wood around it; the others are sound.

    Parameters
    ----------
    outer, cut_outs, least_margin
        As in `with_cut_outs`.
    between
        Least wood between two cut-outs in mm.
    names
        Of the cut-outs; empty for their numbers from 1.
    """
    number, loop = len(cut_outs), cut_outs[-1]
    named = names or [f"cut-out {one}" for one in range(1, number + 1)]
    name = named[number - 1]
    near, place = nearest_between(outer, loop)
    if near <= 0:
        raise GeometryError(
            f"{name} meets the rim at {_shown(place)}; at least {least_margin:g} mm of wood must lie between: "
            "move it inwards"
        )
    if not winding(outer, loop.segments[0].start):
        raise GeometryError(
            f"{name} lies outside the top at {_shown(loop.segments[0].start)}; all of it must be inside: move it"
        )
    if near < least_margin:
        raise GeometryError(
            f"{name} is {near:.6g} mm from the rim at {_shown(place)}; at least {least_margin:g} mm of wood must "
            "lie between: move it inwards or make it smaller"
        )
    for earlier in range(1, number):
        other = cut_outs[earlier - 1]
        both = f"{named[earlier - 1]} and {name}"
        near, place = nearest_between(other, loop)
        nested = winding(other, loop.segments[0].start) or winding(loop, other.segments[0].start)
        if near <= 0 or nested:
            raise GeometryError(
                f"{both} overlap at {_shown(place)}; at least {between:g} mm of wood must lie between: move one"
            )
        if near < between:
            raise GeometryError(
                f"{both} are {near:.6g} mm apart at {_shown(place)}; at least {between:g} mm of wood must lie "
                "between: move one"
            )


def nearest_between(one: Outline, other: Outline) -> tuple[float, Point]:
    """Least distance between two loops (mm) and the point of the second where it is; 0 where they meet."""
    return nearest_segments(one.segments, other.segments)


def nearest_segments(one: Sequence[Segment], other: Sequence[Segment]) -> tuple[float, Point]:
    """Least distance between lines and arcs (mm) and the point of the second ones where it is; 0 where they meet."""
    best, place = math.inf, other[0].start
    for a in one:
        for b in other:
            shared = intersections(a, b)
            if shared:
                return 0.0, shared[0]
            for point in _candidates(b, a):
                near = distance(a, point)
                if near < best:
                    best, place = near, point
            for point in _candidates(a, b):
                near = distance(b, point)
                if near < best:
                    best, place = near, _nearest(b, point)
    return best, place


def _candidates(segment: Segment, other: Segment) -> list[Point]:
    """Points of a segment that may be nearest to another: its ends, and where an arc faces the other."""
    points = [segment.start, segment.end]
    if isinstance(segment, Arc):
        cx, cy = segment.centre
        if isinstance(other, Line):
            dx, dy = other.end[1] - other.start[1], other.start[0] - other.end[0]
        else:
            dx, dy = other.centre[0] - cx, other.centre[1] - cy
        size = math.hypot(dx, dy)
        if size > 0:
            for sign in (segment.radius / size, -segment.radius / size):
                point = (cx + sign * dx, cy + sign * dy)
                if 0 <= parameter(segment, point) <= 1:
                    points.append(point)
    return points


def _nearest(segment: Segment, point: Point) -> Point:
    """Point of a segment nearest to another point."""
    return point_at(segment, min(max(parameter(segment, point), 0.0), 1.0))


def _shown(point: Point) -> str:
    return f"({point[0]:.6g}, {point[1]:.6g}) mm"
