"""Section of a shaped top's edge at full size: with its layers of strips, with a skirt under it, or the top alone."""

from __future__ import annotations

from edgewright.design.anytop.model import ShapedDesign
from edgewright.design.edge_section import EdgeLayers, edge_section
from edgewright.drawing.paper import PaperBox
from edgewright.drawing.view import View
from edgewright.ticks import TICKS_PER_MM

__all__ = ["shaped_section"]


def shaped_section(design: ShapedDesign, box: PaperBox, code: str) -> tuple[View, ...]:
    """Draw the section; none where no profile exists, and none of a skirt that covers the edge of the top.

    Parameters
    ----------
    box
        Width and height that the figure may fill, paper mm, at least 150 x 90.
    code
        Plan code, written beside the scale.
    """
    edge = design.job.edge
    if edge.build_up == "skirt_on_edge":
        return ()
    flat = edge.build_up == "flat"
    below = design.edge_thickness_mm - design.thickness_mm
    layers = {"flat": edge.layers, "none": 0}.get(edge.build_up, 1)
    look = EdgeLayers(
        design.job,
        design.profile,
        design.thickness_mm,
        design.strip_thickness_mm if flat else below,
        layers,
        pinned=flat,
    )
    wide = design.strip_width_mm if flat else design.strip_thickness_mm
    return edge_section(look, round(wide * TICKS_PER_MM), box, code=code)
