"""A small mesh of the finished top without any geometry kernel: for pictures and for the 3D view of a page.

Every body here is convex: the edge solid is, and so is what straight cuts leave of it. A body is therefore the
edge solid between two heights, as rings of points from level to level, clipped by the four sides of a strip in
plan. Arcs become chords; sizes along the axes stay exact. Frame as in `edgewright.design.solid_figures`, millimetres.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from edgewright.design.outline import FIT_MM, Point
from edgewright.design.solid_figures import SolidSpec, StripBody

__all__ = ["Body", "Detail", "Facet", "Vector", "area_vector", "body_mesh", "meshes", "ring", "unit"]

Vector = tuple[float, float, float]

#: Points this near to a cutting plane lie on it (mm).
_ON_PLANE: Final = 10 * FIT_MM


@dataclass(frozen=True, slots=True)
class Detail:
    """How fine: chords stay within ``sag_mm`` of their arc and turn by at most ``turn`` (radians)."""

    sag_mm: float = 0.05
    turn: float = math.radians(9)

    def chords(self, radius: float, angle: float) -> int:
        """Number of chords for an arc of that radius (mm) and angle (radians)."""
        step = 2 * math.acos(1 - self.sag_mm / radius) if radius > self.sag_mm else self.turn
        return max(1, math.ceil(angle / min(step, self.turn) - 1e-9))


_FINE: Final = Detail()


@dataclass(frozen=True, slots=True)
class Facet:
    """A flat convex polygon, counter-clockwise seen from outside the body."""

    points: tuple[Vector, ...]


@dataclass(frozen=True, slots=True)
class Body:
    """A named convex body."""

    name: str
    facets: tuple[Facet, ...]


def meshes(spec: SolidSpec) -> tuple[Body, ...]:
    """Mesh of each body: ``top``, then the strip pieces."""
    top = Body("top", body_mesh(spec, spec.seam, spec.thickness))
    strips = (Body(s.name, body_mesh(spec, s.z0, s.z1, s)) for s in spec.strips)
    return (top, *strips)


def body_mesh(
    spec: SolidSpec, z0: float, z1: float, strip: StripBody | None = None, detail: Detail = _FINE
) -> tuple[Facet, ...]:
    """Facets of the edge solid from ``z0`` up to ``z1``, of one strip or, without it, of the whole outline."""
    heights = [z0, *(z for z in _heights(spec, detail) if z0 + FIT_MM < z < z1 - FIT_MM), z1]
    rings = [[(x, y, z) for x, y in ring(spec, z, detail)] for z in heights]
    facets = [rings[0][::-1], rings[-1]]
    for low, high in pairwise(rings):
        for a, b, c, d in zip(low, [*low[1:], low[0]], [*high[1:], high[0]], high, strict=True):
            facets.append([a, b, c, d])
    polygons = [polygon for polygon in map(_plain, facets) if len(polygon) > 2]
    if strip is not None:
        for start, end in _sides(strip.corners):
            polygons = _clipped(polygons, start, end)
    return tuple(Facet(tuple(polygon)) for polygon in polygons)


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


def _heights(spec: SolidSpec, detail: Detail) -> list[float]:
    """Heights between which the profile is followed by chords, and where a corner arc dies."""
    found = {0.0, spec.thickness}
    for r, top in ((spec.bottom_radius, False), (spec.top_radius, True)):
        if r > FIT_MM:
            count = detail.chords(r, math.pi / 2)
            angles = [math.pi / 2 * n / count for n in range(count + 1)]
            angles += [math.acos(1 - radius / r) for radius in spec.radii if FIT_MM < radius < r]
            depths = [r * (1 - math.sin(angle)) for angle in angles]
            found |= {spec.thickness - depth if top else depth for depth in depths}
    return sorted(found)


def _inset(spec: SolidSpec, z: float) -> float:
    """Inset of the profile at a height, mm."""
    low, high = spec.bottom_radius, spec.top_radius
    for r, up in ((low, low - z), (high, z - (spec.thickness - high))):
        if up > 0:
            return r - math.sqrt(max(r * r - up * up, 0.0))
    return 0.0


def ring(spec: SolidSpec, z: float, detail: Detail = _FINE) -> Iterator[Point]:
    """Inner parallel at a height, counter-clockwise; each corner has as many points at every height."""
    d = _inset(spec, z)
    for quarter, radius in zip((2, 3, 0, 1), spec.radii, strict=True):
        east, north = quarter in (3, 0), quarter in (0, 1)
        r = radius if radius > FIT_MM else 0.0
        rest = max(r - d, 0.0)
        # an arc that died leaves the corner of the inset rectangle
        back = max(r, d)
        x = spec.length - back if east else back
        y = spec.width - back if north else back
        count = detail.chords(r, math.pi / 2) if r else 0
        for n in range(count + 1):
            # quadrant points come out exact, so that straight sides stay straight
            c, s = _direction(quarter, n / count if count else 0.0)
            yield x + rest * c, y + rest * s


def _direction(quarter: int, share: float) -> tuple[float, float]:
    """Cosine and sine of a share of one quarter turn, exact at its ends."""
    c, s = (1.0, 0.0) if share == 0 else (0.0, 1.0) if share == 1 else _cos_sin(math.pi / 2 * share)
    return ((c, s), (-s, c), (-c, -s), (s, -c))[quarter]


def _cos_sin(angle: float) -> tuple[float, float]:
    return math.cos(angle), math.sin(angle)


def _plain(points: Sequence[Vector]) -> list[Vector]:
    """Points of a polygon without repeated neighbours."""
    before = [points[-1], *points[:-1]]
    return [p for p, q in zip(points, before, strict=True) if math.dist(p, q) > FIT_MM]


def _sides(corners: Sequence[Point]) -> Iterable[tuple[Point, Point]]:
    return zip(corners, [*corners[1:], corners[0]], strict=True)


def _clipped(polygons: list[list[Vector]], start: Point, end: Point) -> list[list[Vector]]:
    """What lies left of an upright plane through two plan points, with the cut face where something came off."""
    (sx, sy), length = start, math.dist(start, end)
    nx, ny = (sy - end[1]) / length, (end[0] - sx) / length
    kept, cut, on_plane = [], False, []
    for whole in polygons:
        polygon, offs = whole, [nx * (x - sx) + ny * (y - sy) for x, y, _ in whole]
        if min(offs) < -FIT_MM:
            cut = True
            if max(offs) <= FIT_MM:
                continue
            polygon = _left_part(whole, offs)
            offs = [nx * (x - sx) + ny * (y - sy) for x, y, _ in polygon]
        kept.append(polygon)
        if min(offs) < _ON_PLANE:
            on_plane += [p for p, off in zip(polygon, offs, strict=True) if off < _ON_PLANE]
    if cut and kept:
        kept.append(_cap(on_plane, (nx, ny)))
    return [polygon for polygon in kept if len(polygon) > 2]


def _left_part(polygon: list[Vector], offs: list[float]) -> list[Vector]:
    """Sutherland and Hodgman's clip of one polygon."""
    part: list[Vector] = []
    before, off_before = polygon[-1], offs[-1]
    for point, off in zip(polygon, offs, strict=True):
        if (off > FIT_MM and off_before < -FIT_MM) or (off < -FIT_MM and off_before > FIT_MM):
            # always from the inner end, so that two facets which share the edge get the same point
            a, b, t = before, point, off_before / (off_before - off)
            if off > 0:
                a, b, t = point, before, off / (off - off_before)
            part.append((a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]), a[2] + t * (b[2] - a[2])))
        if off >= -FIT_MM:
            part.append(point)
        before, off_before = point, off
    return _plain(part) if part else part


def _cap(points: list[Vector], inward: Point) -> list[Vector]:
    """Convex polygon through points on one upright plane, seen counter-clockwise from outside."""
    nx, ny = inward
    flat = sorted({(round(p[0] * ny - p[1] * nx, 7), round(p[2], 7)): p for p in points}.items())
    if len(flat) < 3:
        return []
    keys = [key for key, _ in flat]
    middle = (math.fsum(k[0] for k in keys) / len(keys), math.fsum(k[1] for k in keys) / len(keys))
    around = sorted(flat, key=lambda item: math.atan2(item[0][1] - middle[1], item[0][0] - middle[0]))
    cap = [point for _, point in around]
    x, y, _ = area_vector(cap)
    return cap if x * nx + y * ny < 0 else cap[::-1]
