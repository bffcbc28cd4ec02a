"""Round the sharp corners of a shape with tangent arcs."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from edgewright.design.outline import FIT_MM, Arc, Line, Outline, Point, Segment
from edgewright.design.segments import direction, parameter, point_at, turn_between
from edgewright.design.shapes.figures import need_not_negative
from edgewright.design.shapes.loop import SHORTEST_MM, bulged
from edgewright.design.shapes.model import SIDES, Shape
from edgewright.design.tolerances import PARALLEL_RAD
from edgewright.errors import GeometryError

__all__ = ["corner_name", "round_corners"]


@dataclass(frozen=True, slots=True)
class _Rounding:
    """An arc at the joint of two edges, and the shares of their lengths at which it leaves and meets them."""

    arc: Arc
    leaves: float
    meets: float


def round_corners(shape: Shape, outside_radius: float, inside_radius: float) -> Shape:
    """Replace sharp corners by arcs that run tangent into the edges beside them.

    Parameters
    ----------
    shape
        Any shape; joints that are smooth already stay as they are.
    outside_radius
        For corners that stand out, in mm; 0 leaves them sharp.
    inside_radius
        For corners that cut in, in mm; 0 leaves them sharp.

    Returns
    -------
    Shape
        Old edges keep their names; each arc is named after the edges it joins.

    Raises
    ------
    GeometryError
        If a radius is negative or does not fit; the edge that is too short is named.
    """
    need_not_negative("outside corner radius", outside_radius, "give 0 for sharp corners")
    need_not_negative("inside corner radius", inside_radius, "give 0 for sharp corners")
    edges, names = shape.outline.segments, shape.names
    roundings: list[_Rounding | None] = []
    for at, edge in enumerate(edges):
        after = (at + 1) % len(edges)
        turn = turn_between(edge, edges[after])
        radius = outside_radius if turn > 0 else inside_radius
        if abs(turn) <= PARALLEL_RAD or radius <= FIT_MM:
            roundings.append(None)
            continue
        roundings.append(_rounding(edge, edges[after], turn, radius, (names[at], names[after])))
    if not any(roundings):
        return shape
    segments: list[Segment] = []
    given: list[str] = []
    for at, (edge, name) in enumerate(zip(edges, names, strict=True)):
        before, behind = roundings[at - 1], roundings[at]
        first, last = before.meets if before else 0.0, behind.leaves if behind else 1.0
        if (last - first) * edge.length < -4 * FIT_MM:
            _refuse_edge(name, edge, first, last)
        start = before.arc.end if before else edge.start
        end = behind.arc.start if behind else edge.end
        kept = (last - first) * edge.length > SHORTEST_MM
        if kept:
            segments.append(_piece(edge, start, end, last - first))
            given.append(name)
        if behind:
            # where nothing is left between two arcs they share an end; a miss of rounding goes into the later one
            arc = behind.arc if kept else bulged(start, behind.arc.end, math.tan(behind.arc.sweep / 4))
            segments.append(arc)
            given.append(corner_name(name, names[(at + 1) % len(edges)], inside=behind.arc.sweep < 0))
    return replace(shape, outline=Outline(tuple(segments)), names=tuple(given), ellipse=None)


def corner_name(one: str, following: str, *, inside: bool = False) -> str:
    """Name of the corner between two edges: ``south-east corner``, or after the edges themselves."""
    sides = [name.removesuffix(" end") for name in (one, following)]
    lengthwise = [name for name in sides if name in (SIDES[0], SIDES[2])]
    crosswise = [name for name in sides if name in (SIDES[1], SIDES[3])]
    if lengthwise and crosswise and not inside:
        return f"{lengthwise[0]}-{crosswise[0]} corner"
    return f"{'inside ' if inside else ''}corner of {one} and {following}"


def _rounding(
    one: Segment, following: Segment, turn: float, radius: float, names: tuple[str, str]
) -> _Rounding:
    """Arc tangent to two edges at their joint."""
    # the centre lies on the wood side of an outside corner, off the wood at an inside one
    side = math.copysign(radius, turn)
    corner = one.end
    what = f"{'outside' if turn > 0 else 'inside'} corner radius is {radius:.10g} mm at the corner of {names[0]} and"
    best: _Rounding | None = None
    for centre in _centres(_Carrier.beside(one, side), _Carrier.beside(following, side)):
        leaves, meets = parameter(one, centre), parameter(following, centre)
        start, end = _foot(one, centre), _foot(following, centre)
        ax, ay = direction(one, leaves)
        bx, by = direction(following, meets)
        sweep = math.atan2(ax * by - ay * bx, ax * bx + ay * by)
        if sweep * turn <= 0 or not abs(sweep) * radius > FIT_MM:
            continue
        found = _Rounding(Arc(start, end, centre, radius, sweep), leaves, meets)
        if best is None or math.dist(centre, corner) < math.dist(best.arc.centre, corner):
            best = found
    if best is None:
        raise GeometryError(f"{what} {names[1]}; no arc of that radius touches both: give a smaller radius")
    for name, edge, share in ((names[0], one, 1 - best.leaves), (names[1], following, best.meets)):
        if not -FIT_MM <= share * edge.length <= edge.length + 4 * FIT_MM:
            raise GeometryError(
                f"{what} {names[1]}; it takes {abs(share) * edge.length:.6g} mm of the {name} edge, which is "
                f"{edge.length:.6g} mm long: give a smaller radius"
            )
    return best


@dataclass(frozen=True, slots=True)
class _Carrier:
    """The whole line (point, unit direction) or circle (centre, radius) on which a centre may lie."""

    at: Point
    along: Point | None
    radius: float

    @classmethod
    def beside(cls, segment: Segment, left: float) -> _Carrier:
        """Carrier of a segment moved to its left."""
        if isinstance(segment, Line):
            ux, uy = direction(segment, 0.0)
            return cls((segment.start[0] - left * uy, segment.start[1] + left * ux), (ux, uy), 0.0)
        return cls(segment.centre, None, segment.radius - math.copysign(left, segment.sweep * left))


def _centres(one: _Carrier, other: _Carrier) -> list[Point]:
    """Points that two carriers share."""
    if one.along is not None and other.along is not None:
        cross = one.along[0] * other.along[1] - one.along[1] * other.along[0]
        wx, wy = other.at[0] - one.at[0], other.at[1] - one.at[1]
        t = (wx * other.along[1] - wy * other.along[0]) / cross
        return [(one.at[0] + t * one.along[0], one.at[1] + t * one.along[1])]
    if one.along is None and other.along is None:
        apart = math.dist(one.at, other.at)
        if apart <= FIT_MM or other.radius <= 0:
            return []
        ux, uy = (other.at[0] - one.at[0]) / apart, (other.at[1] - one.at[1]) / apart
        along = (apart + (one.radius - other.radius) * (one.radius + other.radius) / apart) / 2
        return _either_side(one.at, (ux, uy), along, one.radius)
    line, circle = (one, other) if one.along is not None else (other, one)
    assert line.along is not None
    ux, uy = line.along
    wx, wy = line.at[0] - circle.at[0], line.at[1] - circle.at[1]
    # foot of the circle's centre on the line, seen along the line's left normal
    return _either_side(circle.at, (-uy, ux), wy * ux - wx * uy, circle.radius)


def _either_side(centre: Point, along: Point, off: float, radius: float) -> list[Point]:
    """Points of a circle on the chord that lies ``off`` from its centre in a direction."""
    if radius <= 0 or abs(off) > radius:
        return []
    half = math.sqrt((radius - off) * (radius + off))
    foot = (centre[0] + off * along[0], centre[1] + off * along[1])
    return [(foot[0] - s * half * along[1], foot[1] + s * half * along[0]) for s in (1, -1)]


def _foot(segment: Segment, centre: Point) -> Point:
    """Point of the segment's carrier nearest to a centre."""
    return point_at(segment, parameter(segment, centre))


def _piece(edge: Segment, start: Point, end: Point, share: float) -> Segment:
    if isinstance(edge, Line):
        return Line(start, end)
    return replace(edge, start=start, end=end, sweep=edge.sweep * share)


def _refuse_edge(name: str, edge: Segment, first: float, last: float) -> None:
    raise GeometryError(
        f"corner radii at the ends of the {name} edge take {(1 + first - last) * edge.length:.6g} mm of it together; "
        f"it is {edge.length:.6g} mm long: give a smaller radius"
    )
