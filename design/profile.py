"""The edge profile: a form at the top, a vertical flat, a form at the bottom."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from edgewright.design.forms import Form, round_over
from edgewright.design.outline import FIT_MM
from edgewright.errors import GeometryError

__all__ = ["EdgeProfile"]


@dataclass(frozen=True, slots=True)
class EdgeProfile:
    """Section of the edge, from the top face down to the underside.

    Attributes
    ----------
    thickness
        Thickness of the top with its build-up, in mm, greater than 0.
    top, bottom
        Forms of the upper and the lower arris; the lower one's depth is measured up from the underside.

    Raises
    ------
    GeometryError
        If a figure is out of range, or the two forms do not fit into the thickness. They may just meet (no
        flat between them).
    """

    thickness: float
    top: Form
    bottom: Form

    def __post_init__(self) -> None:
        if not (math.isfinite(self.thickness) and self.thickness > 0):
            raise GeometryError(
                f"thickness is {self.thickness:g} mm; it must be greater than 0 mm: measure the finished edge"
            )
        total = self.top.depth + self.bottom.depth
        if total > self.thickness + FIT_MM:
            raise GeometryError(
                f"{self._both()} need {total:.10g} mm of thickness; the edge has {self.thickness:.10g} mm, "
                f"{total - self.thickness:.6g} mm too little: use smaller bits or a thicker build-up"
            )

    @classmethod
    def round_overs(cls, thickness: float, top_radius: float, bottom_radius: float) -> EdgeProfile:
        """Profile with a round-over above and below (mm); radius 0 leaves the arris sharp.

        Raises
        ------
        GeometryError
            If a figure is out of range, or the two do not fit into the thickness.
        """
        return cls(thickness, round_over(top_radius, "top"), round_over(bottom_radius, "bottom"))

    @classmethod
    def bullnose(cls, thickness: float) -> EdgeProfile:
        """Half round: both round-overs have half the thickness (mm) and meet without a flat.

        Raises
        ------
        GeometryError
            If the thickness is not greater than 0.
        """
        half = replace(round_over(max(thickness / 2, 0.0)), name="bullnose")
        return cls(thickness, half, half)

    @property
    def top_radius(self) -> float:
        """Reach of the upper form in mm: the radius where it is a round-over."""
        return self.top.reach

    @property
    def bottom_radius(self) -> float:
        """Reach of the lower form in mm: the radius where it is a round-over."""
        return self.bottom.reach

    @property
    def flat(self) -> float:
        """Height of the vertical flat between the forms, in mm, at least 0."""
        return max(self.thickness - self.top.depth - self.bottom.depth, 0.0)

    @property
    def length(self) -> float:
        """Length of the profile curve in mm; for round-overs T - rt - rb + (π/2)(rt + rb)."""
        return self.flat + self.top.length + self.bottom.length

    def _both(self) -> str:
        """Name both forms with their depths."""
        top, bottom = self.top.depth, self.bottom.depth
        if self.top.is_round_over and self.bottom.is_round_over:
            return f"round-overs of {top:.10g} mm at the top and {bottom:.10g} mm at the bottom"
        return (
            f"the top {self.top.name}, {top:.10g} mm deep, and the bottom {self.bottom.name}, "
            f"{bottom:.10g} mm deep,"
        )
