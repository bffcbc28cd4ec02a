"""The whole job in one call: job, design, cut plan, take-off, findings.

This is what the command line and a script call::

    from edgewright import plan
    result = plan("job.toml")
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from os import PathLike

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
from edgewright.design.model import Design
from edgewright.findings import Finding, open_stops
from edgewright.job import Job, job_digest
from edgewright.jobfile import read_job

__all__ = ["Plan", "plan", "plan_code", "plan_of"]


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
    job = source if isinstance(source, Job) else read_job(source)
    design = build_design(job)
    return plan_of(design, make_cut_plan(design, progress))


def plan_of(design: Design, cut_plan: CutPlan) -> Plan:
    """Everything about a job whose strips are planned: bench cuts, findings, quantities.

    Raises
    ------
    CheckError
        If the independent checker refuses the saw sequence.
    """
    job = design.job
    sticks, pieces = cut_plan.sticks, cut_plan.pieces
    kerf = cut_plan.rules.kerf_ticks
    cross, rips = crosscuts(sticks, pieces, kerf), fence_rips(sticks, pieces, kerf)
    stops = stop_settings(cross, pieces)
    checked_sequence(cut_plan, rips, cross, stops)
    found = (
        *design.findings,
        *plan_findings(design, cut_plan),
        *handling_findings(cut_plan.cuts, rips, cross, job.saw, job.units),
        *metal_findings(cut_plan, job.units),
        *snapped_findings(design),
    )
    takeoff = take_off(design, cut_plan) if design.metrics is not None else None
    findings = apply_overrides(found, job.overrides)
    return Plan(job, design, cut_plan, takeoff, cross, rips, stops, findings, plan_code(job, cut_plan))


def plan_code(job: Job, cut_plan: CutPlan) -> str:
    """Short code of job and plan; how a stage is proven makes no other plan."""
    plain = plain_plan(cut_plan)
    stages = [{k: v for k, v in stage.items() if k != "certificate"} for stage in plain["stages"]]
    return short_code(job_digest(job), plain | {"stages": stages})
