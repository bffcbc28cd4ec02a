"""Feed of the router: which edges are routed, and which way round the router goes, outside and in cut-outs."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product
from typing import Final

from edgewright.cutlist.sheets.common import SMALL, check_box, paragraph, paragraph_height
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
from edgewright.cutlist.sheets.wall import BENCH, wall_fit
from edgewright.design.anytop.model import CutOutEdge, ShapedDesign
from edgewright.design.model import Design
from edgewright.design.outline import Arc, Outline, Point, Segment
from edgewright.design.segments import direction, point_at
from edgewright.drawing.paper import HIDDEN, PANEL, THIN, PaperBox, Pen, polygon, scale_text
from edgewright.drawing.svg import drawn_box
from edgewright.drawing.view import Box, Face, View

__all__ = ["RoutedRim", "feed_figure", "router_figures"]

#: Distance of the feed's arrow from the edge, its length, and its head (paper mm).
_OFF: Final = 4.0
_LONG: Final = 16.0
_HEAD: Final = (6.0, 1.8)
#: Where along an arrow it is asked whether there is room for its head.
_ALONG: Final = (0.0, 0.25, 0.5, 0.75, 1.0)
#: A curve that bows more than this along an arrow takes a shorter one (paper mm).
_BOW: Final = 1.0
_LEAST: Final[PaperBox] = (150.0, 60.0)
_TITLE: Final = "FEED: UNDERSIDE UP"


@dataclass(frozen=True, slots=True)
class RoutedRim:
    """The finished edge with the name of each segment, the names that are not routed, and the cut-outs."""

    outline: Outline
    names: tuple[str, ...]
    still: frozenset[str]
    holes: tuple[CutOutEdge, ...] = ()


def _rim(design: Design | ShapedDesign) -> RoutedRim:
    if isinstance(design, ShapedDesign):
        still = frozenset(run.name for run in design.runs if not run.routed)
        return RoutedRim(design.finished.outline, design.finished.names, still, design.cut_outs)
    outline = design.finished_outline
    return RoutedRim(outline, tuple(_compass(edge) for edge in outline.segments), frozenset())


def _compass(edge: Segment) -> str:
    """Side of a rectangle, told by which way its edge runs, the wood on its left."""
    if isinstance(edge, Arc):
        return "corner"
    x, y = direction(edge, 0.5)
    if abs(x) > abs(y):
        return "south" if x > 0 else "north"
    return "east" if y > 0 else "west"


def router_figures(design: Design | ShapedDesign, box: PaperBox = (180.0, 125.0)) -> tuple[View, ...]:
    """Draw the finished top face down with its routed edges; none where no profile exists.

    Parameters
    ----------
    design
        A rectangle, or a top of any outline.
    box
        Width and height that the figure may fill, paper mm, at least 150 x 60.

    Raises
    ------
    GeometryError
        For a box that is too small.
    """
    if design.profile is None:
        check_box(box, _LEAST)
        return ()
    return (feed_figure(_rim(design), box),)


def feed_figure(rim: RoutedRim, box: PaperBox) -> View:
    """Draw a finished edge face down, what is not routed of it dashed, with arrows for the way of the router.

    Parameters
    ----------
    box
        As for `router_figures`, which says what is refused.
    """
    check_box(box, _LEAST)
    more = dict.fromkeys((name.split(", station ")[0] for name in rim.still), ("not routed",))
    labels = edge_labels(rim.outline, rim.names, more)
    note = _note(not rim.still, any(hole.routed for hole in rim.holes))
    size = wall_fit(_TITLE, box[0], 7.0)
    top = 1.3 * size
    below = paragraph_height(note, box[0], BENCH) + 2.5
    room = (box[0] - 2 * _OFF, box[1] - top - below - 4.0 - 2 * _OFF)
    loops = [rim.outline, *(hole.outline for hole in rim.holes)]
    frame, places = framed(rim.outline.bounds, loops, labels, room, (_OFF, below + _OFF))
    places.limits = (0.0, below, box[0], box[1] - top)
    pen = Pen()
    for segment, name in zip(rim.outline.segments, rim.names, strict=True):
        _edge(pen, frame, segment, routed=name not in rim.still)
    for hole in rim.holes:
        pen.shape(PANEL if hole.routed else HIDDEN, frame.loop(hole.outline))
    put_labels(pen, frame, places, labels)
    _hole_names(pen, frame, places, rim.holes)
    for _, run in named_runs(rim.outline, rim.names):
        if all(rim.names[at] not in rim.still for at in run):
            _feed(pen, frame, places, rim.outline, run)
    for hole in rim.holes:
        x0, y0, x1, y1 = hole.outline.bounds
        if hole.routed and min(x1 - x0, y1 - y0) / frame.scale > _OFF + 2 * _HEAD[0]:
            _feed(pen, frame, places, hole.outline, range(len(hole.outline.segments)))
    high = min(drawn_box(pen.view("", ""))[3] + 3.0 + top, box[1])
    pen.text(0, high - 0.8 * size, size, _TITLE)
    pen.text(box[0], high - 0.8 * size, BENCH, f"{scale_text(frame.scale).capitalize()}.", "end")
    paragraph(pen, 0, below - 2.0, note, box[0], BENCH)
    return pen.view("router", "Edges to be routed, and the way of the router")


def _note(everywhere: bool, holes: bool) -> str:
    which = "" if everywhere else "Dashed: not routed, no bearing runs there. "
    inside = ", clockwise inside a cut-out" if holes else ""
    return (
        f"{which}Arrows: feed, against the turning of the bit: counter-clockwise round the outside{inside}, with "
        "either face up. East is on the left here."
    )


def _edge(pen: Pen, frame: OutlineFrame, segment: Segment, *, routed: bool) -> None:
    """One edge as a line of its own, so that it may be dashed."""
    steps = 1 if not hasattr(segment, "sweep") else max(2, math.ceil(segment.length / frame.scale / 1.5))
    points = [frame.at(point_at(segment, step / steps)) for step in range(steps + 1)]
    pen.line(PANEL if routed else HIDDEN, *points)


def _feed(pen: Pen, frame: OutlineFrame, places: Places, outline: Outline, run: Sequence[int]) -> None:
    """Arrow beside an edge on the side without wood, against the way of the outline, for the page is mirrored."""
    length = sum(outline.segments[at].length for at in run) / frame.scale
    for long in (_LONG, _LONG / 2, _HEAD[0]):
        half = long / length / 2
        # where lettering leaves no room beside the edge the arrow runs along it in the wood
        for away, middle in product((_OFF, -_OFF), (0.3, 0.7, 0.5, 0.2, 0.8, 0.1, 0.9)):
            if not half <= middle <= 1 - half:
                continue
            tail = _off(frame, *along(outline, run, middle + half), away)
            tip = _off(frame, *along(outline, run, middle - half), away)
            bow = _off(frame, *along(outline, run, middle), away)
            if math.dist(bow, ((tail[0] + tip[0]) / 2, (tail[1] + tip[1]) / 2)) > _BOW:
                # round a corner or along a tight curve a straight arrow says little
                continue
            boxes = [
                _about(tail[0] + t * (tip[0] - tail[0]), tail[1] + t * (tip[1] - tail[1])) for t in _ALONG
            ]
            if all(places.free(box) for box in boxes):
                _arrow(pen, tip, tail)
                for box in boxes:
                    places.take(box)
                return


def _about(x: float, y: float) -> Box:
    return x - _HEAD[1], y - _HEAD[1], x + _HEAD[1], y + _HEAD[1]


def _arrow(pen: Pen, tip: Point, tail: Point) -> None:
    """Wide arrow that is seen from afar."""
    size = math.dist(tip, tail)
    ux, uy = (tip[0] - tail[0]) / size, (tip[1] - tail[1]) / size
    long, half = min(_HEAD[0], size / 2), _HEAD[1]
    x, y = tip[0] - ux * long, tip[1] - uy * long
    pen.line(THIN, tail, (x, y))
    pen.shape(THIN, Face(polygon((tip, (x - uy * half, y + ux * half), (x + uy * half, y - ux * half))), 0.0))


def _off(frame: OutlineFrame, point: Point, out: Point, away: float) -> Point:
    """Paper point beside a point of the edge, so far outside the wood (mm)."""
    x, y = frame.at(point)
    return x - out[0] * away, y + out[1] * away


def _hole_names(pen: Pen, frame: OutlineFrame, places: Places, holes: Sequence[CutOutEdge]) -> None:
    """Name each cut-out, with what is routed of it; the name alone where there is no room."""
    for hole in holes:
        x0, y0, x1, y1 = hole.outline.bounds
        spots = (
            (((x0 + x1) / 2, y1), (0.0, 1.0)),
            (((x0 + x1) / 2, y0), (0.0, -1.0)),
            ((x0, (y0 + y1) / 2), (-1.0, 0.0)),
            ((x1, (y0 + y1) / 2), (1.0, 0.0)),
        )
        middle = frame.at(((x0 + x1) / 2, (y0 + y1) / 2))
        said = (hole.name, "top bit only" if hole.routed else "not routed")
        for lines, height in ((said, BENCH), (said, SMALL), ((hole.name,), BENCH), ((hole.name,), SMALL)):
            if places.put(pen, lines, height, [middle]) is not None:
                break
            if put_labels(pen, frame, places, [EdgeLabel(lines, spots, height)]):
                break
