"""Ring map: the underside of a top of any outline with the pieces of its build-up, one figure for each layer."""

from __future__ import annotations

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
from edgewright.cutlist.sheets.outline_frame import OutlineFrame, edge_labels, framed
from edgewright.design.anytop.model import ShapedDesign
from edgewright.design.buildup.ring_model import RingPiece
from edgewright.design.outline import Point
from edgewright.drawing.lettering import ASCENT, DESCENT, text_width
from edgewright.drawing.paper import HIDDEN, KEEP, LETTERING, PANEL, THIN, PaperBox, Pen, polygon, scale_text
from edgewright.drawing.view import Face, Note, View

__all__ = ["ring_figures"]

#: Room around the wood for the names of the edges (paper mm).
_OUT: Final = 9.0
_LABEL: Final = 3.6


def ring_figures(design: ShapedDesign, box: PaperBox = (180.0, 130.0)) -> tuple[View, ...]:
    """Draw the ring of each layer with the top face down.

    Parameters
    ----------
    design
        Its pieces are drawn as they are glued on, before they are trimmed flush; none without a flat ring.
    box
        Width and height that each figure may fill, paper mm, at least 150 x 100.

    Raises
    ------
    GeometryError
        For a box that is too small.
    """
    check_box(box)
    flat = [piece for piece in design.pieces if piece.kind != "skirt"]
    layers = sorted({piece.layer for piece in flat})
    return tuple(
        _layer(design, [piece for piece in flat if piece.layer == layer], layer, len(layers), box)
        for layer in layers
    )


def _layer(design: ShapedDesign, pieces: Sequence[RingPiece], layer: int, layers: int, box: PaperBox) -> View:
    which = "" if layers == 1 else f", layer {layer} of {layers}"
    title = f"UNDERSIDE: ring of strips{which}"
    frame, height = _place(design, pieces, title, box)
    pen = Pen()
    lines = _lines(frame.scale)
    heading(pen, (box[0], height), title, lines)
    for outline in design.region.loops:
        pen.shape(KEEP, frame.loop(outline))
    for seam in design.panel_seams:
        pen.line(HIDDEN, frame.at(seam.start), frame.at(seam.end))
    for piece in pieces:
        pen.outline(PANEL, frame.points(piece.plan))
    edge_labels(pen, frame, design.finished.outline, design.finished.names)
    crowded = [piece for piece in pieces if not _label(pen, frame, piece)]
    note = _note(crowded)
    paragraph(pen, 0, paragraph_height(note, box[0]), note, box[0])
    return pen.view(f"ring_{layer}", title)


def _place(
    design: ShapedDesign, pieces: Sequence[RingPiece], title: str, box: PaperBox
) -> tuple[OutlineFrame, float]:
    """Frame of the wood, and the height that the figure needs of its box."""
    below = 2 * SMALL * 1.35 + 2
    top = heading_height(box, title, _lines(12.5))
    x0, y0, x1, y1 = design.region.bounds
    xs = [x0, x1, *(x for piece in pieces for x, _ in piece.plan)]
    ys = [y0, y1, *(y for piece in pieces for _, y in piece.plan)]
    bounds = (min(xs), min(ys), max(xs), max(ys))
    room = (box[0] - 2 * _OUT, box[1] - top - below - 2 * _OUT)
    frame = framed(bounds, room, (_OUT, below + _OUT))
    if frame is None:
        frame = OutlineFrame(bounds, _OUT, below + _OUT, 200.0)
    # the height that is not needed is left
    height = below + 2 * _OUT + frame.size[1] + top
    return OutlineFrame(bounds, frame.left, below + _OUT, frame.scale), height


def _lines(scale: float) -> list[str]:
    return [f"Seen with the top face down: east is left, west is right. {scale_text(scale)}."]


def _note(crowded: Sequence[RingPiece]) -> str:
    note = "Pieces are drawn as glued on, square blanks; the outer edge is trimmed flush with the top."
    if crowded:
        names = ", ".join(piece.id for piece in crowded)
        note += f" No room for the names of {names}: they follow counter-clockwise seen from above."
    return note


def _label(pen: Pen, frame: OutlineFrame, piece: RingPiece) -> bool:
    """Write the piece's name in its middle, on white, along its longer direction; False where it has no room."""
    points = frame.points(piece.plan)
    x, y = _middle(points)
    wide = text_width(piece.id, _LABEL)
    along = max(
        ((b[0] - a[0], b[1] - a[1]) for a, b in zip(points, [*points[1:], points[0]], strict=True)),
        key=lambda d: d[0] ** 2 + d[1] ** 2,
    )
    if (along[0] ** 2 + along[1] ** 2) ** 0.5 < wide + 0.6:
        return False
    half_w, half_h = wide / 2 + 0.5, (ASCENT + DESCENT) * _LABEL / 2
    white = (
        (x - half_w, y - half_h),
        (x + half_w, y - half_h),
        (x + half_w, y + half_h),
        (x - half_w, y + half_h),
    )
    pen.shape(THIN, Face(polygon(white), 1.0))
    pen.shape(LETTERING, Note(x, y - half_h + DESCENT * _LABEL, _LABEL, piece.id, "middle"))
    return True


def _middle(points: Sequence[Point]) -> Point:
    return sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points)
