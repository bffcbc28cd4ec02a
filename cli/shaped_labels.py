"""Labels of a shaped top: one for each piece of the build-up, before them one for the blank of a new top."""

from __future__ import annotations

from typing import Any

from edgewright.cli.label_cells import from_words, label_cell, size_words
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
    """Label of a piece; with the top face down and the outer edge ahead its start lies on the left."""
    job, units = plan.job, plan.job.units
    blank = (show_ticks(blank_ticks(side, units), units) for side in (piece.blank_length, piece.blank_width))
    return label_cell(
        job,
        plan.code,
        name=piece.id,
        size=size_words((*blank, show_mm(piece.thickness, units))),
        face="this face inwards" if piece.kind == "skirt" else "this face away from the top",
        lines=[
            f"{', '.join(piece.edges)}, layer {piece.layer}",
            piece.kind,
            _from(plan, piece.id),
            f"{job.top.material}{_grain(plan, piece.id)}",
        ],
        out=_out(piece),
        ends=_ends(piece),
    )


def _out(piece: RingPiece) -> str:
    """What the arrow of its label points to; nothing of a block in an inside corner, which has two arms."""
    return {"skirt": "upper edge", "inside block": ""}.get(piece.kind, "outer edge")


def _ends(piece: RingPiece) -> tuple[str, str]:
    """Its left and its right end on the face that the label lies on."""
    if piece.kind == "inside block":
        return "", ""
    if piece.kind == "corner block":
        return "", "outer edge, too"
    start, end = angle_text(piece.start_angle), angle_text(piece.end_angle)
    # a skirt is seen from within, as it stands
    return (end, start) if piece.kind == "skirt" else (start, end)


def _grain(plan: ShapedPlan, piece_id: str) -> str:
    """How the grain of a piece runs, where that is known: along or across its length."""
    for one in plan.build_up.blanks:
        if piece_id in one.piece_ids and one.blank.grain is not None:
            return f", grain {'↔ along' if one.blank.grain == 'length' else '↕ across'}"
    return ""


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
            size=size_words((*sides, show_mm(plan.design.thickness_mm, units))),
            face="mark the face",
            lines=[f"new top, {job.top.material}{_grain(plan, TOP)}", larger, _from(plan, TOP)],
        )
    ]


def _from(plan: ShapedPlan, piece_id: str) -> str:
    for one in plan.build_up.cut:
        if one.piece_id == piece_id:
            return f"{from_words(lane_name(one.stick, one.lane))}{', lying across it' if one.turned else ''}"
    return "bought or found"
