"""The figures of a top that its bill of quantities is reckoned from, whatever the top's shape."""

from __future__ import annotations

from dataclasses import dataclass, replace

from edgewright.cutlist.model import CutPlan
from edgewright.cutlist.takeoff_lines import TakeoffLine
from edgewright.design.metrics import EdgeMetrics
from edgewright.design.model import Design
from edgewright.job_any import AnyJob
from edgewright.ticks import ticks_to_mm
from edgewright.trade import Material

__all__ = ["RingFigures", "TopFigures", "glue_face_mm2", "rectangle_figures"]


@dataclass(frozen=True, slots=True)
class RingFigures:
    """The strips under the edge.

    Attributes
    ----------
    glue_face_mm2
        Area that is glued, all layers together.
    volume_mm3
        Wood of the strips after the edge is routed.
    materials
        What the strips are made of; more than one where boards differ.
    pins
        Lines of pins, none where no pin on hand can be used.
    """

    glue_face_mm2: float
    volume_mm3: float
    materials: tuple[Material, ...]
    pins: tuple[TakeoffLine, ...]


@dataclass(frozen=True, slots=True)
class TopFigures:
    """A finished top in figures.

    Attributes
    ----------
    edge_thickness_mm
        Thickness of the edge, T.
    glue_seams_mm, panel_seams_mm
        Length of the seams that show on the edge, and of the old top's seams that remain in its face.
    top_volume_mm3
        Wood of the top layer after it is routed.
    ring
        None without strips.
    cut_outs_mm2
        Area of the edges of all cut-outs, which are sealed.
    routed_cut_outs_mm2, routed_cut_outs_mm
        Area and length of those of them that are routed and coated like the rim.
    """

    job: AnyJob
    metrics: EdgeMetrics
    edge_thickness_mm: float
    glue_seams_mm: float
    panel_seams_mm: float
    top_volume_mm3: float
    ring: RingFigures | None
    cut_outs_mm2: float = 0.0
    routed_cut_outs_mm2: float = 0.0
    routed_cut_outs_mm: float = 0.0

    @property
    def coated(self) -> EdgeMetrics:
        """Figures of all that is coated: the rim with the routed cut-outs."""
        if not self.routed_cut_outs_mm:
            return self.metrics
        return replace(
            self.metrics,
            edge_mm2=self.metrics.edge_mm2 + self.routed_cut_outs_mm2,
            perimeter_mm=self.metrics.perimeter_mm + self.routed_cut_outs_mm,
        )


def rectangle_figures(
    design: Design, metrics: EdgeMetrics, cut_plan: CutPlan, pins: tuple[TakeoffLine, ...]
) -> TopFigures:
    """Figures of a planned rectangular top; without pieces (an impossible plan) it has no ring."""
    face = metrics.top_face_outline_area_mm2
    ring = None
    if cut_plan.pieces:
        length, width = (ticks_to_mm(size) for size in design.sizes.finished)
        strip = ticks_to_mm(cut_plan.strip_width_ticks)
        band = face - max(0.0, length - 2 * strip) * max(0.0, width - 2 * strip)
        wood = band * design.job.edge.layers * design.strip_thickness_mm - metrics.removed_bottom_mm3
        ring = RingFigures(glue_face_mm2(cut_plan), wood, _strip_materials(design, cut_plan), pins)
    return TopFigures(
        job=design.job,
        metrics=metrics,
        edge_thickness_mm=design.edge_thickness_mm,
        glue_seams_mm=metrics.perimeter_mm * design.job.edge.layers,
        panel_seams_mm=_panel_seams_mm(design),
        top_volume_mm3=face * design.thickness_mm - metrics.removed_top_mm3,
        ring=ring,
    )


def glue_face_mm2(plan: CutPlan) -> float:
    """Glued area of all strips, mm²: length times width, a mitred end less its triangle."""
    width = ticks_to_mm(plan.strip_width_ticks)
    length = sum(ticks_to_mm(piece.length_ticks) for piece in plan.pieces)
    mitres = sum((piece.start_cut == "mitre") + (piece.end_cut == "mitre") for piece in plan.pieces)
    return length * width - mitres * width**2 / 2


def _panel_seams_mm(design: Design) -> float:
    """Length of the old top's seams that lie inside the finished top, mm."""
    sizes = design.sizes
    length = 0.0
    for seam in design.job.top.seams:
        axis = 0 if seam.across == "length" else 1
        if 0 < seam.at.ticks() - sizes.origin[axis] < sizes.finished[axis]:
            length += ticks_to_mm(sizes.finished[1 - axis])
    return length


def _strip_materials(design: Design, plan: CutPlan) -> tuple[Material, ...]:
    """Materials that the strips are made of; offcuts are of the top's own."""
    job = design.job
    lanes = {piece.lane_id for piece in plan.pieces}
    used = [stick for stick in plan.sticks if any(lane.id in lanes for lane in stick.lanes)]
    boards = {board.name: job.board_material(board) for board in job.stock}
    return tuple(
        boards.get(stick.name, job.top.material) if stick.source != "offcut" else job.top.material
        for stick in used
    )
