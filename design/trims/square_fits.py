"""Three fits for an out-of-square top, and what each costs at every edge.

The largest true rectangle; one new edge parallel to the old edge opposite; a true rectangle square to a chosen edge,
such as the one that stands along a wall. Common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass

from edgewright.design.outline import Line, Outline, Point
from edgewright.design.region import Region
from edgewright.design.tolerances import NODE_MM
from edgewright.design.trims.clear_rectangle import clear_rectangle
from edgewright.design.trims.keep_line import parallel_to, straight_edge
from edgewright.design.trims.largest_rectangle import MAX_CORNERS, aligned_rectangle, largest_rectangle
from edgewright.design.trims.shadow import Frame
from edgewright.design.trims.straight_cut import saw
from edgewright.design.trims.turned_rectangle import TurnedRectangle
from edgewright.errors import GeometryError

__all__ = ["Fit", "largest_fit", "match_edge", "parallel_fit", "rectangle_along", "square_fits"]


@dataclass(frozen=True, slots=True)
class Fit:
    """One way to make a top true (mm).

    Attributes
    ----------
    name
        In plain words.
    outline
        The finished outline.
    costs
        For each edge of the old outer loop, what comes off at its start and at its end; None for an arc and for
        an edge that no finished edge takes the place of.
    gap
        No rectangle is larger than (1 + gap) times this one; None where the fit is not a largest one or
        nothing is proven.
    """

    name: str
    outline: Outline
    costs: tuple[tuple[float, float] | None, ...]
    gap: float | None = None

    @property
    def area(self) -> float:
        """Finished area in mm²."""
        return self.outline.area


def square_fits(region: Region, new_edge: int, wall_edge: int) -> tuple[Fit, Fit, Fit]:
    """The three fits.

    Parameters
    ----------
    new_edge
        Edge, numbered from 0, that the second fit cuts parallel to the edge opposite it.
    wall_edge
        Edge that the third fit stays square to.
    """
    return largest_fit(region), parallel_fit(region, new_edge), match_edge(region, wall_edge)


def largest_fit(region: Region) -> Fit:
    """Largest true rectangle.

    Over all angles with a proven gap for a convex top of straight edges; else the largest of those along each
    straight edge, or along the length for a top that has none.
    """
    corners = _convex_corners(region)
    if corners:
        found = largest_rectangle(corners)
        return _rectangle_fit(region, "largest true rectangle", found.rectangle, found.gap)
    ways = [Frame.on(edge).along for edge in region.outer.segments if isinstance(edge, Line)] or [(1.0, 0.0)]
    best = max((clear_rectangle(region, way) for way in ways), key=lambda one: one.area)
    return _rectangle_fit(region, "largest true rectangle along an edge", best, None)


def rectangle_along(region: Region, direction: Point) -> TurnedRectangle:
    """Largest true rectangle with sides along and across a direction."""
    corners = _convex_corners(region)
    return aligned_rectangle(corners, direction) if corners else clear_rectangle(region, direction)


def match_edge(region: Region, edge: int) -> Fit:
    """Largest true rectangle with sides along and across a straight edge, such as the one at a wall."""
    found = rectangle_along(region, Frame.on(straight_edge(region, edge)).along)
    return _rectangle_fit(
        region, f"square to edge {edge + 1}", found, 0.0 if _convex_corners(region) else None
    )


def parallel_fit(region: Region, edge: int) -> Fit:
    """One cut: the edge made parallel to the one opposite, through the end that lies nearer to it.

    Raises
    ------
    GeometryError
        If no straight edge lies opposite, or the two are parallel already.
    """
    old = Frame.on(straight_edge(region, edge))
    facing = [
        (-dot, number)
        for number, other in enumerate(region.outer.segments)
        if isinstance(other, Line)
        and number != edge
        and (dot := _dot(old.along, Frame.on(other).along)) < -_COS_45
    ]
    if not facing:
        raise GeometryError(
            f"edge {edge + 1} has no straight edge within 45° opposite; one is needed: choose another edge"
        )
    opposite = max(facing, key=lambda item: (round(item[0], 2), region.outer.segments[item[1]].length))[1]
    line, datum = straight_edge(region, edge), straight_edge(region, opposite)
    heights = [Frame.on(datum).local(point)[1] for point in (line.start, line.end)]
    if max(heights) - min(heights) <= NODE_MM:
        raise GeometryError(
            f"edges {edge + 1} and {opposite + 1} are parallel within {NODE_MM:g} mm; nothing is to be cut: "
            "leave out this fit"
        )
    one = parallel_to(region, opposite, min(heights), 0.0)
    outline = saw(region, one).kept.outer
    return Fit(f"edge {edge + 1} parallel to edge {opposite + 1}", outline, _costs(region, outline))


_COS_45 = 0.5**0.5


def _dot(one: Point, other: Point) -> float:
    return one[0] * other[0] + one[1] * other[1]


def _rectangle_fit(region: Region, name: str, found: TurnedRectangle, gap: float | None) -> Fit:
    return Fit(name, found.outline, _costs(region, found.outline), gap)


def _costs(region: Region, finished: Outline) -> tuple[tuple[float, float] | None, ...]:
    """What comes off each old edge at its start and end: distances of the finished edge that runs most like it."""
    found: list[tuple[float, float] | None] = []
    lines = [segment for segment in finished.segments if isinstance(segment, Line)]
    for old in region.outer.segments:
        if not isinstance(old, Line):
            found.append(None)
            continue
        frame = Frame.on(old)
        alike = [line for line in lines if _dot(Frame.on(line).along, frame.along) >= _COS_45]
        if not alike:
            found.append(None)
            continue
        # of several the nearest: on a stepped top each edge has its own
        new = min(alike, key=lambda line: sum(abs(frame.local(at)[1]) for at in (line.start, line.end)))
        start, end = frame.local(new.start)[1], frame.local(new.end)[1]
        found.append((start if start > NODE_MM else 0.0, end if end > NODE_MM else 0.0))
    return tuple(found)


def _convex_corners(region: Region) -> list[Point]:
    """Corners of a convex top of straight edges without holes; none for any other."""
    edges = region.outer.segments
    if region.holes or len(edges) > MAX_CORNERS or not all(isinstance(edge, Line) for edge in edges):
        return []
    corners = [edge.start for edge in edges]
    for edge in edges:
        frame = Frame.on(Line(edge.start, edge.end))
        if any(frame.local(corner)[1] < -NODE_MM for corner in corners):
            return []
    return corners
