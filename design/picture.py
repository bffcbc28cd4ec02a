"""A picture of the finished top, its strips drawn apart below it: parallel projection, shaded greys, thin outlines.

Hidden faces need little search: faces turned away are left out, and bodies are drawn from the far one to the near
one, lower layers before upper ones, as the eye is above the top.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Final

from edgewright.design.draw_order import far_first
from edgewright.design.edge_levels import Detail, EdgeLevels, edge_levels
from edgewright.design.mesh import Body, Facet, is_convex, layer_mesh, piece_mesh
from edgewright.design.outline import Point
from edgewright.design.picture_eye import AZIMUTH, EDGES, ELEVATION, FACES, GUIDES, OUTLINES, project
from edgewright.design.picture_parts import Part, drawn
from edgewright.design.solid_figures import SolidSpec, StripBody
from edgewright.drawing.arcs import box_around
from edgewright.drawing.view import Face, Layer, Loop, Segment, Shape, View

__all__ = ["CHORD_ERROR_MM", "PAPER_ERROR_MM", "picture"]

#: At true size chords of the picture stay this near to the arcs of the outline, mm of wood.
CHORD_ERROR_MM: Final = 0.3
_COARSE: Final = Detail(sag_mm=CHORD_ERROR_MM, turn=math.radians(13))
#: On paper they stay this near, less than the thinnest line, mm; a small radius is a few chords.
PAPER_ERROR_MM: Final = 0.1
_PAPER_TURN: Final = math.radians(22.5)


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
        true size, the origin of the plan on the underside at (0, 0).
    """
    shapes = _scene(spec, apart, plies, _COARSE if paper is None else _detail(spec, paper))
    if paper is not None:
        shapes = _fitted(shapes, paper)
    used = {name for name, _ in shapes}
    layers = tuple(layer for layer in (FACES, EDGES, OUTLINES, GUIDES) if layer.name in used)
    return View("picture", title, tuple(shapes), layers)


def _detail(spec: SolidSpec, paper: tuple[float, float]) -> Detail:
    """As fine as one can see on paper: the picture is about as wide as the plan is from corner to corner."""
    scale = max(math.hypot(*spec.size) / max(paper), 1.0)
    return Detail(sag_mm=max(PAPER_ERROR_MM * scale, CHORD_ERROR_MM), turn=_PAPER_TURN)


def _scene(spec: SolidSpec, apart: bool, plies: int, detail: Detail) -> list[tuple[str, Shape]]:
    """All shapes from far to near, at true size."""
    levels = edge_levels(spec, detail)
    layers = _Layers(levels, plies)
    # so far down that the north strip, drawn along the top's south edge, comes out below it
    depth = spec.size[1] * math.sin(ELEVATION) * -math.sin(AZIMUTH)
    gap = (1.2 * depth + spec.thickness) / math.cos(ELEVATION) if apart and spec.strips else 0.0
    outlines = OUTLINES if apart else EDGES
    heights = sorted({strip.z1 for strip in spec.strips}, reverse=True)
    shapes: list[tuple[str, Shape]] = []
    for level, height in reversed(list(enumerate(heights))):
        lowered = gap * (1 + 0.35 * level)
        strips = far_first([strip for strip in spec.strips if strip.z1 == height], AZIMUTH)
        for strip in strips:
            shapes += drawn(layers.part(strip.z0, strip.z1, lowered, outlines, strip))
    if gap:
        shapes += _guides(spec, levels, gap * (1 + 0.35 * (len(heights) - 1)))
    shapes += drawn(layers.part(spec.seam, spec.thickness, 0.0, outlines))
    if not apart:
        whole = _Layers(levels, 1).part(0.0, spec.thickness, 0.0, OUTLINES)
        shapes += [(n, s) for n, s in drawn(whole) if n == OUTLINES.name]
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


class _Layers:
    """Layers as slabs, one for each ply; made once for all strips of a layer."""

    def __init__(self, levels: EdgeLevels, plies: int) -> None:
        self._levels = levels
        self._plies = max(plies, 1)
        self._slabs: dict[tuple[float, float], tuple[Facet, ...]] = {}

    def part(
        self, z0: float, z1: float, lowered: float, outline: Layer, strip: StripBody | None = None
    ) -> Part:
        """One layer, or what a strip has of it, as slabs from below; the faces between them are left out."""
        heights = [z0 + (z1 - z0) * n / self._plies for n in range(self._plies)] + [z1]
        slabs, convex = [], True
        for number, span in enumerate(pairwise(heights)):
            if span not in self._slabs:
                self._slabs[span] = layer_mesh(self._levels, *span)
            facets = self._slabs[span] if strip is None else piece_mesh(self._slabs[span], strip)
            convex = convex and is_convex(facets)
            inner = {z for z in span if z not in (z0, z1)}
            slabs.append(Body(str(number), tuple(f for f in facets if not _is_level_at(f, inner))))
        return Part(tuple(slabs), lowered, outline, convex)


def _is_level_at(facet: Facet, heights: set[float]) -> bool:
    levels = {z for _, _, z in facet.points}
    return len(levels) == 1 and levels <= heights


def _guides(spec: SolidSpec, levels: EdgeLevels, lowered: float) -> Iterator[tuple[str, Shape]]:
    """Upright lines at the left, right and nearest point of the outline."""
    lowest = levels.between(spec.seam, spec.thickness)[0]
    around = [(x, y, lowest.z) for x, y in levels.rings(lowest)[0]]
    ends = (
        min(around, key=lambda p: project(p)[0]),
        max(around, key=lambda p: project(p)[0]),
        min(around, key=lambda p: project(p)[1]),
    )
    for x, y, z in ends:
        (x0, y0), (x1, y1) = project((x, y, z)), project((x, y, z - lowered))
        yield GUIDES.name, Segment(x0, y0, x1, y1)
