"""One part of a picture: its faces and lines, those that the eye sees, in drawing order.

A convex part hides nothing of itself: its silhouette in one grey, then its faces, then its lines. Any other part
is drawn from below, as the eye is above: what rises from lower down first, in one layer what is far first, and the
top face last, which nothing of the part can hide.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from edgewright.design.draw_order import walls_far_first
from edgewright.design.flat_triangles import keyhole
from edgewright.design.mesh import Body, Vector, area_vector, unit
from edgewright.design.mesh_cut import boundary_loops, grouped_loops
from edgewright.design.outline import FIT_MM, Point
from edgewright.design.picture_eye import (
    AZIMUTH,
    CREASE,
    EDGES,
    FACES,
    grey_of,
    key_of,
    project,
    seen_face,
    towards_eye,
)
from edgewright.drawing.view import Face, Layer, Loop, Segment, Shape

__all__ = ["Part", "drawn"]

Drawn = tuple[str, Shape]
_EdgeKey = tuple[Vector, Vector]


@dataclass(frozen=True, slots=True)
class Part:
    """A body as drawn: its plies, how far it is moved down (mm), the layer of its outline, whether it is convex."""

    plies: tuple[Body, ...]
    lowered: float
    outline: Layer
    convex: bool


@dataclass(frozen=True, slots=True)
class _Facet:
    """A facet where it is drawn."""

    points: list[Vector]
    normal: Vector
    ply: int

    @property
    def seen(self) -> bool:
        return towards_eye(self.normal) > 1e-6

    @property
    def edges(self) -> Iterator[_EdgeKey]:
        for a, b in zip(self.points, [*self.points[1:], self.points[0]], strict=True):
            low, high = sorted((key_of(a), key_of(b)))
            yield low, high

    @property
    def faces(self) -> Iterator[Face]:
        return seen_face(self.points, grey_of(self.normal, self.ply))


def drawn(part: Part) -> Iterator[Drawn]:
    """Faces and lines of a part."""
    facets = []
    for number, slab in enumerate(part.plies):
        for facet in slab.facets:
            points = [(x, y, z - part.lowered) for x, y, z in facet.points]
            facets.append(_Facet(points, unit(area_vector(points)), number))
    lines = _lines(facets, part.outline)
    yield from _drawn_convex(facets, lines) if part.convex else _drawn_hollow(facets, lines)


def _lines(facets: Sequence[_Facet], outline: Layer) -> dict[_EdgeKey, Drawn]:
    """Lines where a seen facet meets one that is not seen, or one at another slant."""
    edges: dict[_EdgeKey, list[_Facet]] = {}
    for facet in facets:
        for edge in facet.edges:
            edges.setdefault(edge, []).append(facet)
    lines: dict[_EdgeKey, Drawn] = {}
    for (a, b), sharing in edges.items():
        seen = [facet.normal for facet in sharing if facet.seen]
        (x0, y0), (x1, y1) = project(a), project(b)
        if not seen or math.dist((x0, y0), (x1, y1)) < FIT_MM:
            continue
        if len(seen) < len(sharing):
            lines[a, b] = outline.name, Segment(x0, y0, x1, y1)
        elif len(seen) == 2 and sum(p * q for p, q in zip(*seen, strict=True)) < CREASE:
            lines[a, b] = EDGES.name, Segment(x0, y0, x1, y1)
    return lines


def _drawn_convex(facets: Sequence[_Facet], lines: dict[_EdgeKey, Drawn]) -> Iterator[Drawn]:
    faces = [face for facet in facets if facet.seen for face in facet.faces]
    # behind all faces, so that no paper shines through between two of them where a viewer smooths their borders
    yield FACES.name, _silhouette(faces)
    yield from ((FACES.name, face) for face in faces)
    yield from lines.values()


def _drawn_hollow(facets: Sequence[_Facet], lines: dict[_EdgeKey, Drawn]) -> Iterator[Drawn]:
    last: dict[_EdgeKey, int] = {}
    order = [facet for group in _from_below(facets) for facet in group]
    for place, facet in enumerate(order):
        for edge in facet.edges:
            last[edge] = place
    place = 0
    for group in _from_below(facets):
        yield from ((FACES.name, face) for face in _backing(group))
        for facet in group:
            yield from ((FACES.name, face) for face in facet.faces)
            # a line is drawn with the later one of its facets, so that what is nearer hides it
            yield from (lines[edge] for edge in facet.edges if edge in lines and last[edge] == place)
            place += 1


def _from_below(facets: Sequence[_Facet]) -> Iterator[list[_Facet]]:
    """Seen facets in groups to be drawn one after the other: layer by layer, level faces after the walls below."""

    def layer(facet: _Facet) -> tuple[float, bool]:
        heights = [z for _, _, z in facet.points]
        level = max(heights) - min(heights) < 1e-6
        return round(max(heights) if level else min(heights), 6), not level

    # at one height a level face lies below the walls that rise from it
    for (_, upright), group in groupby(sorted((f for f in facets if f.seen), key=layer), key=layer):
        found = list(group)
        if not upright:
            yield from ([facet] for facet in _merged(found))
            continue
        feet = [_foot(facet) for facet in found]
        yield [found[number] for number in walls_far_first(feet, AZIMUTH)]


def _foot(facet: _Facet) -> tuple[Point, Point]:
    """Longest level side of a facet in plan, its lower one if there are two."""
    sides = zip(facet.points, [*facet.points[1:], facet.points[0]], strict=True)
    a, b = max(sides, key=lambda side: (abs(side[0][2] - side[1][2]) < 1e-6, -side[0][2], math.dist(*side)))
    return a[:2], b[:2]


def _merged(level: Sequence[_Facet]) -> Iterator[_Facet]:
    """Level facets of one height as whole faces, holes joined to their rims by a line run both ways."""
    loops = boundary_loops([facet.points for facet in level])
    for outer, holes in grouped_loops(loops, lambda point: point[:2]):
        points = [*outer, *(point for hole in holes for point in hole)]
        ring = keyhole([p[:2] for p in outer], [[p[:2] for p in hole] for hole in holes])
        yield _Facet([points[n] for n in ring], (0.0, 0.0, 1.0), level[0].ply)


def _backing(group: Sequence[_Facet]) -> Iterator[Face]:
    """Behind walls side by side one grey, so that no paper shines through between two of them."""
    run: list[_Facet] = []
    by_start: dict[tuple[Vector, Vector], _Facet] = {}
    for facet in group:
        if len(facet.points) == 4:
            by_start[facet.points[0], facet.points[3]] = facet
    starts = set(by_start)
    follows = {(facet.points[1], facet.points[2]) for facet in by_start.values()}
    for begin in sorted(starts - follows):
        run = [by_start[begin]]
        while (ahead := (run[-1].points[1], run[-1].points[2])) in by_start:
            run.append(by_start[ahead])
        if len(run) > 1:
            lower = [run[0].points[0], *(facet.points[1] for facet in run)]
            upper = [run[0].points[3], *(facet.points[2] for facet in run)]
            middle = run[len(run) // 2]
            yield from seen_face([*lower, *reversed(upper)], grey_of(middle.normal, middle.ply))


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
