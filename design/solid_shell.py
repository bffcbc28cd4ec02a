"""The edge solid of an outline without corners, face by face: each stretch carries each part of the profile.

No set operation takes part, so that an outline of a hundred arcs takes a moment. It needs an outline that runs on
smoothly everywhere, with no outside arc smaller than the forms reach, and loops that are routed all round or not
at all; then the faces fit edge to edge.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Any

from edgewright.design.outline import FIT_MM, Arc, Line, Segment
from edgewright.design.profile import EdgeProfile
from edgewright.design.segments import direction, point_at, split, turn_at
from edgewright.design.solid_figures import SolidSpec
from edgewright.design.solid_void import Seams, arc_stops

__all__ = ["is_smooth", "shell_solid"]


def is_smooth(spec: SolidSpec) -> bool:
    """Whether the edge solid can be made face by face."""
    reach = max(spec.profile.top.reach, spec.profile.bottom.reach)
    for loop, routed in spec.routed_loops(True):
        if any(routed) != all(routed):
            return False
        for at, segment in enumerate(loop.segments):
            if turn_at(loop.segments[at - 1], segment) != 0:
                return False
            if isinstance(segment, Arc) and segment.sweep > 0 and segment.radius < reach + 1e3 * FIT_MM:
                return False
    return True


def shell_solid(cq: Any, spec: SolidSpec, seams: Seams = ()) -> Any:
    """Kernel solid of the outline times the thickness, both arrises routed, arcs divided at ``seams``."""
    faces: list[Any] = []
    lower, upper = [], []
    for (loop, above), (_, below) in zip(spec.routed_loops(True), spec.routed_loops(False), strict=True):
        chain = _chain(spec.profile, below[0], above[0])
        pieces = [piece for segment in loop.segments for piece in _pieces(segment, seams)]
        faces += [_swept(cq, piece, part) for piece in pieces for part in chain]
        lower.append(_wire(cq, pieces, chain[0].start))
        upper.append(_wire(cq, pieces, chain[-1].end))
    faces += [cq.Face.makeFromWires(wires[0], wires[1:]) for wires in (lower, upper)]
    return cq.Solid.makeSolid(cq.Shell.makeShell(faces))


def _chain(profile: EdgeProfile, below: bool, above: bool) -> list[Segment]:
    """Profile from the underside up as (inset, z)."""
    parts: list[Segment] = []
    foot, head = 0.0, profile.thickness
    if below and profile.bottom.parts:
        parts += profile.bottom.parts
        foot = profile.bottom.depth
    upper: list[Segment] = []
    if above and profile.top.parts:
        head -= profile.top.depth
        for part in reversed(profile.top.parts):
            (d0, z0), (d1, z1), high = part.start, part.end, profile.thickness
            if isinstance(part, Line):
                upper.append(Line((d1, high - z1), (d0, high - z0)))
            else:
                # run backwards and turned upside down it keeps its sense of turning
                centre = (part.centre[0], high - part.centre[1])
                upper.append(Arc((d1, high - z1), (d0, high - z0), centre, part.radius, part.sweep))
    flat = [Line((0.0, foot), (0.0, head))] if head - foot > FIT_MM else []
    return [*parts, *flat, *upper]


def _pieces(segment: Segment, seams: Seams) -> Iterator[Segment]:
    if isinstance(segment, Line):
        yield segment
        return
    (cx, cy), radius = segment.centre, segment.radius
    angles = arc_stops(segment, seams)
    yield from split(segment, [(cx + radius * math.cos(a), cy + radius * math.sin(a)) for a in angles])


def _swept(cq: Any, piece: Segment, part: Segment) -> Any:
    """Face that a part of the profile leaves along a stretch of the outline."""
    from OCP.BRepPrimAPI import BRepPrimAPI_MakePrism, BRepPrimAPI_MakeRevol
    from OCP.gp import gp_Ax1, gp_Dir, gp_Pnt, gp_Vec

    (ux, uy), (x, y) = direction(piece, 0.0), piece.start
    shares = (0.0, 1.0) if isinstance(part, Line) else (0.0, 0.5, 1.0)
    section = [part.start, *(point_at(part, t) for t in shares[1:-1]), part.end]
    points = [cq.Vector(x - inset * uy, y + inset * ux, z) for inset, z in section]
    edge = (cq.Edge.makeLine if len(points) == 2 else cq.Edge.makeThreePointArc)(*points)
    if isinstance(piece, Line):
        way = gp_Vec(piece.end[0] - x, piece.end[1] - y, 0)
        return cq.Shape.cast(BRepPrimAPI_MakePrism(edge.wrapped, way).Shape())
    (cx, cy), up = piece.centre, math.copysign(1.0, piece.sweep)
    axis = gp_Ax1(gp_Pnt(cx, cy, 0), gp_Dir(0, 0, up))
    return cq.Shape.cast(BRepPrimAPI_MakeRevol(edge.wrapped, axis, abs(piece.sweep)).Shape())


def _wire(cq: Any, pieces: Sequence[Segment], at: tuple[float, float]) -> Any:
    """Level wire of the pieces moved in by an inset to a height."""
    inset, z = at
    edges = []
    for piece in pieces:
        points = []
        for t in (0.0, 1.0) if isinstance(piece, Line) else (0.0, 0.5, 1.0):
            (x, y), (ux, uy) = point_at(piece, t), direction(piece, t)
            points.append(cq.Vector(x - inset * uy, y + inset * ux, z))
        edges.append((cq.Edge.makeLine if len(points) == 2 else cq.Edge.makeThreePointArc)(*points))
    return cq.Wire.assembleEdges(edges)
