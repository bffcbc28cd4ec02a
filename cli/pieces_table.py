"""``pieces``: the pieces of the build-up, one row each: size, ends, where it is cut from and where it goes."""

from __future__ import annotations

from collections.abc import Iterator

from edgewright.cli.table import Column, Row, Table, length, lengths, measured, numbers, rounded, table, texts
from edgewright.cutlist.plan import Plan
from edgewright.cutlist.shaped_build_up import CutBlank
from edgewright.cutlist.shaped_plan import ShapedPlan
from edgewright.cutlist.shown_lanes import lanes_of, shown_lane
from edgewright.cutlist.shown_stock import shown_stock_lanes
from edgewright.units import Units

__all__ = ["piece_columns", "pieces_table", "shaped_piece_columns", "shaped_pieces_table"]


def piece_columns(units: Units) -> tuple[tuple[Column, ...], ...]:
    """Columns for a rectangular top; ``from`` and ``to`` run along the lane from its squared start."""
    return (
        texts("piece", "side"),
        numbers("layer"),
        lengths(units, "begins_at", "length", "width", "thickness"),
        texts("start_cut", "end_cut", "lies", "cut_from", "lane"),
        lengths(units, "from", "to"),
        texts("plan_code"),
    )


def pieces_table(plan: Plan) -> Table:
    """The pieces of a rectangular top's build-up, side by side.

    Where a piece begins is measured along its side from the west or south end of the side; the length of a mitred piece
    is that of its long edge.

    Raises
    ------
    ValueError
        For a plan that is not ready: nobody must cut by it.
    """
    if not plan.ready:
        raise ValueError("a plan that is NOT FOR CUTTING has no pieces")
    return table("pieces", piece_columns(plan.job.units), _pieces(plan))


def _pieces(plan: Plan) -> Iterator[Row]:
    units, cut_plan = plan.job.units, plan.cut_plan
    sides = {side.id: side for side in cut_plan.sides}
    lanes, sticks = lanes_of(cut_plan), {lane.id: stick for stick in cut_plan.sticks for lane in stick.lanes}
    for piece in cut_plan.pieces:
        lane, side = lanes[piece.lane_id], sides[piece.side_id]
        part = shown_lane(cut_plan, lane, units).part(piece.id)
        yield {
            "piece": piece.id,
            "side": side.side,
            "layer": side.layer,
            **length("begins_at", piece.side_start_ticks, units),
            **length("length", piece.length_ticks, units, part.text(units)),
            **length("width", cut_plan.strip_width_ticks, units),
            **measured("thickness", plan.design.strip_thickness_mm, units),
            "start_cut": piece.start_cut,
            "end_cut": piece.end_cut,
            "lies": "turned end for end" if piece.turned else "as in its side",
            "cut_from": sticks[lane.id].name,
            "lane": lane.id,
            **length("from", part.start, units, part.start_text(units)),
            **length("to", part.end, units, part.end_text(units)),
            "plan_code": plan.code,
        }


def shaped_piece_columns(units: Units) -> tuple[tuple[Column, ...], ...]:
    """Columns for a top with an outline; ``blank`` is what is sawn before the ends are cut."""
    return (
        texts("piece", "what"),
        numbers("layer"),
        texts("under"),
        lengths(units, "length", "width", "thickness"),
        numbers("start_degrees_from_square", "end_degrees_from_square"),
        texts("cut_from"),
        numbers("lane"),
        lengths(units, "lane_width", "blank", "starts_at"),
        texts("lies", "plan_code"),
    )


def shaped_pieces_table(plan: ShapedPlan) -> Table:
    """The pieces of a shaped top; lengths are those of the longer edge, to a hundredth of a millimetre.

    A piece that must be bought or found has nothing in the columns that say where it is cut from.

    Raises
    ------
    ValueError
        For a plan that is not ready: nobody must cut by it.
    """
    if not plan.ready:
        raise ValueError("a plan that is NOT FOR CUTTING has no pieces")
    return table("pieces", shaped_piece_columns(plan.job.units), _shaped_pieces(plan))


def _shaped_pieces(plan: ShapedPlan) -> Iterator[Row]:
    units = plan.job.units
    cut = {one.piece_id: one for one in plan.build_up.cut}
    for piece in plan.design.pieces:
        one = cut.get(piece.id)
        yield {
            "piece": piece.id,
            "what": piece.kind,
            "layer": piece.layer,
            "under": "; ".join(piece.edges),
            **measured("length", piece.blank_length, units),
            **measured("width", piece.blank_width, units),
            **measured("thickness", piece.thickness, units),
            "start_degrees_from_square": rounded(piece.start_angle),
            "end_degrees_from_square": rounded(piece.end_angle),
            **({} if one is None else _from(plan, one)),
            "plan_code": plan.code,
        }


def _from(plan: ShapedPlan, one: CutBlank) -> Row:
    """Stick, lane, its width, the blank and where it begins in the lane, and which way it lies."""
    units = plan.job.units
    part = shown_stock_lanes(plan)[one.stock_id, one.copy, one.lane].part(one.piece_id)
    return {
        "cut_from": one.stick,
        "lane": one.lane,
        **length("lane_width", one.width, units),
        **length("blank", one.length, units, part.text(units)),
        **length("starts_at", one.start, units, part.start_text(units)),
        "lies": "across the lane" if one.turned else "along the lane",
    }
