"""Pins and the zones without pins on the strip map."""

from __future__ import annotations

from typing import Final

from edgewright.cutlist.model import Piece, RingSide
from edgewright.cutlist.sheets.underside import NO_PIN_BESIDE_CORNER, Underside
from edgewright.design.checks import job_pin_choices
from edgewright.design.pins import inner_edge_room, pin_rows
from edgewright.display import show_ticks
from edgewright.drawing.paper import PINS, THIN, Pen
from edgewright.ticks import part_ticks

__all__ = ["draw_no_pin_zones", "draw_pins", "pin_note"]

_DOT: Final = 0.4


def pin_note(under: Underside, layer: int) -> str:
    """Say how to pin a layer, in one or two sentences."""
    plan = under.plan
    pin, units = job_pin_choices(plan.job)[layer - 1], plan.job.units
    if pin.length is None:
        return "No pin fits: glue and clamp only."
    row = show_ticks(pin.row_from_edge, units)
    second = "; second row staggered" if pin_rows(plan.cut_plan.strip_width_ticks) == 2 else ""
    note = (
        f"Dots: pins {show_ticks(pin.length, units)} long, about every {show_ticks(pin.spacing, units)}, "
        f"{row} or more from the finished edge{second}."
    )
    if any(plan.design.corner_radii_mm):
        beside = show_ticks(part_ticks(NO_PIN_BESIDE_CORNER.value), units)
        note += f" Hatched: no pin in a rounded corner nor within {beside} of it."
    return note


def draw_pins(pen: Pen, under: Underside, side: RingSide, piece: Piece) -> None:
    """Dot the pins of a piece, evenly spread; those in a zone without pins are left out."""
    pin, plan = job_pin_choices(under.plan.job)[side.layer - 1], under.plan.cut_plan
    if pin.length is None:
        return
    rows = [pin.row_from_edge]
    if pin_rows(plan.strip_width_ticks) == 2:
        rows.append(under.ring - inner_edge_room())
    start = side.start_offset_ticks + piece.side_start_ticks
    count = -(-piece.length_ticks // pin.spacing)
    step = piece.length_ticks / count
    zones = [
        (min(a[0], b[0]), min(a[1], b[1]), max(a[0], b[0]), max(a[1], b[1]))
        for a, b in under.no_pin_squares()
    ]
    for number, row in enumerate(rows):
        # the second row stands in the gaps of the first
        for index in range(count - number):
            x, y = under.on_side(side.side, start + step * (index + 0.5 + number / 2), row)
            if not any(x0 <= x <= x1 and y0 <= y <= y1 for x0, y0, x1, y1 in zones):
                pen.dot(PINS, *under.at(x, y), _DOT)


def draw_no_pin_zones(pen: Pen, under: Underside, layer: int) -> None:
    """Hatch the part of the ring at each rounded corner where no pin may be driven."""
    if job_pin_choices(under.plan.job)[layer - 1].length is None:
        return
    for (x, y), (x_in, y_in) in under.no_pin_squares():
        if abs(x_in - x) <= under.ring:
            ring = [(x, y), (x_in, y), (x_in, y_in), (x, y_in)]
        else:
            x_ring = x + under.ring * (1 if x_in > x else -1)
            y_ring = y + under.ring * (1 if y_in > y else -1)
            ring = [(x, y), (x_in, y), (x_in, y_ring), (x_ring, y_ring), (x_ring, y_in), (x, y_in)]
        points = [under.at(*point) for point in ring]
        pen.hatch(points, 45, 0.9)
        pen.outline(THIN, points)
