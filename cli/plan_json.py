"""``plan.json``: everything about a plan as plain data; every key says its unit.

``PLAN_KEYS`` describes the keys of the first two levels; a test compares it with what is really written. What
one could cut by is withheld while a stop is open or there is no plan.
"""

from __future__ import annotations

import dataclasses
import json
from collections.abc import Mapping, Sequence
from typing import Any, Final, Protocol

from edgewright import __version__
from edgewright.cli.output import FORMAT
from edgewright.compass import CORNERS, SIDES
from edgewright.cutlist.plan import Plan
from edgewright.cutlist.stages import plain_plan
from edgewright.cutlist.takeoff import Takeoff, TakeoffLine
from edgewright.design.forms import Form
from edgewright.design.metrics import EdgeMetrics
from edgewright.design.model import Design
from edgewright.design.profile import EdgeProfile
from edgewright.job import given_and_used, job_digest
from edgewright.job_any import AnyJob
from edgewright.ticks import TICKS_PER_MM

__all__ = [
    "PLAN_KEYS",
    "VERSION",
    "WITHHELD",
    "HasReady",
    "edge_dict",
    "job_dict",
    "json_text",
    "plan_dict",
    "status_of",
    "takeoff_dict",
]


class HasReady(Protocol):
    """A plan of any top."""

    @property
    def ready(self) -> bool:
        """Whether one may cut by it."""


VERSION: Final = 1
"""Goes up when a key changes its meaning or goes away; new keys may come without."""

WITHHELD: Final = ("cuts", "pieces", "strip_map", "remnants")
"""Keys of ``cut_plan`` that are left out, with ``crosscuts``, ``stops`` and ``rips``, while NOT FOR CUTTING."""

