"""Every default of the trade as data, each with its origin.

A figure whose origin is ``COMMON`` is common trade practice without a source: a shop should replace it by its
own. Lengths are exact fractions of a millimetre. A job file overrides all that a job can decide.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Generic, Literal, TypeVar

__all__ = ["COMMON", "DENSITY", "MATERIALS", "Default", "Material", "inch", "inch_text"]

T = TypeVar("T")

COMMON: Final = "common practice, no source"
CHOICE: Final = "choice of this program"
MEMORY: Final = "common practice, no source; a round figure, weigh a sample"

Material = Literal["plywood", "mdf", "particleboard", "solid wood", "laminate"]
MATERIALS: Final[tuple[Material, ...]] = ("plywood", "mdf", "particleboard", "solid wood", "laminate")


@dataclass(frozen=True, slots=True)
class Default(Generic[T]):
    """A default value, its unit ("" for a count or a word; lengths are in mm) and where it comes from."""

    value: T
    unit: str
    origin: str


def inch(text: str) -> Fraction:
    """Exact millimetres of inches written like ``3``, ``1/8`` or ``4 1/2`` (1 in = 25.4 mm exactly)."""
    return sum((Fraction(part) for part in text.split()), Fraction(0)) * Fraction(254, 10)


def inch_text(mm: Fraction) -> str:
    """Write exact millimetres as a mixed fraction of an inch, like ``4 1/2 in``."""
    whole, rest = divmod(mm / Fraction(254, 10), 1)
    return " ".join([str(whole)] * (whole > 0 or not rest) + [str(rest)] * (rest > 0)) + " in"


def _inches(text: str, origin: str = COMMON) -> Default[Fraction]:
    return Default(inch(text), "mm", origin)


# Saw
KERF: Final = _inches("1/8")
GUIDE_OFFSET_NARROW: Final = _inches("1 1/4")
"""From the guide to the near side of the kerf, narrow side of the shoe; to be replaced by a test cut."""
GUIDE_OFFSET_WIDE: Final = _inches("4 1/2")
"""The same on the wide (motor) side."""
GUIDE_WIDTH: Final = _inches("4")
MIN_HELD_WIDTH: Final = _inches("8")
"""Narrowest panel that is ripped hand-held; below it: rip while attached."""
PUSH_STICK_WIDTH: Final = _inches("6")
PUSH_STICK_LENGTH: Final = _inches("12")
MIN_CROSSCUT_HELD: Final = _inches("12")
"""Shortest piece that is crosscut while held by hand."""
DEFECT_CLEARANCE: Final = _inches("1/8")
"""What a piece stays clear of a hole or knot along the strip."""
METAL_CLEARANCE: Final = _inches("1/4")
"""What a saw kerf stays clear of a screw or nail."""

# Bench grid, to which chosen sizes are snapped
GRID_INCH: Final = _inches("1/32", CHOICE)
GRID_MM: Final = Default(Fraction(1, 2), "mm", CHOICE)

# Router
ROUND_OVER: Final = _inches("3/8")
BEARING_HEIGHT: Final = _inches("3/16")
MIN_FLAT_WITH_FENCE: Final = _inches("1/16")
"""Flat that must stay when a fence instead of a bearing guides the second pass."""
FLUSH_TRIM: Final = _inches("1/16")
"""What strips stand proud until they are flush-trimmed."""

# Build-up and pins
MAX_STRIP_WIDTH: Final = _inches("3")
OVERHANG_CLEARANCE: Final = _inches("1/8")
"""Gap that stays between the strips and the apron."""
PIN_WANDER: Final = _inches("1/4")
PIN_TO_INNER_EDGE: Final = _inches("3/8")
PIN_SKIN: Final = _inches("3/16")
"""Wood that stays between a pin's point and the show face."""
PIN_BITE: Final = _inches("1/2")
PIN_SPACING: Final = _inches("4")
PIN_GAUGE: Final = Default(23, "gauge", COMMON)
PIN_LENGTHS: Final = Default(
    tuple(inch(text) for text in ("5/8", "3/4", "1", "1 1/4", "1 3/8", "1 1/2", "1 3/4", "2")), "mm", COMMON
)

# Pieces and splices
MIN_PIECE: Final = _inches("8")
SPLICE_FROM_CORNER: Final = _inches("6")
SPLICE_FROM_SEAM: Final = _inches("6")
SPLICE_FROM_CUT_OUT: Final = _inches("3")
SPLICE_STAGGER: Final = Default(2.0, "strip widths", COMMON)
SPLICE_SIDE_LENGTH: Final = _inches("96")
"""One splice a side under this length, one more for each further such length."""

# Labour, where a plan weighs it
MINUTES_PER_SPLICE: Final = Default(8.0, "minutes", COMMON)
MINUTES_PER_STICK: Final = Default(3.0, "minutes", COMMON)
MINUTES_PER_STRIP: Final = Default(4.0, "minutes", COMMON)

# Base, seating and room
ARM_CLEARANCE: Final = _inches("1/2")
THIGH_ROOM: Final = _inches("7")
SEAT_WIDTH: Final = _inches("24")
SEAT_WIDTH_COMFORT: Final = _inches("30")
CHAIR_WIDTH: Final = _inches("18")
CHAIR_DEPTH: Final = _inches("20")
"""A plain side chair as it is drawn; arm chairs are wider."""
CHAIR_GAP: Final = _inches("1", CHOICE)
"""Between the edge and a chair as it is drawn."""
WALL_USUAL: Final = _inches("36")
"""Usual least distance from an edge where people sit to a wall."""

