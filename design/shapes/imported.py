"""Tops from a drawing: closed loops of vertices with bulges, the largest of them the rim."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from edgewright.design.intersect import intersections, meeting_pairs
from edgewright.design.outline import Arc, Line, Outline, Point, Segment
from edgewright.design.region import Region
from edgewright.design.segments import distance, point_at, winding
from edgewright.design.shapes.figures import LARGEST_MM
from edgewright.design.shapes.loop import FLATTEST_MM, bulged, move_outline, reversed_outline
from edgewright.design.shapes.model import Shape
from edgewright.design.tolerances import NODE_MM
from edgewright.errors import GeometryError

__all__ = ["BulgeVertex", "from_bulges"]

#: x, y (mm) and the bulge of the edge that starts there: tan(sweep/4), 0 for a line.
BulgeVertex = tuple[float, float, float]

#: Vertices nearer than this (mm) are one: drawings are rounded to six digits or so.
_SAME: Final = 1e-5

#: Loops whose figures differ by less than this (mm) are the same one drawn twice.
_TWICE: Final = 1e-3


def from_bulges(loops: Sequence[Sequence[BulgeVertex]]) -> tuple[Shape, tuple[Outline, ...]]:
    """Top and its cut-outs from a drawing.

    Parameters
    ----------
    loops
        Closed loops in any order and running either way; the last vertex joins the first, which may be given
        once more at the end. The loop of the largest area is the rim, all others are cut-outs.

    Returns
    -------
    tuple
        The rim as a shape, the south-west corner of its box at the origin, edges named in the order they were
        drawn; and the cut-outs moved along with it, clockwise.

    Raises
    ------
    GeometryError
        If a loop encloses nothing or crosses itself, two loops cross or lie on one another, or a loop lies
        outside the rim or within another cut-out.
    """
    if not loops:
        raise GeometryError("0 loops given; at least 1 is needed: draw the rim as one closed line")
    built: list[Outline] = []
    flat = 0.0
    corner = _south_west(loops)
    for number, loop in enumerate(loops, start=1):
        outline, off = _loop(number, loop, corner)
        _need_simple(number, outline, corner)
        built.append(outline if outline.area > 0 else reversed_outline(outline))
        flat = max(flat, off)
    rim = max(range(len(built)), key=lambda at: built[at].area)
    _need_apart(built, rim, corner)
    outer = built[rim]
    west, south, _, _ = outer.bounds
    shift = (-west, -south)
    outer = move_outline(outer, shift)
    holes = tuple(reversed_outline(move_outline(loop, shift)) for at, loop in enumerate(built) if at != rim)
    Region(outer, holes)
    names = tuple(
        f"{'arc' if isinstance(segment, Arc) else 'edge'} {at}"
        for at, segment in enumerate(outer.segments, start=1)
    )
    return Shape(outer, names, fit_error_mm=flat), holes


def _south_west(loops: Sequence[Sequence[BulgeVertex]]) -> Point:
    """Least x and y of all vertices, so that a drawing far from its origin loses no more digits."""
    for number, loop in enumerate(loops, start=1):
        for vertex in loop:
            if not all(map(math.isfinite, vertex)):
                raise GeometryError(f"loop {number} has a vertex that is not finite: draw it again")
    xs = [x for loop in loops for x, _, _ in loop]
    ys = [y for loop in loops for _, y, _ in loop]
    if not xs:
        return 0.0, 0.0
    size = max(max(xs) - min(xs), max(ys) - min(ys))
    if size > LARGEST_MM:
        raise GeometryError(
            f"drawing is {size:g} mm long; it must be at most {LARGEST_MM:.0f} mm: check its units"
        )
    return min(xs), min(ys)


def _loop(number: int, loop: Sequence[BulgeVertex], corner: Point) -> tuple[Outline, float]:
    """Loop of lines and arcs, and how far an arc too flat to be one lies from the line it became."""
    vertices = [((x - corner[0], y - corner[1]), bulge) for x, y, bulge in loop]
    kept: list[tuple[Point, float]] = []
    for at, (point, bulge) in enumerate(vertices):
        if math.dist(point, vertices[(at + 1) % len(vertices)][0]) <= _SAME:
            if bulge and len(vertices) > 1:
                x, y, _ = loop[at]
                raise GeometryError(
                    f"loop {number} has an arc of no length at ({x:g}, {y:g}) mm; it must be longer: leave it out"
                )
            continue
        kept.append((point, bulge))
    if len(kept) < 2:
        raise GeometryError(
            f"loop {number} has {len(kept)} edges; at least 2 are needed: draw it as one closed line"
        )
    segments: list[Segment] = []
    off = 0.0
    for at, (point, bulge) in enumerate(kept):
        following = kept[(at + 1) % len(kept)][0]
        chord = math.dist(point, following)
        if bulge and chord * (1 + bulge * bulge) / (4 * abs(bulge)) > FLATTEST_MM and abs(bulge) < 1:
            off = max(off, abs(bulge) * chord / 2)
            segments.append(Line(point, following))
        else:
            segments.append(bulged(point, following, bulge))
    return Outline(tuple(segments)), off


def _need_simple(number: int, outline: Outline, corner: Point) -> None:
    """Raise GeometryError, with the place, where a loop meets itself other than at its joints."""
    segments = outline.segments
    for i, j in meeting_pairs(segments):
        for point in intersections(segments[i], segments[j]):
            joints = [segments[i].end] if j == i + 1 else []
            if i == 0 and j == len(segments) - 1:
                joints.append(segments[0].start)
            if all(math.dist(point, joint) > NODE_MM for joint in joints):
                raise GeometryError(
                    f"loop {number} crosses or touches itself at {_place(point, corner)}; a rim may not: draw it again"
                )
    # two edges that run along one another meet at both ends of the stretch, so what is left encloses something
    if not abs(outline.area) > NODE_MM * outline.length:
        raise GeometryError(
            f"loop {number} has area {abs(outline.area):g} mm²; it must be greater than 0 mm²: leave it out"
        )


def _need_apart(loops: Sequence[Outline], rim: int, corner: Point) -> None:
    """Raise GeometryError where loops coincide, cross, or do not lie within the rim side by side."""
    for one, first in enumerate(loops):
        for other in range(one + 1, len(loops)):
            second = loops[other]
            figures = zip(
                (*first.bounds, first.length, *first.centroid),
                (*second.bounds, second.length, *second.centroid),
                strict=True,
            )
            if all(abs(a - b) <= _TWICE for a, b in figures):
                raise GeometryError(
                    f"loops {one + 1} and {other + 1} are the same; a loop may be drawn once: delete one"
                )
            _need_no_crossing(loops, one, other, corner)
    for number, loop in enumerate(loops):
        inside = _inside(loop, loops[rim])
        if number != rim and not inside:
            raise GeometryError(
                f"loop {number + 1} at {_place(loop.segments[0].start, corner)} lies outside loop {rim + 1}, the "
                "largest; one top is read from a drawing: delete what is not part of it"
            )
        for other, around in enumerate(loops):
            if other not in (number, rim) and number != rim and _inside(loop, around):
                raise GeometryError(
                    f"loop {number + 1} at {_place(loop.segments[0].start, corner)} lies within loop {other + 1}, a "
                    "cut-out; there is no wood there: delete it"
                )


def _need_no_crossing(loops: Sequence[Outline], one: int, other: int, corner: Point) -> None:
    first, second = loops[one].segments, loops[other].segments
    for i, j in meeting_pairs((*first, *second)):
        if i < len(first) <= j:
            shared = intersections(first[i], second[j - len(first)])
            if shared:
                raise GeometryError(
                    f"loops {one + 1} and {other + 1} cross or touch at {_place(shared[0], corner)}; there must "
                    "be wood between them: move one"
                )


def _inside(loop: Outline, around: Outline) -> bool:
    """Tell whether a loop that meets another nowhere lies within it."""
    point = point_at(loop.segments[0], 0.5)
    return (
        all(distance(segment, point) > NODE_MM for segment in around.segments) and winding(around, point) != 0
    )


def _place(point: Point, corner: Point) -> str:
    """Place as the drawing has it."""
    return f"({point[0] + corner[0]:.8g}, {point[1] + corner[1]:.8g}) mm"
