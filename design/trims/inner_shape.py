"""Finish a top by a shape inside it: check that it fits, and list the cuts that make it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from edgewright.design.inset import inset
from edgewright.design.intersect import intersections
from edgewright.design.outline import Arc, Line, Outline, Point, Segment
from edgewright.design.region import Region, point_in_region
from edgewright.design.segments import distance, point_at, split, winding
from edgewright.design.tolerances import NODE_MM
from edgewright.design.trims.golden import peak_between
from edgewright.design.trims.straight_cut import StraightCut
from edgewright.design.trims.trammel import Trammel, trammel
from edgewright.errors import GeometryError

__all__ = ["ShapeCuts", "all_round", "finished_region", "shape_cuts"]


@dataclass(frozen=True, slots=True)
class ShapeCuts:
    """How a finished shape is cut out of a top.

    Attributes
    ----------
    finished
        The finished top, with those holes of the old one that lie in it.
    straight
        One saw cut for each straight edge that is not an old edge, in the order of the outline.
    stops
        For each straight cut, the inside corners or arcs at which it must end; a cut with none runs right through.
    arcs
        One trammel setting for each arc that is not an old edge.
    """

    finished: Region
    straight: tuple[StraightCut, ...]
    stops: tuple[tuple[Point, ...], ...]
    arcs: tuple[Trammel, ...]


def finished_region(region: Region, shape: Outline) -> Region:
    """The top finished to a shape inside it; holes within the shape stay.

    Raises
    ------
    GeometryError
        If the shape leaves the old outline or runs into a hole; the message says by how much and where.
    """
    shaped = Region(shape)
    worst, place = 0.0, (0.0, 0.0)
    for segment in shape.segments:
        met = [point for other in region.segments for point in intersections(segment, other)]
        for piece in split(segment, met):
            off, at = _outside(region, piece)
            if off > worst:
                worst, place = off, at
    if worst > NODE_MM:
        raise GeometryError(
            f"the finished shape lies {worst:.4g} mm outside the wood of the old top at "
            f"({place[0]:.5g}, {place[1]:.5g}) mm; it may lie outside by at most 0 mm: make it smaller or move it"
        )
    holes = tuple(
        hole for hole in region.holes if point_in_region(shaped, point_at(hole.segments[0], 0.5)) == "inside"
    )
    return Region(shape, holes)


def shape_cuts(region: Region, shape: Outline, kerf: float, cutter: float) -> ShapeCuts:
    """Cuts that finish a top to a shape inside it.

    Parameters
    ----------
    kerf, cutter
        Saw kerf and diameter of the router's straight cutter, mm.

    Raises
    ------
    GeometryError
        If the shape leaves the old outline, or the cutter does not fit into a hollow arc.
    """
    finished = finished_region(region, shape)
    straight: list[StraightCut] = []
    stops: list[tuple[Point, ...]] = []
    arcs: list[Trammel] = []
    for number, segment in enumerate(shape.segments):
        if _is_old(region, segment):
            continue
        if isinstance(segment, Arc):
            arcs.append(trammel(segment, cutter, region))
            continue
        straight.append(StraightCut(segment, kerf, name=f"edge {number + 1}"))
        stops.append(
            tuple(at for at in (segment.start, segment.end) if _enters_beyond(finished, segment, at))
        )
    return ShapeCuts(finished, tuple(straight), tuple(stops), tuple(arcs))


def all_round(region: Region, amount: float, kerf: float, cutter: float) -> ShapeCuts:
    """Cuts that take the same amount (mm) off all round the outer edge; holes stay as they are.

    Outside corners stay sharp; an inside corner gets an arc of the amount as its radius.

    Raises
    ------
    GeometryError
        If the amount is not greater than 0 mm, nothing is left, the top falls apart, or a hole is too near.
    """
    if not (math.isfinite(amount) and amount > 0):
        raise GeometryError(
            f"the trim all round is {amount:g} mm; it must be greater than 0 mm: leave it out"
        )
    parts = inset(Region(region.outer), amount)
    if len(parts) != 1:
        raise GeometryError(
            f"a trim of {amount:.5g} mm all round leaves {len(parts)} parts; exactly 1 must stay: trim less"
        )
    return shape_cuts(region, parts[0].outer, kerf, cutter)


def _outside(region: Region, piece: Segment) -> tuple[float, Point]:
    """How far a piece that crosses no edge lies outside the wood at most, and where."""
    if point_in_region(region, point_at(piece, 0.5)) != "outside":
        return 0.0, (0.0, 0.0)

    def off(t: float) -> float:
        return min(distance(segment, point_at(piece, t)) for segment in region.segments)

    t = peak_between(off, (0.0, 1.0), samples=32)
    return off(t), point_at(piece, t)


def _is_old(region: Region, segment: Segment) -> bool:
    """Tell whether a finished edge lies along an old one, so that nothing is cut."""
    return all(
        any(distance(old, point_at(segment, t)) <= NODE_MM for old in region.outer.segments)
        for t in (0.0, 0.21, 0.5, 0.79, 1.0)
    )


def _enters_beyond(finished: Region, edge: Line, at: Point) -> bool:
    """Tell whether a cut that runs on beyond an end of its edge comes into finished wood, there or further away."""
    other = edge.start if at == edge.end else edge.end
    west, south, east, north = finished.bounds
    far = math.hypot(east - west, north - south) + 1
    size = math.dist(other, at)
    beyond = Line(at, (at[0] + (at[0] - other[0]) * far / size, at[1] + (at[1] - other[1]) * far / size))
    met = [p for segment in finished.segments for p in intersections(segment, beyond)]
    pieces = split(beyond, met)
    return any(
        winding(finished.outer, point_at(piece, 0.5))
        and point_in_region(finished, point_at(piece, 0.5)) == "inside"
        for piece in pieces
    )
