"""Read volumes, durations, densities and mix ratios as a person writes them, or refuse.

A mix ratio says whether it is by volume or by weight: the two parts of a resin differ in density, so that one
is never the other, and which is meant is asked, not guessed.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal

from edgewright.errors import UnitError
from edgewright.unit_words import DENSITY, DURATION, VOLUME, plain_text, printable
from edgewright.units import one_number

__all__ = [
    "Density",
    "Duration",
    "MixRatio",
    "Volume",
    "read_density",
    "read_duration",
    "read_ratio",
    "read_volume",
]

_MINUTES: Final = {"min": 1, "h": 60, "d": 24 * 60}
_RATIO: Final = re.compile(r"([0-9]+(?:\.[0-9]+)?) ?(?::|to) ?([0-9]+(?:\.[0-9]+)?)(?: by (volume|weight))?")
_WRITE: Final = 'write it like "2:1 by volume" or "100:45 by weight", resin first'


@dataclass(frozen=True, slots=True)
class Volume:
    """A volume as given, and in mm³."""

    given: str
    mm3: float


@dataclass(frozen=True, slots=True)
class Duration:
    """A duration as given, and in minutes."""

    given: str
    minutes: float


@dataclass(frozen=True, slots=True)
class Density:
    """A density as given, and in g/ml."""

    given: str
    g_per_ml: float


@dataclass(frozen=True, slots=True)
class MixRatio:
    """Parts of resin (A) to parts of hardener (B), in whole numbers without a common divisor."""

    given: str
    a: int
    b: int
    by: Literal["volume", "weight"]


def read_volume(text: str | int | float) -> Volume:
    """Read a volume like ``64 fl oz``, ``3/4 gal`` or ``2 l``; ounces alone are refused, for they may be weight.

    Raises
    ------
    UnitError
        What is not surely one number with one unit of volume.
    """
    number, unit, figure = one_number(text, "volume", VOLUME)
    from edgewright.convert import convert

    return Volume(figure.given, convert(float(number), unit, "mm**3"))


def read_duration(text: str | int | float) -> Duration:
    """Read a duration like ``20 min``, ``4 h`` or ``2 days``; a bare number is refused.

    Raises
    ------
    UnitError
        What is not surely one number with one unit of time.
    """
    number, unit, figure = one_number(text, "duration", DURATION)
    return Duration(figure.given, float(number * _MINUTES[unit]))


def read_density(text: str | int | float) -> Density:
    """Read a density like ``1.1 g/ml``, ``1.1 kg/l`` or ``9.2 lb/gal``.

    Raises
    ------
    UnitError
        What is not surely one number with one unit of density.
    """
    number, unit, figure = one_number(text, "density", DENSITY)
    from edgewright.convert import convert

    return Density(figure.given, convert(float(number), unit, "g/mL"))


def read_ratio(text: object) -> MixRatio:
    """Read a mix ratio like ``2:1 by volume`` or ``100:45 by weight``, resin first.

    Raises
    ------
    UnitError
        What is no ratio of two numbers above 0, or does not say by what.
    """
    if not isinstance(text, str):
        raise UnitError(f"a mix ratio is text: {_WRITE}")
    plain = plain_text(text).lower()
    shown = printable(plain[:40])
    match = _RATIO.fullmatch(plain) if len(plain) <= 40 else None
    if match is None:
        raise UnitError(f"`{shown}` is not a mix ratio: {_WRITE}")
    a, b = Fraction(match[1]), Fraction(match[2])
    if not a or not b:
        raise UnitError(f"`{shown}` has no part of one of the two: {_WRITE}")
    if match[3] is None:
        raise UnitError(
            f"`{shown}` may be by volume or by weight, which are not the same: read it off the data sheet and {_WRITE}"
        )
    ratio = a / b
    return MixRatio(
        text.strip(), ratio.numerator, ratio.denominator, "volume" if match[3] == "volume" else "weight"
    )