PLAN_KEYS: Final[dict[str, str]] = {
    "format": "Always `edgewright plan`.",
    "version": "Version of this format, a whole number.",
    "made_by": "Program and its version.",
    "plan_code": "Short code of job and plan; it stands on every file of the plan.",
    "status": "`ready`, or `NOT FOR CUTTING` while a stop is open or there is no plan.",
    "files": "Names of the files written beside this one.",
    "ticks_per_mm": "Whole ticks in one millimetre.",
    "job": "The job as read.",
    "job.title": "Title of the job.",
    "job.revision": "Revision as given, or null.",
    "job.date": "Date as given, or null.",
    "job.units": "Unit that is shown to people, `in` or `mm`.",
    "job.digest": "SHA-256 of the values used.",
    "job.keys": "Every key with the value given, the value used, its source (file, default) and origin.",
    "sizes": "Sizes before and after the trims, in the frame of the old top.",
    "sizes.grid_ticks": "Bench grid that chosen sizes are snapped to.",
    "sizes.old_ticks": "Length and width of the old top.",
    "sizes.finished_ticks": "Length and width of the finished top.",
    "sizes.origin_ticks": "Finished south-west corner, from the old one: to the east, to the north.",
    "sizes.amounts_ticks": "What comes off each side, kerf included.",
    "sizes.thickness_mm": "Thickness of the top, mean of the readings.",
    "sizes.strip_thickness_mm": "Thickness of one layer of strips.",
    "sizes.edge_thickness_mm": "Thickness of the edge: the top and all layers.",
    "sizes.corner_radii_mm": "Finished corner radii, seen from above.",
    "edge": "The routed edge, exact; null where no such profile exists.",
    "edge.top_form": "Form of the upper arris: name, sizes, reach and depth; `none` where it stays sharp.",
    "edge.bottom_form": "Form of the lower arris, its depth measured up from the underside.",
    "edge.top_round_over_radius_mm": "Radius of the upper round-over; null where it has another form.",
    "edge.bottom_round_over_radius_mm": "Radius of the lower round-over; null where it has another form.",
    "edge.flat_height_mm": "Height of the flat between the two forms.",
    "edge.perimeter_mm": "Length of the finished outline.",
    "edge.top_face_outline_area_mm2": "Area within the outline, before any form is routed.",
    "edge.profile_length_mm": "Length of the profile from the top face to the underside.",
    "edge.top_round_over_mm2": "Surface of the upper round-over or other form.",
    "edge.flat_mm2": "Surface of the flat.",
    "edge.bottom_round_over_mm2": "Surface of the lower round-over or other form.",
    "edge.edge_mm2": "Surface of the whole edge.",
    "edge.flat_top_mm2": "What stays flat of the top face.",
    "edge.flat_underside_mm2": "What stays flat of the underside.",
    "edge.removed_top_mm3": "Wood that the upper round-over or other form takes off.",
    "edge.removed_bottom_mm3": "Wood that the lower round-over or other form takes off.",
    "edge.solid_volume_mm3": "Volume of a solid of the edge's thickness everywhere, routed.",
    "edge.edge_twin_mm2": "Surface of the whole edge by quadrature, to compare.",
    "edge.edge_twin_error_mm2": "How far that quadrature may be off.",
    "edge.solid_volume_twin_mm3": "The same volume by quadrature over the depth, to compare.",
    "edge.solid_volume_twin_error_mm3": "How far that quadrature may be off.",
    "base": "Where the base stands under the finished top.",
    "base.offset_mm": "Base centre from the finished top's centre: to the east, to the north.",
    "base.overhang_mm": "Finished edge to base on each side; null where the job does not say.",
    "limits": "Narrowest and widest strip that the bench checks allow.",
    "limits.floor_ticks": "Narrowest strip.",
    "limits.floor_reason": "What sets the narrowest strip.",
    "limits.cap_ticks": "Widest strip.",
    "limits.cap_reason": "What sets the widest strip.",
    "findings": "Findings of the bench checks, stops first.",
    "findings[].number": "Number of the finding; it never changes its meaning.",
    "findings[].severity": "`stop`, `warn` or `note`.",
    "findings[].title": "A few words, the same for every job.",
    "findings[].place": "Where on the top.",
    "findings[].figures": "The figures that decide, as an override must repeat them.",
    "findings[].change": "What to change.",
    "findings[].overridable": "Whether an override can make sense.",
    "findings[].overridden": "The person's reason where the job overrides it, else null.",
    "cut_plan": "Strips, pieces and saw cuts; positions are measured as `edgewright.cutlist.model` says.",
    "cut_plan.status": "`ready` or `impossible`: whether there is a layout of the strips.",
    "cut_plan.rules": "Figures that the plan was made by: kerf, guide, splice rules, grid.",
    "cut_plan.corners": "`butt`, `pinwheel` or `mitre`.",
    "cut_plan.strip_map_view": "Always `underside`: strips are fitted with the top face down.",
    "cut_plan.old_ticks": "Length and width of the old top.",
    "cut_plan.finished_ticks": "Length and width of the finished top.",
    "cut_plan.finished_origin_ticks": "Finished south-west corner from the old one.",
    "cut_plan.proud_ticks": "How far strips stand out until they are flush-trimmed.",
    "cut_plan.strip_width_ticks": "Width of the strips.",
    "cut_plan.pitch_ticks": "Distance between neighbouring keep lines.",
    "cut_plan.sides": "Sides of each layer that pieces must cover.",
    "cut_plan.sticks": "Offcuts and boards that strips could come from, used or not.",
    "cut_plan.pieces": "Pieces, each with its strip and its side; withheld while NOT FOR CUTTING.",
    "cut_plan.strip_map": "Where each piece lies, seen from below; withheld while NOT FOR CUTTING.",
    "cut_plan.cuts": "Cuts through the panel in order; withheld while NOT FOR CUTTING.",
    "cut_plan.remnants": "What goes back to the rack; withheld while NOT FOR CUTTING.",
    "cut_plan.stages": "Stages of the objective, each with the bound that was recomputed without the solver.",
    "cut_plan.trials": "Strip widths that were tried, widest first.",
    "cut_plan.defects": "Defects of the old top: boxes from its south-west corner.",
    "cut_plan.shortage": "Why there is no plan and what to buy; null where there is one.",
    "cut_plan.as_cut": "The panel, its fresh edges and what came off, after the cuts made; null before the first.",
    "rips": "Strips ripped from boards on the fence; withheld while NOT FOR CUTTING.",
    "rips[].stick_id": "The board.",
    "rips[].lane_id": "The strip that comes off; null where only an old edge does.",
    "rips[].fence_ticks": "Fence setting: width of the strip.",
    "rips[].length_ticks": "Length of the board.",
    "rips[].held": "How the wood is held.",
    "stops": "Stops of the crosscut saw, each set once, long before short; withheld while NOT FOR CUTTING.",
    "stops[].stop_ticks": "From the squared end against the stop: length of the pieces along their long edge.",
    "stops[].mitres": "How many ends of each piece are mitred.",
    "stops[].piece_ids": "Pieces that share the stop, in order.",
    "crosscuts": "Crosscuts of the strips in order; withheld while NOT FOR CUTTING.",
    "crosscuts[].lane_id": "The lane: a strip, or a clean run of one.",
    "crosscuts[].piece_id": "The piece that comes off; null for a cut that squares the lane's start.",
    "crosscuts[].stop_ticks": "End of the piece, from the squared start (squaring cut: from the raw end).",
    "crosscuts[].length_ticks": "Length of the piece, along its long edge.",
    "crosscuts[].cut": "`square` or `mitre`.",
    "crosscuts[].end": "`start` or `end`: which end of the piece is cut, as it lies in the strip.",
    "crosscuts[].raw_end": "End of the strip that is its start, as it lay in the top; empty for a board.",
    "crosscuts[].turned": "Whether the piece lies turned end for end in its strip.",
    "crosscuts[].held": "How the wood is held.",
    "takeoff": "Quantities: expected, low and high; null where no such profile exists.",
    "takeoff.lines": "Lines with the factors they are the product of; `unit` is mm3, g or count.",
    "takeoff.totals": "Totals of the groups, their likely band and their containers.",
    "takeoff.notes": "How to read the quantities and what they leave out.",
}


