"""How resin is measured out: whole marks of the cups, or of a scale, in the mix ratio; and how large a batch may be.

A ratio by volume is measured in cups, a ratio by weight on a scale; neither is turned into the other unless the job
gives the densities of both parts, and then only to be checked.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from edgewright import trade
from edgewright.amounts import MixRatio
from edgewright.band import Band
from edgewright.cutlist.takeoff_factors import DENSITY_RESIN
from edgewright.design.coating import FLUID_OUNCE, SQUARE_FOOT
from edgewright.job_coating import Coating
from edgewright.units import Units

__all__ = ["Measure", "fine_measure", "largest_batch", "mixed_density", "resin_measure"]

ML: Final = 1000.0
"""mm³."""
_CUP_MARKS: Final[dict[Units, tuple[str, float, tuple[Fraction, ...]]]] = {
    "in": ("fl oz", FLUID_OUNCE, (Fraction(1), Fraction(1, 2), Fraction(1, 4))),
    "mm": ("ml", ML, (Fraction(50), Fraction(10), Fraction(5), Fraction(1))),
}
_SCALE_MARKS: Final = (Fraction(10), Fraction(5), Fraction(1), Fraction(1, 10))
FINE_ENOUGH: Final = 8
"""A mark is fine enough when a whole step in the mix ratio is at most this part of what is needed."""


@dataclass(frozen=True, slots=True)
class Measure:
    """Marks that one part is measured by.

    Attributes
    ----------
    unit
        ``fl oz``, ``ml`` or ``g``.
    mark
        Units to a mark.
    mark_mm3
        Mixed resin that one mark of either part counts for, mm³.
    a, b
        Marks of the two parts in the least amount that keeps the mix ratio.
    """

    unit: str
    mark: Fraction
    mark_mm3: float
    a: int
    b: int

    @property
    def step_mm3(self) -> float:
        """Least amount that keeps the mix ratio, mm³."""
        return (self.a + self.b) * self.mark_mm3

    def steps_up(self, volume_mm3: float) -> int:
        """Whole steps that hold a volume; a volume that is whole but for float rounding fits."""
        return max(0, math.ceil(volume_mm3 / self.step_mm3 - 1e-9))

    def steps_down(self, volume_mm3: float) -> int:
        """Whole steps within a volume."""
        return math.floor(volume_mm3 / self.step_mm3 + 1e-9)


def mixed_density(coating: Coating) -> tuple[Band, bool]:
    """Density of the mixed resin, g/ml, and whether it is from the job.

    The parts are taken to fill together what they fill apart.
    """
    a, b = coating.density_a, coating.density_b
    if a is None or b is None:
        return DENSITY_RESIN.band * 1000.0, False
    ratio = coating.mix_ratio
    if ratio.by == "volume":
        mixed = (ratio.a * a.g_per_ml + ratio.b * b.g_per_ml) / (ratio.a + ratio.b)
    else:
        mixed = (ratio.a + ratio.b) / (ratio.a / a.g_per_ml + ratio.b / b.g_per_ml)
    return Band.exact(mixed), True


def _measures(coating: Coating, units: Units) -> list[Measure]:
    """Measures of the job's ratio, coarse to fine; each is a whole number of the finer ones."""
    ratio: MixRatio = coating.mix_ratio
    if ratio.by == "volume":
        unit, size, marks = _CUP_MARKS[units]
    else:
        # a gram fills less where the resin is dense: reckoned so, what is weighed is never too little
        unit, size, marks = "g", ML / mixed_density(coating)[0].high, _SCALE_MARKS
    return [Measure(unit, mark, float(mark) * size, ratio.a, ratio.b) for mark in marks]


def resin_measure(coating: Coating, units: Units, need_mm3: float, batch_mm3: float = math.inf) -> Measure:
    """The coarsest measure that is fine enough for an amount and for its largest batch, else the finest."""
    choices, most = _measures(coating, units), min(need_mm3 / FINE_ENOUGH, batch_mm3) * (1 + 1e-9)
    return next((measure for measure in choices if measure.step_mm3 <= most), choices[-1])


def fine_measure(units: Units) -> Measure:
    """Measure of a paste that is mixed with grams of hardener: quarters of a fluid ounce, or 5 ml."""
    unit, size, marks = _CUP_MARKS[units]
    return Measure(unit, marks[2], float(marks[2]) * size, 1, 0)


def largest_batch(coating: Coating, units: Units, film_mm: float) -> tuple[float, str]:
    """Largest batch of one coat in mm³, whole in the mix ratio, and what limits it.

    Parameters
    ----------
    film_mm
        Film of the coat that is spread, mm, above 0.

    Returns
    -------
    tuple[float, str]
        At most the job's largest batch and at most what one person spreads of it before the pot life is over; never
        less than a batch that can be measured well.
    """
    left = max(0.0, coating.pot_life.minutes - trade.MIXING_TIME.value) * 60
    spread = left / trade.SPREAD_TIME.value[1] * SQUARE_FOOT * film_mm
    most, why = min((coating.largest_batch.mm3, "the bucket"), (spread, "the pot life"))
    least = trade.SMALLEST_BATCH.value * FLUID_OUNCE
    if most < least:
        most, why = least, "what can be measured well"
    for measure in _measures(coating, units):
        steps = measure.steps_down(most)
        if steps:
            return steps * measure.step_mm3, why
    return most, why
