"""Cut-outs on a sheet: name, size, and the place of the centre from two edges of the finished top."""

from __future__ import annotations

import math
from typing import Final

from edgewright.cutlist.sheets.common import SMALL
from edgewright.cutlist.sheets.outline_frame import OutlineFrame
from edgewright.cutlist.sheets.places import Places, block_size
from edgewright.cutlist.sheets.square_places import FromEdge, square_places
from edgewright.cutlist.sheets.wall import BENCH
from edgewright.design.anytop.model import ShapedDesign
from edgewright.design.outline import Arc, Line, Outline, Point
from edgewright.display import show_mm
from edgewright.drawing.paper import THIN, Pen
from edgewright.units import Units

__all__ = ["cut_out_marks", "cut_out_size"]

_CROSS: Final = 1.6


def cut_out_size(outline: Outline, units: Units) -> str:
    """Say what a cut-out measures: a circle's diameter, a rectangle's sides and corners, else the box around it."""
    edges = outline.segments
    first = edges[0]
    if isinstance(first, Arc) and all(
        isinstance(edge, Arc) and math.dist(edge.centre, first.centre) < 1e-6 for edge in edges
    ):
        return f"round, {show_mm(2 * first.radius, units)} across"
    lines = [edge for edge in edges if isinstance(edge, Line)]
    radii = {round(edge.radius, 6) for edge in edges if isinstance(edge, Arc)}
    if len(lines) == 4 and len(radii) <= 1 and _square(lines):
        ends = 2 * max(radii, default=0.0)
        # the sides of a rectangle, lengthened by the corners that are rounded off
        sides = sorted(((abs(_way(line)[0]), line.length + ends) for line in lines[:2]), reverse=True)
        corners = f", corners R {show_mm(max(radii), units)}" if radii else ""
        turn = math.degrees(math.atan2(_way(lines[0])[1], _way(lines[0])[0])) % 90
        turned = "" if min(turn, 90 - turn) < 0.005 else f", turned {turn if turn <= 45 else turn - 90:.2f}°"
        return f"{show_mm(sides[0][1], units)} x {show_mm(sides[1][1], units)}{corners}{turned}"
    x0, y0, x1, y1 = outline.bounds
    return (
        f"within {show_mm(x1 - x0, units)} x {show_mm(y1 - y0, units)}, as drawn in the DXF file of the top"
    )


def _way(line: Line) -> Point:
    (ax, ay), (bx, by) = line.start, line.end
    return (bx - ax) / line.length, (by - ay) / line.length


def _square(lines: list[Line]) -> bool:
    """Whether each side stands square on the one before it."""
    ways = [_way(line) for line in lines]
    after = (*ways[1:], ways[0])
    return all(abs(a[0] * b[0] + a[1] * b[1]) < 1e-9 for a, b in zip(ways, after, strict=True))


def cut_out_marks(pen: Pen, frame: OutlineFrame, places: Places, design: ShapedDesign) -> None:
    """Mark the centre of each cut-out with its distances from two edges, and write its name."""
    feet: list[Point] = []
    for hole in design.cut_outs:
        middle = hole.outline.middle
        x, y = frame.at(middle)
        pen.line(THIN, (x - _CROSS, y), (x + _CROSS, y))
        pen.line(THIN, (x, y - _CROSS), (x, y + _CROSS))
        places.take((x - _CROSS, y - _CROSS, x + _CROSS, y + _CROSS))
        for place in square_places(design.finished, middle):
            _distance(pen, frame, places, middle, place, design.job.units, feet)
        x0, y0, x1, y1 = hole.outline.bounds
        wide, high = block_size((hole.name,), BENCH)
        half = (y1 - y0) / frame.scale / 2
        across = (x1 - x0) / frame.scale / 2
        spots = [
            (x, y + 2.2 + high / 2),
            (x, y - 2.2 - high / 2),
            (x, y + half + 1 + high / 2),
            (x, y - half - 1 - high / 2),
            (x + across + 1 + wide / 2, y),
            (x - across - 1 - wide / 2, y),
        ]
        places.put(pen, (hole.name,), BENCH, spots) or places.put(
            pen, (hole.name,), BENCH, spots, over_lines=True
        )


def _distance(
    pen: Pen,
    frame: OutlineFrame,
    places: Places,
    middle: Point,
    place: FromEdge,
    units: Units,
    feet: list[Point],
) -> None:
    """Dimension line from the edge to the centre, its figure on it."""
    a, b = frame.at(place.foot), frame.at(middle)
    if math.dist(a, b) < 6:
        return
    pen.line(THIN, a, b)
    # two cut-outs may be measured from one place of an edge
    if all(math.dist(a, foot) > 0.5 for foot in feet):
        pen.arrow(a, b)
        feet.append(a)
    pen.arrow(b, a)
    text = (show_mm(place.distance, units),)
    ux, uy = (b[0] - a[0]) / math.dist(a, b), (b[1] - a[1]) / math.dist(a, b)
    # on white on the line where that hides no other line, else beside it
    spots = {}
    for height in (BENCH, SMALL):
        wide, high = block_size(text, height)
        aside = (abs(uy) * wide + abs(ux) * high) / 2 + 0.8
        spots[height] = [
            (a[0] + t * (b[0] - a[0]) - side * uy * aside, a[1] + t * (b[1] - a[1]) + side * ux * aside)
            for side in (0, 1, -1)
            for t in (0.5, 0.4, 0.6, 0.3, 0.7)
        ]
    # the line itself is not yet among those to keep clear of
    for over in (False, True):
        if any(
            places.put(pen, text, height, places_there, white=not over, over_lines=over) is not None
            for height, places_there in spots.items()
        ):
            break
    places.keep_clear((a, b))
