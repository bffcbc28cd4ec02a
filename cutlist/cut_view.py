"""The cut drawing: the panel seen from above, face up, with keep lines, kerfs and strips in the offcuts.

The frame is that of the old top: origin at its south-west corner, x to the east, y to the north. Lane n of
an offcut lies from ``(n - 1) * pitch + kerf`` outside the finished edge outwards. Lengthwise rips come
first, so their lanes run along the old length; crosscut lanes run along the finished width only.

A mitred piece that is not turned has its long edge on the lane's inner edge, which is always a fresh saw
cut; a turned one has it on the outer edge, its end towards the lane's start.
"""

from __future__ import annotations

from collections.abc import Iterator

from edgewright.compass import CORNER_SIDES, CORNERS, OPPOSITE, Side, ends_of, is_lengthwise
from edgewright.cutlist.drawing_words import FACE_UP, OUTSIDE, heading_lines
from edgewright.cutlist.loose import still_attached
from edgewright.cutlist.model import CutPlan, Lane, Piece, SawCut
from edgewright.cutlist.offcuts import rip_sides
from edgewright.design.model import Design
from edgewright.design.outline import Outline, rectangle
from edgewright.drawing.layers import FINISHED_OUTLINE, KEEP_LINES, KERFS, OLD_OUTLINE, REFERENCE, STRIPS
from edgewright.drawing.reference import notes_above
from edgewright.drawing.view import Box, Loop, Segment, Shape, View
from edgewright.ticks import ticks_to_mm

__all__ = ["cut_view", "lane_shape"]

_Placed = tuple[str, Shape]
_TickPoint = tuple[int, int]


def cut_view(design: Design, cut_plan: CutPlan, plan_code: str) -> View:
    """Cut drawing of a plan, in mm.

    Parameters
    ----------
    design
        Gives the outlines and the title.
    cut_plan
        Gives cuts, sticks, pieces and defects; an impossible plan has no strips.
    plan_code
        Stands on the drawing, so that old and new sheets never mix.
    """
    edges = cut_plan.first_edges
    old = _mm_box(edges["west"], edges["south"], edges["east"], edges["north"])
    (x, y), (length, width) = cut_plan.finished_origin_ticks, cut_plan.finished_ticks
    shapes: list[_Placed] = [
        (FINISHED_OUTLINE.name, Loop(design.finished_outline.bulge_vertices())),
        (OLD_OUTLINE.name, Loop(_wood(design, cut_plan, old).bulge_vertices())),
        *_cuts(cut_plan),
        *((STRIPS.name, loop) for loop in _strips(cut_plan)),
        *((REFERENCE.name, loop) for loop in _defects(cut_plan)),
        *notes_above(old, _notes(design, cut_plan, plan_code)),
    ]
    return View(
        name="cut",
        title=design.job.info.title,
        shapes=tuple(shapes),
        layers=(FINISHED_OUTLINE, OLD_OUTLINE, KEEP_LINES, KERFS, STRIPS, REFERENCE),
        nominal=(
            (FINISHED_OUTLINE.name, _mm_box(x, y, x + length, y + width)),
            (OLD_OUTLINE.name, old),
        ),
    )


def _wood(design: Design, plan: CutPlan, box: Box) -> Outline:
    """The wood before the first cut of the plan: the old top, or the panel that earlier cuts left of it."""
    if plan.as_cut is None:
        return design.old_outline
    length, width, cut = box[2] - box[0], box[3] - box[1], set(plan.as_cut.fresh)
    # what is left may be narrower than a large old corner was deep
    radius = min(design.job.top.corner_radius.mm, length / 2, width / 2)
    south_west, south_east, north_east, north_west = (
        0.0 if cut & set(CORNER_SIDES[corner]) else radius for corner in CORNERS
    )
    radii = (south_west, south_east, north_east, north_west)
    return rectangle(length, width, radii, (box[0], box[1]))


def lane_shape(piece: Piece, lane_width: int) -> tuple[_TickPoint, ...]:
    """Corners of a piece, ticks: along its lane from the start, across it from the inner edge outwards."""
    start, end = piece.lane_start_ticks, piece.lane_start_ticks + piece.length_ticks
    first, last = (piece.end_cut, piece.start_cut) if piece.turned else (piece.start_cut, piece.end_cut)
    # a mitre runs at 45°, so the short edge falls back by the width
    short_start = start + (lane_width if first == "mitre" else 0)
    short_end = end - (lane_width if last == "mitre" else 0)
    long, short = (start, end), (short_start, short_end)
    inner, outer = (short, long) if piece.turned else (long, short)
    return (inner[0], 0), (inner[1], 0), (outer[1], lane_width), (outer[0], lane_width)


