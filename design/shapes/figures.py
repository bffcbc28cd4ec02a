"""Checks that every measured figure goes through, and the sentences they give."""

from __future__ import annotations

import math

from edgewright.design.outline import FIT_MM
from edgewright.errors import GeometryError

__all__ = ["need_at_most", "need_not_negative", "need_positive", "need_triangle"]


def need_positive(name: str, value: float, hint: str = "measure it again") -> None:
    """Raise GeometryError unless a length (mm) is finite and greater than 0."""
    if not (math.isfinite(value) and value > FIT_MM):
        raise GeometryError(f"{name} is {value:g} mm; it must be greater than 0 mm: {hint}")


def need_not_negative(name: str, value: float, hint: str = "give 0 for none") -> None:
    """Raise GeometryError unless a length (mm) is finite and at least 0."""
    if not (math.isfinite(value) and value >= 0):
        raise GeometryError(f"{name} is {value:g} mm; it must be at least 0 mm: {hint}")


def need_at_most(name: str, value: float, bound_name: str, bound: float, hint: str) -> None:
    """Raise GeometryError if a length (mm) is greater than a named bound."""
    if value > bound + FIT_MM:
        raise GeometryError(f"{name} is {value:.10g} mm; {bound_name} allows at most {bound:.10g} mm: {hint}")


def need_triangle(names: tuple[str, str, str], sides: tuple[float, float, float]) -> None:
    """Raise GeometryError unless three lengths (mm) make a triangle with some area."""
    for name, side in zip(names, sides, strict=True):
        need_positive(name, side)
    at = max(range(3), key=lambda number: sides[number])
    one, other = (number for number in range(3) if number != at)
    total = sides[one] + sides[other]
    if not sides[at] < total - FIT_MM:
        raise GeometryError(
            f"{names[at]} is {sides[at]:.10g} mm; {names[one]} {sides[one]:.10g} mm and {names[other]} "
            f"{sides[other]:.10g} mm reach {total:.10g} mm together and must reach further: measure the three again"
        )
