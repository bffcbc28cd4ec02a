"""What the router takes off one arris, as one kernel body for each stretch of the edge.

Every point that goes is nearest to exactly one line, arc or inside corner of the outline, and goes there by its
distance alone. So the wood that goes is, exactly:

- along a line, the section of what goes, drawn out over just that line
- along an arc, that section turned about the arc's axis over just that arc; a form that reaches beyond the axis
  ends on it, as there another stretch is nearer
- round an inside corner, that section turned about the corner over the corner's turn

At an outside corner the bodies of its two sides overlap in what both take. Between two lines they are cut off on
the plane that halves the corner: where two equal round bodies cross, the kernel may lose its way, on a plane never.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from edgewright.design.forms import Form
from edgewright.design.outline import FIT_MM, Arc, Line, Outline, Point, Segment
from edgewright.design.segments import direction, point_at, turn_at
from edgewright.design.solid_figures import SolidSpec

__all__ = ["Seams", "arc_stops", "corner_seams", "voids"]

#: Beyond a corner with an edge that is not routed the bit runs out into the air by at least this (mm).
_RUN_OUT = 1.0
#: Sides of strips in plan that run askew.
Seams = Sequence[tuple[Point, Point]]
Place = Callable[[float, float], tuple[float, float, float]]


@dataclass(frozen=True, slots=True)
class _Arris:
    """A form and how its depth becomes a height."""

    form: Form
    height: Callable[[float], float]


@dataclass(frozen=True, slots=True)
class _Halving:
    """Upright plane that halves the corner between two lines: a point of it and its direction into the wood."""

    point: Point
    inward: Point


def voids(cq: Any, spec: SolidSpec, upper: bool, seams: Seams) -> list[Any]:
    """Kernel bodies of what goes at the upper or the lower arris, arcs divided at ``seams``; ``cq`` is cadquery."""
    thickness = spec.thickness
    arris = (
        _Arris(spec.profile.top, lambda depth: thickness - depth)
        if upper
        else _Arris(spec.profile.bottom, lambda depth: depth)
    )
    if not arris.form.parts:
        return []
    return [
        body for loop, routed in spec.routed_loops(upper) for body in _of_loop(cq, arris, loop, routed, seams)
    ]


def corner_seams(spec: SolidSpec) -> Seams:
    """Sides of strips that run askew: the plane of a mitre that runs through an arc's axis must find an edge there.

    The kernel finds its cut through a round face as a circle only where an edge of the face is already there;
    else as a spline, off by 1e-7.
    """
    found = []
    for strip in spec.strips:
        for a, b in zip(strip.corners, (*strip.corners[1:], strip.corners[0]), strict=True):
            if min(abs(b[0] - a[0]), abs(b[1] - a[1])) > FIT_MM:
                found.append((a, b))
    return found


def _of_loop(
    cq: Any,
    arris: _Arris,
    loop: Outline,
    routed: tuple[bool, ...],
    seams: Seams,
) -> Iterator[Any]:
    segments, count = loop.segments, len(loop.segments)
    turns = [turn_at(segments[at - 1], segment) for at, segment in enumerate(segments)]
    for at, segment in enumerate(segments):
        after = (at + 1) % count
        if not routed[at]:
            continue
        if turns[at] < 0 and routed[at - 1]:
            yield _round_corner(cq, arris, segments[at - 1], segment, turns[at])
        out = [
            0.0 if routed[to] else _run_out(arris.form.reach, turns[joint])
            for to, joint in ((at - 1, at), (after, after))
        ]
        if isinstance(segment, Line):
            halvings = [
                half
                for half in (
                    _halving(arris.form.reach, segments, routed, at, -1),
                    _halving(arris.form.reach, segments, routed, at, 1),
                )
                if half
            ]
            yield _along_line(cq, arris, segment, out, halvings)
        else:
            yield from _along_arc(cq, arris, segment, out, seams)


def _run_out(reach: float, turn: float) -> float:
    """How far past its end the bit follows an edge that meets one which is not routed, mm."""
    if turn <= 0:
        return 0.0
    # in an obtuse corner wood stands beyond the end; where the edges all but run on, as far as ten reaches
    return _RUN_OUT + (reach * min(1 / math.tan(turn), 10.0) if turn < math.pi / 2 else 0.0)


def _halving(
    reach: float, segments: tuple[Segment, ...], routed: tuple[bool, ...], at: int, step: int
) -> _Halving | None:
    """Halving plane at one end of a line; also past an arc smaller than the form, whose axis lies on the plane."""
    count = len(segments)
    to = (at + step) % count
    turn = _turn(segments, at, to, step)
    point = segments[at].end if step > 0 else segments[at].start
    between = segments[to]
    if isinstance(between, Arc) and between.sweep > 0 and between.radius < reach and turn == 0 and routed[to]:
        beyond = (to + step) % count
        if _turn(segments, to, beyond, step) != 0:
            return None
        point, turn, to = between.centre, between.sweep, beyond
    if not (isinstance(segments[to], Line) and routed[to] and FIT_MM < turn < math.pi):
        return None
    ux, uy = direction(segments[at], 0.0)
    # from the direction back along this line, half the inside angle towards the wood
    half = (math.pi - turn) / 2
    along = -step * math.cos(half)
    return _Halving(point, (along * ux - math.sin(half) * uy, along * uy + math.sin(half) * ux))


def _turn(segments: tuple[Segment, ...], one: int, other: int, step: int) -> float:
    """Turn of the edge between two neighbours, taken in the direction of the loop."""
    return turn_at(segments[one], segments[other]) if step > 0 else turn_at(segments[other], segments[one])


def _along_line(cq: Any, arris: _Arris, line: Line, out: list[float], halvings: list[_Halving]) -> Any:
    ux, uy = direction(line, 0.0)
    x, y = line.start[0] - out[0] * ux, line.start[1] - out[0] * uy

    def place(inset: float, depth: float) -> tuple[float, float, float]:
        return x - inset * uy, y + inset * ux, arris.height(depth)

    length = line.length + sum(out)
    body = cq.Solid.extrudeLinear(
        _section(cq, arris.form, math.inf, place), cq.Vector(ux * length, uy * length, 0)
    )
    if halvings:
        body = body.cut(*(_far_side(cq, arris, line, half) for half in halvings))
    return body


def _far_side(cq: Any, arris: _Arris, line: Line, half: _Halving) -> Any:
    """Block of all that the line's body has beyond a halving plane."""
    (px, py), (ix, iy) = half.point, half.inward
    ux, uy = direction(line, 0.0)
    # away from the line's middle
    mx, my = point_at(line, 0.5)
    sign = math.copysign(1.0, (px - mx) * ux + (py - my) * uy)
    sine = abs(ux * iy - uy * ix)
    far = (arris.form.reach + 1) / sine
    wide = far + line.length
    near = (px - ix * far, py - iy * far)
    inner = (px + ix * far, py + iy * far)
    corners = [
        near,
        inner,
        (inner[0] + sign * ux * wide, inner[1] + sign * uy * wide),
        (near[0] + sign * ux * wide, near[1] + sign * uy * wide),
    ]
    low, high = sorted((arris.height(-1.0), arris.height(arris.form.depth + 1)))
    wire = cq.Wire.makePolygon([cq.Vector(a, b, low) for a, b in corners], close=True)
    return cq.Solid.extrudeLinear(cq.Face.makeFromWires(wire), cq.Vector(0, 0, high - low))


