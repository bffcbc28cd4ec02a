"""Triangles of a flat polygon with holes, by bridging the holes and cutting off ears.

No point is added or left out, so that faces which share an edge still fit.

References
----------
Meisters, Polygons have ears, American Mathematical Monthly 82 (1975); Eberly, Triangulation by ear clipping (2002),
for the bridge from a hole to a point of the outer loop that it can see.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from edgewright.design.outline import Point

__all__ = ["keyhole", "triangles"]


def triangles(outer: Sequence[Point], holes: Sequence[Sequence[Point]] = ()) -> list[tuple[int, int, int]]:
    """Triangles, counter-clockwise, as numbers of points, counted through the outer loop and then the holes.

    Parameters
    ----------
    outer
        Points counter-clockwise, no two neighbours equal.
    holes
        Loops clockwise, within the outer one.
    """
    points = [*outer, *(point for hole in holes for point in hole)]
    ring = keyhole(outer, holes)
    found: list[tuple[int, int, int]] = []
    at, waited = 0, 0
    while len(ring) > 3:
        count = len(ring)
        a, b, c = ring[at - 1], ring[at], ring[(at + 1) % count]
        # where rounding leaves no clean ear, a flat one goes, and at last any: all points stay in use
        if waited >= 2 * count or _is_ear(points, ring, (a, b, c), least=1e-7 if waited < count else 0.0):
            found.append((a, b, c))
            del ring[at]
            at, waited = (at + 1) % len(ring), 0
        else:
            at, waited = (at + 1) % count, waited + 1
    found.append((ring[0], ring[1], ring[2]))
    return found


def keyhole(outer: Sequence[Point], holes: Sequence[Sequence[Point]] = ()) -> list[int]:
    """One loop through the outer points and those of the holes, each reached by a bridge that is run both ways."""
    points = list(outer)
    starts = []
    for hole in holes:
        starts.append(len(points))
        points += hole
    ring = list(range(len(outer)))
    order = sorted(range(len(holes)), key=lambda number: -max(x for x, _ in holes[number]))
    for number in order:
        first, size = starts[number], len(holes[number])
        east = max(range(first, first + size), key=lambda n: (points[n][0], -points[n][1]))
        around = [first + (east - first + step) % size for step in range(size)]
        at = _seen_from(points, ring, east)
        ring[at + 1 : at + 1] = [*around, east, ring[at]]
    return ring


def _seen_from(points: Sequence[Point], ring: Sequence[int], hole: int) -> int:
    """Place in the ring of a point that the hole's easternmost point sees."""
    px, py = points[hole]
    best: tuple[float, int, Point] | None = None
    for at, number in enumerate(ring):
        (ax, ay), (bx, by) = points[number], points[ring[(at + 1) % len(ring)]]
        # only sides that run north have the wood on their left, as seen from the west
        if ay <= py < by or (ay < py <= by):
            x = ax + (py - ay) * (bx - ax) / (by - ay)
            if x >= px - 1e-12 and (best is None or x < best[0]):
                end = at if ax > bx else (at + 1) % len(ring)
                best = x, end, (x, py)
    if best is None:
        raise ValueError("hole outside its outer loop")
    x, candidate, hit = best
    tip = points[ring[candidate]]
    corners = ((px, py), hit, tip)
    if (hit[0] - px) * (tip[1] - py) < 0:
        corners = ((px, py), tip, hit)
    nearest, chosen = (math.inf, math.inf), candidate
    for at, number in enumerate(ring):
        x, y = points[number]
        if x < px or not _within(corners, (x, y)) or not _opens_to(points, ring, at, (px, py)):
            continue
        away = abs(math.atan2(y - py, x - px)), math.dist((x, y), (px, py))
        if away < nearest:
            nearest, chosen = away, at
    return chosen


def _opens_to(points: Sequence[Point], ring: Sequence[int], at: int, target: Point) -> bool:
    """Whether a point of the ring has the wood towards a target: it may stand in the ring more than once."""
    before, here, after = points[ring[at - 1]], points[ring[at]], points[ring[(at + 1) % len(ring)]]
    left_of_last, left_of_next = _turn(before, here, target) >= 0, _turn(here, after, target) >= 0
    if _turn(before, here, after) >= 0:
        return left_of_last and left_of_next
    return left_of_last or left_of_next


def _is_ear(
    points: Sequence[Point], ring: Sequence[int], numbers: tuple[int, int, int], least: float
) -> bool:
    """Whether a triangle of neighbours is at least so high (mm) and holds no other point of the ring."""
    a, b, c = numbers
    corners = points[a], points[b], points[c]
    if _turn(*corners) < least * math.dist(corners[0], corners[2]):
        return False
    x0, x1 = min(p[0] for p in corners), max(p[0] for p in corners)
    y0, y1 = min(p[1] for p in corners), max(p[1] for p in corners)
    for number in ring:
        point = points[number]
        if x0 <= point[0] <= x1 and y0 <= point[1] <= y1 and point not in corners and _within(corners, point):
            return False
    return True


def _within(corners: Sequence[Point], point: Point) -> bool:
    """Whether a point lies in a triangle or on its sides."""
    a, b, c = corners
    return _turn(a, b, point) >= 0 and _turn(b, c, point) >= 0 and _turn(c, a, point) >= 0


def _turn(a: Point, b: Point, c: Point) -> float:
    """Twice the area of a triangle, positive counter-clockwise."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
