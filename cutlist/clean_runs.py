"""Clean runs of a strip: what defects leave of it, each run long enough for the saw to part it from the next.

A defect counts where its box overlaps the strip across; one that lies only in a kerf beside it touches nothing. Along
the strip it takes its box and a clearance on both sides. Metal takes more: the crosscut that ends a run lies in the
waste behind it, and that kerf too must stay clear of metal.

Between two runs there is one kerf at least. Where the waste is narrower than that, the run behind it begins later.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from edgewright.cutlist.model import DefectBox, Lane
from edgewright.ticks import snap_up

__all__ = ["NO_CLEARANCE", "Clearance", "clean_runs", "strip_lanes"]


@dataclass(frozen=True, slots=True)
class Clearance:
    """What stays clear of defects along a strip, ticks.

    Attributes
    ----------
    wood
        From a defect to a piece.
    metal
        From metal to a kerf.
    """

    wood: int = 0
    metal: int = 0

    def of(self, box: DefectBox, kerf: int) -> int:
        """What stays clear of one defect, from its box to a piece."""
        return max(self.wood, kerf + self.metal) if box.metal else self.wood


#: Nothing stays clear but the box itself.
NO_CLEARANCE: Final = Clearance()


def clean_runs(
    start: int,
    end: int,
    across: tuple[int, int],
    boxes: Sequence[DefectBox],
    clearance: Clearance,
    kerf: int,
    grid: int = 1,
) -> tuple[tuple[int, int], ...]:
    """Runs of a strip without defects, in order, ticks from the strip's raw start.

    Parameters
    ----------
    start, end
        What can be used of the strip if it had no defect.
    across
        Where the strip lies, in the frame of the boxes.
    boxes
        Defects, along the strip from its raw start.
    grid
        Bench grid; where a run begins is measured on it, so it is snapped up.
    """
    taken = sorted(
        (box.along_ticks[0] - clearance.of(box, kerf), box.along_ticks[1] + clearance.of(box, kerf))
        for box in boxes
        if box.across_ticks[0] < across[1] and box.across_ticks[1] > across[0]
    )
    runs: list[tuple[int, int]] = []
    at = start
    for low, high in (*taken, (end, end)):
        if min(low, end) > at:
            runs.append((at, min(low, end)))
        if high > at:
            after = runs[-1][1] + kerf if runs else 0
            at = max(at, snap_up(max(high, after), grid))
    return tuple(runs)


def strip_lanes(strip: str, raw_length: int, width: int, runs: Sequence[tuple[int, int]]) -> tuple[Lane, ...]:
    """Lanes of one strip: one for each run, "north 2" or "north 2a" and "north 2b"; one without length if none."""
    if not runs:
        return (Lane(strip, 0, width, raw_length, 0, strip),)
    names = [strip] if len(runs) == 1 else [f"{strip}{_letters(n)}" for n in range(len(runs))]
    return tuple(
        Lane(name, high - low, width, low, raw_length - high, strip)
        for name, (low, high) in zip(names, runs, strict=True)
    )


def _letters(number: int) -> str:
    """Letters of a number: a to z, then aa, ab and so on."""
    before, last = divmod(number, 26)
    return (_letters(before - 1) if before else "") + chr(ord("a") + last)
