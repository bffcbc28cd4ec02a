"""Volumes of filler, base coat, resin and glue as functions of exact areas.

Everything is in mm, mm² and mm³. A film is volume per area, mm³/mm², which is its thickness in mm. A loss
(drips, what stays in the bucket or on the tools) is a figure of its own and never hides in a waste factor.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from edgewright.band import Band
from edgewright.errors import InputError

__all__ = [
    "CUPS",
    "FILL",
    "FLUID_OUNCE",
    "GALLON",
    "MIL",
    "SQUARE_FOOT",
    "Cup",
    "base_coat",
    "bucket_residue",
    "cups_for",
    "drips",
    "edge_drink",
    "edge_filler",
    "film_of_coverage",
    "glue_line",
    "leaves_at_most",
    "resin_film",
    "resin_on_lip",
    "seam_filler",
    "thinner_film",
    "tool_residue",
]

_INCH: Final = Fraction(254, 10)
GALLON: Final = float(231 * _INCH**3)
"""US gallon in mm³, 231 in³ exactly (NIST Handbook 44, Appendix C)."""
FLUID_OUNCE: Final = float(231 * _INCH**3 / 128)
"""US fluid ounce in mm³."""
MIL: Final = float(_INCH / 1000)
"""A thousandth of an inch in mm."""
SQUARE_FOOT: Final = float(144 * _INCH**2)
"""Square foot in mm²."""

FILL: Final = 0.75
"""A mixing cup is filled so far, to leave room for stirring; common practice, no source."""


@dataclass(frozen=True, slots=True)
class Cup:
    """A mixing cup, its size and what stays on its wall, mm³; common practice, no source.

    Least is a wall scraped into the second cup, most a wall that is not scraped (about 40 mil). The last film
    is never scraped onto the work: it may be unmixed.
    """

    name: str
    size: float
    residue: Band


def _cup(name: str, size: float, scraped: float, unscraped: float) -> Cup:
    return Cup(name, size * FLUID_OUNCE, Band.between(scraped * FLUID_OUNCE, unscraped * FLUID_OUNCE))


CUPS: Final = (
    _cup("1 quart", 32, 0.6, 1.9),
    _cup("2 1/2 quart", 80, 1.0, 3.2),
    _cup("1 gallon", 128, 1.3, 4.2),
)
"""Smallest first."""


def film_of_coverage(square_feet_per_gallon: float) -> float:
    """Wet film in mm of a coverage in ft²/gal, greater than 0: 1 gal spread over the area.

    References
    ----------
    1604.17 ft² mil/gal, exactly 231/0.144: NIST Handbook 44, Appendix C.
    """
    if not square_feet_per_gallon > 0:
        raise InputError(
            f"coverage is {square_feet_per_gallon:g} ft2/gal; it must be greater than 0: read it off the tin"
        )
    return GALLON / (square_feet_per_gallon * SQUARE_FOOT)


def resin_film(area_mm2: float, film: Band) -> Band:
    """Resin that stays as a film, on the flat or on the edge."""
    return film * _least_zero("area", area_mm2, "mm2")


def thinner_film(film: Band, flat: Band) -> Band:
    """Limit the film of a steep face to what was poured on the flat."""
    return Band(min(film.low, flat.low), min(film.expected, flat.expected), min(film.high, flat.high))


def resin_on_lip(perimeter_mm: float, width_mm: float, film: Band) -> Band:
    """Resin that curls under the edge; a little over, for the lip's inner edge is shorter."""
    return resin_film(perimeter_mm * _least_zero("lip width", width_mm, "mm"), film)


def drips(perimeter_mm: float, per_length: Band) -> Band:
    """Resin that runs off the edge, ``per_length`` in mm³ per mm of perimeter."""
    return per_length * _least_zero("perimeter", perimeter_mm, "mm")


def cups_for(volume_mm3: float, most_mm3: float = FILL * CUPS[-1].size) -> tuple[Cup, int]:
    """Cups that a volume leaves: the smallest that does three quarters full, or several of one size.

    Parameters
    ----------
    volume_mm3
        At least 0.
    most_mm3
        What may leave one cup, above 0 and at most three quarters of the largest.
    """
    each = min(_least_zero("volume", volume_mm3, "mm3"), most_mm3)
    cup = next(cup for cup in CUPS if each <= FILL * cup.size)
    return cup, max(1, math.ceil(volume_mm3 / most_mm3))


def leaves_at_most(batch_mm3: float) -> float:
    """What leaves the cup of a batch when most stays on its wall."""
    cup = next((cup for cup in CUPS if batch_mm3 <= FILL * cup.size), CUPS[-1])
    return batch_mm3 - cup.residue.high


def bucket_residue(volume_mm3: float, most_mm3: float = FILL * CUPS[-1].size) -> Band:
    """Resin that stays in the cups when this volume leaves them, as in `cups_for`."""
    cup, count = cups_for(volume_mm3, most_mm3)
    return cup.residue * count


def tool_residue(per_coat: Band, coats: int) -> Band:
    """Resin or colour that stays on the tools, ``per_coat`` mm³."""
    return per_coat * coats


def edge_filler(thickness_mm: float, perimeter_mm: float, depth: Band) -> Band:
    """Filler of one pass over the square edge, ``depth`` mm on the average."""
    return depth * (
        _least_zero("thickness", thickness_mm, "mm") * _least_zero("perimeter", perimeter_mm, "mm")
    )


def seam_filler(length_mm: float, width: Band, depth: Band) -> Band:
    """Filler of a V groove along a seam, half of its width times its depth."""
    return width * depth * (0.5 * _least_zero("seam", length_mm, "mm"))


def base_coat(area_mm2: float, film: Band, coats: int) -> Band:
    """Volume of base colour on the face and the edge."""
    return film * (_least_zero("area", area_mm2, "mm2") * coats)


def edge_drink(edge_mm2: float, film: Band, more: Band) -> Band:
    """First-coat colour that a raw edge drinks: ``more`` films beyond the usual one."""
    return film * more * _least_zero("edge", edge_mm2, "mm2")


def glue_line(area_mm2: float, film: Band) -> Band:
    """Wet glue in one glue line."""
    return film * _least_zero("glue face", area_mm2, "mm2")


def _least_zero(name: str, value: float, unit: str) -> float:
    if not (math.isfinite(value) and value >= 0):
        raise InputError(f"{name} is {value:g} {unit}; it must be at least 0 {unit}: measure it again")
    return value
