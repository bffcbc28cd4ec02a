"""All findings that the geometry alone decides, and the overrides of the job.

An override names a finding and repeats its figures; when the figures have changed it has lapsed and says so.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Final, Protocol

from edgewright.compass import PerSide
from edgewright.design.check_base import apron_findings, off_centre_findings, overhang_findings
from edgewright.design.check_buildup import pin_findings, screw_findings
from edgewright.design.check_closure import closure_findings
from edgewright.design.check_material import (
    build_up_findings,
    particleboard_findings,
    squareness_findings,
    thickness_findings,
)
from edgewright.design.check_profile import (
    corner_radius_findings,
    missing_wood_findings,
    old_arris_findings,
    profile_findings,
    seam_findings,
)
from edgewright.design.check_seating import (
    accessible_findings,
    arm_findings,
    middle_zone_findings,
    places_findings,
    thigh_findings,
)
from edgewright.design.forms import Form
from edgewright.design.job_forms import edge_form, reach_ticks
from edgewright.design.model import Design
from edgewright.design.pins import PIN_LENGTHS_MM, PinChoice, pin_choices
from edgewright.findings import Finding
from edgewright.job import Job
from edgewright.job_any import AnyJob
from edgewright.ticks import nearest_ticks, ticks_to_mm

__all__ = [
    "DESIGN_NUMBERS",
    "apply_overrides",
    "design_findings",
    "job_pin_choice",
    "job_pin_choices",
    "sorted_findings",
]

#: Findings that the geometry alone decides; the others wait for a plan.
DESIGN_NUMBERS: Final = frozenset(
    {
        *(101, 102, 104, 105, 106, 107, 108),
        *(201, 202, 203, 204, 205, 206),
        *(303, 304, 307),
        *(401, 402, 403, 404, 405, 406, 407, 408),
    }
)
LAPSED: Final = 901
UNUSED: Final = 902


class OverrideLike(Protocol):
    """An override of the job: number of the finding, its figures as printed, and why."""

    @property
    def finding(self) -> int: ...
    @property
    def figures(self) -> str: ...
    @property
    def reason(self) -> str: ...


def design_findings(design: Design) -> tuple[Finding, ...]:
    """Every finding of the design, sorted, with the job's overrides applied.

    Overrides of findings that a plan decides are left to `apply_overrides` on the whole list.

    Parameters
    ----------
    design
        Complete but for its findings, which are not read.
    """
    found = (*_material(design), *_profile(design), *_build_up(design), *_room(design))
    overrides = [entry for entry in design.job.overrides if entry.finding in DESIGN_NUMBERS]
    return apply_overrides(found, overrides)


def sorted_findings(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Sort findings by number, then place, then figures."""
    return tuple(sorted(findings, key=lambda finding: (finding.number, finding.place, finding.figures)))


def apply_overrides(findings: Iterable[Finding], overrides: Sequence[OverrideLike]) -> tuple[Finding, ...]:
    """Apply overrides to a list of findings and report those that no longer match.

    Findings 901 and 902 of an earlier call are dropped first, so that the whole list of a plan may be passed
    again. Spaces do not count when figures are compared; everything else does.

    Returns
    -------
    tuple[Finding, ...]
        Sorted; an overridden finding carries the reason, 901 is an override whose figures have changed, 902
        one whose finding does not exist or cannot be overridden.
    """
    kept = [
        replace(finding, overridden=None) for finding in findings if finding.number not in (LAPSED, UNUSED)
    ]
    reports = []
    for override in overrides:
        same = [at for at, finding in enumerate(kept) if finding.number == override.finding]
        open_ = [at for at in same if kept[at].overridable]
        if not open_:
            why = "cannot be overridden" if same else "is not found on this job"
            reports.append(
                Finding(
                    UNUSED,
                    "note",
                    "override not used",
                    f"override {override.finding}",
                    f"finding {override.finding} {why}",
                    "take the override out of the job",
                )
            )
            continue
        matching = [at for at in open_ if _bare(kept[at].figures) == _bare(override.figures)]
        for at in matching:
            kept[at] = replace(kept[at], overridden=override.reason)
        if not matching:
            now = " / ".join(kept[at].figures for at in open_)
            reports.append(
                Finding(
                    LAPSED,
                    "warn",
                    "override lapsed",
                    f"override {override.finding}",
                    f"overridden: {override.figures}; now: {now}",
                    "look at the finding again; if it may still be overridden, repeat its new figures",
                )
            )
    return sorted_findings((*kept, *reports))


def job_pin_choice(job: Job) -> PinChoice:
    """Pin for the layer against the top."""
    return job_pin_choices(job)[0]


