"""Keep lines: parallel to an edge at a distance, off that edge or measured from another one.

Edges are numbered from 0 in the order of the outer loop. A keep line has the wood that stays on its left and runs
from one end of the wood it cuts to the other.
"""

from __future__ import annotations

import math

from edgewright.design.clip import clip_half_plane
from edgewright.design.outline import FIT_MM, Line, Point
from edgewright.design.region import Region
from edgewright.design.segments import distance, point_at
from edgewright.design.tolerances import NODE_MM
from edgewright.design.trims.shadow import Frame, span
from edgewright.design.trims.straight_cut import StraightCut, beside
from edgewright.errors import GeometryError

__all__ = ["distances_from", "off_edge", "parallel_to", "straight_edge"]


def straight_edge(region: Region, number: int) -> Line:
    """A straight edge of the outer loop.

    Raises
    ------
    GeometryError
        If there is no such edge or it is an arc.
    """
    edges = region.outer.segments
    if not 0 <= number < len(edges):
        raise GeometryError(f"edge {number + 1} was named; the outline has edges 1 to {len(edges)}: name one")
    edge = edges[number]
    if not isinstance(edge, Line):
        raise GeometryError(
            f"edge {number + 1} is an arc of radius {edge.radius:.5g} mm; a saw cut needs a straight edge: "
            "give a finished shape instead"
        )
    return edge


def off_edge(region: Region, number: int, amount: float, kerf: float, name: str = "") -> StraightCut:
    """Cut that takes an amount (mm, kerf included) off a straight edge, parallel to it.

    Raises
    ------
    GeometryError
        If the amount is not greater than 0 mm, or the cut would run into wood beyond an inside corner.
    """
    if not (math.isfinite(amount) and amount > FIT_MM):
        raise GeometryError(f"the trim is {amount:g} mm; it must be greater than 0 mm: leave out the cut")
    edge = straight_edge(region, number)
    line = beside(edge, amount)
    at = point_at(edge, 0.5)
    part = _waste_at(region, line, at)
    if part is None:
        raise GeometryError(
            f"the trim of edge {number + 1} is {amount:.5g} mm, as much as the top has there; "
            "some wood must stay: trim less"
        )
    _, y = zip(*(Frame.on(line).local(segment.start) for segment in part.segments), strict=True)
    deepest = -span([Frame.on(line).moved(segment) for segment in part.segments], (0.0, 1.0))[0]
    if deepest > amount + NODE_MM:
        x, y0 = part.segments[y.index(min(y))].start
        raise GeometryError(
            f"the cut along edge {number + 1} runs into wood {deepest:.5g} mm wide near ({x:.5g}, {y0:.5g}) mm; "
            f"at most the trim of {amount:.5g} mm may come off: stop it at the inside corner with a "
            "finished shape"
        )
    return StraightCut(_across(part, line), kerf, at, name)


def parallel_to(
    region: Region, number: int, width: float, kerf: float, at: Point | None = None, name: str = ""
) -> StraightCut:
    """Cut parallel to a straight edge; the ``width`` (mm) from that edge to the keep line stays.

    An out-of-square top is made parallel so. ``at`` is a point of the waste, as in `StraightCut`.
    """
    if not (math.isfinite(width) and width > FIT_MM):
        raise GeometryError(f"the kept width is {width:g} mm; it must be greater than 0 mm: give what stays")
    edge = beside(straight_edge(region, number), width)
    line = Line(edge.end, edge.start)
    parts = clip_half_plane(region, line.start, _way(edge))
    part = parts[0] if parts and at is None else (_waste_at(region, line, at) if at else None)
    return StraightCut(_across(part, line) if part else line, kerf, at, name)


def distances_from(datum: Line, line: Line) -> tuple[float, float]:
    """Distances of a line's start and end from a datum edge, positive on the wood side (left), mm.

    Where the two differ the line is marked at both ends: it is not parallel to the datum.
    """
    frame = Frame.on(datum)
    return frame.local(line.start)[1], frame.local(line.end)[1]


def _way(line: Line) -> Point:
    return Frame.on(line).along


def _waste_at(region: Region, line: Line, at: Point) -> Region | None:
    """The part on the right of a line that is nearest to a point."""
    ux, uy = _way(line)
    if not clip_half_plane(region, line.start, (ux, uy)):
        return None
    parts = clip_half_plane(region, line.start, (-ux, -uy))
    return min(parts, key=lambda part: min(distance(s, at) for s in part.segments), default=None)


def _across(part: Region, line: Line) -> Line:
    """A line from the first to the last point at which the waste lies against it."""
    frame = Frame.on(line)
    ends = [frame.local(segment.start) for segment in part.segments]
    on = [x for x, y in ends if abs(y) <= NODE_MM]
    if not on or max(on) - min(on) <= NODE_MM:
        return line
    return Line(frame.world((min(on), 0.0)), frame.world((max(on), 0.0)))
