"""From a job to its design: sizes, outlines, profile, exact metrics, base fit, width limits and findings."""

from __future__ import annotations

from dataclasses import replace

from edgewright.compass import CORNERS
from edgewright.design.base import base_fit
from edgewright.design.checks import design_findings
from edgewright.design.job_forms import edge_profile
from edgewright.design.levels import rectangle_levels
from edgewright.design.limits import width_limits
from edgewright.design.metrics import edge_metrics
from edgewright.design.model import Begun, Design
from edgewright.design.outline import rectangle
from edgewright.design.trim import trim_sizes
from edgewright.job import Job
from edgewright.ticks import ticks_to_mm

__all__ = ["build_design"]


def build_design(job: Job, begun: Begun | None = None) -> Design:
    """Design of a job; of one whose cutting has begun the sizes are those that can still be had.

    Raises
    ------
    GeometryError
        If the finished outline cannot exist with its radii (a job file that was read has been checked for that).
    """
    sizes = trim_sizes(job) if begun is None else begun.sizes
    base = base_fit(job, sizes)
    south_west, south_east, north_east, north_west = (job.edge.corner_radius[corner].mm for corner in CORNERS)
    radii = (south_west, south_east, north_east, north_west)
    old_radius = job.top.corner_radius.mm
    old_size = ticks_to_mm(sizes.old[0]), ticks_to_mm(sizes.old[1])
    length, width = ticks_to_mm(sizes.finished[0]), ticks_to_mm(sizes.finished[1])
    origin = (ticks_to_mm(sizes.origin[0]), ticks_to_mm(sizes.origin[1]))
    thickness, strip = job.top.thickness_mean.mm, job.strip_thickness.mm
    edge = thickness + job.edge.layers * strip
    profile = edge_profile(job.edge, edge)
    design = Design(
        job=job,
        sizes=sizes,
        thickness_mm=thickness,
        strip_thickness_mm=strip,
        edge_thickness_mm=edge,
        old_outline=rectangle(*old_size, (old_radius, old_radius, old_radius, old_radius)),
        finished_outline=rectangle(length, width, radii, origin),
        corner_radii_mm=radii,
        profile=profile,
        metrics=edge_metrics(rectangle_levels(length, width, radii), profile) if profile else None,
        base=base,
        limits=width_limits(job, sizes, base),
        findings=(),
        begun=begun,
    )
    return replace(design, findings=design_findings(design))
