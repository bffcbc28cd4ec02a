"""Where the pins of a build-up under any outline stand: one list that the ring map draws and the bill counts.

Positions are mm in the frame of the top, seen from above.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from edgewright.cutlist.ring_corners import rounded_corners
from edgewright.design.anytop.model import ShapedDesign
from edgewright.design.buildup.ring_model import RingPiece
from edgewright.design.checks import job_pin_choices
from edgewright.design.outline import Point, Segment
from edgewright.design.pins import PinChoice, inner_edge_room
from edgewright.design.segments import distance, winding
from edgewright.ticks import ticks_to_mm

__all__ = ["RingPin", "ring_pins"]

#: Halvings of the depth at which a pin is far enough from the edge.
_HALVINGS: Final = 24


@dataclass(frozen=True, slots=True)
class RingPin:
    """A pin (mm), or a place where one would stand but for a rounded corner or for want of room."""

    at: Point
    layer: int
    piece_id: str
    left_out: bool


def ring_pins(design: ShapedDesign) -> tuple[RingPin, ...]:
    """Pins of every flat piece whose layer takes one, evenly along it, at least two in a piece.

    Each stands as far from the finished edge as its row must, measured square, and leaves the wood to the piece's inner
    edge that keeps it from splitting. One that has no such place, or would stand in or beside a corner that is going to
    be rounded, is left out: glue and clamp there.
    """
    if not any(piece.kind != "skirt" for piece in design.pieces):
        return ()
    choices = job_pin_choices(design.job)
    corners = rounded_corners(design)
    edges = design.finished.outline.segments
    found = []
    for piece in design.pieces:
        if piece.kind == "skirt":
            continue
        pin = choices[piece.layer - 1]
        if pin.length is None:
            continue
        for outer, inner in _lines(piece, ticks_to_mm(pin.spacing)):
            at = _in_row(design, edges, outer, inner, pin)
            place = outer if at is None else at
            free = at is not None and not any(corner.near(place) for corner in corners)
            found.append(RingPin(place, piece.layer, piece.id, not free))
    return tuple(found)


def _lines(piece: RingPiece, spacing: float) -> Iterator[tuple[Point, Point]]:
    """Lines across the piece, from its outer to its inner edge, evenly spaced."""
    count = max(2, math.ceil(piece.blank_length / spacing - 1e-9))
    block = piece.kind in ("corner block", "inside block")
    for number in range(count):
        share = (number + 0.5) / count
        if block:
            yield _between(*piece.joints, share), _middle(piece.plan)
        else:
            first, second, third, fourth = piece.plan
            yield _between(first, second, share), _between(fourth, third, share)


def _in_row(
    design: ShapedDesign, edges: Sequence[Segment], outer: Point, inner: Point, pin: PinChoice
) -> Point | None:
    """First place on the way inwards that is a row's distance from the finished edge; None where none is."""
    row, room, wide = ticks_to_mm(pin.row_from_edge), ticks_to_mm(inner_edge_room()), math.dist(outer, inner)
    low, high = 0.0, max(wide - room, 0.0) / max(wide, 1e-9)
    # what lies further off than the whole way and a row cannot be too near anywhere on it
    near = [edge for edge in edges if distance(edge, outer) <= wide + row]

    def clear(share: float) -> bool:
        point = _between(outer, inner, share)
        return min((distance(edge, point) for edge in near), default=math.inf) >= row - 1e-6

    def inside(share: float) -> bool:
        return clear(share) and winding(design.finished.outline, _between(outer, inner, share)) != 0

    if not inside(high):
        return None
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (low, middle) if inside(middle) else (middle, high)
    return _between(outer, inner, high)


def _between(a: Point, b: Point, share: float) -> Point:
    return a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])


def _middle(points: Sequence[Point]) -> Point:
    return sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points)
