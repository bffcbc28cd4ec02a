"""Where the pins stand: one list that the strip map draws and the bill counts.

Positions are ticks in the underside frame: x from the east edge to the west edge, y from south to north, with
the top face down.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from edgewright.compass import CORNER_SIDES, CORNERS, Side, ends_of
from edgewright.cutlist.model import CutPlan, Piece, RingSide
from edgewright.design.checks import job_pin_choices
from edgewright.design.model import Design
from edgewright.design.pin_figures import CORNER_CLEAR_MM
from edgewright.design.pins import CORNER_PINS, PinChoice, inner_edge_room, pin_rows
from edgewright.ticks import TICKS_PER_MM

__all__ = ["PinPosition", "Square", "no_pin_squares", "pin_positions", "place_on_side"]

Square = tuple[tuple[float, float], tuple[float, float]]

_LEAST_STEP: Final = 1e-9


@dataclass(frozen=True, slots=True)
class PinPosition:
    """A pin, or a place where one would stand but for a rounded corner.

    Attributes
    ----------
    x, y
        Ticks, see the module.
    layer
        1 lies against the top.
    piece_id
        The piece that it goes through.
    at_corner
        Whether it is one of those that hold the end of a butted strip.
    left_out
        Whether it would stand in or beside a rounded corner and is not driven.
    """

    x: float
    y: float
    layer: int
    piece_id: str
    at_corner: bool
    left_out: bool


def place_on_side(size: tuple[int, int], side: Side, along: float, inwards: float) -> tuple[float, float]:
    """Underside position of a place along a side (from west or south) and inwards from the finished edge."""
    length, width = size
    return {
        "north": (length - along, width - inwards),
        "south": (length - along, inwards),
        "east": (inwards, along),
        "west": (length - inwards, along),
    }[side]


def no_pin_squares(design: Design, size: tuple[int, int]) -> Iterator[Square]:
    """Squares at rounded corners where no pin may be driven: the finished corner, and the one inside."""
    length, width = size
    for corner, radius in zip(CORNERS, design.corner_radii_mm, strict=True):
        if radius > 0:
            reach = (radius + CORNER_CLEAR_MM) * TICKS_PER_MM
            upright, flat = CORNER_SIDES[corner]
            x, inward_x = (0.0, reach) if flat == "east" else (length, -reach)
            y, inward_y = (0.0, reach) if upright == "south" else (width, -reach)
            yield (x, y), (x + inward_x, y + inward_y)


def pin_positions(design: Design, plan: CutPlan) -> tuple[PinPosition, ...]:
    """List the pins of every layer that takes a pin, those that rounded corners leave out too.

    Along each piece they stand evenly, no farther apart than the job's spacing; a second row stands in the
    gaps of the first. The end of a butted strip at a square corner gets two more in the first row.

    Parameters
    ----------
    design
        Gives pins and corner radii.
    plan
        Gives sides and pieces; without pieces there are no pins.
    """
    zones = [
        (min(a[0], b[0]), min(a[1], b[1]), max(a[0], b[0]), max(a[1], b[1]))
        for a, b in no_pin_squares(design, plan.finished_ticks)
    ]
    choices = job_pin_choices(design.job)
    sides = {side.id: side for side in plan.sides}
    found = []
    for piece in plan.pieces:
        side = sides[piece.side_id]
        pin = choices[side.layer - 1]
        if pin.length is None:
            continue
        for along, inwards, at_corner in (*_rows(plan, side, piece, pin), *_ends(design, side, piece, pin)):
            x, y = place_on_side(plan.finished_ticks, side.side, along, inwards)
            left_out = any(x0 <= x <= x1 and y0 <= y <= y1 for x0, y0, x1, y1 in zones)
            found.append(PinPosition(x, y, side.layer, piece.id, at_corner, left_out))
    return tuple(found)


def _rows(plan: CutPlan, side: RingSide, piece: Piece, pin: PinChoice) -> Iterator[tuple[float, float, bool]]:
    """Pins along a piece: along the side, inwards, and that they are not at a corner."""
    start = side.start_offset_ticks + piece.side_start_ticks
    rows = [pin.row_from_edge]
    if pin_rows(plan.strip_width_ticks) == 2:
        rows.append(plan.strip_width_ticks - plan.proud_ticks - inner_edge_room())
    count = _in_one_row(piece, pin)
    for number, inwards in enumerate(rows):
        # at a mitre the row is shorter than the long edge
        back = inwards + plan.proud_ticks
        first = start + (back if piece.start_cut == "mitre" else 0)
        last = start + piece.length_ticks - (back if piece.end_cut == "mitre" else 0)
        step = (last - first) / count
        if step > _LEAST_STEP:
            for index in range(count):
                yield first + step * (index + (number + 0.5) / len(rows)), inwards, False


def _ends(
    design: Design, side: RingSide, piece: Piece, pin: PinChoice
) -> Iterator[tuple[float, float, bool]]:
    """More pins where the piece's end butts against a through strip at a square corner."""
    ends = ends_of(side.side)
    begin, end = ends
    rounded = {
        frozenset(CORNER_SIDES[corner]): radius > 0
        for corner, radius in zip(CORNERS, design.corner_radii_mm, strict=True)
    }
    start = side.start_offset_ticks + piece.side_start_ticks
    # the pin next to the end stands half a step from it; these share that way evenly
    way = piece.length_ticks / _in_one_row(piece, pin) / 2 / (CORNER_PINS.value + 1)
    for at_end, beside, offset in (
        (piece.side_start_ticks == 0, begin, side.start_offset_ticks),
        (piece.side_start_ticks + piece.length_ticks == side.length_ticks, end, side.end_offset_ticks),
    ):
        # a butted strip begins where the through strip ends
        if at_end and offset > 0 and not rounded[frozenset((side.side, beside))]:
            for number in range(1, CORNER_PINS.value + 1):
                away = way * number
                along = start + away if beside == begin else start + piece.length_ticks - away
                yield along, pin.row_from_edge, True


def _in_one_row(piece: Piece, pin: PinChoice) -> int:
    """Count a part of a spacing as a whole one."""
    return -(-piece.length_ticks // pin.spacing)
