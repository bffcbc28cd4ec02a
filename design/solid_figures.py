"""The figures of a solid as plain values: the solid, its mesh and its picture are all made from these alone.

Frame: x to the east, y to the north, z up, origin at the finished south-west corner on the underside; millimetres.
"""

from __future__ import annotations

from dataclasses import dataclass

from edgewright.design.levels import rectangle_levels
from edgewright.design.metrics import EdgeMetrics, edge_metrics
from edgewright.design.outline import FIT_MM, CornerRadii, Point
from edgewright.design.profile import EdgeProfile
from edgewright.errors import GeometryError

__all__ = ["SolidSpec", "StripBody"]


@dataclass(frozen=True, slots=True)
class StripBody:
    """One strip piece before it is routed: four corners in plan, counter-clockwise, from ``z0`` up to ``z1`` (mm)."""

    name: str
    corners: tuple[Point, Point, Point, Point]
    z0: float
    z1: float


@dataclass(frozen=True, slots=True)
class SolidSpec:
    """All figures of the solid, mm.

    Attributes
    ----------
    length, width, radii
        Finished outline: a rectangle with corner radii south-west, south-east, north-east, north-west.
    thickness, top_thickness
        T of the edge and T0 of the top layer, which lies from T - T0 up to T.
    top_radius, bottom_radius
        Round-overs of the edge.
    strips
        Strip pieces; they may stand proud of the outline, the profile trims them flush.

    Raises
    ------
    GeometryError
        If outline or profile cannot exist, or the top is thicker than its edge.
    """

    length: float
    width: float
    radii: CornerRadii
    thickness: float
    top_thickness: float
    top_radius: float
    bottom_radius: float
    strips: tuple[StripBody, ...]

    def __post_init__(self) -> None:
        self.metrics()
        if not 0 < self.top_thickness <= self.thickness + FIT_MM:
            raise GeometryError(
                f"top thickness is {self.top_thickness:g} mm; it must be greater than 0 mm and at most the "
                f"edge's {self.thickness:g} mm: measure the top again"
            )

    @property
    def profile(self) -> EdgeProfile:
        """Profile of the edge."""
        return EdgeProfile.round_overs(self.thickness, self.top_radius, self.bottom_radius)

    @property
    def seam(self) -> float:
        """Height of the top layer's lower face, T - T0, in mm."""
        return max(self.thickness - self.top_thickness, 0.0)

    def metrics(self) -> EdgeMetrics:
        """Exact areas and volumes of the edge solid, from the closed forms.

        Raises
        ------
        GeometryError
            If outline or profile cannot exist.
        """
        return edge_metrics(rectangle_levels(self.length, self.width, self.radii), self.profile)
