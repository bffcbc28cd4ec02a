"""A piece of the levels on which lengths are no polynomial: exact values at each inset."""

from __future__ import annotations

from dataclasses import dataclass

from edgewright.design.front import Front

__all__ = ["CurvedLevel"]


@dataclass(frozen=True, slots=True)
class CurvedLevel:
    """P(d) and A(d) for ``d_from <= d <= d_to`` (mm), where a corner runs along a curve.

    Attributes
    ----------
    front
        The moving edge.
    area_off
        Added to the area within the moved loop (mm²): 0 unless the area is counted otherwise.
    """

    d_from: float
    d_to: float
    front: Front
    area_off: float = 0.0

    def perimeter(self, d: float) -> float:
        """Length of the inner parallel at inset ``d`` (mm)."""
        return self.front.perimeter(d)

    def area(self, d: float) -> float:
        """Area within the inner parallel at inset ``d`` (mm to mm²); negative for a hole."""
        outline = self.front.outline(d)
        return self.area_off + (0.0 if outline is None else outline.area)
