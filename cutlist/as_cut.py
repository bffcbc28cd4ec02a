"""What a top is after some cuts: from the plan that was being cut and what [as_cut] says was measured then.

The plan that was being cut is that of the same job without [as_cut]; it says on which sides the cuts made lie and what
each should have given. Where the cuts went otherwise, what came off each side is given instead. Positions stay in the
frame of the old top, so base, seams and old corners need no new figures.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence, Set
from dataclasses import dataclass

from edgewright.compass import OPPOSITE, SIDES, PerSide, Side, is_lengthwise
from edgewright.cutlist.model import CutPlan, SawCut
from edgewright.design.model import Begun, LoosePiece, TrimSizes
from edgewright.job import AsCut, AsCutPiece, Job
from edgewright.ticks import part_ticks
from edgewright.trade import inch

__all__ = ["AXES", "TELLING", "PieceOff", "begun_by_sides", "begun_of", "job_as_cut", "pieces_off"]

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
    """What is left of the top, and what still comes off, from the panel's size and the plan that was being cut.

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
    for high in AXES:
        low, old = OPPOSITE[high], sizes.old[1 if is_lengthwise(high) else 0]
        measured = as_cut.measured(high)[1]
        gone = 0 if measured is None else max(0, old - measured.ticks_down())
        # the low side is cut from the fresh high edge, which was then where the plan has it
        off[high] = min(gone, sizes.amounts[high]) if any(cut.side == low for cut in made) else gone
        off[low] = gone - off[high]
    fresh = tuple(dict.fromkeys(cut.side for cut in made))
    return _begun(as_cut, sizes, PerSide(**off), fresh, {cut.side for cut in left}, _loose(as_cut, made))


def begun_by_sides(as_cut: AsCut, sizes: TrimSizes, kerf: int) -> Begun:
    """The same from what came off each side, whatever was planned.

    Parameters
    ----------
    as_cut
        With ``off``.
    sizes
        The sizes of the job as planned.
    kerf
        Ticks; a piece lay at least as deep in the top as those before it of its side are wide with their kerfs. It may
        have lain deeper, where a cut gave no piece: then old corners take off more of it than they must.
    """
    taken = as_cut.off
    assert taken is not None
    off = PerSide.build(lambda side: taken[side].ticks_up())
    open_sides = {side for side in SIDES if sizes.amounts[side] - off[side] >= TELLING}
    depth = dict.fromkeys(SIDES, 0)
    loose = []
    for piece in sorted(as_cut.pieces, key=lambda piece: piece.cut or 0):
        length, width = piece.length.ticks_down(), piece.width.ticks_down()
        if piece.usable:
            loose.append(LoosePiece(piece.cut or 0, piece.side, length, width, depth[piece.side]))
        depth[piece.side] += width + kerf
    return _begun(as_cut, sizes, off, tuple(side for side in SIDES if off[side]), open_sides, loose)


def _begun(
    as_cut: AsCut,
    sizes: TrimSizes,
    off: PerSide[int],
    fresh: tuple[Side, ...],
    open_sides: Set[Side],
    loose: Iterable[LoosePiece],
) -> Begun:
    """Share out what still comes off; ``open_sides`` are those that are not cut to their end."""
    total = dict(off.items())
    for high in AXES:
        low, axis = OPPOSITE[high], 1 if is_lengthwise(high) else 0
        if not off[low] + off[high]:
            total |= {low: sizes.amounts[low], high: sizes.amounts[high]}
            continue
        rest = sizes.old[axis] - off[low] - off[high] - sizes.finished[axis]
        if rest < TELLING:
            continue  # the panel is as small as it was to be, or smaller: it stays as it is
        to_low = 0
        if sizes.amounts[low]:
            to_low = rest
            if high in open_sides:
                planned = min(rest, max(0, sizes.amounts[low] - off[low]))
                to_low = rest if rest - planned < TELLING else planned
        total[low] += to_low
        total[high] += rest - to_low
    amounts = PerSide(**total)
    (length, width) = sizes.old
    finished = length - amounts.west - amounts.east, width - amounts.south - amounts.north
    now = TrimSizes(sizes.grid, sizes.old, finished, (amounts.west, amounts.south), amounts)
    return Begun(as_cut.cuts, off, fresh, tuple(loose), now)


def _loose(as_cut: AsCut, made: Sequence[SawCut]) -> Iterator[LoosePiece]:
    found = [off for off in pieces_off(as_cut, made) if isinstance(off, PieceOff) and off.piece.usable]
    for off in sorted(found, key=lambda off: off.cut.number):
        before = [cut for cut in made if cut.side == off.piece.side and cut.number <= off.cut.number]
        # what was cut away of this side before this cut, as planned
        depth = before[0].panel_before_ticks - off.cut.panel_before_ticks
        yield LoosePiece(
            off.cut.number, off.piece.side, off.piece.length.ticks_down(), off.piece.width.ticks_down(), depth
        )