def _along_arc(cq: Any, arris: _Arris, arc: Arc, out: list[float], seams: Seams) -> Iterator[Any]:
    sign = math.copysign(1.0, arc.sweep)
    begin = arc.start_angle - sign * out[0] / arc.radius
    end = arc.start_angle + arc.sweep + sign * out[1] / arc.radius
    inside = sign > 0
    stops = [begin, *arc_stops(arc, seams), end]
    for first, last in pairwise(stops):
        c, s = math.cos(first), math.sin(first)

        def place(inset: float, depth: float, c: float = c, s: float = s) -> tuple[float, float, float]:
            off = arc.radius - sign * inset
            return arc.centre[0] + off * c, arc.centre[1] + off * s, arris.height(depth)

        face = _section(cq, arris.form, arc.radius if inside else math.inf, place)
        yield _turned(cq, face, arc.centre, last - first)


def arc_stops(arc: Arc, seams: Seams) -> list[float]:
    """Angles within an arc at which the side of a strip runs through its centre, in the arc's direction."""
    cx, cy = arc.centre
    found: list[float] = []
    for (ax, ay), (bx, by) in seams:
        length = math.dist((ax, ay), (bx, by))
        if abs((bx - ax) * (cy - ay) - (by - ay) * (cx - ax)) > 1e-6 * length:
            continue
        for angle in (math.atan2(by - ay, bx - ax), math.atan2(ay - by, ax - bx)):
            share = (angle - arc.start_angle) * math.copysign(1.0, arc.sweep) % (2 * math.pi) / abs(arc.sweep)
            if 1e-3 < share < 1 - 1e-3 and all(abs(share - other) > 1e-6 for other in found):
                found.append(share)
    return [arc.start_angle + share * arc.sweep for share in sorted(found)]