def _mm_box(x0: int, y0: int, x1: int, y1: int) -> Box:
    return ticks_to_mm(x0), ticks_to_mm(y0), ticks_to_mm(x1), ticks_to_mm(y1)


def _cuts(plan: CutPlan) -> Iterator[_Placed]:
    """Keep line and kerf of each cut across the panel as it is then; the panel counts as its upright box."""
    edges = plan.first_edges
    for cut in plan.cuts:
        keep, kerf_end = (_across(cut, edges, position) for position in (cut.keep_ticks, cut.kerf_end_ticks))
        old_edge = edges[cut.side]
        outer = min(kerf_end, old_edge) if cut.side in ("north", "east") else max(kerf_end, old_edge)
        low, high = (
            (edges["west"], edges["east"]) if is_lengthwise(cut.side) else (edges["south"], edges["north"])
        )
        (x0, y0), (x1, y1) = (_point(cut.side, along, keep) for along in (low, high))
        yield KEEP_LINES.name, Segment(*_mm_box(x0, y0, x1, y1))
        if outer != keep:
            corners = ((low, keep), (high, keep), (high, outer), (low, outer))
            yield KERFS.name, _loop([_point(cut.side, *corner) for corner in corners])
        edges[cut.side] = keep


def _across(cut: SawCut, edges: dict[Side, int], position: int) -> int:
    """Take a position measured from the datum edge into the frame of the old top (ticks)."""
    away = 1 if cut.side in ("north", "east") else -1
    return edges[OPPOSITE[cut.side]] + away * position


def _point(side: Side, along: int, across: int) -> _TickPoint:
    """X and y of a position along a side and across it."""
    return (along, across) if is_lengthwise(side) else (across, along)


def _loop(points: list[_TickPoint]) -> Loop:
    """Close a loop through the points, counter-clockwise."""
    after = [*points[1:], points[0]]
    if sum(ax * by - bx * ay for (ax, ay), (bx, by) in zip(points, after, strict=True)) < 0:
        points = points[::-1]
    return Loop(tuple((ticks_to_mm(x), ticks_to_mm(y), 0.0) for x, y in points))


def _strips(plan: CutPlan) -> Iterator[Loop]:
    """Pieces that come from offcuts, each where it lies in the panel."""
    for stick in still_attached(plan.sticks, plan.as_cut):
        if stick.side is None:
            continue
        for index, lane in ((n, lane) for n, strip in enumerate(stick.strips) for lane in strip):
            for piece in plan.pieces:
                if piece.lane_id == lane.id:
                    yield _loop(_in_panel(plan, stick.side, lane, index, piece))


def _defects(plan: CutPlan) -> Iterator[Loop]:
    """Defects of the old top, each a box."""
    for box in plan.defects:
        (x0, x1), (y0, y1) = box.along_ticks, box.across_ticks
        yield _loop([(x0, y0), (x1, y0), (x1, y1), (x0, y1)])


def _in_panel(plan: CutPlan, side: Side, lane: Lane, index: int, piece: Piece) -> list[_TickPoint]:
    axis = 0 if is_lengthwise(side) else 1
    begin = lane.trim_start_ticks
    if side in rip_sides(plan.old_ticks):
        begin += plan.first_edges[ends_of(side)[0]]
    else:
        begin += plan.finished_origin_ticks[axis]
    outwards = 1 if side in ("north", "east") else -1
    across_axis = 1 - axis
    finished_edge = plan.finished_origin_ticks[across_axis]
    if outwards > 0:
        finished_edge += plan.finished_ticks[across_axis]
    inner = index * plan.pitch_ticks + plan.rules.kerf_ticks
    return [
        _point(side, begin + along, finished_edge + outwards * (inner + across))
        for along, across in lane_shape(piece, lane.width_ticks)
    ]


def _notes(design: Design, plan: CutPlan, plan_code: str) -> list[str]:
    """What stands above the panel; the unit note stands at the scale bar, as the writer picks the unit."""
    lines = [*heading_lines(design.job.info.title, plan_code), FACE_UP, OUTSIDE]
    boards = {lane.id: stick.name for stick in plan.sticks if stick.side is None for lane in stick.lanes}
    from_boards = [piece for piece in plan.pieces if piece.lane_id in boards]
    if from_boards:
        names = ", ".join(sorted({boards[piece.lane_id] for piece in from_boards}))
        ids = ", ".join(piece.id for piece in from_boards)
        lines.append(f"not drawn here, cut from boards ({names}): {ids}")
    for strip in () if plan.as_cut is None else plan.as_cut.loose:
        ids = ", ".join(piece.id for piece in plan.pieces if piece.lane_id in strip.lanes)
        if ids:
            lines.append(f"not drawn here, cut from the {strip.id}: {ids}")
    return lines
