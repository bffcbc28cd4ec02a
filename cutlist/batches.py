"""Batches of filler and of resin: how many, how much in each, and what is held ready unmixed.

A flood coat is mixed for what is expected; what may be wanted beyond it is measured out and stays unmixed until it
is. All amounts are whole steps of a measure, so that what is shown adds up, and never less than the bill asks.
"""

from __future__ import annotations

import math
from collections.abc import Collection
from dataclasses import dataclass
from decimal import Decimal

from edgewright import trade
from edgewright.band import Band, total_band
from edgewright.cutlist.mixing import Measure, fine_measure, largest_batch, resin_measure
from edgewright.cutlist.takeoff_factors import DENSITY_FILLER, FILLER_DEPTH, FILLER_LOSS, HARDENER
from edgewright.cutlist.takeoff_ground import FILLER
from edgewright.cutlist.takeoff_lines import Takeoff
from edgewright.cutlist.takeoff_resin import SEAL, coat_film
from edgewright.cutlist.takeoff_text import as_shown, shown_rows
from edgewright.design.coating import FLUID_OUNCE
from edgewright.job_any import AnyJob
from edgewright.units import Units

__all__ = [
    "CoatMix",
    "FillerPass",
    "coat_mixes",
    "filler_pass",
    "filler_passes",
    "filler_reach",
    "hardener_grams",
    "split_steps",
]


@dataclass(frozen=True, slots=True)
class CoatMix:
    """One coat of resin in batches.

    Attributes
    ----------
    group
        Group of the bill, like ``resin coat 1``.
    measure
        What the parts are measured by.
    batches, reserve
        Whole steps of the measure in each batch that is mixed, and in each that is held ready unmixed.
    limit_mm3, limited_by
        Largest batch, and what sets it.
    """

    group: str
    measure: Measure
    batches: tuple[int, ...]
    reserve: tuple[int, ...]
    limit_mm3: float
    limited_by: str


@dataclass(frozen=True, slots=True)
class FillerPass:
    """One pass of filler: what the bill asks for, and whole steps of the measure in each batch."""

    number: int
    quantity: Band
    measure: Measure
    batches: tuple[int, ...]


def split_steps(steps: int, most: int) -> tuple[int, ...]:
    """Divide steps into as few batches as no batch over ``most`` allows, alike but for a smaller last one.

    Parameters
    ----------
    steps
        At least 0.
    most
        At least 1.
    """
    if steps <= 0:
        return ()
    each = math.ceil(steps / math.ceil(steps / most))
    whole, rest = divmod(steps, each)
    return (each,) * whole + (rest,) * bool(rest)


def coat_mixes(takeoff: Takeoff, job: AnyJob) -> tuple[CoatMix, ...]:
    """Batches of the seal coat and of each flood coat, in order."""
    mixes = []
    for group in dict.fromkeys(line.group for line in takeoff.lines if _is_resin(line.group)):
        lines = takeoff.in_group(group)
        need = _at_least_shown(total_band(line.quantity for line in lines), takeoff, group, job.units)
        limit, why = largest_batch(job.coating, job.units, coat_film(job, group).band.expected)
        measure = resin_measure(job.coating, job.units, need.expected, limit)
        most = max(1, measure.steps_down(limit))
        # a thin coat that runs short is no harm: so little is mixed for the high figure at once
        mixed = measure.steps_up(need.high if group == SEAL else need.expected)
        spare = max(0, measure.steps_up(need.high) - mixed)
        mixes.append(CoatMix(group, measure, split_steps(mixed, most), split_steps(spare, most), limit, why))
    return tuple(mixes)


def _at_least_shown(
    need: Band, takeoff: Takeoff, group: str, units: Units, names: Collection[str] = ()
) -> Band:
    """A need that is no less than the sum of its lines as they are shown: a reader may add those up."""
    rows = [row for row in shown_rows(takeoff, units) if row.group == group and row.item != "total"]
    kept = [row for row in rows if not names or row.item in names]
    expected, high = (
        as_shown(sum((getattr(row, end) for row in kept), Decimal(0)), "mm3", units)
        for end in ("expected", "high")
    )
    expected = max(need.expected, expected)
    return Band(min(need.low, expected), expected, max(need.high, high, expected))


def _is_resin(group: str) -> bool:
    return group.startswith(("seal", "resin"))


def filler_passes(takeoff: Takeoff, job: AnyJob) -> tuple[FillerPass, ...]:
    """Both passes of filler."""
    measure = fine_measure(job.units)
    most = max(1, measure.steps_down(filler_batch(job)))
    passes = []
    for number in (1, 2):
        kept = [line for line in takeoff.in_group(FILLER) if filler_pass(line.name) == number]
        need = total_band(line.quantity for line in kept)
        need = _at_least_shown(need, takeoff, FILLER, job.units, [line.name for line in kept])
        passes.append(FillerPass(number, need, measure, split_steps(measure.steps_up(need.expected), most)))
    return tuple(passes)


def filler_pass(name: str) -> int:
    """Pass that a line of the bill's filler goes with; seams and the loss at cut-outs go with the first."""
    return 2 if "second pass" in name else 1


def filler_batch(job: AnyJob) -> float:
    """Filler that one person spreads before it sets, mm³."""
    return job.coating.filler_work_time.minutes * trade.FILLER_PACE.value * FLUID_OUNCE


def filler_reach(edge_thickness_mm: float, volume_mm3: float) -> float:
    """Length of edge that a volume of filler reaches in the first pass, its loss taken off, mm."""
    skim = FILLER_DEPTH.band.expected * (1 + FILLER_LOSS.band.expected)
    return volume_mm3 / (skim * edge_thickness_mm)


def hardener_grams(volume_mm3: float) -> Band:
    """Hardener paste of a batch at 1, 2 and 3 % of its weight, g, by the usual density of filler."""
    share, filler = HARDENER.band, volume_mm3 * DENSITY_FILLER.band.expected
    return Band(share.low * filler, share.expected * filler, share.high * filler)
