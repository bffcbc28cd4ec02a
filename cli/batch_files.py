"""Files of a batch: ``batch.json``, ``strips.csv``, ``tables.xlsx``, one ``packet.pdf`` and a folder for each job."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any, Final

from edgewright import __version__
from edgewright.cli.batch_packet import batch_packet_pdf
from edgewright.cli.batch_strips import strip_cuts
from edgewright.cli.output import BATCH_FORMAT
from edgewright.cli.packet import Paper
from edgewright.cli.table import Column, Row, Table, length, lengths, numbers, table, texts
from edgewright.cli.table_csv import table_csv
from edgewright.cli.table_xlsx import tables_xlsx
from edgewright.cutlist.batch.batch import Batch
from edgewright.cutlist.batch.model import BatchJob
from edgewright.display import show_as, shown_ticks
from edgewright.drawing.dxf import Dialect
from edgewright.drawing.reference import FileUnits
from edgewright.file_names import file_word
from edgewright.ticks import TICKS_PER_MM
from edgewright.units import Units

__all__ = ["batch_files", "batch_json", "folder_name", "strip_columns", "strips_table"]

VERSION: Final = 1
_LONGEST_FOLDER: Final = 40


def folder_name(job: BatchJob) -> str:
    """Name of a job's folder: number and title in small letters, digits and underscores."""
    return f"{job.number}_{file_word(job.job.info.title, _LONGEST_FOLDER) or 'job'}"


def batch_json(batch: Batch, files: list[str]) -> dict[str, Any]:
    """Content of batch.json; without what one could cut by while it is NOT FOR CUTTING."""
    content: dict[str, Any] = {
        "format": BATCH_FORMAT,
        "version": VERSION,
        "made_by": f"edgewright {__version__}",
        "batch_code": batch.code,
        "status": "ready" if batch.ready else "NOT FOR CUTTING",
        "units": batch.jobs[0].job.units,
        "ticks_per_mm": TICKS_PER_MM,
        "files": files,
        "jobs": [
            {
                "number": job.number,
                "title": job.job.info.title,
                "file": job.path,
                "folder": folder_name(job),
                "plan_code": batch.plans[job.number - 1].code if batch.plans else None,
            }
            for job in batch.jobs
        ],
        "shortages": list(batch.shortages),
        "stops": [
            {"job": job.number, "number": stop.number, "title": stop.title, "figures": stop.figures}
            for job, stop in batch.stops
        ],
    }
    if batch.ready:
        content["batch"] = batch.plain
    return content


def batch_files(
    batch: Batch,
    *,
    dialect: Dialect,
    dxf_units: FileUnits | None,
    paper: Paper,
    solid: bool,
    progress: Callable[[str], None] = lambda words: None,
) -> dict[str, bytes]:
    """Everything but batch.json, by name; the files of a job lie in its folder.

    Raises
    ------
    CheckError
        If a drawing or a packet fails its own check.
    """
    from edgewright.cli.plan_files import plan_files
    from edgewright.cli.plan_json import json_text, plan_dict

    strips = strips_table(batch)
    files = {
        "strips.csv": table_csv(strips).encode("utf-8"),
        "tables.xlsx": tables_xlsx(
            (strips,), title=f"Batch of {len(batch.jobs)} jobs", code=batch.code, status="ready", paper=paper
        ),
    }
    for job, plan in zip(batch.jobs, batch.plans, strict=True):
        progress(f"drawing the sheets of {job.name}")
        folder = folder_name(job)
        own, _ = plan_files(plan, dialect=dialect, dxf_units=dxf_units, paper=paper, solid=solid)
        own["plan.json"] = f"{json_text(plan_dict(plan, sorted(own)))}\n".encode("ascii")
        files |= {f"{folder}/{name}": content for name, content in own.items()}
    progress("drawing the packet of the batch")
    files["packet.pdf"] = batch_packet_pdf(batch, paper)
    return files


def strip_columns(units: Units) -> tuple[tuple[Column, ...], ...]:
    """Columns of the list of strips."""
    return (
        texts("stick", "strip"),
        lengths(units, "strip_width", "strip_length"),
        texts("measured_from"),
        numbers("step"),
        texts("piece"),
        numbers("job"),
        texts("job_title"),
        lengths(units, "from", "to", "stop"),
        texts("batch_code"),
    )


def strips_table(batch: Batch) -> Table:
    """Every strip that is cut, its pieces in the order in which they are parted off, and whose they are.

    Positions run along the strip as ripped, from the end named; stops are the lengths of the pieces. The part that lies
    farthest from that end is cut first.
    """
    return table("strips", strip_columns(batch.jobs[0].job.units), _strip_rows(batch))


def _strip_rows(batch: Batch) -> Iterator[Row]:
    units = batch.jobs[0].job.units
    for cut in strip_cuts(batch):
        start, end = cut.start_ticks, cut.end_ticks
        at, wide = (shown_ticks(ticks, units) for ticks in (start, cut.length_ticks))
        yield {
            "stick": cut.stick,
            "strip": cut.strip,
            **length("strip_width", cut.width_ticks, units),
            **length("strip_length", cut.strip_length_ticks, units),
            "measured_from": cut.measured_from,
            "step": cut.step,
            "piece": cut.piece,
            "job": cut.job,
            "job_title": batch.jobs[cut.job - 1].job.info.title,
            **length("from", start, units, show_as(at, start, units)),
            **length("to", end, units, show_as(at + wide, end, units)),
            **length("stop", cut.length_ticks, units),
            "batch_code": batch.code,
        }
