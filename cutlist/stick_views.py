"""Drawings of the sticks of a rectangular top, one of each: its strips as ripped, and the pieces in them.

A strip begins on the left, at the end that its stops are measured from; its inner edge, a fresh saw cut, lies below.
Strips of one stick lie one above the other, the innermost lowest, a kerf between them.
"""

from __future__ import annotations

from edgewright.cutlist.cut_view import lane_shape
from edgewright.cutlist.drawing_words import FACE_UP, SAWN, heading_lines
from edgewright.cutlist.layout_views import loop_round
from edgewright.cutlist.model import Piece, Stick
from edgewright.cutlist.plan import Plan
from edgewright.display import show_ticks
from edgewright.drawing.layers import PARTS, REFERENCE, STOCK_EDGES, STRIPS
from edgewright.drawing.reference import lettering_mm, name_inside, notes_above
from edgewright.drawing.view import Box, Loop, Shape, View
from edgewright.ticks import ticks_to_mm

__all__ = ["stick_views"]


def stick_views(plan: Plan) -> tuple[View, ...]:
    """One view for each stick that pieces come from, mm.

    Raises
    ------
    ValueError
        For a plan that is not ready: nobody must cut by it.
    """
    if not plan.ready:
        raise ValueError("a plan that is NOT FOR CUTTING has no drawings of its sticks")
    used = {piece.lane_id for piece in plan.cut_plan.pieces}
    return tuple(
        _view(plan, stick) for stick in plan.cut_plan.sticks if any(lane.id in used for lane in stick.lanes)
    )


def _view(plan: Plan, stick: Stick) -> View:
    pieces: dict[str, list[Piece]] = {}
    for piece in plan.cut_plan.pieces:
        pieces.setdefault(piece.lane_id, []).append(piece)
    strips = [strip for strip in stick.strips if any(lane.id in pieces for lane in strip)]
    shapes: list[tuple[str, Shape]] = []
    names: list[tuple[str, Box]] = []
    low, longest = stick.edge_waste_ticks, stick.length_ticks if stick.side is None else 0
    for strip in strips:
        raw, wide = strip[0].raw_ticks, strip[0].width_ticks
        shapes.append((STRIPS.name, loop_round(_mm(0, low, raw, low + wide))))
        for lane in strip:
            for piece in pieces.get(lane.id, ()):
                corners = [
                    (lane.trim_start_ticks + along, low + across)
                    for along, across in lane_shape(piece, lane.width_ticks)
                ]
                shapes.append(
                    (PARTS.name, Loop(tuple((ticks_to_mm(x), ticks_to_mm(y), 0.0) for x, y in corners)))
                )
                # a mitred piece is as long as its shorter edge throughout
                left, right = sorted(x for x, _ in corners)[1:3]
                names.append((piece.id, _mm(left, low, right, low + wide)))
        longest = max(longest, raw)
        low += wide + plan.cut_plan.rules.kerf_ticks
    # what is ripped off a board lies above its strips; of an offcut only the strips are there
    high = low - plan.cut_plan.rules.kerf_ticks if stick.side is not None else stick.width_ticks
    box = _mm(0, 0, longest, high)
    if stick.side is None:
        shapes.insert(0, (STOCK_EDGES.name, loop_round(box)))
    shapes += [name_inside(name, place, lettering_mm(box)) for name, place in names]
    for defect in stick.defects:
        (x0, x1), (y0, y1) = defect.along_ticks, defect.across_ticks
        shapes.append((REFERENCE.name, loop_round(_mm(x0, y0, x1, y1))))
    shapes += notes_above(box, _lines(plan, stick))
    nominal = ((STOCK_EDGES.name, box),) if stick.side is None else ((STRIPS.name, box),)
    return View(
        stick.name, plan.job.info.title, tuple(shapes), (STRIPS, PARTS, STOCK_EDGES, REFERENCE), nominal
    )


def _mm(x0: int, y0: int, x1: int, y1: int) -> Box:
    return ticks_to_mm(x0), ticks_to_mm(y0), ticks_to_mm(x1), ticks_to_mm(y1)


def _lines(plan: Plan, stick: Stick) -> list[str]:
    lines = [
        *heading_lines(plan.job.info.title, plan.code),
        f"{stick.name}: each strip begins on the left, its inner edge lies below",
        FACE_UP,
        SAWN,
    ]
    proud = plan.cut_plan.proud_ticks
    if proud:
        lines.append(
            f"oversize: strips stand {show_ticks(proud, plan.job.units)} proud until they are trimmed flush"
        )
    return lines
