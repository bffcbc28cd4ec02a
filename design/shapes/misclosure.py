"""The one redundancy of four sides and two diagonals: five of them predict the sixth."""

from __future__ import annotations

import math
from typing import Final

from edgewright.design.outline import Point
from edgewright.design.shapes.model import TAPE_MM
from edgewright.trade import inch

__all__ = [
    "BLUNDER_MM",
    "CLOSES_MM",
    "MEASURED",
    "TRIANGLES",
    "Measured",
    "other_diagonal",
    "placed_corners",
]

#: South, east, north, west side, then the two diagonals (mm).
Measured = tuple[float, float, float, float, float, float]

MEASURED: Final = (
    "south side",
    "east side",
    "north side",
    "west side",
    "south-west to north-east diagonal",
    "south-east to north-west diagonal",
)

#: Triples of measurements that make a triangle.
TRIANGLES: Final = ((0, 1, 4), (2, 3, 4), (3, 0, 5), (1, 2, 5))

#: A diagonal that is predicted from tapes good to 1/32 in lies within 1/16 in (common practice, no source).
CLOSES_MM: Final = 2 * TAPE_MM

#: A diagonal further off than this tells of a reading that is wrong, not of the tape: an inch burnt on the shorter
#: side of a top of 72 by 36 moves it by 0.45 in, on any other line further (choice of this program).
BLUNDER_MM: Final = float(inch("1/4"))


def placed_corners(measured: Measured) -> tuple[Point, Point, Point, Point]:
    """Corners SW, SE, NE, NW (mm) from all but the last measurement; nan where a triangle does not close."""
    south, east, north, west, diagonal, _ = measured
    low = _corner_angle(south, diagonal, east)
    high = low + _corner_angle(diagonal, west, north)
    return (
        (0.0, 0.0),
        (south, 0.0),
        (diagonal * math.cos(low), diagonal * math.sin(low)),
        (west * math.cos(high), west * math.sin(high)),
    )


def other_diagonal(measured: Measured) -> float:
    """South-east to north-west diagonal (mm) that the other five measurements predict; nan if they cannot."""
    _, south_east, _, north_west = placed_corners(measured)
    return math.dist(south_east, north_west)


def _corner_angle(one: float, other: float, far: float) -> float:
    """Angle (radians) between two sides of a triangle from the cosine rule; nan if it does not close."""
    if not (one > 0 and other > 0):
        return math.nan
    cosine = (one * one + other * other - far * far) / (2 * one * other)
    return math.acos(cosine) if -1 < cosine < 1 else math.nan
