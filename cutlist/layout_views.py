"""Drawings of the sticks that a new top and the build-up of a top with an outline are cut from, one of each.

Lanes begin at the lower edge of a stick and their parts at its left end, as on paper; between neighbours lies the kerf.
"""

from __future__ import annotations

from edgewright.cutlist.drawing_words import FACE_UP, SAWN, heading_lines
from edgewright.cutlist.guillotine.model import Layout
from edgewright.cutlist.new_top import TOP
from edgewright.cutlist.shaped_plan import ShapedPlan
from edgewright.drawing.layers import PARTS, REFERENCE, STOCK_EDGES, STRIPS
from edgewright.drawing.reference import lettering_mm, name_inside, notes_above
from edgewright.drawing.view import Box, Loop, Shape, View
from edgewright.ticks import ticks_to_mm

__all__ = ["layout_views", "loop_round"]


def layout_views(plan: ShapedPlan) -> tuple[View, ...]:
    """One view for each stick that something is cut from, mm; strips and parts are closed loops of exact size.

    Raises
    ------
    ValueError
        For a plan that is not ready: nobody must cut by it.
    """
    if not plan.ready:
        raise ValueError("a plan that is NOT FOR CUTTING has no drawings of its sticks")
    found = plan.build_up.layout
    return () if found is None else tuple(_view(plan, layout) for layout in found.plan.layouts)


def loop_round(box: Box) -> Loop:
    """Rectangle as a loop, counter-clockwise (mm)."""
    x0, y0, x1, y1 = box
    return Loop(((x0, y0, 0.0), (x1, y0, 0.0), (x1, y1, 0.0), (x0, y1, 0.0)))


def _view(plan: ShapedPlan, layout: Layout) -> View:
    stick = next(stick for stick in plan.build_up.stock if stick.stock.id == layout.stock_id)
    size = (stick.stock.length, stick.stock.width)
    long, wide = map(ticks_to_mm, size if layout.first == "length" else size[::-1])
    box, name = (0.0, 0.0, long, wide), stick.name(layout.copy)
    high, kerf = lettering_mm(box), plan.job.saw.kerf.ticks_up()
    ids = {
        (one.lane, one.start): one.piece_id
        for one in plan.build_up.cut
        if (one.stock_id, one.copy) == (layout.stock_id, layout.copy)
    }
    shapes: list[tuple[str, Shape]] = [(STOCK_EDGES.name, loop_round(box))]
    low = 0
    for number, lane in enumerate(layout.lanes, start=1):
        y0, y1 = ticks_to_mm(low), ticks_to_mm(low + lane.width)
        shapes.append((STRIPS.name, loop_round((0.0, y0, long, y1))))
        for part in lane.pieces:
            place = (ticks_to_mm(part.start), y0, ticks_to_mm(part.start + part.length), y1)
            shapes.append((PARTS.name, loop_round(place)))
            shapes.append(name_inside(ids[number, part.start], place, high))
        low += lane.width + kerf
    lines = [
        *heading_lines(plan.job.info.title, plan.code),
        f"{name}: rip from its lower edge, crosscut from the left end",
        FACE_UP,
        SAWN,
        *_sizes(plan, set(ids.values())),
    ]
    shapes += notes_above(box, lines)
    return View(
        name,
        plan.job.info.title,
        tuple(shapes),
        (STRIPS, PARTS, STOCK_EDGES, REFERENCE),
        ((STOCK_EDGES.name, box),),
    )


def _sizes(plan: ShapedPlan, ids: set[str]) -> list[str]:
    """Which parts are larger than they are in the end."""
    lines = []
    if ids - {TOP}:
        lines.append("strips and blocks are blanks: ends and outer edges are trimmed flush later")
    if TOP in ids:
        lines.append("the part named top is its blank: cut it to its outline by the drawing of the top")
    return lines
