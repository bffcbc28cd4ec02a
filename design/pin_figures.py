"""Figures of the pins in words: everywhere the same, each rounded to its safe side."""

from __future__ import annotations

from typing import Final

from edgewright.design.check_figures import at_least, inches, trade_least
from edgewright.design.pins import PinChoice
from edgewright.display import show_ticks
from edgewright.ticks import TICKS_PER_MM, snap_nearest
from edgewright.units import Units

__all__ = ["CORNER_CLEAR_MM", "corner_clear_text", "pin_row_text", "pin_spacing_text"]

CORNER_CLEAR_MM: Final = inches(1)
"""No pin nearer than this to a corner that will be rounded (common practice, no source)."""


def pin_spacing_text(pin: PinChoice, units: Units) -> str:
    """From pin to pin; what the trade states in inches is near enough in whole millimetres."""
    return show_ticks(pin.spacing if units == "in" else snap_nearest(pin.spacing, TICKS_PER_MM), units)


def pin_row_text(pin: PinChoice, units: Units) -> str:
    """Nearest that the row may stand to the finished edge, rounded up."""
    return at_least(pin.row_from_edge, units)


def corner_clear_text(units: Units) -> str:
    """How far beside a rounded corner no pin may stand, rounded up."""
    return trade_least(CORNER_CLEAR_MM, units)
