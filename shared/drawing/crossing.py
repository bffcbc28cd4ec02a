"""Lines that cross where no line of a cut layer may: within one loop, or between two shapes.

An arc is looked at as chords within ``CHORD_MM`` of it, so a crossing finer than that is not found.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Final

from edgewright.drawing.arcs import Point, chords, loop_of
from edgewright.drawing.view import Circle, Loop, Segment, Shape

__all__ = ["FIT_MM", "crossings"]

#: Lengths up to this are rounding, not wood, mm.
FIT_MM: Final = 1e-6

_Edge = tuple[Point, Point]


def crossings(shapes: Sequence[tuple[Shape, str]]) -> Iterator[str]:
    """Sentences about loops that touch or cross themselves and shapes that cross each other.

    Two shapes may touch: a crosscut's keep line ends on the keep line of a rip.

    Parameters
    ----------
    shapes
        Pairs of a shape and the words that name it in a sentence.
    """
    found: list[tuple[float, float, int, int, _Edge]] = []
    counts = []
    for owner, (shape, _) in enumerate(shapes):
        run = _run(shape)
        counts.append(0 if isinstance(shape, Segment) else len(run))
        for index, (a, b) in enumerate(run):
            found.append((min(a[0], b[0]), max(a[0], b[0]), owner, index, (a, b)))
    found.sort(key=lambda item: item[:4])
    told: dict[tuple[int, int], str] = {}
    open_edges: list[tuple[float, float, int, int, _Edge]] = []
    for item in found:
        open_edges = [other for other in open_edges if other[1] >= item[0] - FIT_MM]
        for other in open_edges:
            first, second = sorted((item[2], other[2]))
            if (first, second) in told or not _boxes_meet(item[4], other[4]):
                continue
            if first == second:
                step = abs(item[3] - other[3])
                neighbours = step in (1, counts[first] - 1)
                if (_folds_back if neighbours else _touch)(item[4], other[4]):
                    told[first, second] = "the line crosses or touches itself; draw it as a simple loop"
            elif _cross(item[4], other[4]):
                told[first, second] = f"it crosses {shapes[first][1]}; parts must not overlap"
            elif _lie_together(item[4], other[4]):
                told[first, second] = f"it lies on {shapes[first][1]} in part or in whole; draw it once"
        open_edges.append(item)
    for (_, second), sentence in sorted(told.items()):
        yield f"{shapes[second][1]}: {sentence}"


def _run(shape: Shape) -> list[_Edge]:
    """Straight edges that stand for the shape."""
    if isinstance(shape, Segment):
        return [((shape.x0, shape.y0), (shape.x1, shape.y1))]
    if isinstance(shape, Circle):
        shape = loop_of(shape)
    if not isinstance(shape, Loop):
        return []
    points = chords(shape)
    return [*pairwise(points), (points[-1], points[0])]


def _boxes_meet(a: _Edge, b: _Edge) -> bool:
    return all(
        max(min(a[0][i], a[1][i]), min(b[0][i], b[1][i]))
        <= min(max(a[0][i], a[1][i]), max(b[0][i], b[1][i])) + FIT_MM
        for i in (0, 1)
    )


def _aside(edge: _Edge, point: Point) -> float:
    """Distance of a point from the line through the edge, positive to its left (mm)."""
    (ax, ay), (bx, by) = edge
    return ((bx - ax) * (point[1] - ay) - (by - ay) * (point[0] - ax)) / math.dist(*edge)


def _cross(a: _Edge, b: _Edge) -> bool:
    """Whether two edges run through each other, each with both ends clear of the other."""
    sides = [sorted((_aside(edge, other[0]), _aside(edge, other[1]))) for edge, other in ((a, b), (b, a))]
    return all(low < -FIT_MM and high > FIT_MM for low, high in sides)


def _touch(a: _Edge, b: _Edge) -> bool:
    return _cross(a, b) or any(_from_point(e, p) <= FIT_MM for e, o in ((a, b), (b, a)) for p in o)


def _lie_together(a: _Edge, b: _Edge) -> bool:
    """Whether two edges share a stretch of one straight line."""
    if any(abs(_aside(a, point)) > FIT_MM for point in b):
        return False
    (ax, ay), (bx, by) = a
    length = math.dist(*a)
    low, high = sorted(((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / length for x, y in b)
    return min(high, length) - max(low, 0.0) > FIT_MM


def _from_point(edge: _Edge, point: Point) -> float:
    (ax, ay), (bx, by) = edge
    dx, dy = bx - ax, by - ay
    along = ((point[0] - ax) * dx + (point[1] - ay) * dy) / (dx * dx + dy * dy)
    at = min(1.0, max(0.0, along))
    return math.hypot(point[0] - ax - at * dx, point[1] - ay - at * dy)


def _folds_back(a: _Edge, b: _Edge) -> bool:
    """Whether two neighbouring edges lie on one another."""
    (ax, ay), (bx, by) = ((e[1][0] - e[0][0], e[1][1] - e[0][1]) for e in (a, b))
    lengths = math.hypot(ax, ay) * math.hypot(bx, by)
    return ax * bx + ay * by < 0 and abs(ax * by - ay * bx) <= 1e-9 * lengths
