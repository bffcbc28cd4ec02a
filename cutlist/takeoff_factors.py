"""Every default factor of the bill, each with its origin, in mm, mm³ and g.

A shop should replace what is common practice by its own weighing. The weakest are the drips, the film that
stays on the edge, and the thickness of the filler.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from edgewright.band import Band, Factor
from edgewright.design.coating import FLUID_OUNCE, MIL, film_of_coverage
from edgewright.job_any import AnyJob
from edgewright.trade import CHOICE, COMMON, DENSITY, FLOOD_FILM_MIL, MEMORY, Material

__all__ = [
    "BASE_FILM",
    "BASE_TRAY",
    "CUT_PLAN",
    "DENSITY_BASE",
    "DENSITY_FILLER",
    "DENSITY_RESIN",
    "DRIP",
    "EDGE_DRINK",
    "EDGE_FILM",
    "FILLER_DEPTH",
    "FILLER_LOSS",
    "FILLER_SECOND",
    "GEOMETRY",
    "GLUE_FILM",
    "GROOVE_DEPTH",
    "GROOVE_WIDTH",
    "HARDENER",
    "JOB_FILE",
    "LIP_WIDTH",
    "RESIN_TOOLS",
    "SEAL_FILM",
    "flood_film",
    "wood_density",
]

GEOMETRY: Final = "exact geometry"
CUT_PLAN: Final = "cut plan"
JOB_FILE: Final = "job file"
RANGE: Final = f"{COMMON}; its range is a {CHOICE}"

INCH: Final = 25.4
FOOT: Final = 12 * INCH
GRAM_PER_ML: Final = 1e-3
"""In g/mm³."""


def _band(low: float, expected: float, high: float, unit: float) -> Band:
    return Band(low * unit, expected * unit, high * unit)


# Filler
FILLER_DEPTH: Final = Factor("filler depth", "mm", _band(3 / 128, 1 / 32, 5 / 128, INCH), RANGE)
"""Average over the edge in one full skim."""
FILLER_LOSS: Final = Factor("sanded off and left on the board", "", Band(0.2, 0.3, 0.4), RANGE)
FILLER_SECOND: Final = Factor("second pass beside the first", "", Band(0.35, 0.5, 0.65), RANGE)
GROOVE_WIDTH: Final = Factor("groove width", "mm", _band(1 / 32, 1 / 16, 3 / 32, INCH), RANGE)
GROOVE_DEPTH: Final = Factor("groove depth", "mm", _band(1 / 32, 1 / 16, 3 / 32, INCH), RANGE)
HARDENER: Final = Factor(
    "hardener by weight of filler",
    "",
    Band(0.01, 0.02, 0.03),
    "1 to 3 % of a 50 % benzoyl peroxide paste by weight: a coatings formulator's published answer; "
    f"2 %: {COMMON}",
)
DENSITY_FILLER: Final = Factor(
    "density of the filler",
    "g/mm3",
    _band(1.0, 1.5, 1.9, GRAM_PER_ML),
    f"{MEMORY}; from lightweight to standard",
)

# Base coat
BASE_FILM: Final = Factor(
    "wet film, 300 ft2/gal (250 to 400)",
    "mm3/mm2",
    Band(film_of_coverage(400), film_of_coverage(300), film_of_coverage(250)),
    COMMON,
)
EDGE_DRINK: Final = Factor("films that the raw edge drinks", "", Band(1.0, 1.5, 2.0), COMMON)
"""The first coat on a raw edge takes two to three times as much, one to two more than the film."""
BASE_TRAY: Final = Factor("roller and tray, a coat", "mm3", _band(1.5, 1.75, 2.0, FLUID_OUNCE), COMMON)

# Resin
SEAL_FILM: Final = Factor("seal film", "mm3/mm2", _band(4.0, 4.4, 5.0, MIL), RANGE)
EDGE_FILM: Final = Factor("film that stays on the edge", "mm3/mm2", _band(8.0, 10.0, 12.0, MIL), COMMON)
LIP_WIDTH: Final = Factor("lip width", "mm", Band.exact(3 / 8 * INCH), COMMON)
DRIP: Final = Factor("drips", "mm3/mm", _band(0.25, 0.375, 0.5, FLUID_OUNCE / FOOT), COMMON)
RESIN_TOOLS: Final = Factor("trowel and brush", "mm3", Band.exact(0.75 * FLUID_OUNCE), COMMON)

# Glue
GLUE_FILM: Final = Factor(
    "wet glue",
    "mm3/mm2",
    _band(6.0, 7.0, 8.0, MIL),
    "a PVA data sheet, cold-press laminating, 6 to 8 wet mil",
)

# Weight
DENSITY_RESIN: Final = Factor("density of the resin", "g/mm3", _band(1.05, 1.1, 1.15, GRAM_PER_ML), MEMORY)
DENSITY_BASE: Final = Factor(
    "density of the base colour", "g/mm3", _band(1.0, 1.25, 1.5, GRAM_PER_ML), MEMORY
)


def flood_film(job: AnyJob) -> Factor:
    """Film of one flood coat: as the job says, else what a 1/4 in V-notch is said to lay down."""
    low, high = job.coating.film_range
    origin = JOB_FILE if "flood_film" in job.coating.model_fields_set else FLOOD_FILM_MIL.origin
    return Factor("flood film", "mm3/mm2", Band.between(low.film_mm, high.film_mm), origin)


def wood_density(materials: Iterable[Material]) -> Factor:
    """Least to greatest density of the materials (kg/m³ is 1e-6 g/mm³)."""
    ends = [end for material in sorted(set(materials)) for end in DENSITY[material]]
    low, high = min(ends, key=lambda end: end.value), max(ends, key=lambda end: end.value)
    origin = low.origin if low.origin == high.origin else f"least: {low.origin}; greatest: {high.origin}"
    return Factor("density of the wood", "g/mm3", Band.between(low.value * 1e-6, high.value * 1e-6), origin)
