"""Report finding 108: length, width and the two diagonals contradict each other.

Four figures of a parallelogram have one redundancy: d1² + d2² = 2 (L² + W²), however it leans. What does not
close was misread. Suspects are named and never corrected.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from edgewright.design.check_figures import exceeds, inches, shown
from edgewright.findings import Finding
from edgewright.units import Units

__all__ = ["closure_findings", "closure_suspects", "misclosure"]

#: What two tapes may differ by over a diagonal (common practice, no source).
CLOSURE_MM = inches(1 / 8)
#: Beyond this a figure is wrong, not inexact (common practice, no source).
BLUNDER_MM = inches(1 / 2)
#: Suspects that are named at most, the best first.
_MOST_SUSPECTS = 4

Diagonals = tuple[float, float]


def _expected(length_mm: float, width_mm: float, corner_radius_mm: float = 0.0) -> float:
    """Mean diagonal that the sides ask for, mm, from arc to arc where the corners are rounded."""
    twice = 2 * corner_radius_mm
    return math.hypot(length_mm - twice, width_mm - twice) + twice


def _mean(diagonals_mm: Diagonals) -> float:
    return math.sqrt((diagonals_mm[0] ** 2 + diagonals_mm[1] ** 2) / 2)


def misclosure(
    length_mm: float, width_mm: float, diagonals_mm: Diagonals, corner_radius_mm: float = 0.0
) -> float:
    """By how much the measured diagonals exceed what length and width ask for, mm, in the root mean square.

    Rounded corners may have been measured from arc to arc or to where the edges would meet: the nearer counts.
    """
    mean = _mean(diagonals_mm)
    return min((mean - _expected(length_mm, width_mm, r) for r in (0.0, corner_radius_mm)), key=abs)


def closure_suspects(
    length_mm: float,
    width_mm: float,
    diagonals_mm: Diagonals,
    corner_radius_mm: float,
    kerf_mm: float,
    units: Units,
) -> tuple[str, ...]:
    """Name the single slips that would close the figures within 1/8 in, the best first.

    Tried are whole inches (in a metric job 10 mm), 6 and 9 in place of each other, and one kerf.
    """
    first, second = diagonals_mm
    closing: list[tuple[float, str]] = []

    def try_(text: str, length: float, width: float, diagonals: Diagonals) -> None:
        left = abs(misclosure(length, width, diagonals, corner_radius_mm))
        if not exceeds(left, CLOSURE_MM):
            closing.append((left, text))

    for name, size in (("length", length_mm), ("width", width_mm)):
        for change, why in (*_slips(size, units), (kerf_mm, "one kerf"), (-kerf_mm, "one kerf")):
            new = size + change
            sides = (new, width_mm) if name == "length" else (length_mm, new)
            # a size that leaves no room for its rounded corners is none
            if new > 2 * corner_radius_mm:
                try_(f"{name} {shown(new, units)} ({why})", *sides, diagonals_mm)
    for name, here, there in (("first", first, second), ("second", second, first)):
        for change, why in _slips(here, units):
            pair = (here + change, there)
            # two diagonals that agree were not misread one by one
            if abs(pair[0] - there) < abs(here - there):
                try_(f"{name} diagonal {shown(pair[0], units)} ({why})", length_mm, width_mm, pair)
    for change, why in _whole(units):
        way = "longer" if change > 0 else "shorter"
        text = f"both diagonals {shown(abs(change), units)} {way} ({why})"
        try_(text, length_mm, width_mm, (first + change, second + change))
    # rounded, so that the order does not hang on the last bit
    return tuple(
        text for _, text in sorted(closing, key=lambda pair: (round(pair[0], 6), pair[1]))[:_MOST_SUSPECTS]
    )


def _whole(units: Units) -> Iterator[tuple[float, str]]:
    """Whole marks of a tape that are skipped or read twice."""
    mark, one, two = (25.4, "a whole inch", "two whole inches") if units == "in" else (10.0, "10 mm", "20 mm")
    for sign in (1, -1):
        yield sign * mark, one
        yield sign * 2 * mark, two


def _slips(size_mm: float, units: Units) -> Iterator[tuple[float, str]]:
    """Slips of one reading, mm, and what they are: whole marks, and a 6 for a 9 or the other way."""
    yield from _whole(units)
    mark = 25.4 if units == "in" else 1.0
    digits = str(int(size_mm / mark + 1e-9))
    for place, digit in enumerate(reversed(digits)):
        if digit in "69":
            change = 3 if digit == "6" else -3
            # read as what stands there, meant as the other
            why = "9 for 6" if digit == "6" else "6 for 9"
            yield change * 10**place * mark, why


def closure_findings(
    length_mm: float,
    width_mm: float,
    diagonals_mm: Diagonals | None,
    corner_radius_mm: float,
    kerf_mm: float,
    units: Units,
) -> tuple[Finding, ...]:
    """Report finding 108 above 1/8 in; above 1/2 in it stops.

    Parameters
    ----------
    length_mm, width_mm
        Sides as measured, mm.
    diagonals_mm
        Both diagonals, mm; None where they were not measured: nothing is found.
    corner_radius_mm
        Radius of the old corners, mm, 0 for sharp ones.
    kerf_mm
        Saw kerf, mm: one of the slips that are looked for.
    """
    if diagonals_mm is None:
        return ()
    off = misclosure(length_mm, width_mm, diagonals_mm, corner_radius_mm)
    if not exceeds(abs(off), CLOSURE_MM):
        return ()
    expected = _mean(diagonals_mm) - off
    from_arcs = exceeds(_expected(length_mm, width_mm), expected)
    first, second = (shown(diagonal, units) for diagonal in diagonals_mm)
    suspects = closure_suspects(length_mm, width_mm, diagonals_mm, corner_radius_mm, kerf_mm, units)
    names = ", or ".join(suspects)
    told = f"it would close with {names}" if suspects else "no single slip of the usual kinds closes it"
    return (
        Finding(
            108,
            "stop" if exceeds(abs(off), BLUNDER_MM) else "warn",
            "measured sizes contradict each other",
            "top",
            f"length {shown(length_mm, units)}, width {shown(width_mm, units)}: mean diagonal "
            f"{shown(expected, units)}{' across the rounded corners' if from_arcs else ''}; "
            f"measured {first} and {second}: {shown(abs(off), units)} too {'long' if off > 0 else 'short'}",
            f"measure length, width and both diagonals again with one tape; {told}",
        ),
    )