def _round_corner(cq: Any, arris: _Arris, before: Segment, after: Segment, turn: float) -> Any:
    ux, uy = direction(before, 1.0)
    x, y = after.start
    face = _section(
        cq, arris.form, math.inf, lambda inset, depth: (x - inset * uy, y + inset * ux, arris.height(depth))
    )
    return _turned(cq, face, (x, y), turn)


def _turned(cq: Any, face: Any, centre: Point, angle: float) -> Any:
    """Turn a face about an upright axis, counter-clockwise for a positive angle (radians)."""
    x, y = centre
    up = math.copysign(1.0, angle)
    return cq.Solid.revolve(face, math.degrees(abs(angle)), cq.Vector(x, y, 0), cq.Vector(x, y, up))


def _section(cq: Any, form: Form, limit: float, place: Place) -> Any:
    """Flat face of what goes in section: between the form, the face and the edge, insets up to ``limit``."""
    parts = [kept for part in form.parts if (kept := _within(part, limit))]
    edges = []
    for part in parts:
        points = (
            [part.start, part.end] if isinstance(part, Line) else [part.start, point_at(part, 0.5), part.end]
        )
        make = cq.Edge.makeLine if isinstance(part, Line) else cq.Edge.makeThreePointArc
        edges.append(make(*(cq.Vector(*place(*point)) for point in points)))
    first, last = parts[0].start, parts[-1].end
    for a, b in pairwise((last, (0.0, 0.0), (first[0], 0.0), first)):
        if math.dist(a, b) > FIT_MM:
            edges.append(cq.Edge.makeLine(cq.Vector(*place(*a)), cq.Vector(*place(*b))))
    return cq.Face.makeFromWires(cq.Wire.assembleEdges(edges))


def _within(part: Segment, limit: float) -> Segment | None:
    """What a part has at insets up to ``limit``; None if that is nothing."""
    if part.start[0] <= limit + FIT_MM:
        return part
    if part.end[0] >= limit - FIT_MM:
        return None
    (d0, z0), (d1, z1) = part.start, part.end
    if isinstance(part, Line):
        return Line((limit, z0 + (z1 - z0) * (limit - d0) / (d1 - d0)), part.end)
    cx, cz = part.centre
    height = math.sqrt(max(0.0, part.radius**2 - (limit - cx) ** 2))
    z = cz + math.copysign(height, (z0 + z1) / 2 - cz)
    ax, az, bx, bz = limit - cx, z - cz, d1 - cx, z1 - cz
    return Arc(
        (limit, z), part.end, part.centre, part.radius, math.atan2(ax * bz - az * bx, ax * bx + az * bz)
    )
