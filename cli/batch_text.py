"""The summary of a batch: what to buy for all, what each panel and board gives to whom, and what is proven."""

from __future__ import annotations

from collections.abc import Iterator

from edgewright.cli.batch_files import folder_name
from edgewright.cli.batch_strips import boards_to_buy, stick_name
from edgewright.cli.summary import NOT_FOR_CUTTING, stage_words
from edgewright.cli.text import heading, paragraph, rows
from edgewright.cutlist.batch.batch import Batch
from edgewright.cutlist.batch.job_plans import local_name
from edgewright.cutlist.model import Stage
from edgewright.display import show_ticks

__all__ = ["batch_stage_lines", "batch_summary"]


def batch_summary(batch: Batch, width: int, written: str = "") -> str:
    """Write the whole summary as plain text, wrapped to ``width`` columns."""
    return "\n".join(_lines(batch, width, written))


def _lines(batch: Batch, width: int, written: str) -> Iterator[str]:
    number = len(batch.jobs)
    status = "ready" if batch.ready else NOT_FOR_CUTTING
    code = f" {batch.code}" if batch.code else ""
    yield from paragraph(f"Batch{code} of {number} job{'s' * (number != 1)}: {status}", width)
    yield from _job_lines(batch, width)
    if batch.ready:
        yield from _buying_lines(batch, width)
        yield from _stick_lines(batch, width)
        yield from heading("why this plan is the best")
        stages = [Stage(s.name, s.value, s.bound, s.proven, s.why) for s in batch.stages]
        yield from batch_stage_lines(batch.jobs[0].job.units, stages, width)
        yield from paragraph(
            "Each stage is settled for all jobs together. Proven bounds hold for every way of ripping that is listed "
            "in batch.json; a job's own files say nothing of what is best.",
            width,
            2,
        )
    yield ""
    yield from paragraph(written, width)
    yield from _verdict(batch, width)


def _job_lines(batch: Batch, width: int) -> list[str]:
    pairs = []
    for job in batch.jobs:
        words = f"strips {show_ticks(job.width, job.job.units)} wide"
        if batch.ready:
            words += f", plan {batch.plans[job.number - 1].code}, folder {folder_name(job)}"
        pairs.append((job.name, words))
    return heading("jobs") + rows(pairs, width)


def _buying_lines(batch: Batch, width: int) -> list[str]:
    lines = boards_to_buy(batch)
    if not lines:
        return [*heading("boards to buy"), *paragraph("none", width, 2)]
    pairs = [(f"{many} {board}", price) if board else (many, price) for many, board, price in lines]
    return heading("boards to buy for all jobs") + rows(pairs, width)


def _stick_lines(batch: Batch, width: int) -> Iterator[str]:
    """Panels in the order of the jobs, then boards: what each gives, and to which jobs."""
    assert batch.layout is not None
    units = batch.jobs[0].job.units
    users: dict[str, list[int]] = {}
    for run in batch.layout.runs:
        users.setdefault(run.lane.strip, []).append(run.job)
    yield from heading("panels and boards, in the order of the saw")
    words = (
        "The panel of each job is cut by its own sheets; a strip for another job is marked with that job and with the "
        "end that it is measured from. Of a strip that several jobs share the farthest part is parted off first."
    )
    yield from paragraph(words, width, 2)
    in_order = sorted(batch.layout.cut, key=lambda one: (one.stick.job == 0, one.stick.job))
    for one in in_order:
        yield from paragraph(f"{stick_name(batch, one)}", width, 2, 4)
        for strip in one.strips:
            takers = sorted(set(users.get(strip.name, [])))
            to = ", ".join(batch.jobs[n - 1].name for n in takers) or "nobody: back to the rack"
            wide = show_ticks(strip.lanes[0].width_ticks, units)
            yield from paragraph(f"{local_name(strip.name)}, {wide} wide: to {to}", width, 4, 6)


def batch_stage_lines(units: str, stages: list[Stage], width: int) -> Iterator[str]:
    """Each stage with its value, what is proven of it, and the gap where it is not."""
    for stage in stages:
        name, figure, proof = stage_words(stage, "mm" if units == "mm" else "in")
        gap = ""
        if stage.bound is not None and stage.value and not stage.proven:
            gap = f", gap {100 * (stage.value - stage.bound) / stage.value:.1f} %"
        yield from paragraph(f"{name} {figure}: {proof}{gap}", width, 2, 6)


def _verdict(batch: Batch, width: int) -> list[str]:
    if batch.ready:
        words = (
            f"Ready: batch {batch.code} and the plan of each job passed the independent checker, and no stop is "
            "open."
        )
        return paragraph(words, width)
    lines: list[str] = []
    for sentence in batch.shortages:
        lines += paragraph(f"No plan: {sentence}.", width)
    for job, stop in batch.stops:
        lines += paragraph(
            f"Open stop {stop.number} in {job.name}: {stop.title}, {stop.place}: {stop.figures}; to change: "
            f"{stop.change}",
            width,
            0,
            4,
        )
    return [*lines, NOT_FOR_CUTTING]
