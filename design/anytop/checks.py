"""Findings of a shaped top that its geometry alone decides: those of any edge, and those of its shape."""

from __future__ import annotations

import math
from collections.abc import Iterator

from edgewright.design.anytop.check_cut_outs import cut_out_findings
from edgewright.design.anytop.check_measured import measured_findings
from edgewright.design.anytop.check_old_edges import live_edge_findings, old_arris_findings
from edgewright.design.anytop.model import ShapedDesign
from edgewright.design.anytop.ring import grain_direction, ring_settings, skirt_settings, strip_floor_mm
from edgewright.design.anytop.room import room_findings
from edgewright.design.buildup.skirt import skirt_bends
from edgewright.design.check_buildup import pin_findings, screw_findings
from edgewright.design.check_figures import exceeds, shown, shown_down
from edgewright.design.check_material import build_up_findings, particleboard_findings, thickness_findings
from edgewright.design.check_profile import profile_findings, seam_findings
from edgewright.design.check_ring import cross_grain_findings, long_piece_findings, ring_findings
from edgewright.design.check_skirt import kerf_findings, skirt_findings
from edgewright.design.checks import apply_overrides, job_pin_choices
from edgewright.design.job_forms import edge_form
from edgewright.design.outline import Arc
from edgewright.design.shapes.model import Shape
from edgewright.display import show_decimal
from edgewright.findings import Finding

__all__ = ["shaped_findings"]


def shaped_findings(design: ShapedDesign, before_skirt: Shape) -> tuple[Finding, ...]:
    """Every finding, sorted, with the job's overrides applied.

    Parameters
    ----------
    design
        Complete but for its findings, which are not read.
    before_skirt
        The finished outline as it is when the build-up is fitted.
    """
    found = (
        *measured_findings(design),
        *_material(design),
        *_profile(design),
        *old_arris_findings(design),
        *_build_up(design, before_skirt),
        *live_edge_findings(design),
        *cut_out_findings(design),
        *_tips(design),
        *_orders(design),
        *room_findings(design, before_skirt),
    )
    return apply_overrides(found, design.job.overrides)


def _material(design: ShapedDesign) -> tuple[Finding, ...]:
    job, top = design.job, design.job.top
    above, below = (edge_form(job.edge, arris, design.edge_thickness_mm) for arris in ("top", "bottom"))
    glued = job.edge.build_up != "none"
    return (
        *(build_up_findings(top.material, top.glue_face_bare, job.units) if glued else ()),
        *particleboard_findings(top.material, above, below, job.units),
        *thickness_findings(tuple(reading.mm for reading in top.thickness), job.units),
    )


def _profile(design: ShapedDesign) -> Iterator[Finding]:
    job, units = design.job, design.job.units
    above, below = (edge_form(job.edge, arris, design.edge_thickness_mm) for arris in ("top", "bottom"))
    bearing = job.router.bearing_height.mm
    yield from profile_findings(design.edge_thickness_mm, above, below, bearing, units)
    if job.edge.build_up == "flat":
        yield from seam_findings(
            design.thickness_mm,
            design.strip_thickness_mm,
            job.edge.layers,
            above.depth,
            below.depth,
            bearing,
            units,
        )
    reach = max(above.reach, below.reach)
    by_radius: dict[float, list[str]] = {}
    for segment, name in zip(design.finished.outline.segments, design.finished.names, strict=True):
        if isinstance(segment, Arc) and segment.sweep > 0 and exceeds(reach, segment.radius):
            by_radius.setdefault(segment.radius, []).append(name)
    for radius, names in by_radius.items():
        yield Finding(
            204,
            "warn",
            "corner radius smaller than the edge form",
            ", ".join(dict.fromkeys(names)),
            f"corner radius {shown(radius, units)}, the form reaches {shown(reach, units)} in",
            f"use a corner radius of at least {shown(reach, units)} or a smaller form: the inner part comes to a "
            "mitre, and resin is thin on it",
        )


def _build_up(design: ShapedDesign, before_skirt: Shape) -> Iterator[Finding]:
    job, units = design.job, design.job.units
    base = job.base
    yield from screw_findings(
        None if base.screw_length is None else base.screw_length.mm,
        None if base.base_thickness is None else base.base_thickness.mm,
        job.top.thickness_min.mm,
        units,
    )
    if job.edge.build_up == "none":
        return
    yield from long_piece_findings(design.pieces, units)
    grain = grain_direction(job, design.old)
    if grain is not None:
        yield from cross_grain_findings(design.pieces, grain, units)
    if job.edge.build_up != "flat":
        settings = skirt_settings(job)
        outline = before_skirt.outline
        yield from skirt_findings(outline, settings, units)
        bends = skirt_bends(outline, before_skirt.names, settings, job.saw.kerf.mm)
        yield from kerf_findings(bends, job.saw.kerf.mm, units)
        return
    yield from pin_findings(job_pin_choices(job), units)
    yield from ring_findings(
        before_skirt.outline,
        before_skirt.names,
        ring_settings(job, before_skirt, design.strip_width_mm),
        design.pieces,
        design.panel_seams,
        units,
    )
    floor = strip_floor_mm(job)
    if exceeds(floor, design.strip_width_mm):
        yield Finding(
            301,
            "stop",
            "strip too narrow",
            "edge",
            f"strips {shown(design.strip_width_mm, units)} wide, at least {shown(floor, units)} is needed",
            "use wider strips: pins find no room that no cutter meets",
        )


def _tips(design: ShapedDesign) -> Iterator[Finding]:
    """207: what the bearing cannot reach at inside corners."""
    units = design.job.units
    seen: set[tuple[str, str]] = set()
    for found in design.tips:
        if (found.corner, found.arris) in seen:
            continue
        seen.add((found.corner, found.arris))
        along = max(found.tip.runs_below)
        yield Finding(
            207,
            "note",
            "uncut tip at an inside corner",
            f"{found.corner}, {found.arris} arris",
            f"the bearing, {shown(design.job.router.bearing_diameter.mm, units)} across, leaves the form short of the "
            f"corner by {show_decimal(along, units)} along each edge",
            "shape the tip by hand, use a smaller bearing, or round the inside corner first",
        )


def _orders(design: ShapedDesign) -> Iterator[Finding]:
    """318: another order of cuts gives longer strips."""
    table, units = design.trims.orders, design.job.units
    if table is None or not table.rows:
        return
    used = tuple(sawn.cut.name for sawn in design.trims.cuts)
    best = table.rows[0]
    mine = next((row for row in table.rows if _names(design, row.numbers) == used), None)
    if mine is None:
        return
    gain = math.fsum(best.lanes) - math.fsum(mine.lanes)
    if exceeds(gain, 1.0):
        order = ", ".join(_names(design, best.numbers))
        yield Finding(
            318,
            "note",
            "another order of cuts gives more strip",
            "saw",
            f"strips {shown(design.strip_width_mm, units)} wide: {shown_down(math.fsum(mine.lanes), units)} in all "
            f"as ordered, {shown_down(math.fsum(best.lanes), units)} in the order {order}",
            "cut in that order, the lengthwise cuts at full length first",
        )


def _names(design: ShapedDesign, numbers: tuple[int, ...]) -> tuple[str, ...]:
    cuts = [sawn.cut.name for sawn in design.trims.cuts]
    return tuple(cuts[number] for number in numbers if number < len(cuts))
