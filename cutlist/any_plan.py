"""Plan a job of any top: a rectangle's strips from its own offcuts, or the build-up of another outline."""

from __future__ import annotations

from collections.abc import Callable
from os import PathLike, fspath
from typing import TYPE_CHECKING

from edgewright.cutlist.plan import Plan, plan_job
from edgewright.errors import GeometryError, JobError
from edgewright.job import Job
from edgewright.job_shaped import ShapedJob
from edgewright.jobfile import fault_at, read_any_job
from edgewright.unit_words import printable

__all__ = ["plan_any"]

if TYPE_CHECKING:
    from edgewright.cutlist.shaped_plan import ShapedPlan


def plan_any(
    source: str | PathLike[str] | Job | ShapedJob, progress: Callable[[str], None] | None = None
) -> Plan | ShapedPlan:
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
        With all faults of the file; or with the one reason why its figures make no top, and its place in the file.
    CheckError
        If the independent checker refuses the plan.
    """
    if isinstance(source, Job | ShapedJob):
        path, job = None, source
    else:
        path, job = fspath(source), read_any_job(source)
    if isinstance(job, Job):
        return plan_job(job, progress, path)
    from edgewright.cutlist.said_lengths import in_units
    from edgewright.cutlist.shaped_plan import plan_shaped

    if progress is not None:
        progress("laying out the top")
    try:
        return plan_shaped(job, progress)
    except GeometryError as error:
        name = "job" if path is None else printable(path)
        fault = fault_at(path, error.place, in_units(str(error), job.units))
        raise JobError(name, (fault,)) from error
