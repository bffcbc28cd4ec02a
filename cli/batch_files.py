"""Files of a batch: ``batch.json``, ``strips.csv``, one ``packet.pdf`` and a folder for each job."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable
from typing import Any, Final

from edgewright import __version__
from edgewright.cli.batch_packet import batch_packet_pdf
from edgewright.cli.batch_strips import strip_cuts
from edgewright.cli.csv_text import csv_text
from edgewright.cli.cuts_csv import exact_mm
from edgewright.cli.output import BATCH_FORMAT
from edgewright.cli.packet import Paper
from edgewright.cutlist.batch.batch import Batch
from edgewright.cutlist.batch.model import BatchJob
from edgewright.display import show_ticks
from edgewright.ticks import TICKS_PER_MM

__all__ = ["STRIP_COLUMNS", "batch_files", "batch_json", "folder_name", "strips_csv"]

VERSION: Final = 1
STRIP_COLUMNS: Final = (
    *("stick", "strip", "strip_width", "strip_width_mm", "strip_length", "strip_length_mm", "measured_from"),
    *("step", "piece", "job", "job_title", "from", "to", "from_mm", "to_mm", "stop", "stop_mm", "batch_code"),
)
_LONGEST_FOLDER: Final = 40


def folder_name(job: BatchJob) -> str:
    """Name of a job's folder: number and title in small letters, digits and underscores."""
    plain = unicodedata.normalize("NFKD", job.job.info.title).encode("ascii", "ignore").decode().lower()
    title = re.sub(r"[^a-z0-9]+", "_", plain).strip("_")[:_LONGEST_FOLDER].rstrip("_")
    return f"{job.number}_{title or 'job'}"


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
    batch: Batch, *, paper: Paper, solid: bool, progress: Callable[[str], None] = lambda words: None
) -> dict[str, bytes]:
    """Everything but batch.json, by name; the files of a job lie in its folder.

    Raises
    ------
    CheckError
        If a drawing or a packet fails its own check.
    """
    from edgewright.cli.plan_files import plan_files
    from edgewright.cli.plan_json import json_text, plan_dict

    files = {"strips.csv": strips_csv(batch).encode("utf-8")}
    for job, plan in zip(batch.jobs, batch.plans, strict=True):
        progress(f"drawing the sheets of {job.name}")
        folder = folder_name(job)
        own, _ = plan_files(plan, dialect="R2000", paper=paper, solid=solid)
        own["plan.json"] = f"{json_text(plan_dict(plan, sorted(own)))}\n".encode("ascii")
        files |= {f"{folder}/{name}": content for name, content in own.items()}
    progress("drawing the packet of the batch")
    files["packet.pdf"] = batch_packet_pdf(batch, paper)
    return files


def strips_csv(batch: Batch) -> str:
    """Every strip that is cut, its pieces in the order in which they are parted off, and whose they are.

    Positions run along the strip as ripped, from the end named; stops are the lengths of the pieces.

    References
    ----------
    RFC 4180.
    """
    units = batch.jobs[0].job.units
    return csv_text(
        STRIP_COLUMNS,
        (
            {
                "stick": cut.stick,
                "strip": cut.strip,
                "strip_width": show_ticks(cut.width_ticks, units),
                "strip_width_mm": exact_mm(cut.width_ticks),
                "strip_length": show_ticks(cut.strip_length_ticks, units),
                "strip_length_mm": exact_mm(cut.strip_length_ticks),
                "measured_from": cut.measured_from,
                "step": cut.step,
                "piece": cut.piece,
                "job": cut.job,
                "job_title": batch.jobs[cut.job - 1].job.info.title,
                "from": show_ticks(cut.start_ticks, units),
                "to": show_ticks(cut.end_ticks, units),
                "from_mm": exact_mm(cut.start_ticks),
                "to_mm": exact_mm(cut.end_ticks),
                "stop": show_ticks(cut.length_ticks, units),
                "stop_mm": exact_mm(cut.length_ticks),
                "batch_code": batch.code,
            }
            for cut in strip_cuts(batch)
        ),
    )
