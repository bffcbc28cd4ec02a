"""Read lengths, temperatures and coverages exactly as a person writes them, or refuse.

A length is kept as an exact fraction of a millimetre (1 in = 25.4 mm), so ``41 5/8 in`` and ``1057.275 mm``
are one and the same. Nothing is guessed: whatever could be read in two ways is refused with a sentence that
says what to write instead. No arithmetic is read, so ``41-5/8`` is forty-one and five eighths.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal

from edgewright.errors import UnitError
from edgewright.figure import LARGEST, Figure, number_of, take_apart
from edgewright.ticks import nearest_ticks, part_ticks, stock_ticks
from edgewright.unit_words import (
    AREA_PER_VOLUME,
    FILM,
    LENGTH,
    TEMPERATURE,
    VOLUME_PER_AREA,
    WANTED,
    kind_of,
    printable,
    tidy,
)

__all__ = [
    "Coverage",
    "Length",
    "Temperature",
    "Units",
    "one_number",
    "read_coverage",
    "read_length",
    "read_temperature",
]

Units = Literal["in", "mm"]

_MM: Final = {
    "in": Fraction(254, 10),
    "ft": Fraction(3048, 10),
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
}
_NUMBER: Final = "([0-9][0-9 ./,-]*)"
_FEET_INCHES: Final = re.compile(_NUMBER + r"(?:feet|foot|ft|ft\.(?= )|')(?:-| |)" + _NUMBER + "(.*)")


@dataclass(frozen=True, slots=True)
class Length:
    """A length as given and as used.

    Attributes
    ----------
    given
        What was typed.
    exact_mm
        The same in millimetres, exact; any sign (ranges are checked where the length is used).
    """

    given: str
    exact_mm: Fraction

    @property
    def mm(self) -> float:
        """Millimetres as a float, for geometry."""
        return float(self.exact_mm)

    def ticks_up(self) -> int:
        """Ticks of a part or a kerf, rounded up."""
        return part_ticks(self.exact_mm)

    def ticks_down(self) -> int:
        """Ticks of stock, rounded down."""
        return stock_ticks(self.exact_mm)

    def ticks(self) -> int:
        """Nearest ticks, for a position."""
        return nearest_ticks(self.exact_mm)


@dataclass(frozen=True, slots=True)
class Temperature:
    """A temperature as given, and in degrees Celsius."""

    given: str
    celsius: float


@dataclass(frozen=True, slots=True)
class Coverage:
    """A coverage as given, and as the film thickness it means (volume per area, mm)."""

    given: str
    film_mm: float


def read_length(text: str | int | float, default_unit: Units | None = None) -> Length:
    """Read a length, exactly.

    Parameters
    ----------
    text
        Like ``41 5/8 in``, ``41-5/8"``, ``3' 5-5/8"``, ``41.625 in``, ``1057mm``, ``105,7 cm``; or a bare
        number. A float counts as the decimal number it prints as, so 41.63 is exactly 41.63.
    default_unit
        Unit of a bare number; without it a bare number is refused.

    Returns
    -------
    Length
        Any sign, at most 1e9 mm either way.

    Raises
    ------
    UnitError
        What is not surely one number with one unit of length.

    References
    ----------
    1 in = 25.4 mm exactly: NIST Handbook 44, Appendix C.
    """
    figure = take_apart(text, "length")
    tail = tidy(figure.tail)
    # feet and inches hold a second number; `3 ft2` looks alike but is an area
    if kind_of(tail) is None and (match := _FEET_INCHES.fullmatch(figure.head + figure.tail)):
        mm = _feet_inches(figure, *match.groups())
    else:
        number = number_of(figure, figure.head)
        unit = LENGTH.get(tail) if tail else default_unit
        if unit is None:
            raise _unit_error(figure, tail)
        mm = number * _MM[unit]
    if mm > LARGEST:
        raise figure.error(f"is too large for a length: at most {LARGEST} mm is read")
    return Length(figure.given, -mm if figure.minus else mm)


def read_temperature(text: str | int | float) -> Temperature:
    """Read a temperature like ``70 degF``, ``70 °F`` or ``21 degC``; a bare number is refused.

    Raises
    ------
    UnitError
        What is not surely one number with one unit of temperature.
    """
    number, unit, figure = one_number(text, "temperature", TEMPERATURE)
    if unit == "K":
        raise figure.error("is in kelvin: write it in degF or degC")
    from edgewright.convert import convert

    return Temperature(figure.given, convert(float(number), unit, "degC"))


def read_coverage(text: str | int | float) -> Coverage:
    """Read a coverage: volume per area, area per volume, or a film thickness.

    Parameters
    ----------
    text
        Like ``3 fl oz/ft^2``, ``16 ft^2/gal``, ``0.35 L/m^2``, ``10 m2/L``, ``40 mil`` or ``1 mm``.

    Returns
    -------
    Coverage
        With the film in mm; its range is checked where it is used.

    Raises
    ------
    UnitError
        What is not surely a coverage; a weight per area is none, for it needs a density.
    """
    number, unit, figure = one_number(text, "coverage", FILM | VOLUME_PER_AREA | AREA_PER_VOLUME)
    from edgewright.convert import convert

    if unit not in AREA_PER_VOLUME.values():
        return Coverage(figure.given, convert(float(number), unit, "mm"))
    per_mm = convert(float(number), unit, "1/mm")
    if per_mm == 0:
        raise figure.error("covers no area: write the area that one unit of volume covers, like 16 ft^2/gal")
    return Coverage(figure.given, 1 / per_mm)


def _feet_inches(figure: Figure, feet: str, inches: str, unit: str) -> Fraction:
    """Millimetres of feet and inches."""
    if LENGTH.get(tidy(unit)) != "in":
        raise figure.error(
            """has a second number that is not marked as inches: write 3' 5-5/8" or 3 ft 5 5/8 in"""
        )
    if not re.fullmatch("[0-9]+ ?", feet):
        raise figure.error("has broken feet beside inches: write whole feet, or inches alone")
    rest = number_of(figure, inches)
    if rest >= 12:
        raise figure.error(
            "has 12 inches or more beside feet: carry them into the feet, or write inches alone"
        )
    return int(feet) * _MM["ft"] + rest * _MM["in"]


