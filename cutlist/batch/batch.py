"""Plan many jobs together: one call from job files to a checked batch."""

from __future__ import annotations

import dataclasses
import json
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from os import PathLike, fspath
from typing import Any

from edgewright.cutlist.batch.job_plans import job_cut_plan
from edgewright.cutlist.batch.jobs import batch_jobs, read_batch
from edgewright.cutlist.batch.layout import BATCH_LIMITS, BatchLayout, lay_out
from edgewright.cutlist.batch.model import BatchJob, BatchStage
from edgewright.cutlist.batch.problem import Problem, batch_problem
from edgewright.cutlist.batch.shortage import shortages
from edgewright.cutlist.batch.wood import shared_wood
from edgewright.cutlist.check_batch import BATCH_STAGES, batch_bounds, batch_faults
from edgewright.cutlist.column_generation.generate import Limits
from edgewright.cutlist.plan import Plan, plan_of
from edgewright.cutlist.plan_code import short_code
from edgewright.cutlist.stages import refuse_if
from edgewright.design.checks import apply_overrides
from edgewright.findings import Finding, open_stops
from edgewright.job import Job
from edgewright.stockfile import read_stock
from edgewright.unit_words import printable

__all__ = ["Batch", "plan_batch", "plan_jobs"]


@dataclass(frozen=True, slots=True)
class Batch:
    """A batch; without a layout ``shortages`` or ``stops`` say why there is none.

    Attributes
    ----------
    plans
        Plan of each job, empty without a layout.
    plain
        The joint plan as plain data, as the independent checker read it.
    """

    problem: Problem
    layout: BatchLayout | None
    plans: tuple[Plan, ...]
    stages: tuple[BatchStage, ...]
    shortages: tuple[str, ...]
    plain: dict[str, Any]
    code: str

    @property
    def jobs(self) -> tuple[BatchJob, ...]:
        """The jobs in order."""
        return self.problem.jobs

    @property
    def stops(self) -> tuple[tuple[BatchJob, Finding], ...]:
        """Open stops of all jobs."""
        if self.plans:
            found = ((job, plan.findings) for job, plan in zip(self.jobs, self.plans, strict=True))
        else:
            found = ((job, apply_overrides(job.design.findings, job.job.overrides)) for job in self.jobs)
        return tuple((job, stop) for job, findings in found for stop in open_stops(findings))

    @property
    def ready(self) -> bool:
        """Whether one may cut by it: there is a plan, and no job has an open stop."""
        return self.layout is not None and not self.stops


def plan_batch(
    paths: Sequence[str | PathLike[str]],
    stock: str | PathLike[str] | None = None,
    progress: Callable[[str], None] = lambda words: None,
    limits: Limits = BATCH_LIMITS,
) -> Batch:
    """Plan job files together.

    Parameters
    ----------
    paths
        Job files of rectangular tops.
    stock
        File of wood that all jobs share.
    progress
        Called with a few words before each step; may raise to stop.

    Raises
    ------
    InputError
        If a file has faults, or the jobs cannot be planned together.
    CheckError
        If the independent checker refuses a plan: a defect of this program.
    """
    jobs = read_batch(paths)
    boards = () if stock is None else read_stock(stock)
    return plan_jobs(jobs, boards, printable(fspath(stock)) if stock is not None else "", progress, limits)


def plan_jobs(
    jobs: Sequence[tuple[str, Job]],
    stock: Sequence[Any] = (),
    stock_name: str = "",
    progress: Callable[[str], None] = lambda words: None,
    limits: Limits = BATCH_LIMITS,
) -> Batch:
    """Plan jobs, each with the name of its file, together; see `plan_batch`."""
    designed = batch_jobs(jobs, progress)
    progress("listing the wood")
    problem = batch_problem(designed, shared_wood(designed, stock, stock_name))
    layout = None
    waiting = Batch(problem, None, (), (), (), {}, "")
    if waiting.stops:
        return waiting  # what no plan can mend need not wait for one
    short = shortages(problem)
    if not short:
        layout = lay_out(problem, limits=limits, ticking=progress)
        if layout is None:
            short = (
                f"no layout of the {len(problem.sides)} sides was found that keeps the splice rules, though there is "
                "length enough: list more wood, or ease the rules under [splice]",
            )
    if layout is None:
        return Batch(problem, None, (), (), short, {}, "")
    progress("checking the joint plan")
    stages = _stages(problem, layout)
    plain = batch_plain(problem, layout, stages)
    bounds = batch_bounds(plain)
    stages = tuple(
        dataclasses.replace(
            stage,
            bound=bounds[stage.name][0],
            proven=bounds[stage.name][0] == stage.value,
            why=bounds[stage.name][1],
        )
        for stage in stages
    )
    plain |= {"stages": _plain_stages(stages)}
    refuse_if(batch_faults(plain, bounds), "the batch")
    plans = []
    for job in designed:
        progress(f"plan of {job.name}")
        plans.append(plan_of(job.design, job_cut_plan(problem, layout, job)))
    code = short_code([plan.code for plan in plans])
    return Batch(problem, layout, tuple(plans), stages, (), plain, code)


