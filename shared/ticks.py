"""Whole ticks for cut lists: one tick is 1/320 mm, so inch fractions and tenths of a millimetre are both whole.

1 in = 8128 ticks, 1/64 in = 127 ticks, 0.1 mm = 32 ticks. What is not whole (decimal inches) is rounded by a
named rule: parts and kerf up, stock down, so that a plan in ticks can always be cut from the real wood.
"""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Final

__all__ = [
    "TICKS_PER_INCH",
    "TICKS_PER_MM",
    "TICK_MM",
    "nearest_ticks",
    "part_ticks",
    "snap_down",
    "snap_nearest",
    "snap_up",
    "stock_ticks",
    "ticks_to_mm",
]

TICKS_PER_MM: Final = 320
TICKS_PER_INCH: Final = 8128
TICK_MM: Final = 1 / TICKS_PER_MM


def part_ticks(mm: Fraction) -> int:
    """Ticks of a part or a kerf, rounded up (mm, exact)."""
    return math.ceil(mm * TICKS_PER_MM)


def stock_ticks(mm: Fraction) -> int:
    """Ticks of stock, rounded down (mm, exact)."""
    return math.floor(mm * TICKS_PER_MM)


def nearest_ticks(mm: Fraction) -> int:
    """Nearest whole ticks, halves up (mm, exact); for positions, which are neither part nor stock."""
    return math.floor(mm * TICKS_PER_MM + Fraction(1, 2))


def ticks_to_mm(ticks: int) -> float:
    """Millimetres of whole ticks."""
    return ticks / TICKS_PER_MM


def snap_down(ticks: int, grid: int) -> int:
    """Largest multiple of the bench grid that is at most ``ticks``."""
    return ticks // grid * grid


def snap_up(ticks: int, grid: int) -> int:
    """Smallest multiple of the bench grid that is at least ``ticks``."""
    return -(-ticks // grid) * grid


def snap_nearest(ticks: int, grid: int) -> int:
    """Nearest multiple of the bench grid, halves up."""
    return (2 * ticks + grid) // (2 * grid) * grid