def plan_dict(plan: Plan, files: Sequence[str] = ()) -> dict[str, Any]:
    """Give the content of plan.json.

    Parameters
    ----------
    files
        Names of the files written beside it.
    """
    cut_plan = plain_plan(plan.cut_plan)
    content: dict[str, Any] = {
        "format": FORMAT,
        "version": VERSION,
        "made_by": f"edgewright {__version__}",
        "plan_code": plan.code,
        "status": status_of(plan),
        "files": list(files),
        "ticks_per_mm": TICKS_PER_MM,
        "job": job_dict(plan.job),
        "sizes": _sizes(plan.design),
        "edge": edge_dict(plan.design.profile, plan.design.metrics),
        "base": {
            "offset_mm": list(plan.design.base.offset),
            "overhang_mm": {side: plan.design.base.overhang[side] for side in SIDES},
        },
        "limits": _limits(plan.design),
        "findings": [dataclasses.asdict(finding) for finding in plan.findings],
        "cut_plan": cut_plan,
        "rips": [dataclasses.asdict(rip) for rip in plan.rips],
        "stops": [dataclasses.asdict(stop) for stop in plan.stops],
        "crosscuts": [dataclasses.asdict(cut) for cut in plan.crosscuts],
        "takeoff": None if plan.takeoff is None else takeoff_dict(plan.takeoff),
    }
    if not plan.ready:
        for key in WITHHELD:
            del cut_plan[key]
        del content["rips"], content["stops"], content["crosscuts"]
    return content


def status_of(plan: HasReady) -> str:
    """``ready`` or ``NOT FOR CUTTING``."""
    return "ready" if plan.ready else "NOT FOR CUTTING"


def json_text(content: Mapping[str, Any]) -> str:
    """Write JSON: ASCII, the same bytes for the same content; no NaN, which JSON does not have."""
    return json.dumps(content, indent=1, allow_nan=False)


def job_dict(job: AnyJob) -> dict[str, Any]:
    """Title, revision, date, units, digest and keys of a job."""
    return {
        "title": job.info.title,
        "revision": job.info.revision,
        "date": job.info.date,
        "units": job.units,
        "digest": job_digest(job),
        "keys": [dataclasses.asdict(row) for row in given_and_used(job)],
    }


def _sizes(design: Design) -> dict[str, Any]:
    sizes = design.sizes
    return {
        "grid_ticks": sizes.grid,
        "old_ticks": list(sizes.old),
        "finished_ticks": list(sizes.finished),
        "origin_ticks": list(sizes.origin),
        "amounts_ticks": {side: sizes.amounts[side] for side in SIDES},
        "thickness_mm": design.thickness_mm,
        "strip_thickness_mm": design.strip_thickness_mm,
        "edge_thickness_mm": design.edge_thickness_mm,
        "corner_radii_mm": dict(zip(CORNERS, design.corner_radii_mm, strict=True)),
    }


def edge_dict(profile: EdgeProfile | None, metrics: EdgeMetrics | None) -> dict[str, Any] | None:
    """Profile and figures of the routed edge; None where no such profile exists."""
    if profile is None or metrics is None:
        return None
    return {
        "top_form": _form(profile.top),
        "bottom_form": _form(profile.bottom),
        "top_round_over_radius_mm": _radius(profile.top),
        "bottom_round_over_radius_mm": _radius(profile.bottom),
        "flat_height_mm": profile.flat,
        **dataclasses.asdict(metrics),
    }


def _form(form: Form) -> dict[str, Any]:
    return {
        "name": form.name,
        "sizes_mm": dict(form.sizes),
        "reach_mm": form.reach,
        "depth_mm": form.depth,
    }


def _radius(form: Form) -> float | None:
    return form.reach if form.is_round_over else None


def _limits(design: Design) -> dict[str, Any]:
    limits = design.limits
    return {
        "floor_ticks": limits.floor,
        "floor_reason": limits.floor_reason,
        "cap_ticks": limits.cap,
        "cap_reason": limits.cap_reason,
    }


def takeoff_dict(takeoff: Takeoff) -> dict[str, Any]:
    """Lines, totals and notes of a bill."""
    return {
        "lines": [_line(line) for line in takeoff.lines],
        "totals": [dataclasses.asdict(total) for total in takeoff.totals],
        "notes": list(takeoff.notes),
    }


def _line(line: TakeoffLine) -> dict[str, Any]:
    return {
        "group": line.group,
        "name": line.name,
        "unit": line.unit,
        **dataclasses.asdict(line.quantity),
        "factors": [
            {"name": f.name, "unit": f.unit, **dataclasses.asdict(f.band), "origin": f.origin}
            for f in line.factors
        ],
        "reason": line.reason,
    }
