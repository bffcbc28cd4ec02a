"""Pins and the zones without pins on the strip map."""

from __future__ import annotations

from typing import Final

from edgewright.cutlist.pin_positions import pin_positions
from edgewright.cutlist.sheets.underside import Underside
from edgewright.design.checks import job_pin_choices
from edgewright.design.pin_figures import corner_clear_text, pin_row_text, pin_spacing_text
from edgewright.design.pins import pin_rows
from edgewright.display import show_ticks
from edgewright.drawing.paper import PINS, THIN, Pen

__all__ = ["draw_no_pin_zones", "draw_pins", "pin_note"]

_DOT: Final = 0.4


def pin_note(under: Underside, layer: int) -> str:
    """Say how to pin a layer, in one or two sentences."""
    plan = under.plan
    pin, units = job_pin_choices(plan.job)[layer - 1], plan.job.units
    if pin.length is None:
        return "No pin fits: glue and clamp only."
    second = "; second row staggered" if pin_rows(plan.cut_plan.strip_width_ticks) == 2 else ""
    note = (
        f"Dots: pins {show_ticks(pin.length, units)} long, about every {pin_spacing_text(pin, units)}, "
        f"{pin_row_text(pin, units)} or more from the finished edge{second}."
    )
    if any(plan.design.corner_radii_mm):
        note += f" Hatched: no pin in a rounded corner nor within {corner_clear_text(units)} of it."
    return note


def draw_pins(pen: Pen, under: Underside, layer: int) -> None:
    """Dot the pins of a layer; those in a zone without pins are left out."""
    for pin in pin_positions(under.plan.design, under.plan.cut_plan):
        if pin.layer == layer and not pin.left_out:
            pen.dot(PINS, *under.at(pin.x, pin.y), _DOT)


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
