"""What a batch cuts, for tables and sheets: the pieces in the order of the saw, and the boards to buy."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from edgewright.compass import ends_of
from edgewright.cutlist.batch.batch import Batch
from edgewright.cutlist.batch.job_plans import local_name
from edgewright.cutlist.batch.layout import BatchLayout
from edgewright.cutlist.batch.model import CutStick
from edgewright.display import show_ticks

__all__ = ["StripCut", "boards_to_buy", "stick_name", "strip_cuts"]


def stick_name(batch: Batch, one: CutStick) -> str:
    """A stick in words: a board by its name, an offcut with the job it comes off."""
    name = local_name(one.stick.id)
    return f"{name} of {batch.jobs[one.stick.job - 1].name}" if one.stick.job else name


@dataclass(frozen=True, slots=True)
class StripCut:
    """A piece that is parted off a strip; ticks, from the end of the strip named."""

    stick: str
    strip: str
    width_ticks: int
    strip_length_ticks: int
    measured_from: str
    step: int
    job: int
    piece: str
    start_ticks: int
    end_ticks: int

    @property
    def length_ticks(self) -> int:
        """Length of the piece: where the stop is set."""
        return self.end_ticks - self.start_ticks


def strip_cuts(batch: Batch) -> tuple[StripCut, ...]:
    """Every piece of every strip in the order in which they come off the saw; nothing without a layout.

    The part that lies farthest from the end of the strip is cut first.
    """
    return tuple(_strip_cuts(batch, batch.layout)) if batch.layout is not None else ()


def _strip_cuts(batch: Batch, layout: BatchLayout) -> Iterator[StripCut]:
    for one in layout.cut:
        for strip in one.strips:
            lanes = {lane.id for lane in strip.lanes}
            pieces = [
                (run.job, run.lane.trim_start_ticks + piece.lane_start_ticks, piece)
                for run in layout.runs
                if run.lane.id in lanes
                for piece in run.placed
            ]
            lane = strip.lanes[0]
            for step, (number, start, piece) in enumerate(sorted(pieces, key=lambda p: -p[1]), 1):
                yield StripCut(
                    stick=stick_name(batch, one),
                    strip=local_name(strip.name),
                    width_ticks=lane.width_ticks,
                    strip_length_ticks=lane.raw_ticks,
                    measured_from=f"{ends_of(one.stick.side)[0]} end" if one.stick.side else "marked end",
                    step=step,
                    job=number,
                    piece=local_name(piece.id),
                    start_ticks=start,
                    end_ticks=start + piece.length_ticks,
                )


def boards_to_buy(batch: Batch) -> list[tuple[str, str, str]]:
    """How many of which board at which price, the sum below; nothing where none is bought."""
    if batch.layout is None:
        return []
    units = batch.jobs[0].job.units
    bought = Counter(
        (one.stick.name, one.stick.length, one.stick.width, one.stick.price_cents)
        for one in batch.layout.cut
        if one.stick.source == "for sale"
    )
    if not bought:
        return []
    lines = [
        (
            f"{count} x",
            f"{name}, {show_ticks(wide, units)} x {show_ticks(long, units)}",
            f"{cents / 100:.2f} each",
        )
        for (name, long, wide, cents), count in bought.items()
    ]
    total = sum(cents * count for (*_, cents), count in bought.items()) / 100
    return [*lines, ("in all", "", f"{total:.2f}")]
