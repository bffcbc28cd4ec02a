"""Router card: which edges are routed, which way the router is fed, and what the bearing leaves in inside corners."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from edgewright.cutlist.sheets.common import (
    SMALL,
    check_box,
    heading,
    heading_height,
    paragraph,
    paragraph_height,
)
from edgewright.cutlist.sheets.outline_frame import (
    EdgeLabel,
    OutlineFrame,
    along,
    edge_labels,
    framed,
    named_runs,
    put_labels,
)
from edgewright.cutlist.sheets.places import Places
from edgewright.design.anytop.model import ShapedDesign
from edgewright.design.outline import Outline, Point, Segment
from edgewright.design.segments import point_at
from edgewright.drawing.paper import HIDDEN, PANEL, THIN, PaperBox, Pen, scale_text
from edgewright.drawing.svg import drawn_box
from edgewright.drawing.view import View

__all__ = ["router_figures"]

#: Distance of the feed's arrow from the edge and its length (paper mm).
_OFF: Final = 2.2
_LONG: Final = 8.0


def router_figures(design: ShapedDesign, box: PaperBox = (180.0, 100.0)) -> tuple[View, ...]:
    """Draw the finished top face down with its routed edges; none where no profile exists.

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
    if design.profile is None:
        return ()
    title = "Edges to be routed"
    outline, names = design.finished.outline, design.finished.names
    still = {run.name for run in design.runs if not run.routed}
    more = dict.fromkeys((name.split(", station ")[0] for name in still), ("not routed",))
    labels = edge_labels(outline, names, more)
    whole, part = {run.routed for run in design.runs}, [hole for hole in design.cut_outs if hole.routed]
    note = _note(whole == {True}, bool(part))
    top = heading_height(box, title, _lines(12.5))
    below = paragraph_height(note, box[0]) + 2.5
    room = (box[0], box[1] - top - below - 4.0)
    frame, places = framed(outline.bounds, design.region.loops, labels, room, (0.0, below))
    pen = Pen()
    for segment, name in zip(outline.segments, names, strict=True):
        _edge(pen, frame, segment, routed=name not in still)
    for hole in design.cut_outs:
        pen.shape(PANEL if hole.routed else HIDDEN, frame.loop(hole.outline))
    put_labels(pen, frame, places, labels)
    _hole_names(pen, frame, places, design)
    for _, run in named_runs(outline, names):
        if all(names[at] not in still for at in run):
            _feed(pen, frame, places, outline, run)
    high = drawn_box(pen.view("", ""))[3] + 3.0
    heading(pen, (box[0], min(high + top, box[1])), title, _lines(frame.scale))
    paragraph(pen, 0, below - 2.0, note, box[0])
    return (pen.view("router", title),)


def _lines(scale: float) -> list[str]:
    return [
        "Top face DOWN, seen from above as it lies: east is on the left, west on the right.",
        f"{scale_text(scale).capitalize()}. The top form is routed with the face up, the same way round.",
    ]


def _note(everywhere: bool, holes: bool) -> str:
    which = "Every edge of the rim is routed." if everywhere else "Dashed: not routed, no bearing runs there."
    return (
        f"{which} Arrows: feed, against the turning of the bit; round the outside counter-clockwise as the top lies"
        + (
            ", in a cut-out clockwise. Cut-outs: top bit only, their lower arris stays sharp."
            if holes
            else "."
        )
    )


def _edge(pen: Pen, frame: OutlineFrame, segment: Segment, *, routed: bool) -> None:
    """One edge as a line of its own, so that it may be dashed."""
    steps = 1 if not hasattr(segment, "sweep") else max(2, math.ceil(segment.length / frame.scale / 1.5))
    points = [frame.at(point_at(segment, step / steps)) for step in range(steps + 1)]
    pen.line(PANEL if routed else HIDDEN, *points)


def _feed(pen: Pen, frame: OutlineFrame, places: Places, outline: Outline, run: Sequence[int]) -> None:
    """Arrow outside an edge, against the way of the outline, for the page is mirrored."""
    length = sum(outline.segments[at].length for at in run) / frame.scale
    if length < 1.6 * _LONG:
        return
    half = _LONG / length / 2
    for middle in (0.3, 0.7, 0.5, 0.2, 0.8):
        if not half <= middle <= 1 - half:
            continue
        tail = _off(frame, *along(outline, run, middle + half))
        tip = _off(frame, *along(outline, run, middle - half))
        box = (
            min(tail[0], tip[0]) - 0.5,
            min(tail[1], tip[1]) - 0.5,
            max(tail[0], tip[0]) + 0.5,
            max(tail[1], tip[1]) + 0.5,
        )
        if places.free(box, over_lines=True):
            pen.line(THIN, tail, tip)
            pen.arrow(tip, tail)
            places.take(box)
            return


def _off(frame: OutlineFrame, point: Point, out: Point) -> Point:
    """Paper point beside a point of the edge, outside the wood."""
    x, y = frame.at(point)
    return x - out[0] * _OFF, y + out[1] * _OFF


def _hole_names(pen: Pen, frame: OutlineFrame, places: Places, design: ShapedDesign) -> None:
    """Name each cut-out, with what is routed of it; the name alone where there is no room."""
    for hole in design.cut_outs:
        x0, y0, x1, y1 = hole.outline.bounds
        spots = (
            (((x0 + x1) / 2, y1), (0.0, 1.0)),
            (((x0 + x1) / 2, y0), (0.0, -1.0)),
            ((x0, (y0 + y1) / 2), (-1.0, 0.0)),
            ((x1, (y0 + y1) / 2), (1.0, 0.0)),
        )
        middle = frame.at(((x0 + x1) / 2, (y0 + y1) / 2))
        for lines in ((hole.name, "top bit only" if hole.routed else "not routed"), (hole.name,)):
            if places.put(pen, lines, SMALL, [middle]) is not None:
                break
            if put_labels(pen, frame, places, [EdgeLabel(lines, spots, SMALL)]):
                break
