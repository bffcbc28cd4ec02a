"""Cut a closed mesh of flat convex facets along an upright plane and close it again.

Facets that share an edge share the very same points before the cut and after it, so the new face is what lies
between the edges that are left without a partner.
"""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Callable, Iterator, Sequence
from typing import Final

from edgewright.design.flat_triangles import triangles
from edgewright.design.outline import Point

__all__ = [
    "Polygon",
    "Vector",
    "boundary_loops",
    "cut_off",
    "flat_polygons",
    "grouped_loops",
    "is_convex_loop",
]

Vector = tuple[float, float, float]
Polygon = list[Vector]

#: Points this near to the cutting plane lie on it (mm).
_ON_PLANE: Final = 1e-7


def cut_off(polygons: Sequence[Polygon], start: Point, end: Point) -> list[Polygon]:
    """What lies left of the upright plane through two plan points, with the cut face."""
    (sx, sy), length = start, math.dist(start, end)
    nx, ny = (sy - end[1]) / length, (end[0] - sx) / length

    def off(point: Vector) -> float:
        value = nx * (point[0] - sx) + ny * (point[1] - sy)
        return 0.0 if abs(value) <= _ON_PLANE else value

    kept: list[Polygon] = []
    cut = False
    for polygon in polygons:
        offs = [off(point) for point in polygon]
        cut = cut or min(offs) < 0
        if max(offs) > 0:
            kept.append(polygon if min(offs) >= 0 else _left_part(polygon, offs))
        elif max(offs) == min(offs) == 0:
            cut = True  # lies in the plane: made again with the cut face
    if not cut:
        return list(polygons)
    return [*kept, *_caps(kept, (nx, ny))]


def _left_part(polygon: Polygon, offs: list[float]) -> Polygon:
    """Sutherland and Hodgman's clip of one polygon."""
    part: Polygon = []
    before, off_before = polygon[-1], offs[-1]
    for point, off in zip(polygon, offs, strict=True):
        if off * off_before < 0:
            # always from the inner end, so that two facets which share the edge get the same point
            a, b, t = before, point, off_before / (off_before - off)
            if off > 0:
                a, b, t = point, before, off / (off - off_before)
            part.append((a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]), a[2] + t * (b[2] - a[2])))
        if off >= 0:
            part.append(point)
        before, off_before = point, off
    return part


def _caps(polygons: Sequence[Polygon], inward: Point) -> list[Polygon]:
    """Faces that close the mesh, all on one upright plane with the wood on its ``inward`` side."""
    nx, ny = inward

    def flat(point: Vector) -> Point:
        # seen from outside: to the right along the plane, and up
        return point[0] * ny - point[1] * nx, point[2]

    leaving: dict[Vector, list[Vector]] = defaultdict(list)
    for a, b in _free_edges(polygons):
        leaving[b].append(a)  # the new face runs along it the other way
    loops = [loop for loop in _loops(leaving, flat) if len(loop) > 2]
    return flat_polygons(loops, flat)


def boundary_loops(polygons: Sequence[Polygon]) -> list[Polygon]:
    """Loops round level facets that share their points, counter-clockwise from above; holes clockwise."""
    leaving: dict[Vector, list[Vector]] = defaultdict(list)
    for a, b in _free_edges(polygons):
        leaving[a].append(b)
    return [loop for loop in _loops(leaving, lambda point: point[:2]) if len(loop) > 2]


def _free_edges(polygons: Sequence[Polygon]) -> Iterator[tuple[Vector, Vector]]:
    """Edges that no other polygon runs along the other way."""
    edges: Counter[tuple[Vector, Vector]] = Counter()
    for polygon in polygons:
        edges.update(zip(polygon, [*polygon[1:], polygon[0]], strict=True))
    for (a, b), count in edges.items():
        for _ in range(count - min(count, edges[b, a])):
            yield a, b


