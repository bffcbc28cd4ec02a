"""The edge solid: outline times thickness with both round-overs, put together from parts the kernel makes exactly.

- the two sections of the sharp rectangle drawn out along the length and along the width; what they share has
  every level of the profile as a rectangle, so its corners are mitred
- at each rounded corner, the square cell of side R taken out and a quarter turn of the profile about the
  arc's axis put in; a round-over larger than R ends on the axis, where the mitre takes over

The kernel's own fillet is not used: at a corner smaller than the round-over it makes another surface than a
bit whose bearing follows the edge.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from functools import partial
from typing import Any, Final

from edgewright.design.outline import FIT_MM, Point
from edgewright.design.solid_figures import SolidSpec, StripBody

__all__ = ["edge_solid"]

_COS_45: Final = math.sqrt(0.5)


def edge_solid(cq: Any, spec: SolidSpec) -> Any:
    """Kernel shape of the outline times the thickness with both round-overs; ``cq`` is the module cadquery."""
    body = _drawn_out(cq, spec, spec.length, (1.0, 0.0), (0.0, spec.width, 0.0)).intersect(
        _drawn_out(cq, spec, spec.width, (0.0, 1.0), (spec.length, 0.0, 0.0))
    )
    # A mitre's plane runs through the corner's axis. The kernel finds its cut through the curved face as a circle
    # only where an edge of the face is already there (else as a spline, off by 1e-7): turn such corners in two steps.
    mitred = any(map(_is_mitred, spec.strips))
    cells: list[Any] = []
    turns: list[Any] = []
    for radius, (east, north), start in zip(
        spec.radii, ((0, 0), (1, 0), (1, 1), (0, 1)), ((-1, 0), (0, -1), (1, 0), (0, 1)), strict=True
    ):
        if radius > FIT_MM:
            corner = cq.Vector(east * (spec.length - radius), north * (spec.width - radius), 0)
            cells.append(cq.Solid.makeBox(radius, radius, spec.thickness, corner))
            centre = (
                radius if not east else spec.length - radius,
                radius if not north else spec.width - radius,
            )
            turns += _turned(cq, spec, radius, centre, start, 2 if mitred else 1)
    if cells:
        # all at once: each call of the kernel's set operations costs as much as a whole top
        body = body.cut(*cells).fuse(*turns)
    return body


def _is_mitred(strip: StripBody) -> bool:
    """Whether an end of the strip runs askew."""
    pairs = zip(strip.corners, (*strip.corners[1:], strip.corners[0]), strict=True)
    return any(min(abs(bx - ax), abs(by - ay)) > FIT_MM for (ax, ay), (bx, by) in pairs)


def _curve(spec: SolidSpec, reach: float) -> Iterator[tuple[Point, ...]]:
    """Profile from the underside up as (inset, z): two points for a line, three for an arc; insets up to ``reach``."""

    def round_over(r: float) -> list[Point]:
        last = math.pi / 2 if r <= reach else math.acos(1 - reach / r)
        # the last inset of a full quarter is r itself, free of rounding
        ends = r if r <= reach else reach
        return [
            (0.0, r),
            (r * (1 - math.cos(last / 2)), r * (1 - math.sin(last / 2))),
            (ends, r * (1 - math.sin(last))),
        ]

    low, high, top = spec.bottom_radius, spec.top_radius, spec.thickness
    if low > FIT_MM:
        yield tuple(reversed(round_over(low)))
    if spec.profile.flat > FIT_MM:
        yield (0.0, low), (0.0, top - high)
    if high > FIT_MM:
        yield tuple((inset, top - depth) for inset, depth in round_over(high))


def _drawn_out(
    cq: Any,
    spec: SolidSpec,
    size: float,
    across: Point,
    along: tuple[float, float, float],
) -> Any:
    """Section of a slab of that size with both edges routed, drawn out along a level vector."""
    far = [tuple((size - inset, z) for inset, z in part) for part in _curve(spec, math.inf)]
    near = [tuple(reversed(part)) for part in reversed(list(_curve(spec, math.inf)))]
    return cq.Solid.extrudeLinear(
        _face(cq, [*far, *near], partial(_upright, (0.0, 0.0), across)), cq.Vector(*along)
    )


def _turned(
    cq: Any, spec: SolidSpec, radius: float, centre: Point, start: Point, steps: int
) -> Iterator[Any]:
    """Quarter turn of the profile in equal steps, counter-clockwise about a corner's axis, from ``start``."""
    curve = [tuple((radius - inset, z) for inset, z in part) for part in _curve(spec, radius)]
    axis = ((0.0, curve[-1][-1][1]), (0.0, curve[0][0][1]))
    x, y = centre
    for step in range(steps):
        # the second of two steps begins 45° on
        ex, ey = start if step == 0 else ((start[0] - start[1]) * _COS_45, (start[0] + start[1]) * _COS_45)
        face = _face(cq, [*curve, axis], partial(_upright, centre, (ex, ey)))
        yield cq.Solid.revolve(face, 90 / steps, cq.Vector(x, y, 0), cq.Vector(x, y, 1))


def _upright(centre: Point, direction: Point, t: float, z: float) -> tuple[float, float, float]:
    """Point at distance ``t`` from an upright axis and height ``z``."""
    return centre[0] + direction[0] * t, centre[1] + direction[1] * t, z


def _face(
    cq: Any, parts: list[tuple[Point, ...]], place: Callable[[float, float], tuple[float, float, float]]
) -> Any:
    """Flat face inside lines and arcs; where one ends away from the next, a straight line joins them."""
    edges = []
    for before, part in zip([parts[-1], *parts[:-1]], parts, strict=True):
        gap = (before[-1], part[0])
        if math.dist(*gap) > FIT_MM:
            edges.append(cq.Edge.makeLine(*(cq.Vector(*place(*point)) for point in gap)))
        make = cq.Edge.makeLine if len(part) == 2 else cq.Edge.makeThreePointArc
        edges.append(make(*(cq.Vector(*place(*point)) for point in part)))
    return cq.Face.makeFromWires(cq.Wire.assembleEdges(edges))
