"""A small mesh of the finished top without any geometry kernel: for pictures and for the 3D view of a page.

A body is the edge solid between two heights, level by level of its edge, cut by the sides of a piece of the
build-up in plan. Arcs become chords; sizes along the axes stay exact. Every mesh is closed: facets that share an
edge share its points. Frame as in `edgewright.design.solid_figures`, millimetres.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from edgewright.design.edge_levels import FINE, Detail, EdgeLevels, edge_levels
from edgewright.design.flat_triangles import triangles
from edgewright.design.mesh_cut import Polygon, Vector, cut_off, flat_polygons
from edgewright.design.outline import FIT_MM, Point
from edgewright.design.solid_figures import SolidSpec, StripBody

__all__ = [
    "Body",
    "Detail",
    "Facet",
    "Vector",
    "area_vector",
    "facet_triangles",
    "is_convex",
    "layer_mesh",
    "meshes",
    "piece_mesh",
    "unit",
]

#: Points this near to one plane make a flat facet (mm).
_FLAT: Final = 1e-7
#: Bodies hollow by less than this count as convex: rounding (mm).
_HOLLOW: Final = 1e-5


@dataclass(frozen=True, slots=True)
class Facet:
    """A flat convex polygon, counter-clockwise seen from outside the body."""

    points: tuple[Vector, ...]


@dataclass(frozen=True, slots=True)
class Body:
    """A named body, closed."""

    name: str
    facets: tuple[Facet, ...]


def meshes(spec: SolidSpec, detail: Detail = FINE) -> tuple[Body, ...]:
    """Mesh of each body: ``top``, then the pieces of the build-up."""
    levels = edge_levels(spec, detail)
    bodies = [Body("top", layer_mesh(levels, spec.seam, spec.thickness))]
    layers: dict[tuple[float, float], tuple[Facet, ...]] = {}
    for strip in spec.strips:
        span = (strip.z0, strip.z1)
        if span not in layers:
            layers[span] = layer_mesh(levels, *span)
        bodies.append(Body(strip.name, piece_mesh(layers[span], strip)))
    return tuple(bodies)


def layer_mesh(levels: EdgeLevels, z0: float, z1: float) -> tuple[Facet, ...]:
    """Facets of the whole edge solid from ``z0`` up to ``z1``."""
    stations = levels.between(z0, z1)
    floors = [
        [[(x, y, station.z) for x, y in ring] for ring in levels.rings(station)] for station in stations
    ]
    lowest, highest = ([_plain(ring) for ring in floor] for floor in (floors[0], floors[-1]))
    polygons = [facet[::-1] for facet in flat_polygons(lowest, _from_above)]
    polygons += flat_polygons(highest, _from_above)
    for lower, upper in pairwise(floors):
        for low, high in zip(lower, upper, strict=True):
            for a, b, c, d in zip(low, [*low[1:], low[0]], [*high[1:], high[0]], high, strict=True):
                polygons += _side(a, b, c, d)
    return tuple(Facet(tuple(polygon)) for polygon in polygons)


def piece_mesh(layer: Sequence[Facet], strip: StripBody) -> tuple[Facet, ...]:
    """Facets of what a piece of the build-up, convex in plan, has of its layer."""
    polygons = [list(facet.points) for facet in layer]
    for start, end in _sides(strip.corners):
        polygons = cut_off(polygons, start, end)
    return tuple(Facet(tuple(polygon)) for polygon in polygons)


def facet_triangles(facet: Facet) -> list[tuple[int, int, int]]:
    """Triangles of a facet as numbers of its points."""
    if len(facet.points) == 3:
        return [(0, 1, 2)]
    x, y, z = area_vector(facet.points)
    # drop the axis along which the facet looks, so that it still runs counter-clockwise
    drop = max(range(3), key=lambda axis: abs((x, y, z)[axis]))
    first, second = ((1, 2), (2, 0), (0, 1))[drop]
    if (x, y, z)[drop] < 0:
        first, second = second, first
    return triangles([(point[first], point[second]) for point in facet.points])


def is_convex(facets: Sequence[Facet]) -> bool:
    """Whether no edge of a closed body is a hollow one."""
    across: dict[tuple[Vector, Vector], Facet] = {}
    for facet in facets:
        points = facet.points
        for edge in zip(points, [*points[1:], points[0]], strict=True):
            across[edge] = facet
    for facet in facets:
        points = facet.points
        x, y, z = unit(area_vector(points))
        for a, b in zip(points, [*points[1:], points[0]], strict=True):
            for px, py, pz in across[b, a].points:
                if x * (px - a[0]) + y * (py - a[1]) + z * (pz - a[2]) > _HOLLOW:
                    return False
    return True


def area_vector(points: Sequence[Vector]) -> Vector:
    """Outward normal of a facet's points, as long as the facet is large in mm² (Newell's method)."""
    x = y = z = 0.0
    for (ax, ay, az), (bx, by, bz) in zip(points, [*points[1:], points[0]], strict=True):
        x += (ay - by) * (az + bz)
        y += (az - bz) * (ax + bx)
        z += (ax - bx) * (ay + by)
    return x / 2, y / 2, z / 2


def unit(vector: Vector) -> Vector:
    """Vector of the same direction and length 1."""
    x, y, z = vector
    size = math.hypot(x, y, z)
    return x / size, y / size, z / size


def _from_above(point: Vector) -> Point:
    return point[0], point[1]


def _side(a: Vector, b: Vector, c: Vector, d: Vector) -> list[Polygon]:
    """Flat facets between a chord and the chord above it; two triangles where the four points are not flat."""
    corners = _plain([a, b, c, d])
    if len(corners) < 4:
        return [corners] if len(corners) == 3 else []
    x, y, z = unit(area_vector(corners))
    offs = [x * (px - a[0]) + y * (py - a[1]) + z * (pz - a[2]) for px, py, pz in corners]
    if max(offs) - min(offs) <= _FLAT:
        return [corners]
    return [[a, b, c], [a, c, d]]


def _plain(points: Sequence[Vector]) -> Polygon:
    """Points of a polygon without repeated neighbours."""
    before = [points[-1], *points[:-1]]
    return [p for p, q in zip(points, before, strict=True) if p != q]


def _sides(corners: Sequence[Point]) -> Iterable[tuple[Point, Point]]:
    pairs = zip(corners, [*corners[1:], corners[0]], strict=True)
    return (pair for pair in pairs if math.dist(*pair) > FIT_MM)
