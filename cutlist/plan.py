"""The whole job in one call: job, design, cut plan, take-off, findings.

This is what the command line and a script call::

    from edgewright import plan
    result = plan("job.toml")
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from os import PathLike, fspath

from edgewright.cutlist.as_cut import begun_by_sides, begun_of, job_as_cut
from edgewright.cutlist.as_cut_faults import as_cut_faults
from edgewright.cutlist.as_cut_findings import as_cut_findings
from edgewright.cutlist.bench_cuts import CrossCut, FenceRip, crosscuts, fence_rips
from edgewright.cutlist.check_handling import handling_findings
from edgewright.cutlist.check_metal import metal_findings
from edgewright.cutlist.check_strips import plan_findings, snapped_findings
from edgewright.cutlist.cutting import make_cut_plan
from edgewright.cutlist.model import CutPlan
from edgewright.cutlist.plan_code import short_code
from edgewright.cutlist.sequence import StopSetting, checked_sequence, stop_settings
from edgewright.cutlist.stages import plain_plan
from edgewright.cutlist.takeoff import Takeoff, take_off
from edgewright.design.build import build_design
from edgewright.design.checks import apply_overrides
from edgewright.design.model import Design, TrimSizes
from edgewright.errors import JobError
from edgewright.findings import Finding, open_stops
from edgewright.job import AsCut, Job, job_digest
from edgewright.jobfile import fault_at, read_job
from edgewright.unit_words import printable

__all__ = ["Plan", "plan", "plan_code", "plan_job", "plan_of"]


@dataclass(frozen=True, slots=True)
class Plan:
    """Everything about one job.

    Attributes
    ----------
    takeoff
        None where the edge profile does not exist.
    rips, crosscuts
        Cuts at the bench in order; ``stops`` names the pieces that share a stop.
    code
        Short code of job and plan; it stands on every sheet and file, so that old and new never mix.
    planned_sizes
        Sizes as they were planned before the first cut; `design` has those that can be had as the top is.
    """

    job: Job
    design: Design
    cut_plan: CutPlan
    takeoff: Takeoff | None
    crosscuts: tuple[CrossCut, ...]
    rips: tuple[FenceRip, ...]
    stops: tuple[StopSetting, ...]
    findings: tuple[Finding, ...]
    code: str
    planned_sizes: TrimSizes

    @property
    def ready(self) -> bool:
        """Whether one may cut by it: there is a plan and no stop is open. Otherwise NOT FOR CUTTING."""
        return self.cut_plan.status == "ready" and not open_stops(self.findings)


def plan(source: str | PathLike[str] | Job, progress: Callable[[str], None] | None = None) -> Plan:
    """Plan a job.

    Parameters
    ----------
    source
        Path of a job file, or a job already read.
    progress
        Called with a few words before each step that may take a while.

    Raises
    ------
    JobError
        With all faults of the file.
    CheckError
        If the independent checker refuses the plan.
    """
    if isinstance(source, Job):
        return plan_job(source, progress)
    return plan_job(read_job(source), progress, fspath(source))


def plan_job(job: Job, progress: Callable[[str], None] | None = None, path: str | None = None) -> Plan:
    """Plan a job already read; ``path`` is the file that faults of [as_cut] are shown with. See `plan`."""
    planned = design = build_design(job)
    begun: tuple[Finding, ...] = ()
    if job.as_cut is not None:
        design, begun = _as_cut(job, job.as_cut, planned, progress, path)
    return plan_of(design, make_cut_plan(design, progress), planned, begun)


def plan_of(
    design: Design, cut_plan: CutPlan, planned: Design | None = None, begun: tuple[Finding, ...] = ()
) -> Plan:
    """Everything about a job whose strips are planned: bench cuts, findings, quantities.

    Parameters
    ----------
    planned, begun
        After the first cuts: the design before them, and what the measured sizes gave to find.

    Raises
    ------
    CheckError
        If the independent checker refuses the saw sequence.
    """
    job, planned = design.job, planned or design
    sticks, pieces = cut_plan.sticks, cut_plan.pieces
    loose = () if cut_plan.as_cut is None else cut_plan.as_cut.loose
    kerf = cut_plan.rules.kerf_ticks
    cross, rips = crosscuts(sticks, pieces, kerf), fence_rips(sticks, pieces, kerf, loose)
    stops = stop_settings(cross, pieces)
    checked_sequence(cut_plan, rips, cross, stops)
    found = (
        *design.findings,
        *plan_findings(design, cut_plan),
        *handling_findings(cut_plan.cuts, rips, cross, design.job.saw, job.units),
        *metal_findings(cut_plan, job.units),
        *snapped_findings(planned),
        *begun,
    )
    takeoff = take_off(design, cut_plan) if design.metrics is not None else None
    findings = apply_overrides(found, job.overrides)
    code = plan_code(job, cut_plan)
    return Plan(job, design, cut_plan, takeoff, cross, rips, stops, findings, code, planned.sizes)


def _as_cut(
    job: Job,
    as_cut: AsCut,
    planned: Design,
    progress: Callable[[str], None] | None,
    path: str | None,
) -> tuple[Design, tuple[Finding, ...]]:
    """Design of what is there after some cuts, and what is asked about it."""
    now = job_as_cut(job)
    if as_cut.off is not None:
        design = build_design(now, begun_by_sides(as_cut, planned.sizes, now.saw.kerf.ticks_up()))
        return design, as_cut_findings(job, (), planned.sizes, design)
    # the same job without [as_cut] is what was being cut
    before = make_cut_plan(planned, progress)
    faults = as_cut_faults(job, before, planned.sizes)
    if faults:
        name = "job" if path is None else printable(path)
        raise JobError(name, tuple(fault_at(path, place, message) for place, message in faults))
    design = build_design(now, begun_of(as_cut, before, planned.sizes))
    return design, as_cut_findings(job, before.cuts[: as_cut.cuts], planned.sizes, design)


def plan_code(job: Job, cut_plan: CutPlan) -> str:
    """Short code of job and plan; how a stage is proven makes no other plan."""
    plain = plain_plan(cut_plan)
    stages = [{k: v for k, v in stage.items() if k != "certificate"} for stage in plain["stages"]]
    if plain["as_cut"] is None:
        del plain["as_cut"]  # a plan before the first cut keeps its code
    return short_code(job_digest(job), plain | {"stages": stages})
