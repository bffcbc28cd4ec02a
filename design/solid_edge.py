"""The edge solid: the outline drawn up to its thickness, less what the router takes off both arrises.

Any outline is made that way; one without corners is made face by face, which is quicker (`solid_shell`).
The kernel's own fillet and chamfer are not used: at a corner smaller than the form they make another surface than
a bit whose bearing follows the edge.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from functools import partial
from typing import Any

from edgewright.design.outline import Arc, Line, Outline, Point, Segment
from edgewright.design.segments import direction, distance, point_at, split, turn_at
from edgewright.design.solid_figures import SolidSpec
from edgewright.design.solid_shell import is_smooth, shell_solid
from edgewright.design.solid_void import Seams, arc_stops, voids

__all__ = ["edge_area", "edge_solids"]

#: Corners of a face this near to an edge lie on it (mm).
_ON_EDGE = 1e-5


def edge_solids(cq: Any, spec: SolidSpec, seams: Seams = ()) -> Iterator[Callable[[], Any]]:
    """Ways to build the kernel shape of the edge solid, the quickest first; ``cq`` is the module cadquery.

    Arcs are divided at ``seams``. Where the kernel loses its way with both arrises at once, one after the other may do.
    """
    if is_smooth(spec):
        yield partial(shell_solid, cq, spec, seams)
    yield partial(_routed, cq, spec, seams, at_once=True)
    yield partial(_routed, cq, spec, seams, at_once=False)


def _routed(cq: Any, spec: SolidSpec, seams: Seams, at_once: bool) -> Any:
    wires = [_wire(cq, loop, seams) for loop in spec.region.loops]
    face = cq.Face.makeFromWires(wires[0], wires[1:])
    body = cq.Solid.extrudeLinear(face, cq.Vector(0, 0, spec.thickness))
    upper, lower = (voids(cq, spec, upper, seams) for upper in (True, False))
    for gone in [[*upper, *lower]] if at_once else [upper, lower]:
        if gone:
            body = body.cut(*gone)
    return body


def edge_area(spec: SolidSpec, edge: Any) -> float:
    """Surface of the routed edge of a kernel shape, mm².

    All but both faces, the sides that are not routed, and the ends where the form stops square at such a side.
    """
    still = [segment for number, segment in enumerate(spec.region.segments) if number in spec.still]
    still += _square_ends(spec)
    found = []
    for face in edge.Faces():
        points = [vertex.toTuple() for vertex in face.Vertices()]
        heights = [z for _, _, z in points]
        level = max(heights) - min(heights) < _ON_EDGE and face.geomType() == "PLANE"
        if level and min(abs(heights[0]), abs(heights[0] - spec.thickness)) < _ON_EDGE:
            continue
        if any(all(distance(segment, (x, y)) < _ON_EDGE for x, y, _ in points) for segment in still):
            continue
        found.append(face.Area())
    return math.fsum(found)


def _square_ends(spec: SolidSpec) -> Iterator[Segment]:
    """Where, in plan, a form stops square to its edge, as the next one is not routed and forms no outside corner."""
    reach = max(spec.profile.top.reach, spec.profile.bottom.reach)
    for loop, routed in spec.routed_loops(True):
        for at, segment in enumerate(loop.segments):
            before = loop.segments[at - 1]
            if routed[at] != routed[at - 1] and turn_at(before, segment) <= 0:
                ux, uy = direction(segment, 0.0) if routed[at] else direction(before, 1.0)
                yield _inwards(segment.start, (ux, uy), reach)
                # beyond an arc that the form outreaches its neighbour stops square where the arc begins
                last, joint, t = (segment, segment.end, 1.0) if routed[at] else (before, before.start, 0.0)
                if isinstance(last, Arc) and last.sweep > 0 and last.radius < reach:
                    yield _inwards(joint, direction(last, t), reach)


def _inwards(at: Point, along: Point, reach: float) -> Line:
    """Line from a point of the edge square into the wood."""
    return Line(at, (at[0] - reach * along[1], at[1] + reach * along[0]))


def _wire(cq: Any, loop: Outline, seams: Seams) -> Any:
    edges = []
    for segment in loop.segments:
        if isinstance(segment, Line):
            edges.append(cq.Edge.makeLine(*(cq.Vector(*point) for point in (segment.start, segment.end))))
            continue
        (cx, cy), radius = segment.centre, segment.radius
        stops = [
            (cx + radius * math.cos(angle), cy + radius * math.sin(angle))
            for angle in arc_stops(segment, seams)
        ]
        for piece in split(segment, stops):
            points = (piece.start, point_at(piece, 0.5), piece.end)
            edges.append(cq.Edge.makeThreePointArc(*(cq.Vector(*point) for point in points)))
    return cq.Wire.assembleEdges(edges)
