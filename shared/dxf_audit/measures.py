"""Box, length and area of lines and arcs; our own drawings are not measured by what wrote them."""

from __future__ import annotations

import math
from collections.abc import Sequence

from edgewright.drawing.arcs import bulge_arc
from edgewright.dxf_audit.paths import Edge

__all__ = ["area_and_length", "box_of"]


def box_of(edges: Sequence[Edge]) -> tuple[float, float, float, float]:
    """Exact box of at least one edge (mm)."""
    xs: list[float] = []
    ys: list[float] = []
    for start, end, bulge in edges:
        xs += (start[0], end[0])
        ys += (start[1], end[1])
        if bulge and math.dist(start, end) * abs(bulge) / 2 > 1e-9:
            arc = bulge_arc(start, end, bulge)
            low, high = sorted((arc.begin, arc.begin + arc.turn))
            for n in range(math.ceil(low / (math.pi / 2)), math.floor(high / (math.pi / 2)) + 1):
                xs.append(arc.x + arc.radius * (1, 0, -1, 0)[n % 4])
                ys.append(arc.y + arc.radius * (0, 1, 0, -1)[n % 4])
    return min(xs), min(ys), max(xs), max(ys)


def area_and_length(edges: Sequence[Edge]) -> tuple[float, float]:
    """Signed area within closed edges, counter-clockwise positive, and their length (mm² and mm)."""
    areas, lengths = [], []
    x, y = edges[0][0]
    for start, end, bulge in edges:
        chord = math.dist(start, end)
        areas.append(((start[0] - x) * (end[1] - y) - (end[0] - x) * (start[1] - y)) / 2)
        turn = 4 * math.atan(bulge)
        if chord * abs(bulge) / 2 > 1e-9:
            radius = chord * (1 + bulge * bulge) / (4 * abs(bulge))
            areas.append(math.copysign(radius * radius, turn) * (abs(turn) - math.sin(abs(turn))) / 2)
            lengths.append(radius * abs(turn))
        else:
            lengths.append(chord)
    return math.fsum(areas), math.fsum(lengths)
