"""Shown numbers that add up.

Inches are mixed fractions down to 1/64, millimetres have one decimal and at most three. A figure that had to
be rounded on its own carries a ``~``. In a run of positions each is rounded once, and widths are differences
of what is shown, so that a reader who adds the printed figures gets the printed total.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from decimal import ROUND_FLOOR, ROUND_HALF_UP, Decimal
from itertools import pairwise
from typing import Final

from edgewright.ticks import TICKS_PER_INCH, TICKS_PER_MM, snap_nearest
from edgewright.units import Units

__all__ = [
    "SHOWN_TICKS",
    "fitted_run",
    "marked_run",
    "rounded_parts",
    "show_area",
    "show_as",
    "show_decimal",
    "show_mm",
    "show_ticks",
    "show_volume",
    "shown_edge_areas",
    "shown_run",
    "shown_ticks",
]

SHOWN_TICKS: Final[dict[Units, int]] = {"in": TICKS_PER_INCH // 64, "mm": TICKS_PER_MM // 10}
"""Ticks of the smallest step that is shown: 1/64 in or 0.1 mm."""
_EXACT_MM: Final = 8


def show_ticks(ticks: int, units: Units, *, unit: bool = True) -> str:
    """Show a length held in ticks.

    Parameters
    ----------
    ticks
        Any sign.
    units
        ``"in"``: mixed fraction, halved down to 64ths; ``"mm"``: as many decimals as it takes, at most 3,
        or rounded to a tenth.
    unit
        Whether the unit is written behind.

    Returns
    -------
    str
        Like ``1 7/8 in`` or ``40.3 mm``; with ``~`` in front when the figure is rounded, and only then.
    """
    shown = shown_ticks(ticks, units)
    return ("" if shown == ticks else "~") + _written(shown, units, unit)


def shown_ticks(ticks: int, units: Units) -> int:
    """Length that `show_ticks` writes for a length, ticks: the nearest 1/64 in; itself or the nearest 0.1 mm."""
    # a tick is 3.125 thousandths of a millimetre, so thousandths are exact for every eighth tick
    return ticks if units == "mm" and ticks % _EXACT_MM == 0 else snap_nearest(ticks, SHOWN_TICKS[units])


def show_as(shown: int, ticks: int, units: Units, *, unit: bool = True) -> str:
    """Show a length (ticks) by a figure near it that adds up with others; ``~`` in front where the two differ.

    ``shown`` is a sum or difference of what `shown_ticks` gives.
    """
    return ("" if shown == ticks else "~") + _written(shown, units, unit)


def _written(shown: int, units: Units, unit: bool) -> str:
    """Write ticks that can be written exactly."""
    if units == "in":
        return _inches(shown // SHOWN_TICKS["in"], unit)
    return _millimetres(shown * 25 // 8, unit)


def show_mm(mm: float, units: Units, *, unit: bool = True) -> str:
    """Show a free length (mm, finite, any sign) to the nearest 1/64 in or 0.1 mm, halves up."""
    if units == "in":
        return _inches(math.floor(mm / 25.4 * 64 + 0.5), unit)
    return _millimetres(math.floor(mm * 10 + 0.5) * 100, unit)


def show_decimal(mm: float, units: Units) -> str:
    """Show a computed length that no tape measures (mm): four decimals of an inch, or two of a millimetre."""
    return f"{mm / 25.4:.4f} in" if units == "in" else f"{mm:.2f} mm"


def shown_run(positions: Sequence[int], units: Units, *, unit: bool = True) -> tuple[list[str], list[str]]:
    """Show positions from one datum, and the widths between them, so that both add up.

    Parameters
    ----------
    positions
        Ticks, ascending. Each is rounded once, as `show_ticks` does it.
    units, unit
        As in `show_ticks`.

    Returns
    -------
    tuple[list[str], list[str]]
        The positions, and one width fewer: differences of the rounded positions.

    Raises
    ------
    ValueError
        Positions that do not ascend (a mistake in our own code).
    """
    shown = fitted_run(positions, (False,) * (len(positions) - 1), units)
    widths = [b - a for a, b in pairwise(shown)]
    return (
        [_written(ticks, units, unit) for ticks in shown],
        [_written(ticks, units, unit) for ticks in widths],
    )


def marked_run(positions: Sequence[int], units: Units) -> tuple[list[str], list[str]]:
    """As `shown_run`, with ``~`` before each position and width that was rounded."""
    shown = fitted_run(positions, (False,) * (len(positions) - 1), units)
    return (
        [show_as(at, exact, units) for at, exact in zip(shown, positions, strict=True)],
        [
            show_as(b - a, d - c, units)
            for (a, b), (c, d) in zip(pairwise(shown), pairwise(positions), strict=True)
        ],
    )


def fitted_run(positions: Sequence[int], kept: Sequence[bool], units: Units) -> list[int]:
    """Positions as they are shown (ticks), so that what lies between two of them reads the same wherever it is kept.

    A piece has one length on every sheet and label, so its length is kept; kerfs and rests take up the rounding.

    Parameters
    ----------
    positions
        Ticks, ascending, from one datum.
    kept
        For each stretch between two positions, whether it is kept: shown as `show_ticks` shows its length alone.

    Returns
    -------
    list[int]
        The first and last position as `show_ticks` shows them, the last one unless all stretches are kept; so is each
        position where a stretch that is kept begins, but for those that must move to make room.

    Raises
    ------
    ValueError
        Positions that do not ascend (a mistake in our own code).
    """
    if any(b < a for a, b in pairwise(positions)):
        raise ValueError(f"positions must ascend, got {list(positions)}")
    shown = [shown_ticks(position, units) for position in positions]
    lengths = [shown_ticks(b - a, units) for a, b in pairwise(positions)]
    for index, keep in enumerate(kept):
        shown[index + 1] = shown[index] + lengths[index] if keep else max(shown[index : index + 2])
    if all(kept):
        return shown
    # the end is where it is, so what would reach past it is moved back as far as it takes
    shown[-1] = shown_ticks(positions[-1], units)
    for index in reversed(range(len(kept))):
        most = shown[index + 1] - (lengths[index] if kept[index] else 0)
        if shown[index] == most or (shown[index] < most and not kept[index]):
            break
        shown[index] = most
    return shown


def show_area(mm2: float, units: Units, *, unit: bool = True) -> str:
    """Show an area (mm²) like ``395.55 in²`` or ``0.255 m²``."""
    from edgewright.convert import convert

    if units == "in":
        return f"{convert(mm2, 'mm**2', 'in**2'):z.2f}" + (" in²" if unit else "")
    return f"{convert(mm2, 'mm**2', 'm**2'):z.3f}" + (" m²" if unit else "")


def rounded_parts(parts: Sequence[float], total: float, places: int) -> tuple[list[Decimal], Decimal]:
    """Round parts so that they add up to their rounded total.

    All are rounded down, and those with the largest remainders up by one last place, until they add up; of
    equal remainders the first goes first.

    Parameters
    ----------
    parts
        At least one, any unit; together the total but for float rounding.
    total
        In the same unit; rounded half up.
    places
        Decimal places, 0 or more.

    Returns
    -------
    tuple[list[Decimal], Decimal]
        Parts, each less than one last place from what it was, and the total.

    References
    ----------
    The method of largest remainders.
    """
    step = Decimal(1).scaleb(-places)
    whole = Decimal(repr(total)).quantize(step, ROUND_HALF_UP)
    exact = [Decimal(repr(part)) for part in parts]
    shown = [part.quantize(step, ROUND_FLOOR) for part in exact]
    missing = int((whole - sum(shown)) / step)
    for index in sorted(range(len(exact)), key=lambda n: shown[n] - exact[n])[: max(missing, 0)]:
        shown[index] += step
    return shown, whole


def shown_edge_areas(parts: Sequence[float], units: Units) -> tuple[list[str], str]:
    """Show the areas of an edge (mm²) and their total so that they add up: ``124.71 in²`` or ``470.2 cm²``."""
    from edgewright.convert import convert

    unit, said, places = ("in**2", "in²", 2) if units == "in" else ("cm**2", "cm²", 1)
    areas = [convert(part, "mm**2", unit) for part in parts]
    shown, total = rounded_parts(areas, math.fsum(areas), places)
    return [f"{area} {said}" for area in shown], f"{total} {said}"


def show_volume(mm3: float, units: Units, *, unit: bool = True) -> str:
    """Show a volume (mm³) like ``6.9 fl oz`` or ``204 ml``."""
    from edgewright.convert import convert

    if units == "in":
        return f"{convert(mm3, 'mm**3', 'fl_oz'):z.1f}" + (" fl oz" if unit else "")
    return f"{convert(mm3, 'mm**3', 'mL'):z.0f}" + (" ml" if unit else "")


def _inches(sixty_fourths: int, unit: bool) -> str:
    """Write whole 64ths of an inch as a mixed fraction in lowest terms."""
    whole, top = divmod(abs(sixty_fourths), 64)
    common = math.gcd(top, 64)
    words = [str(whole)] if whole or not top else []
    if top:
        words.append(f"{top // common}/{64 // common}")
    return ("-" if sixty_fourths < 0 else "") + " ".join(words) + (" in" if unit else "")


def _millimetres(thousandths: int, unit: bool) -> str:
    """Write whole thousandths of a millimetre without idle zeros."""
    whole, rest = divmod(abs(thousandths), 1000)
    decimals = f".{rest:03d}".rstrip("0").rstrip(".")
    return ("-" if thousandths < 0 else "") + f"{whole}{decimals}" + (" mm" if unit else "")
