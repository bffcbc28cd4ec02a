"""Arcs given by a bulge: circle, chords and box.

A bulge b on an edge of chord c means an arc of radius c (1 + b²) / (4 |b|) that turns by 4 atan(b), to the
left where b is positive; 1 is half a circle, 0 a straight edge.

References
----------
DXF Reference, LWPOLYLINE, group code 42
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Final

from edgewright.drawing.view import Box, Circle, Dimension, Face, Hatch, Loop, Note, Segment, Shape, Vertex

__all__ = [
    "CHORD_MM",
    "BulgeArc",
    "box_around",
    "bulge_arc",
    "chords",
    "edges",
    "is_straight",
    "loop_of",
    "shape_box",
]

Point = tuple[float, float]

#: Largest distance between an arc and the chords that stand for it where exactness does not matter, mm.
CHORD_MM: Final = 0.01


@dataclass(frozen=True, slots=True)
class BulgeArc:
    """The circle of a bulged edge; ``begin`` and ``turn`` in radians, ``turn`` negative clockwise."""

    x: float
    y: float
    radius: float
    begin: float
    turn: float

    def at(self, angle: float) -> Point:
        """Point of the circle at an angle from x, radians."""
        return self.x + self.radius * math.cos(angle), self.y + self.radius * math.sin(angle)


def is_straight(start: Point, end: Point, bulge: float) -> bool:
    """Whether an edge's bulge is nothing but rounding: a sagitta, chord |bulge| / 2, of at most 1e-9 mm."""
    return math.dist(start, end) * abs(bulge) / 2 <= 1e-9


def bulge_arc(start: Point, end: Point, bulge: float) -> BulgeArc:
    """Circle of a bulged edge; the edge is not straight, see `is_straight` (mm)."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    # the centre lies on the chord's bisector, to the left by c (1 - b²) / (4 b)
    aside = (1 - bulge * bulge) / (4 * bulge)
    x, y = (start[0] + end[0]) / 2 - dy * aside, (start[1] + end[1]) / 2 + dx * aside
    radius = math.hypot(dx, dy) * (1 + bulge * bulge) / (4 * abs(bulge))
    return BulgeArc(x, y, radius, math.atan2(start[1] - y, start[0] - x), 4 * math.atan(bulge))


def edges(loop: Loop) -> Iterator[tuple[Point, Point, float]]:
    """Edges of a closed loop: start, end and bulge, the last one back to the first vertex."""
    after = (*loop.vertices[1:], *loop.vertices[:1])
    for (x0, y0, bulge), (x1, y1, _) in zip(loop.vertices, after, strict=True):
        yield (x0, y0), (x1, y1), bulge


def loop_of(circle: Circle) -> Loop:
    """Turn a circle into a loop of two half circles."""
    x, y, r = circle.x, circle.y, circle.radius
    half: tuple[Vertex, ...] = ((x - r, y, 1.0), (x + r, y, 1.0))
    return Loop(half)


def chords(loop: Loop, tolerance_mm: float = CHORD_MM) -> tuple[Point, ...]:
    """Corners of a closed polygon whose edges stay within the tolerance of the loop (mm)."""
    points: list[Point] = []
    for start, end, bulge in edges(loop):
        points.append(start)
        if not is_straight(start, end, bulge):
            arc = bulge_arc(start, end, bulge)
            # sagitta of a chord over the angle a is r (1 - cos(a / 2))
            step = 2 * math.acos(max(0.0, 1 - tolerance_mm / arc.radius))
            count = math.ceil(abs(arc.turn) / step) if step else 1
            points.extend(arc.at(arc.begin + arc.turn * n / count) for n in range(1, count))
    return tuple(points)


def shape_box(shape: Shape) -> Box:
    """Exact box of a shape (mm); a note counts with its anchor only, as its width depends on the font."""
    if isinstance(shape, (Hatch, Face)):
        return shape_box(shape.loop)
    if isinstance(shape, Circle):
        return shape.x - shape.radius, shape.y - shape.radius, shape.x + shape.radius, shape.y + shape.radius
    if isinstance(shape, Note):
        points = [(shape.x, shape.y)]
    elif isinstance(shape, (Segment, Dimension)):
        points = [(shape.x0, shape.y0), (shape.x1, shape.y1)]
    else:
        points = [point for edge in edges(shape) for point in _reach(*edge)]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


def box_around(shapes: Iterable[Shape]) -> Box:
    """Box around at least one shape (mm)."""
    boxes = [shape_box(shape) for shape in shapes]
    x0s, y0s, x1s, y1s = zip(*boxes, strict=True)
    return min(x0s), min(y0s), max(x1s), max(y1s)


def _reach(start: Point, end: Point, bulge: float) -> list[Point]:
    """Start, end and the points due east, north, west and south of the centre that the arc runs through."""
    points = [start, end]
    if not is_straight(start, end, bulge):
        arc = bulge_arc(start, end, bulge)
        low, high = sorted((arc.begin, arc.begin + arc.turn))
        quarter = math.pi / 2
        for n in range(math.ceil(low / quarter), math.floor(high / quarter) + 1):
            east, north = ((1, 0), (0, 1), (-1, 0), (0, -1))[n % 4]
            points.append((arc.x + arc.radius * east, arc.y + arc.radius * north))
    return points
