"""What may have been misread when four sides and two diagonals do not close.

One redundancy cannot name the measurement that is wrong. Slips are seldom of any size, though: a whole inch burnt
at the hook, half an inch, one kerf, a 6 read as a 9; and opposite sides of a top are nearly always meant to be
equal. Suggestions follow from that, none is ever applied.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from edgewright.design.shapes.misclosure import CLOSES_MM, MEASURED, Measured, other_diagonal
from edgewright.display import show_mm
from edgewright.units import Units

__all__ = ["Blunder", "blunder_suggestions", "likely_blunders"]

_INCH = 25.4


@dataclass(frozen=True, slots=True)
class Blunder:
    """One reading, changed as by a usual slip, that makes the six measurements close.

    Attributes
    ----------
    number
        Which of `MEASURED`.
    slip
        What may have happened, like ``1 in short``.
    read, true
        The figure given and the one it may have been (mm).
    left
        Misclosure of the second diagonal that is left (mm).
    restores
        Whether it makes opposite sides equal, within 1/16 in, that were not so before.
    """

    number: int
    slip: str
    read: float
    true: float
    left: float
    restores: bool


def likely_blunders(measured: Measured, kerf: float, units: Units = "in") -> tuple[Blunder, ...]:
    """Single slips that close the figure within 1/16 in: first those that restore equal opposite sides.

    Parameters
    ----------
    measured
        Four sides and two diagonals in mm, see `MEASURED`.
    kerf
        The saw's kerf in mm.
    units
        What the tape reads: decides the step of a whole mark and the digits in which a 6 can be a 9.
    """
    equal_before = _equal_pairs(measured)
    found = []
    for number, read in enumerate(measured):
        tried: list[float] = []
        for slip, true in _slips(read, kerf, units):
            # a kerf of half an inch is one slip, not two
            if any(math.isclose(true, other, abs_tol=1e-6) for other in tried):
                continue
            tried.append(true)
            changed = list(measured)
            changed[number] = true
            south, east, north, west, one, other_one = changed
            again: Measured = (south, east, north, west, one, other_one)
            left = again[5] - other_diagonal(again)
            if abs(left) <= CLOSES_MM:  # never true of nan: no such figure
                restores = bool(_equal_pairs(again) - equal_before)
                found.append(Blunder(number, slip, read, true, left, restores))
    return tuple(sorted(found, key=lambda blunder: (not blunder.restores, abs(blunder.left))))


def blunder_suggestions(measured: Measured, kerf: float, units: Units = "in") -> tuple[str, ...]:
    """One sentence for each likely slip, the likeliest first; one that says so if there is none."""
    blunders = likely_blunders(measured, kerf, units)
    if not blunders:
        return ("no single slip of a usual size makes sides and diagonals close: measure all six again",)
    return tuple(_sentence(blunder, units) for blunder in blunders)


def _sentence(blunder: Blunder, units: Units) -> str:
    name = MEASURED[blunder.number]
    says = (
        f"{name} {show_mm(blunder.read, units)} may have been read {blunder.slip}: with "
        f"{show_mm(blunder.true, units)} sides and diagonals close"
    )
    if blunder.restores:
        says += " and opposite sides are equal"
    return says


def _slips(read: float, kerf: float, units: Units) -> list[tuple[str, float]]:
    """Usual slips with one reading: what happened, and what it should have read (mm)."""
    steps = (
        (("1 in", _INCH), ("1/2 in", _INCH / 2)) if units == "in" else (("100 mm", 100.0), ("10 mm", 10.0))
    )
    slips = []
    for name, step in (*steps, ("one kerf", kerf)):
        if step > 0:
            slips += [(f"{name} short", read + step), (f"{name} long", read - step)]
    unit = _INCH if units == "in" else 1.0
    # a hair more, so that 36 in that came out as 35.999... keeps its digits
    whole = math.floor(read / unit + 1e-6)
    digits = str(whole)
    for at, digit in enumerate(digits):
        if digit in "69":
            swapped = "9" if digit == "6" else "6"
            other = int(digits[:at] + swapped + digits[at + 1 :])
            slips.append((f"with a {swapped} taken for a {digit}", read + (other - whole) * unit))
    return [(slip, true) for slip, true in slips if true > 0]


def _equal_pairs(measured: Measured) -> frozenset[int]:
    """Which pairs of opposite sides are equal: 0 south and north, 1 east and west."""
    return frozenset(pair for pair in (0, 1) if abs(measured[pair] - measured[pair + 2]) <= CLOSES_MM)
