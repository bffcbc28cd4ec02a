"""Trim sheet of a top of any outline: the old top face down, keep lines, guides, pivots, cut-outs, the finished edge.

What one saws and routs by stands in the lists beside it; the sheet shows where on the wood each of them is.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from edgewright.cutlist.sheets.common import (
    FIGURE,
    check_box,
    heading,
    heading_height,
    paragraph,
    paragraph_height,
)
from edgewright.cutlist.sheets.outline_frame import OutlineFrame, edge_labels, framed
from edgewright.design.anytop.cut_records import cut_records
from edgewright.design.anytop.model import ShapedDesign
from edgewright.design.outline import Line, Outline, Point
from edgewright.design.trims.straight_cut import GuideSide, beside
from edgewright.display import show_mm
from edgewright.drawing.lettering import ASCENT, DESCENT, text_width
from edgewright.drawing.paper import (
    GUIDE,
    HIDDEN,
    KEEP,
    LETTERING,
    PANEL,
    THIN,
    PaperBox,
    Pen,
    polygon,
    scale_text,
)
from edgewright.drawing.view import Face, Loop, Note, View

__all__ = ["top_figures"]

#: Room around the wood for the names of the edges (paper mm).
_OUT: Final = 9.0
_SMALL: Final = 3.4


def top_figures(design: ShapedDesign, box: PaperBox = (180.0, 130.0)) -> tuple[View, ...]:
    """Draw the top with its trims, face down.

    Parameters
    ----------
    design
        The design; where nothing is trimmed the finished top alone is drawn.
    box
        Width and height that the figure may fill, paper mm, at least 150 x 100.

    Raises
    ------
    GeometryError
        For a box that is too small.
    """
    check_box(box)
    units = design.job.units
    title = "Trim sheet" if design.trims.cuts or design.trims.arcs or design.trims.paths else "The top"
    notes = _notes(design)
    below = sum(paragraph_height(note, box[0]) for note in notes) + 1.5
    x0, y0, x1, y1 = design.old.outline.bounds
    fx0, fy0, fx1, fy1 = design.finished.outline.bounds
    bounds = (min(x0, fx0), min(y0, fy0), max(x1, fx1), max(y1, fy1))

    def lines(scale: float) -> list[str]:
        size = f"{show_mm(fx1 - fx0, units)} x {show_mm(fy1 - fy0, units)}"
        return [
            f"Seen with the top face down: east is left, west is right. Finished box {size}. {scale_text(scale)}."
        ]

    top = heading_height(box, title, lines(12.5))
    room = (box[0] - 2 * _OUT, box[1] - top - below - 2 * _OUT)
    frame = framed(bounds, room, (_OUT, below + _OUT)) or OutlineFrame(bounds, _OUT, below + _OUT, 200.0)
    frame = OutlineFrame(bounds, frame.left, below + _OUT, frame.scale)
    pen = Pen()
    heading(pen, (box[0], below + 2 * _OUT + frame.size[1] + top), title, lines(frame.scale))
    _draw(pen, frame, design)
    at = below - 1.5
    for note in notes:
        at = paragraph(pen, 0, at, note, box[0])
    return (pen.view("trim", title),)


def _draw(pen: Pen, frame: OutlineFrame, design: ShapedDesign) -> None:
    trimmed = design.finished.outline != design.old.outline
    if trimmed:
        for offcut in design.trims.offcuts:
            pen.shape(HIDDEN, frame.loop(offcut.region.outer))
        pen.shape(HIDDEN, frame.loop(design.old.outline))
    for outline in design.region.loops:
        pen.shape(PANEL, frame.loop(outline))
    for seam in design.panel_seams:
        pen.line(HIDDEN, frame.at(seam.start), frame.at(seam.end))
    _cuts(pen, frame, design)
    _pivots(pen, frame, design)
    for hole in design.cut_outs:
        _centred(pen, frame.at(_middle(hole.outline)), hole.name, frame, hole.outline)
    if trimmed:
        edge_labels(pen, frame, design.old.outline, design.old.names)
    else:
        edge_labels(pen, frame, design.finished.outline, design.finished.names)


def _cuts(pen: Pen, frame: OutlineFrame, design: ShapedDesign) -> None:
    """Keep line from rim to rim, guide beside it, number on it."""
    saw = design.job.saw
    for record in cut_records(design.old, design.trims):
        ends = [mark.at for mark in record.marks]
        if len(ends) == 2:
            keep = Line(ends[0], ends[1])
            guide = _guide(keep, saw.kerf.mm, saw.guide_offset.mm, saw.guide_side)
            pen.line(KEEP, frame.at(keep.start), frame.at(keep.end))
            pen.line(GUIDE, *_inside(frame, guide))
            (ax, ay), (bx, by) = frame.at(keep.start), frame.at(keep.end)
            pen.number((ax + bx) / 2, (ay + by) / 2, record.number)


def _guide(keep: Line, kerf: float, offset: float, side: GuideSide) -> Line:
    return beside(keep, offset if side == "keep" else -(kerf + offset))


def _inside(frame: OutlineFrame, line: Line) -> tuple[Point, ...]:
    """Both ends of a line if it lies within the frame with a little air, else nothing."""
    ends = (frame.at(line.start), frame.at(line.end))
    wide, tall = frame.size
    inside = all(
        frame.left - _OUT <= x <= frame.left + wide + _OUT
        and frame.bottom - _OUT <= y <= frame.bottom + tall + _OUT
        for x, y in ends
    )
    return ends if inside else (ends[0], ends[0])


def _pivots(pen: Pen, frame: OutlineFrame, design: ShapedDesign) -> None:
    wide, tall = frame.size
    units = design.job.units
    drawn: set[tuple[int, int, int]] = set()
    for arc in design.trims.arcs:
        x, y = frame.at(arc.pivot)
        key = (round(x), round(y), round(arc.to_finished))
        if key in drawn:
            continue
        drawn.add(key)
        if frame.left < x < frame.left + wide and frame.bottom < y < frame.bottom + tall:
            pen.dot(THIN, x, y, 0.7)
            pen.text(x + 1.6, y + 1.2, _SMALL, f"pivot, R {show_mm(arc.to_finished, units)}")


def _middle(outline: Outline) -> Point:
    x0, y0, x1, y1 = outline.bounds
    return (x0 + x1) / 2, (y0 + y1) / 2


def _centred(pen: Pen, at: Point, text: str, frame: OutlineFrame, outline: Outline) -> None:
    """Name of a cut-out in its middle, or beside it where it is too small."""
    x0, _, x1, _ = outline.bounds
    wide = text_width(text, FIGURE)
    x, y = at
    if wide > (x1 - x0) / frame.scale - 1:
        pen.text(x, y - 0.36 * _SMALL, _SMALL, text, "middle") if text_width(text, _SMALL) <= (
            x1 - x0
        ) / frame.scale else _beside(pen, frame, outline, text)
        return
    pen.shape(LETTERING, Note(x, y - 0.36 * FIGURE, FIGURE, text, "middle"))


def _beside(pen: Pen, frame: OutlineFrame, outline: Outline, text: str) -> None:
    """Write a name above a cut-out, on white so that no line runs through it."""
    _, _, _, top = outline.bounds
    x, y = frame.at((_middle(outline)[0], top))
    wide, high = text_width(text, _SMALL) / 2 + 0.4, (ASCENT + DESCENT) * _SMALL
    white = ((x - wide, y + 0.6), (x + wide, y + 0.6), (x + wide, y + 0.6 + high), (x - wide, y + 0.6 + high))
    loop: Loop = polygon(white)
    pen.shape(THIN, Face(loop, 1.0))
    pen.shape(LETTERING, Note(x, y + 0.6 + DESCENT * _SMALL, _SMALL, text, "middle"))


def _notes(design: ShapedDesign) -> Sequence[str]:
    saw = design.job.saw
    notes = []
    if design.trims.cuts:
        notes.append(
            f"Numbered lines are keep lines; the kerf lies on the waste. Long dash dot: edge of the guide, on the "
            f"{saw.guide_side} side. Dashed: what comes off."
        )
    if design.trims.arcs or design.trims.paths:
        notes.append(
            "Edges without a numbered line are routed to size, in several passes, the cutter in the waste."
        )
    if design.trims.finished.ellipse is not None and design.trims.finished is not design.old:
        notes.append("The oval is routed to a template drawn from the finished outline in cut.dxf.")
    return notes
