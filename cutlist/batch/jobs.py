"""The jobs of a batch: read, designed, each with its strip width and its sides; and the families they form."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from os import PathLike, fspath

from edgewright.cutlist.batch.model import BatchJob, Family
from edgewright.cutlist.cutting import chosen_width
from edgewright.cutlist.demand import plan_rules, ring_sides
from edgewright.cutlist.solve import joint_ticks
from edgewright.design.build import build_design
from edgewright.display import show_ticks
from edgewright.errors import InputError
from edgewright.job import Job
from edgewright.jobfile import read_any_job
from edgewright.unit_words import printable

__all__ = ["MOST_JOBS", "batch_jobs", "families_of", "read_batch"]

#: More jobs are refused: the joint problem would not end in any useful time.
MOST_JOBS = 400


def read_batch(paths: Sequence[str | PathLike[str]]) -> tuple[tuple[str, Job], ...]:
    """Read the job files; the same file may stand twice, for two tables that are alike.

    Raises
    ------
    JobError
        With all faults of the first file that has any.
    InputError
        Fewer than one job or too many, a top with an outline, one whose cutting has begun, solid wood, labour weighed,
        or unlike kerfs.
    """
    if not 1 <= len(paths) <= MOST_JOBS:
        raise InputError(f"a batch of {len(paths)} jobs: give 1 to {MOST_JOBS} job files")
    found: list[tuple[str, Job]] = []
    for path in paths:
        job, name = read_any_job(path), printable(fspath(path))
        if not isinstance(job, Job):
            raise InputError(
                f"{name}: {job.info.title} has an outline, and a batch plans rectangular tops only: leave it out "
                "and plan it with edgewright plan"
            )
        if job.as_cut is not None:
            raise InputError(
                f"{name}: {job.info.title} has [as_cut], its cutting has begun: plan it alone with edgewright plan"
            )
        if job.top.material == "solid wood":
            raise InputError(
                f"{name}: {job.info.title} is of solid wood, and a batch does not sort strips by their grain: plan it "
                "alone with edgewright plan"
            )
        if job.planning.objective != "order":
            raise InputError(
                f'{name}: planning.objective is "cost", and a batch settles one thing after another: write "order" '
                "or leave it out"
            )
        found.append((name, job))
    first = found[0]
    for path, job in found[1:]:
        if job.saw.kerf.ticks_up() != first[1].saw.kerf.ticks_up():
            kerfs = [f"{show_ticks(j.saw.kerf.ticks_up(), j.units)} in {p}" for p, j in (first, (path, job))]
            raise InputError(
                f"saw.kerf is {kerfs[0]} and {kerfs[1]}: strips that go from job to job are cut with one blade, so "
                "give the jobs the same kerf or plan them apart"
            )
    return tuple(found)


def batch_jobs(
    jobs: Sequence[tuple[str, Job]], progress: Callable[[str], None] = lambda words: None
) -> tuple[BatchJob, ...]:
    """Each job with its strip width: as asked, or the widest that its own wood gives."""
    found = []
    for number, (path, job) in enumerate(jobs, 1):
        progress(f"strip width of job {number} of {len(jobs)}")
        design = build_design(job)
        width, trials = chosen_width(design, None)
        sides = tuple(replace(side, id=f"{number}.{side.id}") for side in ring_sides(design, width))
        rules = plan_rules(design, width)
        found.append(BatchJob(number, path, job, design, width, trials, rules, sides))
    return tuple(found)


def families_of(jobs: Sequence[BatchJob]) -> tuple[tuple[Family, ...], tuple[int, ...]]:
    """The families, in an order that does not depend on that of the jobs, and the family of each job."""
    of_job = []
    for job in jobs:
        joint = joint_ticks(job.rules, job.width, job.mitred)
        # what only panel cuts need does not part strips
        rules = replace(
            job.rules,
            guide_side="keep",
            guide_offset_ticks=0,
            defect_clearance_ticks=0,
            metal_clearance_ticks=0,
            effort_percent=100,
        )
        if len({side.layer for side in job.sides}) == 1:
            rules = replace(rules, stagger_ticks=0)
        of_job.append(
            Family(
                material=job.job.top.material,
                strip_thickness=job.job.strip_thickness.ticks(),
                width=job.width,
                rules=rules,
                mitred=job.mitred,
                joint=joint,
                alone=job.number if joint < 0 else None,
            )
        )
    families = sorted(
        set(of_job), key=lambda f: (f.width, f.material, f.strip_thickness, f.alone or 0, repr(f))
    )
    place = {family: n for n, family in enumerate(families)}
    return tuple(families), tuple(place[family] for family in of_job)
