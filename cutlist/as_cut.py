"""What a top is after some cuts: from the plan that was being cut and what [as_cut] says was measured then.

The plan that was being cut is that of the same job without [as_cut]; it says on which sides the cuts made lie and what
each should have given. Positions stay in the frame of the old top, so base, seams and old corners need no new figures.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from edgewright.compass import OPPOSITE, PerSide, Side, is_lengthwise
from edgewright.cutlist.model import CutPlan, SawCut
from edgewright.design.model import Begun, LoosePiece, TrimSizes
from edgewright.job import AsCut, AsCutPiece, Job
from edgewright.ticks import part_ticks
from edgewright.trade import inch

__all__ = ["AXES", "TELLING", "PieceOff", "begun_of", "job_as_cut", "pieces_off"]

#: The least difference that is asked about: what a tape shows.
TELLING = part_ticks(inch("1/64"))
#: The side that is cut first on each axis; the opposite one follows.
AXES: tuple[Side, Side] = ("north", "east")


@dataclass(frozen=True, slots=True)
class PieceOff:
    """A piece that came off, its index under [[as_cut.piece]], and the cut of the plan that freed it."""

    index: int
    piece: AsCutPiece
    cut: SawCut


def job_as_cut(job: Job) -> Job:
    """The job with kerf and guide offset of the test cut in place of those under [saw]."""
    as_cut = job.as_cut
    assert as_cut is not None
    changed = {}
    if as_cut.kerf is not None:
        changed["kerf"] = as_cut.kerf
    if as_cut.guide_offset is not None:
        changed[f"guide_offset_{job.saw.shoe_side}"] = as_cut.guide_offset
    return job.model_copy(update={"saw": job.saw.model_copy(update=changed)})


def pieces_off(as_cut: AsCut, made: Sequence[SawCut]) -> Iterator[PieceOff | int]:
    """Each piece with the cut it came off in; the bare index of one that no cut can have freed.

    Without a number of their own the pieces of a side are those of its cuts in order; a cut that only makes dust frees
    none.
    """
    named = {piece.cut for piece in as_cut.pieces}
    for index, piece in enumerate(as_cut.pieces):
        free = [
            cut
            for cut in made
            if cut.side == piece.side
            and cut.offcut_width_ticks
            and (cut.number == piece.cut if piece.cut is not None else cut.number not in named)
        ]
        if not free:
            yield index
            continue
        named.add(free[0].number)
        yield PieceOff(index, piece, free[0])


def begun_of(as_cut: AsCut, planned: CutPlan, sizes: TrimSizes) -> Begun:
    """What is left of the top, and what still comes off.

    Parameters
    ----------
    as_cut
        Measured after the saw stopped; free of the faults that `edgewright.cutlist.as_cut_faults` finds.
    planned
        The plan that was being cut.
    sizes
        The sizes it was planned with.
    """
    made, left = planned.cuts[: as_cut.cuts], planned.cuts[as_cut.cuts :]
    off: dict[Side, int] = {}
    total: dict[Side, int] = {}
    for high in AXES:
        low, axis = OPPOSITE[high], 1 if is_lengthwise(high) else 0
        measured = as_cut.measured(high)[1]
        old = sizes.old[axis]
        panel = old if measured is None else min(old, measured.ticks_down())
        if panel == old:
            off |= {low: 0, high: 0}
            total |= {low: sizes.amounts[low], high: sizes.amounts[high]}
            continue
        gone = old - panel
        # the low side is cut from the fresh high edge, which was then where the plan has it
        off[high] = min(gone, sizes.amounts[high]) if any(cut.side == low for cut in made) else gone
        off[low] = gone - off[high]
        rest = panel - sizes.finished[axis]
        total |= {low: off[low], high: off[high]}
        if rest < TELLING:
            continue  # the panel is as small as it was to be, or smaller: it stays as it is
        to_low = rest
        if any(cut.side == high for cut in left):
            to_low = min(rest, sizes.amounts[low])
        elif not sizes.amounts[low]:
            to_low = 0  # the only side that is cut on this axis is cut once more
        if rest - to_low < TELLING:
            to_low = rest if sizes.amounts[low] else 0
        total[low] += to_low
        total[high] += rest - to_low
    amounts, gone_off = PerSide(**total), PerSide(**off)
    (length, width) = sizes.old
    return Begun(
        cuts_made=as_cut.cuts,
        off=gone_off,
        fresh=tuple(dict.fromkeys(cut.side for cut in made)),
        loose=tuple(_loose(as_cut, made, sizes)),
        sizes=TrimSizes(
            sizes.grid,
            sizes.old,
            (length - amounts.west - amounts.east, width - amounts.south - amounts.north),
            (amounts.west, amounts.south),
            amounts,
        ),
    )


def _loose(as_cut: AsCut, made: Sequence[SawCut], sizes: TrimSizes) -> Iterator[LoosePiece]:
    found = [off for off in pieces_off(as_cut, made) if isinstance(off, PieceOff) and off.piece.usable]
    for off in sorted(found, key=lambda off: off.cut.number):
        before = [cut for cut in made if cut.side == off.piece.side and cut.number <= off.cut.number]
        # what was cut away of this side before this cut, as planned
        depth = before[0].panel_before_ticks - off.cut.panel_before_ticks
        yield LoosePiece(
            off.cut.number, off.piece.side, off.piece.length.ticks_down(), off.piece.width.ticks_down(), depth
        )
