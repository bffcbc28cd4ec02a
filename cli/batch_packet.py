"""One packet for all jobs of a batch: the joint list in front, the sheets of each job, all labels behind."""

from __future__ import annotations

from itertools import groupby
from typing import Any, Final

from edgewright.cli.batch_strips import StripCut, boards_to_buy, strip_cuts
from edgewright.cli.label_cells import label_sheet
from edgewright.cli.packet import Paper, typeset
from edgewright.cli.packet_data import caution_rows, packet_data, title_block
from edgewright.cli.printable import printable
from edgewright.cutlist.batch.batch import Batch
from edgewright.cutlist.batch.model import BatchJob
from edgewright.display import show_ticks

__all__ = ["batch_packet_data", "batch_packet_pdf"]

_NOTE: Final = (
    "Pieces in the order in which they come off the saw: of each strip the farthest part is parted off first. Stops "
    "are lengths of pieces. A piece bears the number of its job in front: 2.N1 is the piece N1 of job 2. The panel of "
    "each job is cut by that job's own sheets."
)
#: Letters of any width that the narrow columns hold in a line.
_WORD: Final = 12
_FOLDERS: Final = (
    "Behind this: the strips and pieces of all jobs, the sheets of each job for saw and bench, all labels. The picture "
    "and the quantities of each job stand in the packet in its own folder."
)


def batch_packet_pdf(batch: Batch, paper: Paper = "a4") -> bytes:
    """The packet of a batch as PDF bytes; the same batch and paper give the same bytes.

    While the batch is not ready there is nothing to cut by in it, and each page says NOT FOR CUTTING.

    Raises
    ------
    CheckError
        If the typesetter refuses the sheets or warns: a defect of this program.
    """
    return typeset(batch_packet_data(batch, paper), "pdf", tags=False)[0]


def batch_packet_data(batch: Batch, paper: Paper) -> dict[str, Any]:
    """All texts, rows and figures of the packet; every value is a string, a number, a list, a table or None.

    Cautions stand once for all jobs, labels of all jobs in the order in which the pieces come off the saw.
    """
    cuts = strip_cuts(batch) if batch.ready else ()
    number = len(batch.jobs)
    heading = f"Batch of {number} job{'s' * (number != 1)}"
    packets = [packet_data(plan, paper, alone=False) for plan in batch.plans] if batch.ready else []
    labels = {
        (job.number, cell["id"]): cell | {"id": f"{job.number}.{cell['id']}"}
        for job, packet in zip(batch.jobs, packets, strict=False)
        for cell in packet["labels"]
    }
    return {
        "paper": paper,
        "title": heading,
        "short-title": heading,
        "heading": heading,
        "code": batch.code,
        "ready": batch.ready,
        "title-block": _shared_block(batch.jobs),
        "verdict": _verdict(batch),
        "jobs": [_job_row(batch, job) for job in batch.jobs],
        "buy": [list(row) for row in boards_to_buy(batch)] if batch.ready else [],
        "contents": _FOLDERS if batch.ready else "",
        "sticks": _sticks(batch, cuts),
        "sticks-note": _NOTE,
        "cautions": caution_rows(),
        "no-cards": "",
        "packets": [packet | {"labels": []} for packet in packets],
        "labels": [labels[cut.job, cut.piece] for cut in cuts],
        "label-size": label_sheet(batch.jobs[0].job),
    }


def _verdict(batch: Batch) -> list[str]:
    """Why one may not cut by it; nothing of a batch that is ready."""
    stops = [
        f"Open stop {stop.number} in {job.name}: {stop.title}, {stop.figures}." for job, stop in batch.stops
    ]
    return [printable(words) for words in (*(f"No plan: {words}." for words in batch.shortages), *stops)]


def _job_row(batch: Batch, job: BatchJob) -> list[str]:
    units, size = job.job.units, job.design.sizes.finished
    return [
        str(job.number),
        printable(job.job.info.title),
        batch.plans[job.number - 1].code if batch.plans else "",
        f"{show_ticks(size[0], units)} x {show_ticks(size[1], units)}",
    ]


def _shared_block(jobs: tuple[BatchJob, ...]) -> list[list[str]]:
    """Fields of the title block that all jobs have alike; others are left to be written in."""
    blocks = [title_block(job.job) for job in jobs]
    return [
        list(fields[0]) if all(field == fields[0] for field in fields) else [fields[0][0], ""]
        for fields in zip(*blocks, strict=True)
    ]


def _sticks(batch: Batch, cuts: tuple[StripCut, ...]) -> list[dict[str, Any]]:
    """Boards and offcuts in the order of the saw, each with a row for each piece; a strip is named once."""
    units = batch.jobs[0].job.units
    found = []
    for stick, on_stick in groupby(cuts, key=lambda cut: cut.stick):
        rows = []
        for strip, on_strip in groupby(on_stick, key=lambda cut: cut.strip):
            for n, cut in enumerate(on_strip):
                rows.append(
                    [
                        ""
                        if n
                        else f"{printable(strip, longest_word=_WORD)}, {show_ticks(cut.width_ticks, units)} wide",
                        "" if n else cut.measured_from,
                        f"{cut.job}.{cut.piece}",
                        show_ticks(cut.length_ticks, units),
                        f"{show_ticks(cut.start_ticks, units)} to {show_ticks(cut.end_ticks, units)}",
                        printable(batch.jobs[cut.job - 1].name, longest_word=_WORD),
                    ]
                )
        found.append({"title": printable(stick), "rows": rows})
    return found
