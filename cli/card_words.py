"""Figures and cautions of the cards as strings."""

from __future__ import annotations

from fractions import Fraction

from edgewright.cautions import Topic, cautions_for
from edgewright.cutlist.clock import DAY, HOUR, Moment
from edgewright.cutlist.mixing import Measure
from edgewright.cutlist.takeoff_text import shown
from edgewright.job_any import AnyJob
from edgewright.units import Units

__all__ = [
    "area_words",
    "default_mark",
    "marks_words",
    "moment_words",
    "number_words",
    "numbered",
    "short_cautions",
    "temperature_words",
]


def number_words(figure: Fraction, unit: str) -> str:
    """Write a figure of a measure: mixed fractions of a fluid ounce, decimals of millilitres and grams."""
    if unit != "fl oz":
        return f"{float(figure):.1f}".removesuffix(".0")
    whole, rest = divmod(figure, 1)
    return " ".join([str(whole)] * (whole > 0 or not rest) + [str(rest)] * (rest > 0))


def marks_words(measure: Measure, marks: int) -> str:
    """Write so many marks of a measure, without its unit."""
    return number_words(measure.mark * marks, measure.unit)


def moment_words(moment: Moment) -> tuple[str, str]:
    """Figure and unit of a moment, like ``+10`` and ``min`` or ``3 1/2–4`` and ``h``."""
    short = moment.high == moment.low or moment.high is None
    scale, unit = (1.0, "min") if short and moment.low < 2 * HOUR else (HOUR, "h")
    if moment.low >= 5 * DAY:
        scale, unit = DAY, "days"
    ends = [moment.low] if moment.high in (None, moment.low) else [moment.low, moment.high]
    figure = "–".join(
        number_words(Fraction(end or 0.0).limit_denominator(4) / Fraction(scale), "fl oz") for end in ends
    )
    return ("" if len(ends) == 2 else "+") + figure, unit


def temperature_words(fahrenheit: tuple[int, ...], units: Units) -> str:
    """Write temperatures like ``65 to 75 °F``; whole degrees are near enough for a sheet."""
    if units == "in":
        return " to ".join(map(str, fahrenheit)) + " °F"
    # spelled out so that a sheet does not load the unit library
    return " to ".join(f"{(t - 32) * 5 / 9:.0f}" for t in fahrenheit) + " °C"


def area_words(mm2: float, units: Units) -> str:
    """Write an area as the bill does, like ``17.43 ft²``."""
    figure, unit = shown(mm2, "mm2", units)
    return f"{figure} {unit.replace('2', '²')}"


def default_mark(job: AnyJob, key: str) -> str:
    """Say of a figure of [coating] that the job leaves it to the default."""
    return "" if key in job.coating.model_fields_set else " (default, common practice)"


def numbered(first: int, count: int) -> str:
    """Name batches by their numbers, like ``1`` or ``1 to 3``."""
    return str(first) if count == 1 else f"{first} to {first + count - 1}"


def short_cautions(*topics: Topic) -> str:
    """The cautions that matter most at a piece of work, and what has the last word."""
    said = " ".join(caution.short for caution in cautions_for(*topics))
    return f"{said} Data sheets and local codes come first."
