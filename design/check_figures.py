"""How bench checks compare and show their figures.

Checks compare millimetres; a bound that is met exactly passes, whatever binary floats make of it.
"""

from __future__ import annotations

import math

from edgewright.design.outline import FIT_MM
from edgewright.display import SHOWN_TICKS, show_mm, show_ticks
from edgewright.ticks import TICKS_PER_MM, snap_down, snap_up
from edgewright.units import Units

__all__ = [
    "at_least",
    "at_most",
    "exceeds",
    "inches",
    "shown",
    "shown_down",
    "shown_up",
    "trade_least",
    "trade_most",
]


def exceeds(value_mm: float, bound_mm: float) -> bool:
    """Whether a figure is beyond its bound by more than float rounding."""
    return value_mm > bound_mm + FIT_MM


def inches(figure: float) -> float:
    """Millimetres of a bound that the trade states in inches (1 in = 25.4 mm exactly)."""
    return figure * 25.4


def shown(mm: float, units: Units) -> str:
    """Show a length in the job's units, with ``~`` in front where it is rounded, to 1/64 in or 0.1 mm."""
    text = show_ticks(round(mm * TICKS_PER_MM), units)
    return f"~{show_mm(mm, units)}" if text.startswith("~") else text


def shown_up(mm: float, units: Units) -> str:
    """Show a lower bound so that what is shown keeps it: rounded up to 1/64 in or 0.1 mm."""
    return show_ticks(snap_up(math.ceil((mm - FIT_MM) * TICKS_PER_MM), SHOWN_TICKS[units]), units)


def shown_down(mm: float, units: Units) -> str:
    """Show an upper bound so that what is shown keeps it: rounded down to 1/64 in or 0.1 mm."""
    return show_ticks(snap_down(math.floor((mm + FIT_MM) * TICKS_PER_MM), SHOWN_TICKS[units]), units)


def at_least(ticks: int, units: Units) -> str:
    """Show a lower bound held in ticks, rounded up to 1/64 in or 0.1 mm."""
    return show_ticks(snap_up(ticks, SHOWN_TICKS[units]), units)


def at_most(ticks: int, units: Units) -> str:
    """Show an upper bound held in ticks, rounded down to 1/64 in or 0.1 mm."""
    return show_ticks(snap_down(ticks, SHOWN_TICKS[units]), units)


def trade_least(mm: float, units: Units) -> str:
    """Show a lower bound that the trade states in inches; in a metric job as the next whole millimetre."""
    return shown(mm, "in") if units == "in" else f"{math.ceil(mm - FIT_MM)} mm"


def trade_most(mm: float, units: Units) -> str:
    """Show an upper bound that the trade states in inches; in a metric job as the last whole millimetre."""
    return shown(mm, "in") if units == "in" else f"{math.floor(mm + FIT_MM)} mm"
