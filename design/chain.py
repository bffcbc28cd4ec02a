"""Put loose pieces of edges, wood on their left, together to regions."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from edgewright.design.outline import Arc, Line, Outline, Point, Segment
from edgewright.design.region import Region
from edgewright.design.segments import curvature, direction, distance, point_at, winding
from edgewright.design.tolerances import LOST_MM, NODE_MM, PARALLEL_RAD, SLIVER_MM
from edgewright.errors import GeometryError

__all__ = ["fitted", "regions_of"]

#: Nodes are sought in square cells far larger than `NODE_MM`.
_CELL_MM: Final = 1000 * NODE_MM
_EDGE: Final = NODE_MM / _CELL_MM


@dataclass(frozen=True, slots=True)
class _Edge:
    """A piece between two numbered nodes."""

    begin: int
    end: int
    piece: Segment


def regions_of(pieces: Iterable[Segment]) -> tuple[Region, ...]:
    """Regions that pieces bound, largest first; each piece has the wood on its left.

    Pieces meet where their ends are within `NODE_MM`. Pieces that lie on one another are taken once, or not
    at all if they run opposite ways (no wood between them); dead ends and slivers are left out. Where loops
    touch at a point, the sharpest left turn keeps each on its own side.

    Raises
    ------
    GeometryError
        If a piece longer than `LOST_MM` joins no other: no loop is left out unsaid.
    """
    nodes: list[Point] = []
    edges = _pruned(_without_doubles(_edges(pieces, nodes)))
    loops = [_loop(chain, nodes) for chain in _chains(edges)]
    return _assembled([(loop, loop.area) for loop in loops if loop is not None])


def _edges(pieces: Iterable[Segment], nodes: list[Point]) -> list[_Edge]:
    """Number the ends of the pieces; a piece whose ends are one node is left out."""
    cells: dict[tuple[int, int], list[int]] = defaultdict(list)

    def node(point: Point) -> int:
        x, y = point[0] / _CELL_MM, point[1] / _CELL_MM
        column, row = cell = math.floor(x), math.floor(y)
        near: Iterable[int] = cells.get(cell, ())
        if not (_EDGE < x - column < 1 - _EDGE and _EDGE < y - row < 1 - _EDGE):
            # a node that near may lie in the next cell
            near = [n for i in (-1, 0, 1) for j in (-1, 0, 1) for n in cells.get((column + i, row + j), ())]
        for number in near:
            if math.dist(nodes[number], point) <= NODE_MM:
                return number
        nodes.append(point)
        cells[cell].append(len(nodes) - 1)
        return len(nodes) - 1

    found = [_Edge(node(piece.start), node(piece.end), piece) for piece in pieces]
    return [edge for edge in found if edge.begin != edge.end]


def _without_doubles(edges: list[_Edge]) -> list[_Edge]:
    """Take pieces that lie on one another once, and not at all where they run opposite ways."""
    between: dict[tuple[int, int], list[_Edge]] = defaultdict(list)
    for edge in edges:
        between[min(edge.begin, edge.end), max(edge.begin, edge.end)].append(edge)
    kept: list[_Edge] = []
    for group in between.values():
        if len(group) == 1:
            kept += group
            continue
        while group:
            edge = group.pop()
            middle = point_at(edge.piece, 0.5)
            same = [other for other in group if distance(other.piece, middle) <= NODE_MM]
            group = [other for other in group if other not in same]
            if all(other.begin == edge.begin for other in same):
                kept.append(edge)
    return kept


def _pruned(edges: list[_Edge]) -> list[_Edge]:
    """Leave out dead ends until there are none."""
    while True:
        begins, ends = {edge.begin for edge in edges}, {edge.end for edge in edges}
        kept = [edge for edge in edges if edge.begin in ends and edge.end in begins]
        if len(kept) == len(edges):
            return kept
        for edge in edges:
            if not (edge.begin in ends and edge.end in begins):
                _check_lost(edge)
        edges = kept


def _check_lost(edge: _Edge) -> None:
    """Raise GeometryError if an edge that joins nothing is too long to be rounding."""
    if edge.piece.length > LOST_MM:
        x, y = edge.piece.start
        raise GeometryError(
            f"an edge of {edge.piece.length:g} mm from ({x:g}, {y:g}) mm joins no other within "
            f"{NODE_MM:g} mm; every edge must: move the outline or the inset by a thousandth of a millimetre"
        )


def _chains(edges: list[_Edge]) -> list[list[_Edge]]:
    """Closed chains of edges, each edge used once."""
    leaving: dict[int, list[_Edge]] = defaultdict(list)
    for edge in edges:
        leaving[edge.begin].append(edge)
    chains = []
    for first in edges:
        if first not in leaving[first.begin]:
            continue
        chain = [first]
        leaving[first.begin].remove(first)
        while chain[-1].end != first.begin and (choice := leaving[chain[-1].end]):
            here = chain[-1]
            following = choice[0] if len(choice) == 1 else min(choice, key=lambda to: _turn(here, to))
            choice.remove(following)
            chain.append(following)
        if chain[-1].end == first.begin:
            chains.append(chain)
        else:
            for edge in chain:
                _check_lost(edge)
    return chains


def _turn(here: _Edge, to: _Edge) -> tuple[int, float]:
    """Sort key: clockwise angle from the way back to the way on; of tangent ways the one bent most to the left."""
    hx, hy = direction(here.piece, 1.0)
    tx, ty = direction(to.piece, 0.0)
    left = math.atan2(hx * ty - hy * tx, hx * tx + hy * ty)
    steps = round((math.pi - left) / PARALLEL_RAD)
    # straight back is a cusp with wood within it; a corner of a full turn has no place on a region's edge
    if steps >= round(2 * math.pi / PARALLEL_RAD) - 1:
        steps = 0
    return steps, -curvature(to.piece)


def _loop(chain: list[_Edge], nodes: list[Point]) -> Outline | None:
    """Close a chain, its ends moved onto the nodes; None if it has no wood within."""
    segments = tuple(fitted(edge.piece, nodes[edge.begin], nodes[edge.end]) for edge in chain)
    return Outline(segments) if len(segments) >= 2 else None


def fitted(piece: Segment, start: Point, end: Point) -> Segment:
    """Move the ends of a piece by less than a few `NODE_MM`; an arc keeps its radius, or its sweep if large."""
    if start == piece.start and end == piece.end and isinstance(piece, Line):
        return piece
    if isinstance(piece, Line):
        return Line(start, end)
    (cx, cy), (sx, sy), (ex, ey) = piece.centre, start, end
    off = max(abs(math.dist(point, piece.centre) - piece.radius) for point in (start, end))
    if off <= 1e-12 * max(1.0, piece.radius, *map(abs, start)):
        ax, ay, bx, by = sx - cx, sy - cy, ex - cx, ey - cy
        sweep = math.atan2(ax * by - ay * bx, ax * bx + ay * by)
        # half a circle may round to the other side; it is fitted below
        if sweep * piece.sweep > 0:
            return Arc(start, end, piece.centre, piece.radius, sweep)
    half_chord = math.dist(start, end) / 2
    if abs(piece.sweep) < 1 and half_chord < piece.radius:
        sweep, radius = math.copysign(2 * math.asin(half_chord / piece.radius), piece.sweep), piece.radius
    else:
        sweep, radius = piece.sweep, half_chord / abs(math.sin(piece.sweep / 2))
    # the centre lies on the left of the chord of an arc bent to the left
    height = math.copysign(radius * math.cos(sweep / 2), sweep) / (2 * half_chord)
    centre = ((sx + ex) / 2 - height * (ey - sy), (sy + ey) / 2 + height * (ex - sx))
    return Arc(start, end, centre, radius, sweep)


def _assembled(loops: list[tuple[Outline, float]]) -> tuple[Region, ...]:
    """Give each hole to the smallest outer loop around it; slivers are left out. Each loop comes with its area."""
    wide = [(loop, area) for loop, area in loops if 2 * abs(area) > SLIVER_MM * loop.length]
    outers = sorted((pair for pair in wide if pair[1] > 0), key=lambda pair: pair[1])
    holes: dict[int, list[Outline]] = defaultdict(list)
    for hole, area in wide:
        if area > 0:
            continue
        for number, (outer, size) in enumerate(outers):
            if size > -area and _surrounds(outer, hole):
                holes[number].append(hole)
                break
    return tuple(
        Region(outer, tuple(holes[number])) for number, (outer, _) in reversed(list(enumerate(outers)))
    )


def _surrounds(outer: Outline, hole: Outline) -> bool:
    """Tell whether a loop that does not cross the other lies around it; they may touch."""
    for segment in hole.segments:
        point = point_at(segment, 0.5)
        if all(distance(other, point) > NODE_MM for other in outer.segments):
            return winding(outer, point) != 0
    return False
