"""Names of edges after a trim: a new edge is called by the old one that it was cut from or lies along."""

from __future__ import annotations

import math

from edgewright.design.outline import Line, Outline, Segment
from edgewright.design.segments import direction, distance, parameter, point_at
from edgewright.design.shapes.model import Shape

__all__ = ["edge_number", "inherited_names"]

#: Cosine of 30°: an edge turned further than this against an old one is another edge.
_ALIKE = math.cos(math.radians(30))


def inherited_names(old: Shape, new: Outline) -> tuple[str, ...]:
    """One name for each segment of an outline inside an old top: that of the nearest old edge that runs alike.

    An edge that runs like no old one is called ``edge 3`` by its number.
    """
    names = []
    for number, segment in enumerate(new.segments, start=1):
        found = _nearest(old, segment)
        names.append(f"edge {number}" if found is None else old.names[found])
    return tuple(names)


def edge_number(shape: Shape, name: str) -> int | None:
    """Number from 0 of the longest segment with a name; None if there is none."""
    numbers = [at for at, known in enumerate(shape.names) if known == name]
    return max(numbers, key=lambda at: shape.outline.segments[at].length, default=None)


def _nearest(old: Shape, segment: Segment) -> int | None:
    middle, (ux, uy) = point_at(segment, 0.5), direction(segment, 0.5)
    best: tuple[float, int] | None = None
    for number, other in enumerate(old.outline.segments):
        if isinstance(other, Line) != isinstance(segment, Line):
            continue
        vx, vy = direction(other, min(max(parameter(other, middle), 0.0), 1.0))
        if ux * vx + uy * vy < _ALIKE:
            continue
        off = distance(other, middle)
        if best is None or off < best[0] - 1e-9:
            best = (off, number)
    return None if best is None else best[1]
