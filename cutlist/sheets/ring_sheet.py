"""Ring map: the underside of a top of any outline with the pieces of its build-up, one figure for each layer."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from edgewright.cutlist.sheets.common import check_box, heading, heading_height, paragraph, paragraph_height
from edgewright.cutlist.sheets.outline_frame import OutlineFrame, edge_labels, framed, put_labels
from edgewright.cutlist.sheets.places import Places, block_size
from edgewright.design.anytop.model import ShapedDesign
from edgewright.design.buildup.ring_model import RingPiece
from edgewright.design.outline import Point
from edgewright.design.segments import winding
from edgewright.drawing.paper import HIDDEN, KEEP, PANEL, PaperBox, Pen, scale_text
from edgewright.drawing.svg import drawn_box
from edgewright.drawing.view import View

__all__ = ["ring_figures"]

_LABEL: Final = 3.6


def ring_figures(design: ShapedDesign, box: PaperBox = (180.0, 130.0)) -> tuple[View, ...]:
    """Draw the ring of each layer with the top face down.

    Parameters
    ----------
    design
        Its pieces are drawn as they are glued on, before they are trimmed flush; none without a build-up.
    box
        Width and height that each figure may fill, paper mm, at least 150 x 100.

    Raises
    ------
    GeometryError
        For a box that is too small.
    """
    check_box(box)
    layers = sorted({piece.layer for piece in design.pieces})
    return tuple(
        _layer(design, [piece for piece in design.pieces if piece.layer == layer], layer, len(layers), box)
        for layer in layers
    )


def _layer(design: ShapedDesign, pieces: Sequence[RingPiece], layer: int, layers: int, box: PaperBox) -> View:
    which = (
        "" if layers == 1 else f", layer {layer} of {layers}, {'at the top' if layer == 1 else 'below it'}"
    )
    skirt = any(piece.kind == "skirt" for piece in pieces)
    title = f"UNDERSIDE: {'skirt' if skirt else 'ring of strips'}{which}"
    xs = [x for piece in pieces for x, _ in piece.plan]
    ys = [y for piece in pieces for _, y in piece.plan]
    x0, y0, x1, y1 = design.region.bounds
    bounds = (min(x0, *xs), min(y0, *ys), max(x1, *xs), max(y1, *ys))
    top = heading_height(box, title, _lines(12.5))
    below = 2 * paragraph_height("x", box[0]) + 2
    room = (box[0], box[1] - top - below - 4.0)
    labels = edge_labels(design.finished.outline, design.finished.names)
    frame, places = framed(
        bounds, design.region.loops, labels, room, (0.0, below), [piece.plan for piece in pieces]
    )
    pen = Pen()
    for outline in design.region.loops:
        pen.shape(KEEP, frame.loop(outline))
    for seam in design.panel_seams:
        pen.line(HIDDEN, frame.at(seam.start), frame.at(seam.end))
        places.keep_clear((frame.at(seam.start), frame.at(seam.end)))
    for piece in pieces:
        pen.outline(PANEL, frame.points(piece.plan))
    put_labels(pen, frame, places, labels)
    crowded = [piece for piece in pieces if not _label(pen, frame, places, piece, design)]
    note = _note(crowded, skirt)
    paragraph(pen, 0, paragraph_height(note, box[0]), note, box[0])
    high = drawn_box(pen.view("", ""))[3] + 3.0
    heading(pen, (box[0], min(high + top, box[1])), title, _lines(frame.scale))
    return pen.view(f"ring_{layer}", title)


def _lines(scale: float) -> list[str]:
    return [
        "Top face DOWN, seen from above as it lies: east is on the left, west on the right.",
        f"{scale_text(scale).capitalize()}. Numbers are those of the pieces.",
    ]


def _note(crowded: Sequence[RingPiece], skirt: bool) -> str:
    note = (
        "Pieces are drawn as glued on, before their ends and outer edges are trimmed flush with the top."
        if not skirt
        else "The skirt stands on edge."
    )
    if crowded:
        names = ", ".join(piece.id for piece in crowded)
        note += f" No room for {names}: numbers run counter-clockwise seen from the face, clockwise here."
    return note


def _label(pen: Pen, frame: OutlineFrame, places: Places, piece: RingPiece, design: ShapedDesign) -> bool:
    """Write the piece's name in its middle or, where it is too narrow, beside it inside the ring."""
    points = frame.points(piece.plan)
    wide, high = block_size((piece.id,), _LABEL)
    if piece.kind == "skirt":
        # the plan of a bent skirt may go all the way round: its name stands inside its first stretch
        middle = ((points[0][0] + points[1][0]) / 2, (points[0][1] + points[1][1]) / 2)
        ways = [_unit(points[0], points[1])]
    else:
        middle = _middle(points)
        ways = [_unit(a, b) for a, b in _longest(points)]
    spots = [middle]
    for ux, uy in ways:
        normal = (-uy, ux)
        half = max(abs((x - middle[0]) * normal[0] + (y - middle[1]) * normal[1]) for x, y in points)
        half = min(half, 12.0)
        length = max(math.dist(a, b) for a, b in _longest(points))
        away = half + (abs(normal[0]) * wide + abs(normal[1]) * high) / 2 + 0.8
        for side in (1, -1):
            for more in (0.0, 1.5, 4.0):
                for slide in (0.0, 5.0, -5.0, 10.0, -10.0):
                    spot = (
                        middle[0] + side * normal[0] * (away + more) + slide * ux,
                        middle[1] + side * normal[1] * (away + more) + slide * uy,
                    )
                    if abs(slide) <= length / 2 and _inside(frame, spot, design):
                        spots.append(spot)
    return places.put(pen, (piece.id,), _LABEL, spots) is not None


def _longest(points: Sequence[Point]) -> list[tuple[Point, Point]]:
    pairs = list(zip(points, [*points[1:], points[0]], strict=True))
    return [max(pairs, key=lambda pair: math.dist(*pair))]


def _unit(a: Point, b: Point) -> Point:
    size = math.dist(a, b) or 1.0
    return (b[0] - a[0]) / size, (b[1] - a[1]) / size


def _inside(frame: OutlineFrame, spot: Point, design: ShapedDesign) -> bool:
    """Whether a place of the page lies in the finished top."""
    x = frame.bounds[2] - (spot[0] - frame.left) * frame.scale
    y = frame.bounds[1] + (spot[1] - frame.bottom) * frame.scale
    return bool(winding(design.finished.outline, (x, y)))


def _middle(points: Sequence[Point]) -> Point:
    return sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points)
