"""How a new top is sawn free of its sheet: a large panel is cut along a clamped guide, never on the fence or by a stop.

These are the cuts of the lane that the top lies in: the rip that frees the lane, and every crosscut of it. Positions
run from the edge that the lanes begin at and from the start of the lane, so that they add up with the kerfs.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final, Literal

from edgewright.cutlist.guillotine.model import Layout, RippedLane
from edgewright.cutlist.new_top import TOP
from edgewright.cutlist.shaped_build_up import BuildUpPlan, CutBlank
from edgewright.job_shop import Saw

__all__ = ["PANEL_HELD", "GuideCut", "guide_cuts", "top_lane"]

#: How a panel is held (common practice, no source).
PANEL_HELD: Final = "flat on supports on both sides of the cut, guide clamped at both ends"


@dataclass(frozen=True, slots=True)
class GuideCut:
    """One cut along the guide; lengths in ticks.

    Attributes
    ----------
    way
        A rip runs the full length of the lanes, a crosscut across one lane.
    gives
        What comes free on the near side: pieces of the lane, or one piece.
    before, across
        What lies under the saw: its size square to the cut, and how long the cut is.
    keep, kerf_end
        Keep line and far side of the kerf, from the near edge.
    guide, guide_side
        Where the guide lies, from the same edge, and on which side of the cut: on the keep side where it has room
        there.
    """

    stick: str
    lane: int
    way: Literal["rip", "crosscut"]
    gives: tuple[str, ...]
    before: int
    across: int
    keep: int
    kerf_end: int
    guide: int
    guide_side: Literal["keep", "waste"]


def top_lane(plan: BuildUpPlan) -> tuple[str, int, int] | None:
    """Stock, copy and number of the lane that the top lies in; None for an old top."""
    found = next((one for one in plan.cut if one.piece_id == TOP), None)
    return None if found is None else (found.stock_id, found.copy, found.lane)


def guide_cuts(plan: BuildUpPlan, saw: Saw) -> tuple[GuideCut, ...]:
    """Cuts that free a new top, in order; none for an old top."""
    place = top_lane(plan)
    if plan.layout is None or place is None:
        return ()
    stock_id, copy, number = place
    layout = next(one for one in plan.layout.plan.layouts if (one.stock_id, one.copy) == (stock_id, copy))
    stick = next(one for one in plan.stock if one.stock.id == stock_id)
    along, across = stick.stock.length, stick.stock.width
    if layout.first == "width":
        along, across = across, along
    name, kerf = stick.name(copy), saw.kerf.ticks_up()
    lane = layout.lanes[number - 1]
    start = sum(one.width + kerf for one in layout.lanes[: number - 1])
    ids = tuple(one.piece_id for one in _in_lane(plan, layout, number))
    cuts = []
    if start + lane.width < across:
        cuts.append(_cut(saw, name, number, "rip", ids, across - start, along, lane.width))
    cuts += _crosscuts(plan, layout, lane, number, name, along, saw)
    return tuple(cuts)


def _in_lane(plan: BuildUpPlan, layout: Layout, number: int) -> list[CutBlank]:
    here = (layout.stock_id, layout.copy, number)
    return sorted(
        (one for one in plan.cut if (one.stock_id, one.copy, one.lane) == here), key=lambda one: one.start
    )


def _crosscuts(
    plan: BuildUpPlan, layout: Layout, lane: RippedLane, number: int, name: str, along: int, saw: Saw
) -> Iterator[GuideCut]:
    for one in _in_lane(plan, layout, number):
        if one.start + one.length < along:
            left = along - one.start
            yield _cut(saw, name, number, "crosscut", (one.piece_id,), left, lane.width, one.length)


def _cut(
    saw: Saw,
    stick: str,
    lane: int,
    way: Literal["rip", "crosscut"],
    gives: tuple[str, ...],
    before: int,
    across: int,
    keep: int,
) -> GuideCut:
    """The guide lies on the side that the saw asks for; where it does not find its width there, on the wider side."""
    end, off = min(keep + saw.kerf.ticks_up(), before), saw.guide_offset.ticks()
    room = off + saw.guide_width.ticks_up()
    side = saw.guide_side
    if (keep if side == "keep" else before - end) < room:
        side = "keep" if keep >= before - end else "waste"
    guide = keep - off if side == "keep" else end + off
    return GuideCut(stick, lane, way, gives, before, across, keep, end, guide, side)