def _loops(leaving: dict[Vector, list[Vector]], flat: Callable[[Vector], Point]) -> list[Polygon]:
    """Closed chains of edges, each edge used once."""
    loops = []
    for first in list(leaving):
        while leaving[first]:
            loop = [first]
            here = leaving[first].pop()
            while here != first and leaving[here]:
                before = loop[-1]
                loop.append(here)
                here = _next(before, here, leaving[here], flat)
            if here == first:
                loops.append(loop)
    return loops


def _next(before: Vector, here: Vector, choices: list[Vector], flat: Callable[[Vector], Point]) -> Vector:
    """Next point of a loop; where loops touch, the sharpest left turn keeps each on its own side."""
    if len(choices) > 1:
        (ax, ay), (bx, by) = flat(before), flat(here)
        back = math.atan2(ay - by, ax - bx)

        def from_back(point: Vector) -> float:
            x, y = flat(point)
            return (back - math.atan2(y - by, x - bx)) % (2 * math.pi) or 2 * math.pi

        choices.sort(key=from_back, reverse=True)
    return choices.pop()


def flat_polygons(loops: Sequence[Polygon], flat: Callable[[Vector], Point]) -> list[Polygon]:
    """Convex facets of a flat face, counter-clockwise as ``flat`` sees it.

    Loops that run counter-clockwise bound it from outside, the others are holes. One convex loop stays whole.
    """
    facets: list[Polygon] = []
    for outer, holes in grouped_loops(loops, flat):
        seen = [flat(point) for point in outer]
        if not holes and is_convex_loop(seen):
            facets.append(list(outer))
            continue
        points = [*outer, *(point for hole in holes for point in hole)]
        corners = triangles(seen, [[flat(point) for point in hole] for hole in holes])
        facets += [[points[a], points[b], points[c]] for a, b, c in corners]
    return facets


def grouped_loops(
    loops: Sequence[Polygon], flat: Callable[[Vector], Point]
) -> list[tuple[Polygon, list[Polygon]]]:
    """Each outer loop with its holes; a hole belongs to the smallest loop around it."""
    seen = [[flat(point) for point in loop] for loop in loops]
    outers = sorted((n for n, loop in enumerate(seen) if _area(loop) > 0), key=lambda n: _area(seen[n]))
    holes: dict[int, list[Polygon]] = {n: [] for n in outers}
    for number, loop in enumerate(seen):
        if number not in holes:
            around = next((n for n in outers if _surrounds(seen[n], loop)), None)
            if around is not None:
                holes[around].append(loops[number])
    return [(loops[n], holes[n]) for n in sorted(outers)]


def is_convex_loop(loop: Sequence[Point]) -> bool:
    """Whether a loop, counter-clockwise, nowhere turns right by more than rounding, and runs round once."""
    turned = 0.0
    for at, (bx, by) in enumerate(loop):
        (ax, ay), (cx, cy) = loop[at - 1], loop[(at + 1) % len(loop)]
        ux, uy, vx, vy = bx - ax, by - ay, cx - bx, cy - by
        cross = ux * vy - uy * vx
        if cross < -_ON_PLANE * math.hypot(cx - ax, cy - ay):
            return False
        turned += math.atan2(cross, ux * vx + uy * vy)
    return turned < 3 * math.pi


def _surrounds(outer: Sequence[Point], inner: Sequence[Point]) -> bool:
    """Whether the first point of a loop lies within another (even and odd crossings)."""
    x, y = inner[0]
    inside = False
    for (ax, ay), (bx, by) in zip(outer, [*outer[1:], outer[0]], strict=True):
        if (ay > y) != (by > y) and x < ax + (y - ay) * (bx - ax) / (by - ay):
            inside = not inside
    return inside


def _area(loop: Sequence[Point]) -> float:
    x0, y0 = loop[0]
    pairs = zip(loop, [*loop[1:], loop[0]], strict=True)
    return sum((ax - x0) * (by - y0) - (bx - x0) * (ay - y0) for (ax, ay), (bx, by) in pairs) / 2
