"""The edge solid: the outline drawn up to its thickness, less what the router takes off both arrises.

The kernel's own fillet and chamfer are not used: at a corner smaller than the form they make another surface than
a bit whose bearing follows the edge.
"""

from __future__ import annotations

import math
from typing import Any

from edgewright.design.outline import Line, Outline, Point
from edgewright.design.segments import distance, point_at, split
from edgewright.design.solid_figures import SolidSpec
from edgewright.design.solid_void import arc_stops, corner_seams, voids

__all__ = ["edge_area", "edge_solid"]

#: Corners of a face this near to an edge lie on it (mm).
_ON_EDGE = 1e-5


def edge_solid(cq: Any, spec: SolidSpec, steps: int = 1) -> Any:
    """Kernel shape of the outline times the thickness, both arrises routed; ``cq`` is the module cadquery.

    In one step both arrises are routed at once, in two one after the other, which takes longer.
    """
    seams = corner_seams(spec)
    wires = [_wire(cq, loop, seams) for loop in spec.region.loops]
    face = cq.Face.makeFromWires(wires[0], wires[1:])
    body = cq.Solid.extrudeLinear(face, cq.Vector(0, 0, spec.thickness))
    gone = [voids(cq, spec, upper) for upper in (True, False)]
    if steps == 1:
        gone = [[*gone[0], *gone[1]]]
    for bodies in gone:
        if bodies:
            body = body.cut(*bodies)
    return body


def edge_area(spec: SolidSpec, edge: Any) -> float:
    """Surface of the routed edge of a kernel shape, mm²: all but both faces and the sides that are not routed."""
    still = [segment for number, segment in enumerate(spec.region.segments) if number in spec.still]
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


def _wire(cq: Any, loop: Outline, seams: tuple[tuple[Point, Point], ...]) -> Any:
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
