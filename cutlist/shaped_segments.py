"""How many segments a circle of the ring is made of, by what the stock yields, where the job leaves it open."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from typing import Final

from edgewright.cutlist.shaped_build_up import BuildUpPlan, SegmentTrial
from edgewright.cutlist.shaped_cutting import Cutting, cuttings, rank
from edgewright.design.anytop.build import ring_with_segments
from edgewright.design.anytop.model import ShapedDesign
from edgewright.design.anytop.own_wood import OwnWood, own_wood
from edgewright.design.buildup.ring_model import RingPiece
from edgewright.design.trims.blank_rectangles import WantedBlank, blank_rectangles
from edgewright.errors import GeometryError

__all__ = ["SEGMENTS", "best_cutting"]

#: Pieces in a full circle that a mitre gauge is set to: 22 1/2, 15 and 11 1/4 degrees. Common practice, no source.
SEGMENTS: Final = (8, 12, 16)

Progress = Callable[[str], None] | None


def best_cutting(design: ShapedDesign, progress: Progress = None) -> Cutting:
    """The best way to cut the build-up; an empty plan where there is none.

    Other numbers of segments than the blanks themselves give are tried only where the job gives none and something to
    be had holds a segment.
    """
    if not design.pieces and not design.job.top.new:
        return Cutting(BuildUpPlan((), (), (), None, (), ()), 0, ())
    wood = own_wood(design)
    first = _best(design, design.pieces, wood, progress)
    if design.job.edge.segments is not None or not _may_hold_segments(design, first.plan, wood):
        return first
    rings = dict(_rings(design))
    same = next((n for n, pieces in rings.items() if _sizes(pieces) == _sizes(design.pieces)), None)
    ways: list[tuple[int | None, Cutting]] = [(same, first)]
    ways += [(n, _best(design, pieces, wood, progress)) for n, pieces in rings.items() if n != same]
    if not any(_holds_a_segment(cutting.plan) for _, cutting in ways):
        return first
    number, best = min(ways, key=lambda way: rank(way[1]))
    trials = tuple(_trial(tried, cutting.plan) for tried, cutting in ways)
    return replace(best, plan=replace(best.plan, trials=trials, chosen=number))


def _best(
    design: ShapedDesign, pieces: Sequence[RingPiece], wood: Sequence[OwnWood], progress: Progress
) -> Cutting:
    return min(cuttings(design, pieces, wood, progress), key=rank)


def _may_hold_segments(design: ShapedDesign, plan: BuildUpPlan, wood: Sequence[OwnWood]) -> bool:
    """Whether anything to be had is wide enough for a segment: one is never narrower than the ring."""
    widths = [piece.blank_width for piece in design.pieces if piece.kind == "segment"]
    if not widths:
        return False
    least, kerf = design.job.splice.min_piece.mm, design.job.saw.kerf.mm
    wanted = (WantedBlank(least, min(*widths, design.strip_width_mm), 1),)
    boards = any(not stick.places for stick in plan.stock)
    return boards or any(blank_rectangles(one.region, one.ways, wanted, kerf) for one in wood)


def _rings(design: ShapedDesign) -> Iterator[tuple[int, tuple[RingPiece, ...]]]:
    """Different rings of the usual numbers of segments, none of these shorter than the job lets a piece be."""
    least = design.job.splice.min_piece.mm
    known: set[tuple[tuple[float, float], ...]] = set()
    for number in SEGMENTS:
        try:
            pieces = ring_with_segments(design, number)
        except GeometryError:
            continue
        short = any(piece.kind == "segment" and piece.blank_length < least for piece in pieces)
        if not short and _sizes(pieces) not in known:
            known.add(_sizes(pieces))
            yield number, pieces


def _sizes(pieces: Sequence[RingPiece]) -> tuple[tuple[float, float], ...]:
    return tuple((round(piece.blank_length, 6), round(piece.blank_width, 6)) for piece in pieces)


def _holds_a_segment(plan: BuildUpPlan) -> bool:
    cut = plan.cut_ids
    return any(piece.kind == "segment" and piece.id in cut for piece in plan.pieces)


def _trial(segments: int | None, plan: BuildUpPlan) -> SegmentTrial:
    return SegmentTrial(
        segments,
        len(plan.pieces),
        len(plan.loose),
        plan.missing_area,
        plan.cost_cents,
        plan.sticks_used,
    )
