"""A picture of the finished top, its strips drawn apart below it: parallel projection, shaded greys, thin outlines.

All bodies are convex, so hidden faces need no search: faces turned away are left out, and bodies are drawn from
the far one to the near one, lower layers before upper ones, as the eye is above the top.

Each body first lays down its silhouette in one grey, then its faces, then its lines.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from edgewright.design.draw_order import far_first
from edgewright.design.mesh import Body, Detail, Facet, Vector, area_vector, body_mesh, ring, unit
from edgewright.design.outline import FIT_MM, Point
from edgewright.design.solid_figures import SolidSpec, StripBody
from edgewright.drawing.arcs import box_around
from edgewright.drawing.view import Face, Layer, Loop, Segment, Shape, View

__all__ = ["picture"]

FACES: Final = Layer("PICTURE_FACES", "shaded faces", 0.13, "continuous", False)
EDGES: Final = Layer("PICTURE_EDGES", "edges between faces", 0.13, "continuous", False)
OUTLINES: Final = Layer("PICTURE_OUTLINES", "outlines of the parts", 0.25, "continuous", False)
GUIDES: Final = Layer("PICTURE_GUIDES", "where a part goes", 0.13, "dashed", False)

#: Eye: from the south, a little to the east, above. Light: from the south-west, above.
_AZIMUTH, _ELEVATION = math.radians(-64), math.radians(28)
_LIGHT: Final = unit((-0.25, -0.45, 0.86))
_DARK, _BRIGHT = 0.28, 0.70
#: Every second ply is this much darker.
_PLY: Final = 0.84
#: Faces that turn by more than this have a line between them.
_CREASE: Final = math.cos(math.radians(40))
_COARSE: Final = Detail(sag_mm=0.3, turn=math.radians(13))


@dataclass(frozen=True, slots=True)
class _Part:
    """A body as drawn: its plies, how far it is moved down (mm), and the layer of its outline."""

    plies: tuple[Body, ...]
    lowered: float
    outline: Layer


def picture(
    spec: SolidSpec,
    title: str,
    *,
    apart: bool = True,
    plies: int = 0,
    paper: tuple[float, float] | None = (170.0, 120.0),
) -> View:
    """Picture of the top with its strips.

    Parameters
    ----------
    spec
        The same figures that make the solid.
    apart
        Draw the strips below the top, layer by layer; else everything where it belongs.
    plies
        Number of plies to hint at on the edges of each layer; 0 for solid wood and boards without layers.
    paper
        Width and height that the picture fills as far as it goes, mm, its lower left corner at (0, 0); None for
        true size, the south-west corner of the underside at (0, 0).
    """
    shapes = _scene(spec, apart, plies)
    if paper is not None:
        shapes = _fitted(shapes, paper)
    used = {name for name, _ in shapes}
    layers = tuple(layer for layer in (FACES, EDGES, OUTLINES, GUIDES) if layer.name in used)
    return View("picture", title, tuple(shapes), layers)


def _scene(spec: SolidSpec, apart: bool, plies: int) -> list[tuple[str, Shape]]:
    """All shapes from far to near, at true size."""
    # so far down that the north strip, drawn along the top's south edge, comes out below it
    depth = spec.width * math.sin(_ELEVATION) * -math.sin(_AZIMUTH)
    gap = (1.2 * depth + spec.thickness) / math.cos(_ELEVATION) if apart and spec.strips else 0.0
    outlines = OUTLINES if apart else EDGES
    heights = sorted({strip.z1 for strip in spec.strips}, reverse=True)
    shapes: list[tuple[str, Shape]] = []
    for level, height in reversed(list(enumerate(heights))):
        lowered = gap * (1 + 0.35 * level)
        strips = far_first([strip for strip in spec.strips if strip.z1 == height], _AZIMUTH)
        for strip in strips:
            shapes += _drawn(_Part(_plies(spec, strip.z0, strip.z1, plies, strip), lowered, outlines))
    if gap:
        shapes += _guides(spec, gap * (1 + 0.35 * (len(heights) - 1)))
    shapes += _drawn(_Part(_plies(spec, spec.seam, spec.thickness, plies, None), 0.0, outlines))
    if not apart:
        whole = Body("whole", body_mesh(spec, 0.0, spec.thickness, None, _COARSE))
        shapes += [(n, s) for n, s in _drawn(_Part((whole,), 0.0, OUTLINES)) if n == OUTLINES.name]
    return _last_only(shapes)


def _fitted(shapes: Sequence[tuple[str, Shape]], paper: tuple[float, float]) -> list[tuple[str, Shape]]:
    """Shapes on paper; outlines stay half their width inside."""
    x0, y0, x1, y1 = box_around(shape for _, shape in shapes)
    half = OUTLINES.line_width_mm / 2
    scale = min((paper[0] - 2 * half) / (x1 - x0), (paper[1] - 2 * half) / (y1 - y0))

    def at(x: float, y: float) -> Point:
        return (x - x0) * scale + half, (y - y0) * scale + half

    fitted: list[tuple[str, Shape]] = []
    for name, shape in shapes:
        if isinstance(shape, Face):
            loop = Loop(tuple((*at(x, y), 0.0) for x, y, _ in shape.loop.vertices))
            fitted.append((name, Face(loop, shape.grey)))
        elif isinstance(shape, Segment):
            fitted.append((name, Segment(*at(shape.x0, shape.y0), *at(shape.x1, shape.y1))))
    return fitted


def _last_only(shapes: Sequence[tuple[str, Shape]]) -> list[tuple[str, Shape]]:
    """Drop a line that a nearer part draws again: two bodies side by side share their edges."""
    last: dict[object, int] = {}
    for number, (name, shape) in enumerate(shapes):
        if isinstance(shape, Segment):
            last[name, _line_key(shape)] = number
    return [
        (name, shape)
        for number, (name, shape) in enumerate(shapes)
        if not isinstance(shape, Segment) or last[name, _line_key(shape)] == number
    ]


def _line_key(line: Segment) -> tuple[Point, ...]:
    ends = ((line.x0, line.y0), (line.x1, line.y1))
    return tuple(sorted((round(x, 6) + 0.0, round(y, 6) + 0.0) for x, y in ends))


def _project(point: Vector) -> Point:
    """Point of the picture: right and up."""
    x, y, z = point
    ca, sa = math.cos(_AZIMUTH), math.sin(_AZIMUTH)
    return -sa * x + ca * y, math.cos(_ELEVATION) * z - math.sin(_ELEVATION) * (ca * x + sa * y)


def _towards_eye(vector: Vector) -> float:
    x, y, z = vector
    flat = math.cos(_AZIMUTH) * x + math.sin(_AZIMUTH) * y
    return math.cos(_ELEVATION) * flat + math.sin(_ELEVATION) * z


def _plies(spec: SolidSpec, z0: float, z1: float, count: int, strip: StripBody | None) -> tuple[Body, ...]:
    """Slabs of one layer from below; the faces between them are left out."""
    heights = [z0 + (z1 - z0) * n / max(count, 1) for n in range(max(count, 1))] + [z1]
    slabs = []
    for number, (low, high) in enumerate(pairwise(heights)):
        facets = body_mesh(spec, low, high, strip, _COARSE)
        inner = {z for z in (low, high) if z not in (z0, z1)}
        slabs.append(Body(str(number), tuple(f for f in facets if not _is_level_at(f, inner))))
    return tuple(slabs)


def _is_level_at(facet: Facet, heights: set[float]) -> bool:
    levels = {z for _, _, z in facet.points}
    return len(levels) == 1 and levels <= heights


def _drawn(part: _Part) -> Iterator[tuple[str, Shape]]:
    """Silhouette, visible faces and lines of a part."""
    faces: list[Face] = []
    edges: dict[tuple[Vector, Vector], list[Vector]] = {}
    for number, slab in enumerate(part.plies):
        for facet in slab.facets:
            points = [(x, y, z - part.lowered) for x, y, z in facet.points]
            normal = unit(area_vector(points))
            for a, b in zip(points, [*points[1:], points[0]], strict=True):
                low, high = sorted((_key(a), _key(b)))
                edges.setdefault((low, high), []).append(normal)
            if _towards_eye(normal) > 1e-6:
                faces += _face(points, _grey(normal, number))
    # behind all faces, so that no paper shines through between two of them where a viewer smooths their borders
    yield FACES.name, _silhouette(faces)
    yield from ((FACES.name, face) for face in faces)
    for (a, b), normals in edges.items():
        seen = [normal for normal in normals if _towards_eye(normal) > 1e-6]
        (x0, y0), (x1, y1) = _project(a), _project(b)
        if not seen or math.dist((x0, y0), (x1, y1)) < FIT_MM:
            continue
        if len(seen) < len(normals):
            yield part.outline.name, Segment(x0, y0, x1, y1)
        elif len(seen) == 2 and sum(p * q for p, q in zip(*seen, strict=True)) < _CREASE:
            yield EDGES.name, Segment(x0, y0, x1, y1)


def _key(point: Vector) -> Vector:
    x, y, z = point
    return round(x, 6) + 0.0, round(y, 6) + 0.0, round(z, 6) + 0.0


def _face(points: Sequence[Vector], grey: float) -> Iterator[Face]:
    flat = [_project(point) for point in points]
    apart = [p for p, before in zip(flat, [flat[-1], *flat[:-1]], strict=True) if math.dist(p, before) > 1e-6]
    if len(apart) > 2:
        yield Face(Loop(tuple((x, y, 0.0) for x, y in apart)), grey)


def _silhouette(faces: Sequence[Face]) -> Face:
    """Convex outline of a part in a middle grey (Andrew's monotone chain)."""
    points = sorted({(x, y) for face in faces for x, y, _ in face.loop.vertices})
    halves = []
    for run in (points, points[::-1]):
        half: list[Point] = []
        for point in run:
            while len(half) > 1 and _turns_right(half[-2], half[-1], point):
                half.pop()
            half.append(point)
        halves += half[:-1]
    greys = sorted(face.grey for face in faces)
    return Face(Loop(tuple((x, y, 0.0) for x, y in halves)), greys[len(greys) // 2])


def _turns_right(a: Point, b: Point, c: Point) -> bool:
    """Whether the way over three points does not turn left by more than rounding."""
    area = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
    return area <= FIT_MM * math.dist(a, c)


def _grey(normal: Vector, ply: int) -> float:
    """Grey by the angle to one lamp, which dims gently round the back; plies show on edges, not on level faces."""
    lit = 0.5 + 0.5 * sum(a * b for a, b in zip(normal, _LIGHT, strict=True))
    grey = _DARK + _BRIGHT * lit
    return round(grey * (_PLY if ply % 2 and abs(normal[2]) < 0.999 else 1.0), 3)


def _guides(spec: SolidSpec, lowered: float) -> Iterator[tuple[str, Shape]]:
    """Upright lines at the left, right and nearest point of the outline."""
    around = [(x, y, spec.seam) for x, y in ring(spec, spec.seam, _COARSE)]
    ends = (
        min(around, key=lambda p: _project(p)[0]),
        max(around, key=lambda p: _project(p)[0]),
        min(around, key=lambda p: _project(p)[1]),
    )
    for x, y, z in ends:
        (x0, y0), (x1, y1) = _project((x, y, z)), _project((x, y, z - lowered))
        yield GUIDES.name, Segment(x0, y0, x1, y1)
