"""Variants of a job side by side: each is planned in full, and what a finisher weighs is collected in one row.

A top given by length and width has rows of strips, sticks and boards; one with an outline rows of blanks and trims.

This is what the command line and a script call::

    from edgewright.cutlist.compare import compare
    comparison = compare("job.toml")
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Collection, Iterator
from dataclasses import dataclass
from itertools import count
from os import PathLike, fspath

from edgewright.cutlist.compare_words import what_decides
from edgewright.cutlist.model import CutPlan, Shortage
from edgewright.cutlist.plan import Plan, plan
from edgewright.cutlist.questions import QUESTIONS
from edgewright.cutlist.rows import AnyRow, BoughtBoard, Row
from edgewright.cutlist.variants import Variant, VariantGroup, combined, one_at_a_time
from edgewright.display import show_ticks
from edgewright.errors import CheckError, GeometryError, JobError
from edgewright.findings import open_stops
from edgewright.job import AnyJob, Job
from edgewright.jobfile import fault_at, read_any_job
from edgewright.unit_words import printable
from edgewright.units import Units

__all__ = ["Comparison", "ComparisonGroup", "boards_bought", "compare", "row_of"]


@dataclass(frozen=True, slots=True)
class ComparisonGroup:
    """Rows that answer one question, the job as written first.

    Attributes
    ----------
    decides
        Sentences that say what the rows differ in.
    left_out
        Combinations beyond the limit, which were not planned.
    """

    question: str
    heading: str
    rows: tuple[AnyRow, ...]
    decides: tuple[str, ...]
    left_out: int = 0


@dataclass(frozen=True, slots=True)
class Comparison:
    """All variants of one job that were planned; ``questions`` are the names of those that were asked."""

    job: AnyJob
    groups: tuple[ComparisonGroup, ...]
    questions: tuple[str, ...] = ()


def compare(
    source: str | PathLike[str] | AnyJob,
    questions: Collection[str] = tuple(QUESTIONS),
    *,
    combine: bool = False,
    progress: Callable[[str], None] | None = None,
) -> Comparison:
    """Plan the variants of a job.

    Parameters
    ----------
    source
        Path of a job file, or a job already read.
    questions
        Names among `QUESTIONS`.
    combine
        Every combination up to a limit, instead of one change at a time.
    progress
        Called with a few words before each variant.

    Raises
    ------
    JobError
        With all faults of the file; also where cuts are already made.
    """
    job = source if isinstance(source, AnyJob) else read_any_job(source)
    if isinstance(job, Job) and job.as_cut is not None:
        path = None if isinstance(source, AnyJob) else fspath(source)
        message = (
            "variants are compared before the first cut: take [as_cut] and its pieces out to compare them"
        )
        raise JobError("job" if path is None else printable(path), (fault_at(path, ("as_cut",), message),))
    groups = (combined(job, questions),) if combine else one_at_a_time(job, questions)
    number = 1 + sum(not variant.as_written for group in groups for variant in group.variants)
    done = count(1)

    def planned(variant: Variant) -> AnyRow:
        if progress is not None:
            progress(f"planning variant {next(done)} of {number}: {variant.name}")
        return _planned(variant) if isinstance(job, Job) else _planned_shape(variant)

    # it stands first in every group, each time by the name of what it says there
    written = planned(Variant("as written", job, as_written=True))

    def filled(group: VariantGroup) -> ComparisonGroup:
        found = tuple(written.named(v.name) if v.as_written else planned(v) for v in group.variants)
        if combine:
            found = found[:1] + tuple(sorted(found[1:], key=_best_first))
        decides = what_decides(found, job.units)
        return ComparisonGroup(group.question, group.heading, found, decides, group.left_out)

    asked = tuple(name for name in QUESTIONS if name in questions)
    return Comparison(job, tuple(filled(group) for group in groups), asked)


def _best_first(row: AnyRow) -> tuple[float, ...]:
    """Ready before the rest; then what costs least, is widest, has fewest splices, sticks and strips.

    Of tops with an outline what needs least board, then fewest blanks.
    """
    if isinstance(row, Row):
        counts = (row.splices or 0, row.sticks or 0, row.strips or 0)
        return (
            not row.ready,
            row.strip_width_ticks is None,
            row.cost_cents,
            -(row.strip_width_ticks or 0),
            *counts,
        )
    from edgewright.cutlist.shaped_row import ShapedRow

    assert isinstance(row, ShapedRow)
    return not row.ready, not row.has_plan, round(row.board_area_mm2), row.blank_count


def _planned(variant: Variant) -> Row:
    if variant.job is None:
        return Row(variant.name, why=f"cannot be: {variant.why}")
    assert isinstance(variant.job, Job)
    try:
        result = plan(variant.job)
    except GeometryError as error:
        return Row(variant.name, as_written=variant.as_written, why=f"cannot be: {error}")
    except CheckError as error:  # the other variants are sound all the same
        return Row(variant.name, as_written=variant.as_written, why=str(error))
    return row_of(result, variant.name, as_written=variant.as_written)


def _planned_shape(variant: Variant) -> AnyRow:
    from edgewright.cutlist.shaped_plan import plan_shaped
    from edgewright.cutlist.shaped_row import ShapedRow, shaped_row
    from edgewright.job_shaped import ShapedJob

    if variant.job is None:
        return ShapedRow(variant.name, why=f"cannot be: {variant.why}")
    assert isinstance(variant.job, ShapedJob)
    try:
        result = plan_shaped(variant.job)
    except GeometryError as error:
        return ShapedRow(variant.name, as_written=variant.as_written, why=f"cannot be: {error}")
    return shaped_row(result, variant.name, as_written=variant.as_written)


def row_of(result: Plan, name: str, *, as_written: bool = False) -> Row:
    """Collect what is compared of one plan."""
    cut_plan, metrics = result.cut_plan, result.design.metrics
    shortage = cut_plan.shortage
    values = {stage.name: stage.value for stage in cut_plan.stages}
    return Row(
        name,
        as_written=as_written,
        ready=result.ready,
        why="; ".join(_why_not(result)),
        plan_code=result.code,
        strip_width_ticks=cut_plan.strip_width_ticks if cut_plan.status == "ready" else None,
        short_ticks=shortage.need_ticks - shortage.have_ticks if shortage and shortage.by_length else None,
        boards=boards_bought(cut_plan),
        cost_cents=values.get("new material cost", 0),
        splices=values.get("splices"),
        sticks=values.get("sticks touched"),
        strips=values.get("strips ripped"),
        edge_area_mm2=None if metrics is None else metrics.edge_mm2,
        edge_thickness_mm=result.design.edge_thickness_mm,
        base_offset_mm=result.design.base.offset,
        findings=result.findings,
    )


def boards_bought(cut_plan: CutPlan) -> tuple[BoughtBoard, ...]:
    """Boards for sale that a piece comes from, alike ones counted together."""
    used = {piece.lane_id for piece in cut_plan.pieces}
    bought = (
        (stick.name, stick.width_ticks, stick.length_ticks, stick.price_cents)
        for stick in cut_plan.sticks
        if stick.source == "for sale" and any(lane.id in used for lane in stick.lanes)
    )
    return tuple(BoughtBoard(count, *kind) for kind, count in Counter(bought).items())


def _why_not(result: Plan) -> Iterator[str]:
    stops = open_stops(result.findings)
    never = [stop for stop in stops if not stop.overridable]
    if never:  # what cannot exist needs no further reason
        yield from (f"cannot be: {stop.title}, {stop.place}: {stop.figures}" for stop in never)
        return
    shortage = result.cut_plan.shortage
    if shortage is not None:
        yield _no_plan(shortage, result.job.units)
    for stop in stops:
        yield f"open stop {stop.number}, {stop.title}, {stop.place}: {stop.figures}"


def _no_plan(shortage: Shortage, units: Units) -> str:
    if not shortage.by_length:
        return f"no plan: {shortage.sentence}. {shortage.buy_sentence.rstrip('.')}"
    short = show_ticks(shortage.need_ticks - shortage.have_ticks, units)
    width = show_ticks(shortage.strip_width_ticks, units)
    return f"no plan: short by {short} of strip {width} wide. {shortage.buy_sentence.rstrip('.')}"
