"""Checks that every measured figure goes through, and the sentences they give."""

from __future__ import annotations

from typing import Final

from edgewright.design.outline import FIT_MM
from edgewright.errors import GeometryError

__all__ = [
    "LARGEST_MM",
    "LEAST_MM",
    "need_at_most",
    "need_greater",
    "need_not_negative",
    "need_place",
    "need_positive",
    "need_triangle",
]

#: Figures below a thousandth of a millimetre are no measurement of wood, and edges that short make no outline.
LEAST_MM: Final = 1e-3

#: A hundred metres: beyond it lies a slip of the pen, and floats place points too coarsely.
LARGEST_MM: Final = 1e5


def need_positive(name: str, value: float, hint: str = "measure it again") -> None:
    """Raise GeometryError unless a length (mm) is greater than 0, from `LEAST_MM` to `LARGEST_MM`."""
    if LEAST_MM <= value <= LARGEST_MM:
        return
    bound = "greater than 0 mm"
    if value > LARGEST_MM:
        bound = f"at most {LARGEST_MM:.0f} mm"
    elif value > 0:
        bound = f"at least {LEAST_MM:g} mm"
    raise GeometryError(f"{name} is {value:g} mm; it must be {bound}: {hint}")


def need_not_negative(name: str, value: float, hint: str = "give 0 for none") -> None:
    """Raise GeometryError unless a length (mm) is 0 or from `LEAST_MM` to `LARGEST_MM`."""
    if not (value == 0 or LEAST_MM <= value <= LARGEST_MM):
        bound = "at least 0 mm"
        if value > LARGEST_MM:
            bound = f"at most {LARGEST_MM:.0f} mm"
        elif value > 0:
            bound = f"0 or at least {LEAST_MM:g} mm"
        raise GeometryError(f"{name} is {value:g} mm; it must be {bound}: {hint}")


def need_place(name: str, *coordinates: float) -> None:
    """Raise GeometryError unless coordinates (mm) are finite and within `LARGEST_MM` of the origin."""
    if not all(abs(value) <= LARGEST_MM for value in coordinates):
        shown = ", ".join(f"{value:g}" for value in coordinates)
        raise GeometryError(
            f"{name} is at ({shown}) mm; it must be within {LARGEST_MM:.0f} mm of the origin: give the place again"
        )


def need_at_most(name: str, value: float, bound_name: str, bound: float, hint: str) -> None:
    """Raise GeometryError if a length (mm) is greater than a named bound."""
    if value > bound + FIT_MM:
        raise GeometryError(f"{name} is {value:.10g} mm; {bound_name} allows at most {bound:.10g} mm: {hint}")


def need_greater(name: str, value: float, bound_name: str, bound: float, hint: str) -> None:
    """Raise GeometryError unless a length (mm) is greater than a named bound by `LEAST_MM`."""
    if not value >= bound + LEAST_MM:
        raise GeometryError(
            f"{name} is {value:.10g} mm; it must be greater than {bound_name}{bound:.10g} mm: {hint}"
        )


def need_triangle(names: tuple[str, str, str], sides: tuple[float, float, float]) -> None:
    """Raise GeometryError unless three lengths (mm) make a triangle with some area."""
    for name, side in zip(names, sides, strict=True):
        need_positive(name, side)
    at = max(range(3), key=lambda number: sides[number])
    one, other = (number for number in range(3) if number != at)
    total = sides[one] + sides[other]
    if not sides[at] <= total - LEAST_MM:
        raise GeometryError(
            f"{names[at]} is {sides[at]:.10g} mm; {names[one]} {sides[one]:.10g} mm and {names[other]} "
            f"{sides[other]:.10g} mm reach {total:.10g} mm together and must reach further: measure the three again"
        )
