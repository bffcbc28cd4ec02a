"""How the build-up of a top with an outline is cut: from what, lane by lane, and what must still be bought.

The data; `edgewright.cutlist.shaped_cutting` makes it.
"""

from __future__ import annotations

from dataclasses import dataclass

from edgewright.cutlist.guillotine.model import GuillotinePlan
from edgewright.cutlist.shaped_demand import ShapedBlank
from edgewright.cutlist.shaped_stock import ShapedStick
from edgewright.design.buildup.ring_model import RingPiece
from edgewright.design.buildup.ring_stock import BlankRow

__all__ = ["BuildUpPlan", "CutBlank", "SegmentTrial"]


@dataclass(frozen=True, slots=True)
class CutBlank:
    """Where the blank of one piece is cut from; lengths in ticks.

    Attributes
    ----------
    stick
        Name of the offcut or board.
    lane, start
        Number of the lane in its stick, from 1, and where in the lane the blank begins.
    length, width
        Along the lane and across it; ``turned`` where the lane runs across the blank.
    """

    piece_id: str
    stock_id: str
    copy: int
    stick: str
    lane: int
    start: int
    length: int
    width: int
    turned: bool


@dataclass(frozen=True, slots=True)
class SegmentTrial:
    """What one number of segments to the circle would take; None for the number that the blanks give.

    ``missing`` counts blanks that nothing to be had gives, ``missing_area`` is theirs (square ticks).
    """

    segments: int | None
    pieces: int
    missing: int
    missing_area: int
    cost_cents: int
    sticks: int


@dataclass(frozen=True, slots=True)
class BuildUpPlan:
    """The cut plan of a build-up.

    Attributes
    ----------
    pieces
        Pieces of the ring as they are cut: the number of segments chosen, long strips divided.
    stock
        All that could have been cut from, used or not.
    blanks
        What was wanted.
    layout
        None where nothing to be had holds a blank.
    cut
        Where each blank is cut from, in the order of the ring.
    to_buy
        Blanks that must still be bought or found.
    trials, chosen
        Numbers of segments that were tried, and the one that was taken; empty where the job gives the number or
        nothing hangs on it.
    short
        Why the stock does not hold every blank; empty where it does.
    short_proven
        Whether that is proven.
    """

    pieces: tuple[RingPiece, ...]
    stock: tuple[ShapedStick, ...]
    blanks: tuple[ShapedBlank, ...]
    layout: GuillotinePlan | None
    cut: tuple[CutBlank, ...]
    to_buy: tuple[BlankRow, ...]
    trials: tuple[SegmentTrial, ...] = ()
    chosen: int | None = None
    short: str = ""
    short_proven: bool = False

    @property
    def cost_cents(self) -> int:
        """Price of the boards that are bought (cents)."""
        return 0 if self.layout is None else self.layout.stages[0].value
