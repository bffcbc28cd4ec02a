"""Build loops: vertices with bulges to lines and arcs, runs of named corners, moved loops."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from edgewright.design.outline import Arc, Line, Outline, Point, Segment
from edgewright.design.segments import reversed_segment
from edgewright.design.tolerances import NODE_MM
from edgewright.errors import GeometryError

__all__ = [
    "FLATTEST_MM",
    "SHORTEST_MM",
    "Vertex",
    "arc_about",
    "bulged",
    "move_outline",
    "move_segment",
    "named_loop",
    "reversed_outline",
]

#: Largest radius of an arc: 10 km. A centre further away is rounded so coarsely that ends no longer meet.
FLATTEST_MM: Final = 1e7

#: Shortest edge that is kept: ten times what makes two points one. What is shorter is rounding of the figures.
SHORTEST_MM: Final = 10 * NODE_MM

#: A corner of a loop: point, bulge of the edge that starts there (0 for a line), name of that edge.
Vertex = tuple[Point, float, str]


def arc_about(start: Point, centre: Point, sweep: float) -> Arc:
    """Arc that turns from a point about a centre by ``sweep`` radians."""
    radius = math.dist(start, centre)
    angle = math.atan2(start[1] - centre[1], start[0] - centre[0]) + sweep
    end = (centre[0] + radius * math.cos(angle), centre[1] + radius * math.sin(angle))
    return Arc(start, end, centre, radius, sweep)


def bulged(start: Point, end: Point, bulge: float) -> Segment:
    """Line or arc between two points; the bulge is tan(sweep/4), positive counter-clockwise.

    Raises
    ------
    GeometryError
        If the bulge is not finite or the arc is flatter than `FLATTEST_MM`.

    References
    ----------
    Autodesk DXF Reference, LWPOLYLINE, group code 42.
    """
    if not math.isfinite(bulge):
        raise GeometryError(f"bulge is {bulge:g}; it must be a finite number: draw the arc again")
    if bulge == 0:
        return Line(start, end)
    chord = math.dist(start, end)
    radius = chord * (1 + bulge * bulge) / (4 * abs(bulge))
    if not radius <= FLATTEST_MM:
        raise GeometryError(
            f"arc from ({start[0]:g}, {start[1]:g}) mm has radius {radius:g} mm; at most {FLATTEST_MM:g} mm "
            "can be told from straight: make it a straight edge"
        )
    # from the middle of the chord to the centre, along the chord's left normal, in chords
    share = (1 - bulge * bulge) / (4 * bulge)
    dx, dy = end[0] - start[0], end[1] - start[1]
    centre = ((start[0] + end[0]) / 2 - share * dy, (start[1] + end[1]) / 2 + share * dx)
    return Arc(start, end, centre, radius, 4 * math.atan(bulge))


def named_loop(vertices: Sequence[Vertex]) -> tuple[Outline, tuple[str, ...]]:
    """Loop through vertices and the names of its edges; an edge shorter than `SHORTEST_MM` is left out."""
    segments: list[Segment] = []
    names = []
    kept = [
        (point, bulge, name)
        for at, (point, bulge, name) in enumerate(vertices)
        if math.dist(point, vertices[(at + 1) % len(vertices)][0]) > SHORTEST_MM
    ]
    for at, (point, bulge, name) in enumerate(kept):
        segments.append(bulged(point, kept[(at + 1) % len(kept)][0], bulge))
        names.append(name)
    return Outline(tuple(segments)), tuple(names)


def reversed_outline(outline: Outline) -> Outline:
    """Run the same loop the other way round, from the same vertex."""
    return Outline(tuple(reversed_segment(segment) for segment in reversed(outline.segments)))


def move_segment(segment: Segment, at: Point, turn: float) -> Segment:
    """Turn a segment about the origin by ``turn`` radians counter-clockwise, then move it by ``at`` mm."""
    if isinstance(segment, Line):
        return Line(_moved(segment.start, at, turn), _moved(segment.end, at, turn))
    return replace(
        segment,
        start=_moved(segment.start, at, turn),
        end=_moved(segment.end, at, turn),
        centre=_moved(segment.centre, at, turn),
    )


def move_outline(outline: Outline, at: Point, turn: float = 0.0) -> Outline:
    """Turn a loop about the origin by ``turn`` radians counter-clockwise, then move it by ``at`` mm."""
    return Outline(tuple(move_segment(segment, at, turn) for segment in outline.segments))


def _moved(point: Point, at: Point, turn: float) -> Point:
    if turn == 0:
        return point[0] + at[0], point[1] + at[1]
    cos, sin = math.cos(turn), math.sin(turn)
    return cos * point[0] - sin * point[1] + at[0], sin * point[0] + cos * point[1] + at[1]
