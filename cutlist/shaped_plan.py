"""The whole job of a shaped top: design, what its build-up is cut from, take-off, findings."""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Callable
from dataclasses import dataclass

from edgewright.band import Band
from edgewright.cutlist.new_top_proof import prove_sheets
from edgewright.cutlist.plan_code import short_code
from edgewright.cutlist.ring_pins import ring_pins
from edgewright.cutlist.shaped_build_up import BuildUpPlan
from edgewright.cutlist.shaped_handling import shaped_handling
from edgewright.cutlist.shaped_segments import best_cutting
from edgewright.cutlist.shaped_stock_findings import with_stock_findings
from edgewright.cutlist.takeoff import Takeoff, bill
from edgewright.cutlist.takeoff_figures import RingFigures, TopFigures
from edgewright.cutlist.takeoff_lines import TakeoffLine, exactly
from edgewright.design.anytop.build import build_shaped
from edgewright.design.anytop.model import ShapedDesign
from edgewright.design.buildup.ring_stock import BlankRow, to_be_bought
from edgewright.design.checks import apply_overrides, job_pin_choices
from edgewright.design.pin_figures import pin_spacing_text
from edgewright.findings import Finding, open_stops
from edgewright.job_shaped import ShapedJob
from edgewright.job_used import job_digest

__all__ = ["ShapedPlan", "plan_shaped", "shaped_plan_code"]

PIECES = "pieces of the build-up"


@dataclass(frozen=True, slots=True)
class ShapedPlan:
    """Everything about the job of a shaped top.

    Attributes
    ----------
    blanks
        Blanks of the build-up, those of equal size in one row.
    build_up
        What they are cut from and which of them must be bought.
    takeoff
        None where the edge profile does not exist.
    code
        Short code of job and plan; it stands on every sheet and file, so that old and new never mix.
    """

    job: ShapedJob
    design: ShapedDesign
    blanks: tuple[BlankRow, ...]
    build_up: BuildUpPlan
    takeoff: Takeoff | None
    findings: tuple[Finding, ...]
    code: str

    @property
    def ready(self) -> bool:
        """Whether one may cut by it: no stop is open. Otherwise NOT FOR CUTTING."""
        return not open_stops(self.findings)


def plan_shaped(job: ShapedJob, progress: Callable[[str], None] | None = None) -> ShapedPlan:
    """Plan the job of a shaped top.

    Parameters
    ----------
    job
        The job.
    progress
        Called with a few words before each step that may take a while.

    Raises
    ------
    GeometryError
        If the figures of the job make no top, or a cut or piece finds no room: one sentence.
    CheckError
        If the independent checker refuses the layout of the build-up.
    """
    design = build_shaped(job)
    cutting = best_cutting(design, progress)
    build_up = cutting.plan
    if build_up.pieces != design.pieces:
        design = build_shaped(job, build_up.pieces)
    if job.top.new:
        prove_sheets(design, build_up)
    blanks = to_be_bought(design.pieces, job.saw.kerf.mm, job.units)
    takeoff = None if design.metrics is None else bill(_figures(design))
    found = with_stock_findings((*design.findings, *shaped_handling(design)), design, cutting)
    findings = apply_overrides(found, job.overrides)
    return ShapedPlan(job, design, blanks, build_up, takeoff, findings, shaped_plan_code(design, build_up))


def shaped_plan_code(design: ShapedDesign, build_up: BuildUpPlan) -> str:
    """Short code of job, outline, cuts and pieces, and of what each piece is cut from."""
    loops = [
        [list(map(_ticks, vertex[:2])) for vertex in loop.bulge_vertices()] for loop in design.region.loops
    ]
    cuts = [
        [sawn.cut.name, *map(_ticks, (*sawn.cut.keep.start, *sawn.cut.keep.end))]
        for sawn in design.trims.cuts
    ]
    pieces = [
        [piece.id, piece.kind, _ticks(piece.blank_length), _ticks(piece.blank_width)]
        for piece in design.pieces
    ]
    laid = [dataclasses.astuple(one) for one in build_up.cut]
    return short_code(job_digest(design.job), loops, cuts, pieces, *([laid] if laid else []))


def _ticks(mm: float) -> int:
    return round(mm * 320)


def _figures(design: ShapedDesign) -> TopFigures:
    job, metrics = design.job, design.metrics
    assert metrics is not None
    routed = [hole for hole in design.cut_outs if hole.routed]
    return TopFigures(
        job=job,
        metrics=metrics,
        edge_thickness_mm=design.edge_thickness_mm,
        glue_seams_mm=design.seams.glue,
        panel_seams_mm=design.seams.panel,
        top_volume_mm3=design.mass.top.volume,
        ring=_ring(design),
        cut_outs_mm2=math.fsum(hole.edge_area for hole in design.cut_outs),
        routed_cut_outs_mm2=math.fsum(hole.edge_area for hole in routed),
        routed_cut_outs_mm=math.fsum(hole.perimeter for hole in routed),
    )


def _ring(design: ShapedDesign) -> RingFigures | None:
    ring = design.mass.ring
    if ring is None:
        return None
    return RingFigures(design.glue_face_mm2, ring.volume, (design.job.top.material,), _pins(design))


def _pins(design: ShapedDesign) -> tuple[TakeoffLine, ...]:
    """Pins along the pieces, as the ring map shows them; none where no pin can be used."""
    job = design.job
    pins = ring_pins(design)
    if not pins:
        return ()
    count = sum(not pin.left_out for pin in pins)
    less = len(pins) - count
    left_out = (
        f"; {less} left out at rounded corners or for want of room: glue and clamp there" if less else ""
    )
    return (
        TakeoffLine(
            "pins",
            "along the pieces",
            Band.exact(count),
            "count",
            (exactly("pins on the ring map", "count", count, PIECES),),
            f"One every {pin_spacing_text(job_pin_choices(job)[0], job.units)} in each piece, at least two{left_out}.",
        ),
    )
