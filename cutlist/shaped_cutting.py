"""From the pieces of a build-up to its cut plan: what is spliced, what is cut from what, what must be bought.

Of several ways to make the ring (numbers of segments, ways to divide long strips) one is taken by `rank`: cut wholly
from the stock, at the least cost, with the fewest splices, sticks and pieces.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Final

from edgewright.cutlist.guillotine.model import GuillotinePlan
from edgewright.cutlist.new_top import TOP, with_top
from edgewright.cutlist.shaped_build_up import BuildUpPlan, CutBlank
from edgewright.cutlist.shaped_demand import ShapedBlank, shaped_demand
from edgewright.cutlist.shaped_layout import lay_out
from edgewright.cutlist.shaped_splices import DIVISIONS, LongestStick, Spliced, spliced
from edgewright.cutlist.shaped_stock import ShapedStick, shaped_stock
from edgewright.design.anytop.model import ShapedDesign
from edgewright.design.anytop.own_wood import OwnWood
from edgewright.design.buildup.ring_model import RingPiece
from edgewright.design.buildup.ring_stock import to_be_bought
from edgewright.ticks import TICKS_PER_MM

__all__ = ["Cutting", "cuttings", "rank"]

Progress = Callable[[str], None] | None
#: Of the distinct lengths of sticks so many are tried as the longest piece of a strip; a kind of stick that is for
#: sale without a limit counts as so many.
_LENGTHS: Final = 4
_MANY: Final = 100


@dataclass(frozen=True, slots=True)
class Cutting:
    """One way to cut a ring.

    ``splices`` counts those of all strips, ``refused`` are strips that no stick holds and no rule lets be divided.
    """

    plan: BuildUpPlan
    splices: int
    refused: tuple[tuple[str, str], ...]


def cuttings(
    design: ShapedDesign, pieces: Sequence[RingPiece], wood: Sequence[OwnWood], progress: Progress = None
) -> Iterator[Cutting]:
    """Cut plans of a ring: all strips whole, and those divided that are longer than the sticks, in several ways."""
    stock = shaped_stock(design, shaped_demand(design, pieces), wood)
    sticks = list(_sticks(design, stock))
    longest: list[LongestStick] = [partial(_at_most, sticks), *_shorter(sticks), partial(_one_by_one, sticks)]
    ways = [spliced(design, pieces, one, division) for one in longest for division in DIVISIONS]
    refused = ways[0].refused
    yield _cut(design, Spliced(tuple(pieces), 0, refused), stock, wood, progress)
    seen = {_sizes(pieces)}
    for way in ways:
        if _sizes(way.pieces) not in seen:
            seen.add(_sizes(way.pieces))
            yield _cut(design, way, stock, wood, progress)


def _sizes(pieces: Sequence[RingPiece]) -> tuple[tuple[str, float], ...]:
    return tuple((piece.id, piece.blank_length) for piece in pieces)


def _sticks(design: ShapedDesign, stock: Sequence[ShapedStick]) -> Iterator[tuple[int, int, int]]:
    """Length, width and number of lanes of each kind of stick, in lanes of the strips' width; longest first."""
    width, kerf = round(design.strip_width_mm * TICKS_PER_MM), design.job.saw.kerf.ticks_up()
    for one in sorted((stick.stock for stick in stock), key=lambda rect: (-rect.length, rect.id)):
        lanes = (one.width + kerf) // (width + kerf)
        if lanes:
            yield one.length, one.width, lanes * min(one.count or _MANY, _MANY)


def _shorter(sticks: Sequence[tuple[int, int, int]]) -> Iterator[LongestStick]:
    """Strips divided for shorter sticks: where there are only a few of the longest, or those are for sale."""
    lengths = sorted({length for length, _, _ in sticks}, reverse=True)
    for most in lengths[1:_LENGTHS]:
        yield partial(_at_most, [stick for stick in sticks if stick[0] <= most])


def _at_most(sticks: Sequence[tuple[int, int, int]], width: int, _: int) -> int:
    """The longest stick that is wide enough for a piece."""
    return max((long for long, wide, _ in sticks if wide >= width), default=0)


def _one_by_one(sticks: Sequence[tuple[int, int, int]], width: int, number: int) -> int:
    """For the strip of a number the stick that comes then, longest first, a lane of it for each strip."""
    for long, wide, lanes in sticks:
        if wide >= width and number < lanes:
            return long
        number -= lanes if wide >= width else 0
    return _at_most(sticks, width, 0)


def rank(cutting: Cutting) -> tuple[int, ...]:
    """Key by which the best way is chosen, the least first.

    A whole ring from the stock comes first. Where something must be bought besides, no strip is spliced to spare
    some of it.
    """
    plan = cutting.plan
    missing = plan.missing_area
    first = (
        (1, cutting.splices, missing, plan.cost_cents) if missing else (0, plan.cost_cents, cutting.splices)
    )
    return *first, plan.sticks_used, len(plan.pieces)


def _cut(
    design: ShapedDesign,
    parts: Spliced,
    first: Sequence[ShapedStick],
    wood: Sequence[OwnWood],
    progress: Progress,
) -> Cutting:
    demand = shaped_demand(design, parts.pieces)
    stock = shaped_stock(design, demand, wood) if parts.splices else tuple(first)
    demand = with_top(design, demand)
    layout, short = lay_out(design, demand, stock, progress)
    cut = () if layout is None else _places(layout.plan, demand.blanks, stock, parts.pieces)
    done = {one.piece_id for one in cut}
    left = [piece for piece in parts.pieces if piece.id not in done]
    plan = BuildUpPlan(
        parts.pieces,
        stock,
        demand.blanks,
        layout,
        cut,
        to_be_bought(left, design.job.saw.kerf.mm, design.job.units),
        shortage=short and short[0],
        asked=short and short[1],
    )
    return Cutting(plan, parts.splices, parts.refused)


def _places(
    layout: GuillotinePlan,
    blanks: Sequence[ShapedBlank],
    stock: Sequence[ShapedStick],
    pieces: Sequence[RingPiece],
) -> tuple[CutBlank, ...]:
    """Give each blank that is laid out to a piece, in the order of ring and sticks; a new top comes first."""
    waiting = {one.blank.id: deque(one.piece_ids) for one in blanks}
    by_id = {stick.stock.id: stick for stick in stock}
    found = {}
    for sheet in layout.layouts:
        for number, lane in enumerate(sheet.lanes, start=1):
            for placed in lane.pieces:
                piece_id = waiting[placed.blank_id].popleft()
                found[piece_id] = CutBlank(
                    piece_id,
                    sheet.stock_id,
                    sheet.copy,
                    by_id[sheet.stock_id].name(sheet.copy),
                    number,
                    placed.start,
                    placed.length,
                    lane.width,
                    placed.turned,
                )
    order = (TOP, *(piece.id for piece in pieces))
    return tuple(found[piece_id] for piece_id in order if piece_id in found)
