"""The strip map: where each piece lies, seen from below with the top face down.

Strips are fitted with the top turned over about its north-south axis, so west and east trade places:
``x_underside = finished length - x_above``.
"""

from __future__ import annotations

from collections.abc import Sequence

from edgewright.cutlist.model import MapStrip, Piece, RingSide

__all__ = ["strip_map"]


def strip_map(
    finished: tuple[int, int],
    proud: int,
    strip_width: int,
    sides: Sequence[RingSide],
    pieces: Sequence[Piece],
) -> tuple[MapStrip, ...]:
    """One box for each piece in the underside frame, ticks, in the order of the pieces."""
    length, width = finished
    side_of = {side.id: side for side in sides}
    boxes = []
    for piece in pieces:
        side = side_of[piece.side_id]
        start = side.start_offset_ticks + piece.side_start_ticks
        end = start + piece.length_ticks
        inner = strip_width - proud
        x0, y0, x1, y1 = {
            "north": (start, width - inner, end, width + proud),
            "south": (start, -proud, end, inner),
            "west": (-proud, start, inner, end),
            "east": (length - inner, start, length + proud, end),
        }[side.side]
        boxes.append(MapStrip(piece.id, length - x1, y0, length - x0, y1))
    return tuple(boxes)
