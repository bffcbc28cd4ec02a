"""The solid of a planned top: each strip piece as a box under the rim, in the frame of the finished top from above."""

from __future__ import annotations

from edgewright.cutlist.model import CutPlan, Piece, RingSide
from edgewright.design.model import Design
from edgewright.design.outline import Point, rectangle
from edgewright.design.region import Region
from edgewright.design.solid_figures import SolidSpec, StripBody, region_solid_spec
from edgewright.errors import GeometryError
from edgewright.ticks import ticks_to_mm

__all__ = ["piece_corners", "solid_spec"]


def solid_spec(design: Design, cut_plan: CutPlan) -> SolidSpec:
    """Figures of the solid, mm; an impossible plan has no strips, only the top layer.

    Raises
    ------
    GeometryError
        If the edge profile does not exist (finding 201).
    """
    if design.profile is None:
        raise GeometryError(
            "the edge profile does not exist, so there is no solid; see finding 201: use smaller round-overs"
        )
    sides = {side.id: side for side in cut_plan.sides}
    seam, thick = design.edge_thickness_mm - design.thickness_mm, design.strip_thickness_mm
    strips = []
    for piece in cut_plan.pieces:
        side = sides[piece.side_id]
        # layer 1 lies against the top; the lowest ends on the underside at exactly 0
        z0 = 0.0 if side.layer == design.job.edge.layers else seam - side.layer * thick
        z1 = seam - (side.layer - 1) * thick
        strips.append(StripBody(piece.id, piece_corners(cut_plan, side, piece), z0, z1))
    length, width = (ticks_to_mm(n) for n in cut_plan.finished_ticks)
    return region_solid_spec(
        Region(rectangle(length, width, design.corner_radii_mm)),
        design.profile,
        design.thickness_mm,
        strips=tuple(strips),
    )


def piece_corners(cut_plan: CutPlan, side: RingSide, piece: Piece) -> tuple[Point, Point, Point, Point]:
    """Corners of a glued-on piece seen from above, counter-clockwise, mm; a mitred end runs at 45°."""
    length, width = cut_plan.finished_ticks
    start = side.start_offset_ticks + piece.side_start_ticks
    end = start + piece.length_ticks
    back_start = start + (cut_plan.strip_width_ticks if piece.start_cut == "mitre" else 0)
    back_end = end - (cut_plan.strip_width_ticks if piece.end_cut == "mitre" else 0)
    outer, inner = -cut_plan.proud_ticks, cut_plan.strip_width_ticks - cut_plan.proud_ticks
    # along the side and inwards from the finished edge; then each side's own axes
    corners = ((start, outer), (end, outer), (back_end, inner), (back_start, inner))
    placed = {
        "south": [(along, across) for along, across in corners],
        "north": [(along, width - across) for along, across in reversed(corners)],
        "west": [(across, along) for along, across in reversed(corners)],
        "east": [(length - across, along) for along, across in corners],
    }[side.side]
    a, b, c, d = ((ticks_to_mm(x), ticks_to_mm(y)) for x, y in placed)
    return a, b, c, d
