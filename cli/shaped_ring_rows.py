"""The build-up of a shaped top as rows: blanks to be had, each piece with its ends and its place, kerfs of a skirt."""

from __future__ import annotations

import math
from typing import Final

from edgewright.cutlist.shaped_plan import ShapedPlan
from edgewright.design.buildup.ring_model import RingPiece
from edgewright.design.outline import Point
from edgewright.design.segments import distance, parameter
from edgewright.design.shapes.model import Shape
from edgewright.display import show_mm
from edgewright.units import Units

__all__ = ["angle_text", "bend_rows", "blank_rows", "piece_rows", "rim_place"]

#: A joint nearer than this to a corner is at the corner (mm).
_AT_CORNER: Final = 0.2


def blank_rows(plan: ShapedPlan) -> list[list[str]]:
    """Blanks of the build-up: how many, what, length, width, thickness, which pieces."""
    units = plan.job.units
    return [
        [
            str(row.count),
            row.kind,
            show_mm(row.length, units),
            show_mm(row.width, units),
            show_mm(row.thickness, units),
            ", ".join(row.piece_ids),
        ]
        for row in plan.blanks
    ]


def piece_rows(plan: ShapedPlan) -> list[list[str]]:
    """Pieces: name, what, longest edge, cut of both ends, where on the finished rim it begins."""
    units = plan.job.units
    return [
        [
            piece.id,
            piece.kind,
            show_mm(piece.blank_length, units),
            _ends(piece),
            rim_place(plan.design.finished, piece.joints[0], units),
        ]
        for piece in plan.design.pieces
    ]


def bend_rows(plan: ShapedPlan) -> list[list[str]]:
    """Kerfs of each curve of a bent skirt: edge, figures, what to mind (finding 315)."""
    return [
        [finding.place, finding.figures, finding.change] for finding in plan.findings if finding.number == 315
    ]


def _ends(piece: RingPiece) -> str:
    one, other = angle_text(piece.start_angle), angle_text(piece.end_angle)
    return f"both {one}" if one == other else f"{one}, {other}"


def angle_text(degrees: float) -> str:
    """Angle of an end from square: ``square`` or ``22.5°``; never a minus zero."""
    shown = round(degrees, 1) + 0.0
    return f"{shown:.1f}°" if shown else "square"


def rim_place(shape: Shape, point: Point, units: Units) -> str:
    """Where a point of the rim is found with a tape along it: how far from the corner it lies, and on which edge."""
    names = [name.split(", station ")[0] for name in shape.names]
    edges = shape.outline.segments
    at = min(range(len(edges)), key=lambda number: distance(edges[number], point))
    along = min(max(parameter(edges[at], point), 0.0), 1.0) * edges[at].length
    if len(set(names)) == 1:
        along += math.fsum(edge.length for edge in edges[:at])
        start = edges[0].start
        where = "from the east end" if abs(start[0] - shape.outline.bounds[2]) < 1e-6 else "from its start"
        if along < _AT_CORNER:
            return where.replace("from", "at")
        return f"{show_mm(along, units)} along the rim {where}, by the north"
    first = at
    while names[first - 1] == names[at]:
        first -= 1
        along += edges[first].length
    last = at
    left = edges[at].length * (1 - min(max(parameter(edges[at], point), 0.0), 1.0))
    while names[(last + 1) % len(edges)] == names[at]:
        last += 1
        left += edges[last % len(edges)].length
    before, after = names[first - 1], names[(last + 1) % len(edges)]
    if along < _AT_CORNER:
        return f"where {before} meets {names[at]}"
    if left < _AT_CORNER:
        return f"where {names[at]} meets {after}"
    return f"{show_mm(along, units)} on {names[at]}, from {before}"
