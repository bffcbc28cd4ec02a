"""The edge profile: a quarter round-over at the top, a vertical flat, a quarter round-over at the bottom."""

from __future__ import annotations

import math
from dataclasses import dataclass

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
    top_radius, bottom_radius
        Radii of the quarter round-overs in mm; 0 leaves the arris sharp.

    Raises
    ------
    GeometryError
        If a figure is out of range, or the two round-overs do not fit into the thickness. They may just
        meet (no flat between them).
    """

    thickness: float
    top_radius: float
    bottom_radius: float

    def __post_init__(self) -> None:
        if not (math.isfinite(self.thickness) and self.thickness > 0):
            raise GeometryError(
                f"thickness is {self.thickness:g} mm; it must be greater than 0 mm: measure the finished edge"
            )
        for name, radius in (("top", self.top_radius), ("bottom", self.bottom_radius)):
            if not (math.isfinite(radius) and radius >= 0):
                raise GeometryError(
                    f"{name} round-over radius is {radius:g} mm; it must be at least 0 mm: "
                    "give 0 for a sharp arris"
                )
        total = self.top_radius + self.bottom_radius
        if total > self.thickness + FIT_MM:
            raise GeometryError(
                f"round-overs of {self.top_radius:.10g} mm at the top and {self.bottom_radius:.10g} mm at "
                f"the bottom need {total:.10g} mm of thickness; the edge has {self.thickness:.10g} mm, "
                f"{total - self.thickness:.6g} mm too little: use smaller bits or a thicker build-up"
            )

    @property
    def flat(self) -> float:
        """Height of the vertical flat between the round-overs, in mm, at least 0."""
        return max(self.thickness - self.top_radius - self.bottom_radius, 0.0)

    @property
    def length(self) -> float:
        """Length of the profile curve in mm: T - rt - rb + (π/2)(rt + rb)."""
        return self.flat + math.pi / 2 * (self.top_radius + self.bottom_radius)
