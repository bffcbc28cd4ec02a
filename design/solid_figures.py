"""The figures of a solid as plain values: the solid, its mesh and its picture are all made from these alone.

Frame: x to the east, y to the north in the plan of the top, z up from the underside; millimetres.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from edgewright.design.form_integrals import form_area, form_volume
from edgewright.design.levels import perimeter_at
from edgewright.design.mesh_cut import is_convex_loop
from edgewright.design.outline import FIT_MM, Outline, Point
from edgewright.design.profile import EdgeProfile
from edgewright.design.region import Region
from edgewright.design.wavefront import region_levels
from edgewright.errors import GeometryError

__all__ = ["SolidSpec", "StripBody", "region_solid_spec"]


@dataclass(frozen=True, slots=True)
class StripBody:
    """One piece of the build-up before it is routed: a polygon in plan, from ``z0`` up to ``z1`` (mm).

    The corners run counter-clockwise; the polygon is convex.
    """

    name: str
    corners: tuple[Point, ...]
    z0: float
    z1: float


@dataclass(frozen=True, slots=True)
class SolidSpec:
    """All figures of the solid, mm.

    Attributes
    ----------
    region
        Finished outline with its holes, exact lines and arcs.
    profile
        Section of the edge; its thickness T is that of the edge.
    top_thickness
        T0 of the top layer, which lies from T - T0 up to T.
    strips
        Pieces of the build-up; they may stand proud of the outline, the profile trims them flush.
    volume_mm3, edge_mm2
        Closed form of the edge solid: its volume, and the surface of its routed edge. The kernel's solid is
        measured against them.
    still
        Numbers of the segments that are not routed, counted as in ``region.segments``: a wall's side, a hole.
    holes_below
        Whether the lower arris of the holes is routed, too; else it stays square.
    left_out
        Names of pieces that are not in the solid, as they are bent.

    Raises
    ------
    GeometryError
        If the top is thicker than its edge, or a number in ``still`` names no segment.
    """

    region: Region
    profile: EdgeProfile
    top_thickness: float
    strips: tuple[StripBody, ...]
    volume_mm3: float
    edge_mm2: float
    still: frozenset[int] = frozenset()
    holes_below: bool = True
    left_out: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if not 0 < self.top_thickness <= self.thickness + FIT_MM:
            raise GeometryError(
                f"top thickness is {self.top_thickness:g} mm; it must be greater than 0 mm and at most the "
                f"edge's {self.thickness:g} mm: measure the top again"
            )
        count = len(self.region.segments)
        wrong = [number for number in self.still if not 0 <= number < count]
        if wrong:
            raise GeometryError(
                f"edge number {wrong[0]} is not to be routed; the outline has edges 0 to {count - 1}: "
                "name an edge that is there"
            )

    @property
    def thickness(self) -> float:
        """Thickness T of the edge, in mm."""
        return self.profile.thickness

    @property
    def seam(self) -> float:
        """Height of the top layer's lower face, T - T0, in mm."""
        return max(self.thickness - self.top_thickness, 0.0)

    @property
    def size(self) -> Point:
        """Length and width of the box around the outline, in mm."""
        x0, y0, x1, y1 = self.region.bounds
        return x1 - x0, y1 - y0

    def routed_loops(self, upper: bool) -> tuple[tuple[Outline, tuple[bool, ...]], ...]:
        """Each loop and, for each of its segments, whether its upper or its lower arris is routed."""
        found, first = [], 0
        for number, loop in enumerate(self.region.loops):
            count = len(loop.segments)
            moves = upper or number == 0 or self.holes_below
            found.append((loop, tuple(moves and first + at not in self.still for at in range(count))))
            first += count
        return tuple(found)


def region_solid_spec(
    region: Region,
    profile: EdgeProfile,
    top_thickness: float,
    *,
    strips: tuple[StripBody, ...] = (),
    still: frozenset[int] = frozenset(),
    holes_routed: bool = True,
    holes_below: bool = True,
) -> SolidSpec:
    """Figures of the solid of any top, mm, its closed forms with them.

    Parameters
    ----------
    region
        Finished outline with its holes.
    profile, top_thickness
        Section of the edge; thickness of the top layer.
    strips
        Pieces of the build-up; one that is not convex in plan is bent, and left out.
    still
        Segments that are not routed, numbers as in ``region.segments``.
    holes_routed, holes_below
        Whether the profile runs round the holes, too, and whether also at their lower arris.

    Raises
    ------
    GeometryError
        If the top is thicker than its edge or too narrow for its forms, or ``still`` names no segment.
    """
    if not holes_routed:
        still |= frozenset(range(len(region.outer.segments), len(region.segments)))
    reach = max(profile.top.reach, profile.bottom.reach)
    volume, edge = [region.area * profile.thickness], []
    for number, levels in enumerate(region_levels(region, reach, still)):
        below = number == 0 or holes_below
        volume.append(-form_volume(levels, profile.top))
        edge += [form_area(levels, profile.top), perimeter_at(levels, 0.0) * profile.flat]
        if below:
            volume.append(-form_volume(levels, profile.bottom))
            edge.append(form_area(levels, profile.bottom))
        else:
            edge.append(perimeter_at(levels, 0.0) * profile.bottom.depth)
    flat = tuple(strip for strip in strips if is_convex_loop(strip.corners))
    return SolidSpec(
        region=region,
        profile=profile,
        top_thickness=top_thickness,
        strips=flat,
        volume_mm3=math.fsum(volume),
        edge_mm2=math.fsum(edge),
        still=still,
        holes_below=holes_below,
        left_out=tuple(strip.name for strip in strips if strip not in flat),
    )
