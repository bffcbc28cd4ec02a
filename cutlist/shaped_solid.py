"""The solid of a shaped top, in the frame of the old top from above."""

from __future__ import annotations

from edgewright.design.anytop.model import ShapedDesign
from edgewright.design.buildup.ring_model import RingPiece
from edgewright.design.outline import Point
from edgewright.design.solid_figures import SolidSpec, StripBody, region_solid_spec
from edgewright.errors import GeometryError

__all__ = ["shaped_solid_spec"]


def shaped_solid_spec(design: ShapedDesign) -> SolidSpec:
    """Figures of the solid, mm: the routed top and the pieces of its build-up.

    Raises
    ------
    GeometryError
        If the edge profile does not exist (finding 201).
    """
    if design.profile is None:
        raise GeometryError(
            "the edge profile does not exist, so there is no solid; see finding 201: use smaller round-overs"
        )
    return region_solid_spec(
        design.region,
        design.profile,
        min(design.thickness_mm, design.profile.thickness),
        strips=tuple(_body(design, piece) for piece in design.pieces),
        still=design.still,
        # a cut-out goes through the top layer only: its lower arris lies on no edge that is routed
        holes_below=False,
    )


def _body(design: ShapedDesign, piece: RingPiece) -> StripBody:
    """A flat piece from its layer's upper to its lower face; a skirt down to the underside."""
    seam = max(design.edge_thickness_mm - design.thickness_mm, 0.0)
    corners: tuple[Point, ...] = piece.plan
    if piece.kind == "skirt":
        return StripBody(piece.id, corners, 0.0, min(piece.blank_width, design.edge_thickness_mm))
    thick = design.strip_thickness_mm
    lowest = piece.layer == design.job.edge.layers
    return StripBody(
        piece.id, corners, 0.0 if lowest else seam - piece.layer * thick, seam - (piece.layer - 1) * thick
    )
