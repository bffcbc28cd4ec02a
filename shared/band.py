"""A figure that is not known exactly: what is expected, and the least and the most it may be.

Bands add and multiply by their extremes, so that the lines of a bill add up: the low of a sum is the sum of
the lows. What is *likely* is another matter, for not everything goes wrong at once; see `likely_band`.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from edgewright.errors import InputError

__all__ = ["Band", "Factor", "likely_band", "total_band"]

NORMAL_90: Final = 1.645
"""Half-width of the central 90 % of a normal distribution, in standard deviations."""


@dataclass(frozen=True, slots=True)
class Band:
    """``low <= expected <= high``, all finite and in one unit.

    Raises
    ------
    InputError
        If the three are not finite or not in order.
    """

    low: float
    expected: float
    high: float

    def __post_init__(self) -> None:
        finite = all(math.isfinite(figure) for figure in (self.low, self.expected, self.high))
        if not finite or not self.low <= self.expected <= self.high:
            raise InputError(
                f"band {self.low:g}, {self.expected:g}, {self.high:g} is out of order: "
                "give the least, the expected and the most, each a finite number"
            )

    @classmethod
    def exact(cls, value: float) -> Band:
        """Make a band of a figure that is known."""
        return cls(value, value, value)

    @classmethod
    def between(cls, low: float, high: float) -> Band:
        """Make a band of anything from low to high, the middle expected."""
        # the middle of two floats may round past an end when they are neighbours
        return cls(low, min(max((low + high) / 2, low), high), high)

    @property
    def width(self) -> float:
        """Most less least."""
        return self.high - self.low

    def __add__(self, other: Band) -> Band:
        return Band(self.low + other.low, self.expected + other.expected, self.high + other.high)

    def __mul__(self, other: Band | float) -> Band:
        if not isinstance(other, Band):
            other = Band.exact(other)
        # a product takes its extremes at corners of the box, whatever the signs
        corners = [a * b for a in (self.low, self.high) for b in (other.low, other.high)]
        return Band(min(corners), self.expected * other.expected, max(corners))

    __rmul__ = __mul__


def total_band(bands: Iterable[Band]) -> Band:
    """Sum of bands by their extremes; nothing sums to exactly 0."""
    total = Band.exact(0.0)
    for band in bands:
        total += band
    return total


def likely_band(bands: Iterable[Band]) -> tuple[float, float]:
    """Central 90 % of a sum of independent figures, each as likely anywhere between its extremes.

    Parameters
    ----------
    bands
        Independent of each other; figures that move together belong in one band, added first.

    Returns
    -------
    tuple[float, float]
        Around the expected sum, never beyond the sums of the extremes.

    References
    ----------
    Variance (b - a)²/12 of a uniform distribution, and the sum taken as normal: JCGM 100:2008 (GUM), 4.3.7.
    """
    parts = tuple(bands)
    total = total_band(parts)
    half = NORMAL_90 * math.sqrt(sum(part.width**2 for part in parts) / 12)
    return max(total.low, total.expected - half), min(total.high, total.expected + half)


@dataclass(frozen=True, slots=True)
class Factor:
    """One factor of a quantity.

    Attributes
    ----------
    unit
        In millimetres: ``mm``, ``mm2``, ``mm3``, ``mm3 wood``, ``mm3/mm2`` (film), ``mm3/mm``, ``g/mm3``;
        ``count``, or ``""`` for a ratio.
    origin
        Where the figure comes from: the job file, exact geometry, a published source, or common practice.
    """

    name: str
    unit: str
    band: Band
    origin: str