def one_number(text: object, wanted: str, units: dict[str, str]) -> tuple[Fraction, str, Figure]:
    """Read one signed number with one of ``units`` (our name of each unit by its spellings).

    Raises
    ------
    UnitError
        What is not surely one number with one of these units; it says what is ``wanted``.
    """
    figure = take_apart(text, wanted)
    tail = tidy(figure.tail)
    if tail not in units:
        raise _unit_error(figure, tail)
    number = number_of(figure, figure.head)
    if number > LARGEST:
        raise figure.error(f"is too large: {figure.example}")
    return (-number if figure.minus else number), units[tail], figure


def _unit_error(figure: Figure, unit: str) -> UnitError:
    """Say in one sentence why this unit cannot be used."""
    wanted = figure.wanted
    kind = kind_of(unit)
    if not unit:
        number_of(figure, figure.head)  # a number that cannot be read is the nearer reason
        return figure.error(f"has no unit: write {WANTED[wanted][0]}")
    if kind == wanted == "coverage":
        if re.search(r"\b(oz|ounces?)\b", unit):
            return figure.error(
                "may be a weight (oz) or a volume (fl oz): write fl oz/ft^2 if volume is meant"
            )
        return figure.error("is a weight per area, which needs a density: write a volume, like 3 fl oz/ft^2")
    if kind is not None and (kind, wanted) != ("length", "coverage"):
        name = "an" if kind[0] == "a" else "a"
        return figure.error(f"is {name} {kind}, a {wanted} is needed: write it like {WANTED[wanted][0]}")
    if kind is None and re.search(r"(?<![a-z])[0-9]|[+*×()=-]", unit):
        return figure.error(
            f"is more than one number with one unit, arithmetic is not read: {figure.example}"
        )
    shown = printable(figure.tail)
    return figure.error(f"has the unit `{shown}`, which is not read for a {wanted}: use {WANTED[wanted][1]}")
