"""Lists of the packet that one cuts and glues by; all of them are empty while the plan is not ready."""

from __future__ import annotations

from typing import Any, Final

from edgewright.cli.cuts_table import operation_words
from edgewright.cli.label_cells import from_words, label_cell, size_words
from edgewright.cli.printable import printable
from edgewright.compass import ends_of
from edgewright.cutlist.grain import grain_under
from edgewright.cutlist.model import CutPlan, Piece, RingSide
from edgewright.cutlist.plan import Plan
from edgewright.cutlist.sequence import fence_settings
from edgewright.cutlist.shown_cuts import shown_cut
from edgewright.cutlist.shown_lanes import lanes_of, shown_lane, stop_text
from edgewright.cutlist.shown_rests import shown_remnant
from edgewright.display import show_mm, show_ticks

__all__ = ["crosscut_rows", "cut_rows", "fence_rows", "label_cells", "remnant_rows", "stop_rows"]

_CLAMPED: Final = "clamped"
_BY_HAND: Final = "by hand"


def cut_rows(plan: Plan) -> list[list[str]]:
    """Cuts through the panel in order: number and side, datum, keep line, end of the kerf, guide, what comes off."""
    if not plan.ready:
        return []
    units = plan.job.units
    found = []
    for cut in plan.cut_plan.cuts:
        shown = shown_cut(cut, units)
        off = f"{shown.width} x {show_ticks(cut.offcut_length_ticks, units)}" if shown.width else "dust only"
        gives = f": {cut.yields}" if cut.yields else ""
        found.append(
            [
                f"{cut.number} {cut.kind} {cut.side}",
                f"{cut.datum_edge} {cut.datum} edge",
                *(text.removesuffix(f" {units}") for text in (shown.keep, shown.kerf_end, shown.guide)),
                f"{off}{gives}",
            ]
        )
    return found


def fence_rows(plan: Plan) -> list[list[str]]:
    """Strips ripped from boards: fence where it is set anew, board, length, how it is held."""
    if not plan.ready:
        return []
    units = plan.job.units
    return [
        [
            "" if number else show_ticks(setting.fence_ticks, units),
            printable(r.lane_id or f"{r.stick_id}: old edge off"),
            show_ticks(r.length_ticks, units),
            r.held,
        ]
        for setting in fence_settings(plan.rips)
        for number, r in enumerate(setting.rips)
    ]


def stop_rows(plan: Plan) -> list[list[str]]:
    """Stops of the crosscut saw: stop, pieces that share it, ends."""
    if not plan.ready:
        return []
    ends = ("square", "one mitred", "both mitred")
    return [
        [show_ticks(stop.stop_ticks, plan.job.units), ", ".join(stop.piece_ids), ends[stop.mitres]]
        for stop in plan.stops
    ]


def crosscut_rows(plan: Plan) -> list[list[str]]:
    """Crosscuts: strip, piece, stop, length, kind of cut, how it is held."""
    if not plan.ready:
        return []
    units, lanes = plan.job.units, lanes_of(plan.cut_plan)
    found = []
    for cut in plan.crosscuts:
        shown = shown_lane(plan.cut_plan, lanes[cut.lane_id], units)
        held = _BY_HAND if cut.held.startswith("by hand") else _CLAMPED
        found.append(
            [
                printable(cut.lane_id),
                cut.piece_id or f"{cut.raw_end} end",
                stop_text(shown, cut, units).removesuffix(f" {units}"),
                show_ticks(cut.length_ticks, units, unit=False) if cut.piece_id else "",
                operation_words(cut).removeprefix("crosscut "),
                held,
            ]
        )
    return found


def remnant_rows(plan: Plan) -> list[list[str]]:
    """What goes back to the rack: name, width, length."""
    if not plan.ready:
        return []
    return [
        [printable(r.id), *shown_remnant(plan.cut_plan, r, plan.job.units)] for r in plan.cut_plan.remnants
    ]


def label_cells(plan: Plan) -> list[dict[str, Any]]:
    """One label for each piece: name, size, where it goes, which way it faces."""
    if not plan.ready:
        return []
    return [_label(plan, piece) for piece in plan.cut_plan.pieces]


def _label(plan: Plan, piece: Piece) -> dict[str, Any]:
    job, cut_plan, units = plan.job, plan.cut_plan, plan.job.units
    side = next(side for side in cut_plan.sides if side.id == piece.side_id)
    stick = next(one for one in cut_plan.sticks if any(lane.id == piece.lane_id for lane in one.lanes))
    board = next((board for board in job.stock if stick.side is None and board.name == stick.name), None)
    thickness = job.strip_thickness if board is None else board.thickness
    sides = (
        show_ticks(piece.length_ticks, units),
        show_ticks(cut_plan.strip_width_ticks, units),
        show_mm(thickness.mm, units),
    )
    grain = grain_under(plan.design, stick.side)
    run = f", grain {'↔' if grain == 'along' else '↕'} {grain}" if grain else ""
    # with the top face down and the outer edge ahead, a side is seen counter-clockwise from left to right
    left, right = ends_of(side.side) if side.side in ("south", "east") else ends_of(side.side)[::-1]
    return label_cell(
        job,
        plan.code,
        name=piece.id,
        size=size_words(sides),
        face="this face away from the top",
        lines=[
            f"{side.side} side, layer {side.layer}",
            _fit(cut_plan, piece, side),
            from_words(piece.lane_id),
            f"{job.top.material if board is None else job.board_material(board)}{run}",
        ],
        out="outer, sawn edge",
        ends=(left, right),
    )


def _fit(cut_plan: CutPlan, piece: Piece, side: RingSide) -> str:
    """How a piece meets its neighbours."""
    first, last = ends_of(side.side)
    splices = [
        end
        for end, inside in (
            (first, piece.side_start_ticks > 0),
            (last, piece.side_start_ticks + piece.length_ticks < side.length_ticks),
        )
        if inside
    ]
    words = [f"spliced at its {' and its '.join(splices)} end"] if splices else []
    if "mitre" in (piece.start_cut, piece.end_cut):
        which = "one end" if splices else "both ends"
        return ", ".join([*words, f"{which} mitred 45°, length along the long, outer edge"])
    inner = cut_plan.strip_width_ticks - cut_plan.proud_ticks
    ends = [(first, side.start_offset_ticks), (last, side.end_offset_ticks)]
    butts = [end for end, offset in ends if offset == inner and end not in splices]
    if len(butts) == 2:
        words.append("cut to fit between")
    elif butts:
        words.append(f"butts at its {butts[0]} end")
    elif not splices:
        words.append("runs through")
    return ", ".join(words)
