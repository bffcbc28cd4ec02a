"""Labels of a shaped top: one for each piece of the build-up, before them one for the blank of a new top."""

from __future__ import annotations

from edgewright.cli.printable import printable
from edgewright.cli.shaped_ring_rows import angle_text
from edgewright.cutlist.new_top import TOP, top_blank
from edgewright.cutlist.shaped_bench import lane_name
from edgewright.cutlist.shaped_plan import ShapedPlan
from edgewright.design.buildup.ring_stock import blank_ticks
from edgewright.display import show_mm, show_ticks

__all__ = ["shaped_labels"]


def shaped_labels(plan: ShapedPlan) -> list[dict[str, str]]:
    """Labels of a new top and of all pieces; none while NOT FOR CUTTING."""
    if not plan.ready:
        return []
    units = plan.job.units
    return [
        *_top_label(plan),
        *(
            {
                "id": piece.id,
                "size": " x ".join(
                    show_ticks(blank_ticks(side, units), units)
                    for side in (piece.blank_length, piece.blank_width)
                ),
                "face": "this face away from the top",
                "fit": f"{piece.kind}, ends: {angle_text(piece.start_angle)} and {angle_text(piece.end_angle)}",
                "where": printable(f"{', '.join(piece.edges)}, layer {piece.layer}, {_from(plan, piece.id)}"),
            }
            for piece in plan.design.pieces
        ),
    ]


def _top_label(plan: ShapedPlan) -> list[dict[str, str]]:
    """Label of the blank of a new top."""
    blank = top_blank(plan.design)
    if blank is None:
        return []
    units, by = plan.job.units, plan.job.top.oversize
    return [
        {
            "id": TOP,
            "size": f"{show_ticks(blank.length, units)} x {show_ticks(blank.width, units)}",
            "face": "mark the face",
            "fit": f"{show_mm(by.mm, units)} larger all round" if by.exact_mm else "blank of the new top",
            "where": printable(f"new top, {_from(plan, TOP)}"),
        }
    ]


def _from(plan: ShapedPlan, piece_id: str) -> str:
    for one in plan.build_up.cut:
        if one.piece_id == piece_id:
            return f"from {lane_name(one.stick, one.lane)}{', lying across it' if one.turned else ''}"
    return "bought or found"