def job_pin_choices(job: AnyJob) -> tuple[PinChoice, ...]:
    """Pin for each layer, the one against the top first; a metric job that lists no pins is offered metric ones."""
    if job.units == "mm" and "lengths" not in job.pins.model_fields_set:
        lengths = [nearest_ticks(length) for length in PIN_LENGTHS_MM.value]
    else:
        lengths = [length.ticks_up() for length in job.pins.lengths]
    return pin_choices(
        job.top.thickness_min.ticks_down(),
        job.strip_thickness.ticks_down(),
        job.edge.layers,
        reach_ticks(job.edge, "bottom", job.top),
        job.edge.proud.ticks_up(),
        lengths,
        job.pins.spacing.ticks(),
        job.units,
    )


def _bare(figures: str) -> str:
    """Figures without any white space."""
    return "".join(figures.split())


def _trims(design: Design) -> PerSide[float]:
    """Turn what comes off each side into mm."""
    return PerSide.build(lambda side: ticks_to_mm(design.sizes.amounts[side]))


def _sizes(design: Design) -> tuple[tuple[float, float], tuple[float, float]]:
    """Old and finished (length, width), mm."""
    (old_x, old_y), (new_x, new_y) = design.sizes.old, design.sizes.finished
    return (ticks_to_mm(old_x), ticks_to_mm(old_y)), (ticks_to_mm(new_x), ticks_to_mm(new_y))


def _forms(design: Design) -> tuple[Form, Form]:
    """Forms of the top and the bottom arris, also where they do not fit."""
    edge, thickness = design.job.edge, design.edge_thickness_mm
    return edge_form(edge, "top", thickness), edge_form(edge, "bottom", thickness)


def _material(design: Design) -> tuple[Finding, ...]:
    job, units = design.job, design.job.units
    top = job.top
    diagonals = None if top.diagonals is None else (top.diagonals[0].mm, top.diagonals[1].mm)
    return (
        *build_up_findings(top.material, top.glue_face_bare, units),
        *particleboard_findings(top.material, *_forms(design), units),
        *squareness_findings(top.length.mm, top.width.mm, diagonals, units),
        *closure_findings(
            top.length.mm, top.width.mm, diagonals, top.corner_radius.mm, job.saw.kerf.mm, units
        ),
        *thickness_findings(tuple(reading.mm for reading in top.thickness), units),
    )


def _profile(design: Design) -> tuple[Finding, ...]:
    job, units = design.job, design.job.units
    above, below = _forms(design)
    bearing, radii, trims = job.router.bearing_height.mm, design.corner_radii_mm, _trims(design)
    old_radius = job.top.corner_radius.mm
    arris = PerSide.build(lambda side: job.top.finished_edge[side].arris_radius.mm)
    return (
        *profile_findings(design.edge_thickness_mm, above, below, bearing, units),
        *seam_findings(
            design.thickness_mm,
            design.strip_thickness_mm,
            job.edge.layers,
            above.depth,
            below.depth,
            bearing,
            units,
        ),
        *corner_radius_findings(radii, above, below, units),
        *missing_wood_findings((old_radius,) * 4, radii, trims, units),
        *old_arris_findings(arris, trims, units),
    )


def _build_up(design: Design) -> tuple[Finding, ...]:
    job = design.job
    screw, base = job.base.screw_length, job.base.base_thickness
    return (
        *pin_findings(job_pin_choices(job), job.units),
        *screw_findings(
            None if screw is None else screw.mm,
            None if base is None else base.mm,
            job.top.thickness_min.mm,
            job.units,
        ),
    )


def _room(design: Design) -> tuple[Finding, ...]:
    job, units, edge = design.job, design.job.units, design.edge_thickness_mm
    seating, apron = job.seating, job.base.apron_depth
    apron_below = None if apron is None else design.thickness_mm + apron.mm
    old, new = _sizes(design)
    found = [
        *off_centre_findings(design.base.offset, units, known=bool(job.base.model_fields_set)),
        *overhang_findings(design.base.overhang, _trims(design), units),
        *apron_findings(design.thickness_mm, edge, None if apron is None else apron.mm, units),
    ]
    if seating.model_fields_set:
        found += middle_zone_findings(old, new, units)
        found += places_findings(old, new, seating.seats, units)
    if seating.table_height is not None:
        height = seating.table_height.mm
        if seating.arm_height is not None:
            arm = seating.arm_height.mm
            found += arm_findings(height, arm, edge, units, apron_below, design.base.overhang)
        if seating.seat_height is not None:
            found += thigh_findings(height, seating.seat_height.mm, edge, apron_below, units)
        if seating.accessible:
            found += accessible_findings(height, edge, apron_below, design.base.overhang, units)
    return tuple(found)
