"""From the job of a shaped top to its design: outline, trims, cut-outs, profile, metrics, ring, mass, findings."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from edgewright.design.anytop.base_fit import shaped_base_fit
from edgewright.design.anytop.checks import shaped_findings
from edgewright.design.anytop.cutouts import cut_out_edges, with_job_cut_outs
from edgewright.design.anytop.edge import edge_figures, still_segments
from edgewright.design.anytop.mass import finished_mass
from edgewright.design.anytop.measured import measured_shape
from edgewright.design.anytop.model import ShapedDesign
from edgewright.design.anytop.new_top import blank_of, cut_from_blank
from edgewright.design.anytop.ring import ring_settings, skirt_settings, strip_width_mm
from edgewright.design.anytop.trim import squared_up, trimmed
from edgewright.design.buildup.ring_model import RingPiece, under_rim
from edgewright.design.buildup.ring_pieces import ring_pieces
from edgewright.design.buildup.roundings import largest_rounding
from edgewright.design.buildup.skirt import skirt_pieces
from edgewright.design.job_forms import edge_profile
from edgewright.design.outline import FIT_MM, Arc, Line, Outline
from edgewright.design.outset import outset
from edgewright.design.region import Region
from edgewright.design.seams import line_across, seam_stretches
from edgewright.design.segments import point_at, winding
from edgewright.design.shapes.corners import round_corners
from edgewright.design.shapes.loop import move_outline
from edgewright.design.shapes.model import Shape
from edgewright.design.shapes.placing import placed
from edgewright.design.wavefront import region_wave
from edgewright.errors import GeometryError, blaming
from edgewright.job_outline import Drawing, Stations
from edgewright.job_shaped import ShapedJob

__all__ = ["build_shaped", "ring_with_segments"]

#: Outlines with many slight corners: none of them is rounded unless the job says so.
_AS_TRACED: Final = (Drawing, Stations)


def build_shaped(job: ShapedJob, ring: tuple[RingPiece, ...] | None = None) -> ShapedDesign:
    """Design of a shaped top.

    Parameters
    ----------
    job
        The job.
    ring
        Pieces of the build-up as they are cut, where the stock made other ones of them; None to lay them out.

    Raises
    ------
    GeometryError
        If its measurements make no outline, a cut or a cut-out does not fit, or the ring finds no room: one
        sentence with the figure and the place.
    """
    with blaming("top", "outline"):
        old, holes = measured_shape(job.top.outline, job.saw.kerf.mm, job.units)
    if job.trim.largest_rectangle:
        with blaming("trim", "largest_rectangle"):
            old, holes = squared_up(old, holes)
    wanted, new = old, job.top.new
    if new:
        old, wanted, holes = blank_of(old, holes, job.top.oversize.mm)
    else:
        old, holes = _at_origin(old, holes)
    thickness, strip = job.top.thickness_mean.mm, job.strip_thickness.mm
    edge = _edge_thickness(job)
    profile = edge_profile(job.edge, edge)
    width = strip_width_mm(job)
    with blaming(*("top", "outline") if new else ("trim", job.trim.way or "edges")):
        trims = cut_from_blank(old, wanted, job) if new else trimmed(old, holes, job, width)
    with blaming("edge"):
        before_skirt = _rounded(trims.finished, old, job)
        finished = _with_skirt(before_skirt, job)
    with blaming("base", "overhang"):
        measured = trims.finished if new else old
        before_base = strip_width_mm(job, shaped_base_fit(job, measured, before_skirt).overhang)
    if before_base != width:  # orders of cuts are compared by the strips that are used
        width = before_base
        trims = cut_from_blank(old, wanted, job) if new else trimmed(old, holes, job, width)
    region = with_job_cut_outs(finished, holes, measured, job, profile)
    seams = tuple(part for line in _panel_lines(old, job) for part in seam_stretches(region, line))
    with blaming("edge"):
        pieces = _pieces(before_skirt, trims.finished, job, seams, width) if ring is None else ring
        still = still_segments(job, finished, region)
        reach = 0.0 if profile is None else max(profile.top.reach, profile.bottom.reach)
        wave = None if profile is None else region_wave(region, reach, still)
        figures = edge_figures(job, finished, region, still, profile, wave)
    rim = Region(before_skirt.outline)
    lying = [(piece, () if piece.kind == "skirt" else under_rim(piece, rim)) for piece in pieces]
    design = ShapedDesign(
        job=job,
        old=old,
        finished=finished,
        region=region,
        trims=trims,
        thickness_mm=thickness,
        strip_thickness_mm=strip,
        edge_thickness_mm=edge,
        profile=profile,
        metrics=figures.metrics,
        parallel_metrics=figures.parallel_metrics,
        runs=figures.runs,
        still=still,
        cut_outs=cut_out_edges(job, region, profile, wave, figures.top_tips, thickness),
        layer_areas=figures.layer_areas,
        panel_seams=seams,
        seams=figures.seams(pieces, seams),
        tips=figures.tips,
        strip_width_mm=width,
        pieces=pieces,
        glue_face_mm2=_glued(job, lying),
        mass=finished_mass(job, region, profile, wave, lying, edge),
        findings=(),
    )
    with blaming("edge", "build_up"):  # a skirt that cannot be bent round a curve
        findings = shaped_findings(design, before_skirt)
    return replace(design, findings=findings)


def ring_with_segments(design: ShapedDesign, segments: int) -> tuple[RingPiece, ...]:
    """The flat ring of a design with another number of segments to the circle.

    Raises
    ------
    GeometryError
        If it finds no room.
    """
    job = design.job
    edge = job.edge.model_copy(update={"segments": segments})
    other = job.model_copy(update={"edge": edge})
    return _ring(design.finished, design.trims.finished, other, design.panel_seams, design.strip_width_mm)


def _at_origin(old: Shape, holes: tuple[Outline, ...]) -> tuple[Shape, tuple[Outline, ...]]:
    """The old top with the south-west corner of its box at the origin, from where all places are told."""
    x0, y0, _, _ = old.outline.bounds
    if max(abs(x0), abs(y0)) <= FIT_MM:
        return old, holes
    return placed(old, (-x0, -y0)), tuple(move_outline(hole, (-x0, -y0), 0.0) for hole in holes)


def _edge_thickness(job: ShapedJob) -> float:
    edge = job.edge
    below = {
        "flat": edge.layers * job.strip_thickness.mm,
        "none": 0.0,
    }.get(edge.build_up, 0.0 if edge.skirt_drop is None else edge.skirt_drop.mm)
    return job.top.thickness_mean.mm + below


def _rounded(shape: Shape, old: Shape, job: ShapedJob) -> Shape:
    """Sharp corners rounded as the job asks; a traced outline keeps its slight hollows.

    An inside corner can only be rounded where a trim leaves wood in it: one that the old top has is there as it is.
    """
    edge = job.edge
    asked = "inside_radius" in edge.model_fields_set
    if isinstance(job.top.outline, _AS_TRACED) and not asked:
        return round_corners(shape, edge.outside_radius.mm, 0.0)
    found = round_corners(shape, edge.outside_radius.mm, edge.inside_radius.mm)
    bare = _rounding_without_wood(found, shape, old)
    if bare is None:
        return found
    if not asked:
        return round_corners(shape, edge.outside_radius.mm, 0.0)
    with blaming("edge", "inside_radius"):
        raise GeometryError(
            f"{bare}: the old top has no wood for a radius of {edge.inside_radius.mm:g} mm there, and nothing can be "
            "added: give 0 for inside corners as they are, or trim the edges beside"
        )


def _rounding_without_wood(found: Shape, sharp: Shape, old: Shape) -> str | None:
    """Name of a rounded inside corner that lies outside the old top; None where all have wood."""
    before = set(sharp.outline.segments)
    for segment, name in zip(found.outline.segments, found.names, strict=True):
        if isinstance(segment, Arc) and segment.sweep < 0 and segment not in before:
            points = [point_at(segment, step / 8) for step in range(1, 8)]
            if not all(winding(old.outline, point) for point in points):
                return name
    return None


def _with_skirt(shape: Shape, job: ShapedJob) -> Shape:
    if job.edge.build_up != "skirt_on_edge":
        return shape
    outline = outset(shape.outline, job.strip_thickness.mm)
    return Shape(outline, shape.names)


def _panel_lines(old: Shape, job: ShapedJob) -> list[Line]:
    x0, y0, _, _ = old.outline.bounds
    region = Region(old.outline)
    lines = []
    for seam in job.top.seams:
        upright = seam.across == "length"
        through = (x0 + seam.at.mm, y0) if upright else (x0, y0 + seam.at.mm)
        lines.append(line_across(region, through, math.pi / 2 if upright else 0.0))
    return lines


def _pieces(
    shape: Shape, sharp: Shape, job: ShapedJob, seams: Sequence[Line], width: float
) -> tuple[RingPiece, ...]:
    if job.edge.build_up == "none":
        return ()
    if job.edge.build_up == "flat":
        return _ring(shape, sharp, job, seams, width)
    return skirt_pieces(shape.outline, shape.names, skirt_settings(job))


def _ring(
    shape: Shape, sharp: Shape, job: ShapedJob, seams: Sequence[Line], width: float
) -> tuple[RingPiece, ...]:
    """Ring under the outline; where small roundings beside curves leave no room, laid out before they are rounded.

    The blanks then run to the sharp corners, as they do at all roundings that the strips cover.
    """
    settings = ring_settings(job, shape, width)
    narrow = ring_settings(job, shape, width, narrow=True)
    radius = job.edge.outside_radius.mm
    covered = radius and radius <= largest_rounding(settings.strip_width, narrow.ring_width, math.pi / 2)
    outlines = [shape, sharp] if covered else [shape]
    tries = [(outline, how) for how in (settings, narrow) for outline in outlines]
    first: GeometryError | None = None
    for outline, how in tries:
        try:
            return ring_pieces(outline.outline, outline.names, how, seams)
        except GeometryError as error:
            first = first or error
    assert first is not None
    raise first


def _glued(job: ShapedJob, lying: Sequence[tuple[RingPiece, tuple[Outline, ...]]]) -> float:
    """Area that is glued (mm²): of a skirt its upper edge, or its face against the edge of the top."""
    if job.edge.build_up == "flat":
        return math.fsum(part.area for _, parts in lying for part in parts)
    on_edge = job.edge.build_up == "skirt_on_edge"
    height = job.top.thickness_mean.mm if on_edge else job.strip_thickness.mm
    return math.fsum(piece.blank_length for piece, _ in lying) * height
