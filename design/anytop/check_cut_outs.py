"""Report findings of cut-outs: 201 and 202 where they are routed, 317 beside the rim, 320 at panel seams."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from edgewright.design.anytop.model import CutOutEdge, ShapedDesign
from edgewright.design.check_figures import exceeds, shown, shown_down
from edgewright.design.job_forms import edge_form
from edgewright.design.shapes.cutouts import nearest_between, nearest_segments
from edgewright.findings import Finding
from edgewright.trade import SPLICE_FROM_CUT_OUT, inch

__all__ = ["cut_out_findings"]

#: Wood beside a cut-out that strips can be glued to (common practice, no source).
_BESIDE_CUT_OUT_MM: Final = float(inch("1 1/2"))


def cut_out_findings(design: ShapedDesign) -> Iterator[Finding]:
    """Every finding of every cut-out."""
    for hole in design.cut_outs:
        yield from _bearing(design, hole)
        yield from _beside(design, hole)
        yield from _seams(design, hole)


def _bearing(design: ShapedDesign, hole: CutOutEdge) -> Iterator[Finding]:
    """201 and 202 of a cut-out: its edge is as thick as the top layer, for no strip runs under it."""
    job, units = design.job, design.job.units
    form, thickness = edge_form(job.edge, "top", design.edge_thickness_mm), design.thickness_mm
    if not (hole.routed and form.parts):
        return
    if exceeds(form.depth, thickness):
        yield Finding(
            201,
            "stop",
            "no such profile",
            hole.name,
            f"{form.name} {shown(form.depth, units)} deep, the edge of the cut-out is {shown(thickness, units)}",
            "use a smaller bit, or leave the cut-out unrouted",
            overridable=False,
        )
    bearing = job.router.bearing_height.mm
    need = form.depth + bearing
    if exceeds(need, thickness):
        asked = form.name == "bullnose"  # who asks for it knows that no flat is left
        yield Finding(
            202,
            "warn" if asked else "stop",
            "no flat for the bearing",
            hole.name,
            f"{form.name} {shown(form.depth, units)} + bearing {shown(bearing, units)} = {shown(need, units)}, "
            f"the edge of the cut-out is {shown(thickness, units)}",
            f"the form may be {shown_down(max(thickness - bearing, 0.0), units)} deep there; or leave the cut-out "
            "unrouted, or guide the bit by a template on the top",
        )


def _beside(design: ShapedDesign, hole: CutOutEdge) -> Iterator[Finding]:
    """317: a cut-out over the ring, or with too little wood beside it."""
    units = design.job.units
    ring = design.strip_width_mm if design.job.edge.build_up == "flat" else 0.0
    least, _ = nearest_between(design.finished.outline, hole.outline)
    wanted = max(_BESIDE_CUT_OUT_MM, ring)
    if exceeds(wanted, least):
        over = "it cuts into the strips" if exceeds(ring, least) else "the wood beside it is narrow"
        yield Finding(
            317,
            "warn",
            "cut-out near the edge",
            hole.name,
            f"{shown_down(least, units)} from the edge, {shown(wanted, units)} is wanted: {over}",
            "move it inwards, use narrower strips, or glue a solid piece under both",
        )


def _seams(design: ShapedDesign, hole: CutOutEdge) -> Iterator[Finding]:
    """320: a panel seam that runs into a cut-out, or near it: it opens and cracks from the corner."""
    units, wanted = design.job.units, float(SPLICE_FROM_CUT_OUT.value)
    if not design.panel_seams:
        return
    least, _ = nearest_segments(hole.outline.segments, design.panel_seams)
    if exceeds(wanted, least):
        through = not exceeds(least, 0.0)
        yield Finding(
            320,
            "warn",
            "panel seam at a cut-out",
            hole.name,
            "a panel seam runs through it"
            if through
            else f"{shown_down(least, units)} from a panel seam, {shown(wanted, units)} is wanted",
            "move the cut-out clear of the seam, or fasten a cleat across the seam on both sides of it: resin cracks "
            "there first",
        )