def _stages(problem: Problem, layout: BatchLayout) -> tuple[BatchStage, ...]:
    return tuple(
        BatchStage(name, value, None, False, "", layout.certificates.get(name))
        for name, value in zip(BATCH_STAGES, layout.values(problem), strict=True)
    )


def batch_plain(problem: Problem, layout: BatchLayout, stages: Sequence[BatchStage]) -> dict[str, Any]:
    """The joint plan as plain data: all that the independent checker needs."""
    pool = problem.pool
    lanes_of_ways, ways_of_groups = pool.lanes_of_ways, pool.ways_of_groups
    used = {one.group for one in layout.cut}
    content = {
        "kerf_ticks": problem.kerf,
        "runs_in_strips": any(
            sum(lane.length_ticks > 0 for lane in strip.lanes) > 1
            for stick in problem.sticks
            for way in stick.ways
            for strip in way
        ),
        "jobs": [
            {
                "number": job.number,
                "name": job.name,
                "family": problem.family_of[job.number - 1],
                "strip_width_ticks": job.width,
                "corners": job.job.edge.corners,
                "rules": dataclasses.asdict(job.rules),
                "sides": [dataclasses.asdict(side) for side in job.sides],
            }
            for job in problem.jobs
        ],
        "families": [
            {
                "material": family.material,
                "strip_thickness_ticks": family.strip_thickness,
                "strip_width_ticks": family.width,
                "joint_ticks": family.joint,
            }
            for family in problem.families
        ],
        "side_kinds": [
            {
                "length_ticks": kind.length,
                "family": kind.family,
                "splices": kind.splices,
                "ids": [problem.sides[n].id for n in members],
            }
            for kind, members in zip(pool.sides, problem.side_kinds, strict=True)
        ],
        "groups": [
            {
                "ids": [problem.sticks[n].id for n in members] if group in used else [],
                "count": len(members),
                "for_sale": problem.sticks[members[0]].source == "for sale",
                "price_cents": problem.sticks[members[0]].price_cents,
                "ways": [
                    [
                        {
                            "length_ticks": pool.lanes[t].length,
                            "families": list(pool.lanes[t].families),
                            "count": pool.lanes[t].per_stick,
                        }
                        for t in lanes_of_ways[way]
                    ]
                    for way in ways_of_groups[group]
                ],
            }
            for group, members in enumerate(problem.groups)
        ],
        "sticks": [
            {
                "id": one.stick.id,
                "name": one.stick.name,
                "source": one.stick.source,
                "job": one.stick.job,
                "side": one.stick.side,
                "length_ticks": one.stick.length,
                "width_ticks": one.stick.width,
                "edge_waste_ticks": one.stick.edge_waste,
                "group": one.group,
                "way": ways_of_groups[one.group].index(problem.pool_way(one)),
                "lanes": [
                    dataclasses.asdict(lane) | {"families": list(strip.families)}
                    for strip in one.strips
                    for lane in strip.lanes
                ],
            }
            for one in layout.cut
        ],
        "pieces": [
            {"job": run.job} | dataclasses.asdict(piece) for run in layout.runs for piece in run.placed
        ],
        "stages": _plain_stages(stages),
    }
    plain: dict[str, Any] = json.loads(json.dumps(content))
    return plain


def _plain_stages(stages: Sequence[BatchStage]) -> list[dict[str, Any]]:
    plain: list[dict[str, Any]] = json.loads(json.dumps([dataclasses.asdict(stage) for stage in stages]))
    return plain