# Sanding and filling
GRIT_BETWEEN_COATS: Final = Default(220, "grit", COMMON)
FILLER_SANDABLE: Final = Default(20, "min", COMMON)
"""Polyester filler can be sanded after about this time."""
FILL_GRITS: Final = Default((80, 120, 150), "grit", COMMON)
"""After filling, coarse to fine; the last is that of the raw edge."""
FILLER_WORK_TIME: Final = Default(10, "min", f"{COMMON}: 5 to 15 min for polyester filler")
FILLER_PACE: Final = Default(0.2, "fl oz/min", f"{COMMON}: 2 fl oz are spread in about 10 min")
FILLER_TEMPERATURE: Final = Default((64, 72, 80), "degF", "body-shop text: least, then best from and to")
WATER_FILLER_DRY: Final = Default(12, "h", f"{COMMON}: overnight")
VENEER: Final = Default((0.2, 0.6), "mm face veneer", COMMON)
VENEER_SANDING: Final = Default(0.1, "mm off a face veneer", COMMON)

# Pouring
RESIN_COATS: Final = Default(2, "coats", COMMON)
BASE_COATS: Final = Default(2, "coats", COMMON)
FLOOD_FILM_MIL: Final = Default((35, 40), "mil", COMMON)
"""What a 1/4 in V-notch lays down on sealed ground, least and most; a shop's own weighing is better."""
POUR_TEMPERATURE: Final = Default((65, 75), "degF", COMMON)
FLAME_AFTER: Final = Default((0, 10, 15), "min", COMMON)
"""Flame over bubbles at once, after about ten minutes, and five minutes later; then leave it."""
SCRAPE_DRIPS_AFTER: Final = Default((3.5, 4.0), "h", COMMON)
"""After the pour, at `SCRAPE_DRIPS_AT`."""
SCRAPE_DRIPS_AT: Final = Default((65, 70), "degF", COMMON)
RECOAT_AFTER: Final = Default(1, "day", COMMON)
FULL_USE_LONGEST: Final = Default(30, "days", COMMON)
"""What some resins need until they are fully hard."""
MINUTES_CHOSEN: Final = f"{COMMON}; the exact minutes are a {CHOICE}"
DRIP_SWEEPS_AFTER: Final = Default((30, 60, 90, 120, 180), "min", MINUTES_CHOSEN)
"""Drips are swept off the lower edge several times while they form."""
TAPE_PULL_AFTER: Final = Default((2.0, 3.0), "h", MINUTES_CHOSEN)
"""Masking tape comes off while the resin is soft, before the drips are scraped."""
RESIN_AFTER_WATER: Final = Default(24, "h", COMMON)
"""Resin over water paint or water filler, at the earliest; longer over oil."""
LIGHT_USE_AFTER: Final = Default((48, 72), "h", COMMON)
FULL_CURE_AFTER: Final = Default((5, 7), "days", f"{COMMON}; some resins take 30 days")

# Mixing resin
MIX_RATIO: Final = Default("1:1 by volume", "", COMMON)
POT_LIFE: Final = Default(20, "min", f"{COMMON}: 5 to 30 min in the pot, longer once spread")
MIXING_TIME: Final = Default(4, "min", MINUTES_CHOSEN)
"""In the first cup and again in the second; the pot-life clock runs from the moment the parts meet."""
SPREAD_TIME: Final = Default((10, 15), "s/ft2", COMMON)
"""One person with a trowel."""
LARGEST_BATCH: Final = Default(
    "3/4 gal", "", f"{COMMON}: 1/2 to 3/4 gal a person; more grows hot in the bucket"
)
SMALLEST_BATCH: Final = Default(8, "fl oz", CHOICE)
"""No limit makes batches smaller than this: small amounts are measured badly."""
TINT_CAP: Final = Default(3, "% by weight", f"{COMMON}: about 4 fl oz of liquid colour to a gallon")

# Densities
DENSITY_SOFTWOOD_PLYWOOD: Final = Default(
    576.7, "kg/m3", "APA rule of 3.0 lb/ft2 per inch, quoted by trade text"
)
DENSITY_BIRCH_PLYWOOD: Final = Default(680.0, "kg/m3", MEMORY)
DENSITY_MDF: Final = Default(750.0, "kg/m3", MEMORY)
DENSITY_PARTICLEBOARD: Final = Default(680.0, "kg/m3", MEMORY)
DENSITY_SOLID_WOOD: Final = Default(700.0, "kg/m3", MEMORY)
DENSITY: Final[dict[Material, tuple[Default[float], Default[float]]]] = {
    "plywood": (DENSITY_SOFTWOOD_PLYWOOD, DENSITY_BIRCH_PLYWOOD),
    "mdf": (DENSITY_MDF, DENSITY_MDF),
    "particleboard": (DENSITY_PARTICLEBOARD, DENSITY_PARTICLEBOARD),
    "solid wood": (DENSITY_SOLID_WOOD, DENSITY_SOLID_WOOD),
    # a laminate top is mostly its particleboard core
    "laminate": (DENSITY_PARTICLEBOARD, DENSITY_MDF),
}
"""Least and greatest density of each material; what people lift is reckoned with the greatest."""
