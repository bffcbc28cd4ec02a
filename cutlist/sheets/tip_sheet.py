"""Inside corners that a router's bearing does not reach, drawn large: the wood that is left to be cut by hand."""

from __future__ import annotations

from typing import Final

from edgewright.cutlist.sheets.common import SMALL, check_box, heading, heading_height
from edgewright.cutlist.sheets.outline_frame import OutlineFrame
from edgewright.design.anytop.model import CornerTip, ShapedDesign
from edgewright.design.outline import Outline, Point
from edgewright.design.segments import point_at
from edgewright.display import show_mm
from edgewright.drawing.lettering import wrapped
from edgewright.drawing.paper import HATCHING, KEEP, PANEL, PaperBox, Pen
from edgewright.drawing.view import Hatch, View

__all__ = ["LEAST_TIP_MM", "drawn_tips", "tip_figures"]

#: Less than this along the edge is sanded away without a thought (1/32 in, choice of this program).
LEAST_TIP_MM: Final = 25.4 / 32
_CELL: Final = 60.0
_DRAWN: Final = 34.0
_ENLARGED: Final = (10.0, 5.0, 2.0, 1.0, 0.5, 0.2)
_LINES: Final = 4


def drawn_tips(design: ShapedDesign) -> tuple[CornerTip, ...]:
    """Tips that are worth a figure, those of one corner and arris once."""
    found: dict[tuple[str, str], CornerTip] = {}
    for one in design.tips:
        if _reach(one) > LEAST_TIP_MM:
            found.setdefault((one.corner, one.arris), one)
    return tuple(found.values())


def _reach(one: CornerTip) -> float:
    return max(*one.tip.runs, *one.tip.runs_below)


def tip_figures(design: ShapedDesign, box: PaperBox = (180.0, 200.0)) -> tuple[View, ...]:
    """Draw each inside corner whose tip stands up to the face, three in a row, face down like the other sheets.

    Parameters
    ----------
    box
        Width and height that the figure may fill, paper mm, at least 150 x 100.

    Raises
    ------
    GeometryError
        For a box that is too small.
    """
    check_box(box)
    tips = [one for one in drawn_tips(design) if one.tip.outline_at_face is not None]
    if not tips:
        return ()
    title = "Inside corners: hatched wood is left by the bearing, cut it by hand"
    lines = ["Top face DOWN, seen from above as it lies; heavy lines are the edge of the top."]
    in_row = int(box[0] // _CELL)
    cell = _DRAWN + _LINES * SMALL * 1.35 + 5
    top = heading_height(box, title, lines)
    rows = min(-(-len(tips) // in_row), int((box[1] - top) // cell))
    height = rows * cell + top
    pen = Pen()
    heading(pen, (box[0], height), title, lines)
    for number, one in enumerate(tips[: rows * in_row]):
        left = (number % in_row) * _CELL
        _tip(pen, one, design, left, height - top - (number // in_row) * cell)
    return (pen.view("tips", title),)


def _tip(pen: Pen, one: CornerTip, design: ShapedDesign, left: float, high: float) -> None:
    shape = one.tip.outline_at_face
    assert shape is not None
    x0, y0, x1, y1 = shape.bounds
    long = max(x1 - x0, y1 - y0, *one.tip.runs_below) + one.tip.ends_at_inset
    walls = [_wall(design, number, one.tip.place, long) for number in one.tip.segments]
    bounds = _bounds(shape, walls)
    wide = max(bounds[2] - bounds[0], bounds[3] - bounds[1])
    enlarged = next((times for times in _ENLARGED if wide * times <= _DRAWN), _ENLARGED[-1])
    frame = OutlineFrame(bounds, left + 2, high - _DRAWN, 1 / enlarged)
    pen.shape(HATCHING, Hatch(frame.loop(shape), 45, 0.9))
    pen.shape(KEEP, frame.loop(shape))
    for wall in walls:
        pen.line(PANEL, *frame.points(wall))
    ratio = f"{enlarged:g}:1" if enlarged >= 1 else f"1:{1 / enlarged:g}"
    corner = one.corner.replace(", station ", " ")
    words = f"{corner}, {one.arris} arris, {ratio}: {show_mm(_reach(one), design.job.units)} along the edge"
    text = wrapped(words, SMALL, _CELL - 4)[:_LINES]
    pen.lines_of_text(left + 2, high - _DRAWN - 2, SMALL, text, SMALL * 1.35)


def _wall(design: ShapedDesign, number: int, place: Point, length: float) -> list[Point]:
    """Part of an edge next to the corner."""
    edge = design.region.segments[number]
    share = min(1.0, length / edge.length)
    begins = abs(edge.start[0] - place[0]) + abs(edge.start[1] - place[1])
    ends = abs(edge.end[0] - place[0]) + abs(edge.end[1] - place[1])
    first = 0.0 if begins < ends else 1.0 - share
    return [point_at(edge, first + share * step / 12) for step in range(13)]


def _bounds(shape: Outline, walls: list[list[Point]]) -> tuple[float, float, float, float]:
    x0, y0, x1, y1 = shape.bounds
    xs, ys = [x for wall in walls for x, _ in wall], [y for wall in walls for _, y in wall]
    return min(x0, *xs), min(y0, *ys), max(x1, *xs), max(y1, *ys)
