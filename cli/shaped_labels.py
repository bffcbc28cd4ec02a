"""Labels of a shaped top: one for each piece of the build-up, before them one for the blank of a new top."""

from __future__ import annotations

from typing import Any

from edgewright.cli.label_cells import label_cell
from edgewright.cli.shaped_ring_rows import angle_text
from edgewright.cutlist.new_top import TOP, top_blank
from edgewright.cutlist.shaped_bench import lane_name
from edgewright.cutlist.shaped_plan import ShapedPlan
from edgewright.design.buildup.ring_model import RingPiece
from edgewright.design.buildup.ring_stock import blank_ticks
from edgewright.display import show_mm, show_ticks

__all__ = ["shaped_labels"]


def shaped_labels(plan: ShapedPlan) -> list[dict[str, Any]]:
    """Labels of a new top and of all pieces; none while NOT FOR CUTTING."""
    if not plan.ready:
        return []
    return [*_top_label(plan), *(_piece_label(plan, piece) for piece in plan.design.pieces)]


def _piece_label(plan: ShapedPlan, piece: RingPiece) -> dict[str, Any]:
    job, units = plan.job, plan.job.units
    blank = (show_ticks(blank_ticks(side, units), units) for side in (piece.blank_length, piece.blank_width))
    return label_cell(
        job,
        plan.code,
        name=piece.id,
        size=" x ".join((*blank, show_mm(piece.thickness, units))),
        face="this face away from the top",
        lines=[
            f"{', '.join(piece.edges)}, layer {piece.layer}",
            f"{piece.kind}, ends: {angle_text(piece.start_angle)} and {angle_text(piece.end_angle)}",
            _from(plan, piece.id),
            "" if piece.grain is None else "solid wood: grain as on the map",
        ],
        out="outer edge",
    )


def _top_label(plan: ShapedPlan) -> list[dict[str, Any]]:
    """Label of the blank of a new top."""
    blank = top_blank(plan.design)
    if blank is None:
        return []
    job, units, by = plan.job, plan.job.units, plan.job.top.oversize
    sides = (show_ticks(side, units) for side in (blank.length, blank.width))
    larger = f"{show_mm(by.mm, units)} larger all round" if by.exact_mm else "blank of the new top"
    return [
        label_cell(
            job,
            plan.code,
            name=TOP,
            size=" x ".join((*sides, show_mm(plan.design.thickness_mm, units))),
            face="mark the face",
            lines=[f"new top, {job.top.material}", larger, _from(plan, TOP)],
        )
    ]


def _from(plan: ShapedPlan, piece_id: str) -> str:
    for one in plan.build_up.cut:
        if one.piece_id == piece_id:
            return f"from {lane_name(one.stick, one.lane)}{', lying across it' if one.turned else ''}"
    return "bought or found"
