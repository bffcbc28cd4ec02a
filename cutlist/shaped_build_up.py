"""How the build-up of a top with an outline is cut: from what, lane by lane, and what must still be bought.

The data; `edgewright.cutlist.shaped_cutting` makes it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from edgewright.cutlist.guillotine.model import (
    Blank,
    GuillotinePlan,
    GuillotineRules,
    GuillotineShortage,
    StockRect,
)
from edgewright.cutlist.guillotine.plain import plain_layout
from edgewright.cutlist.guillotine.plan import plan_guillotine
from edgewright.cutlist.shaped_demand import ShapedBlank
from edgewright.cutlist.shaped_stock import ShapedStick
from edgewright.design.buildup.ring_model import RingPiece
from edgewright.design.buildup.ring_stock import BlankRow
from edgewright.units import Units

__all__ = ["BuildUpPlan", "CutBlank", "LaidOut", "LayoutProblem", "SegmentTrial"]


@dataclass(frozen=True, slots=True)
class LayoutProblem:
    """What was laid out: sticks, blanks and rules, as the checker reads them."""

    stock: tuple[StockRect, ...]
    blanks: tuple[Blank, ...]
    rules: GuillotineRules

    def plan(
        self, units: Units, progress: Callable[[str], None] | None = None
    ) -> GuillotinePlan | GuillotineShortage:
        """Lay it out; the independent checker has accepted what comes back.

        Raises
        ------
        CheckError
            If it has not: a defect of this program.
        """
        return plan_guillotine(self.stock, self.blanks, self.rules, progress=progress, units=units)

    def plain(self, result: GuillotinePlan | GuillotineShortage) -> dict[str, Any]:
        """The problem and its result as plain data, for the checker and for plan.json."""
        return plain_layout(self.stock, self.blanks, self.rules, result)


@dataclass(frozen=True, slots=True)
class LaidOut:
    """A problem and its plan."""

    problem: LayoutProblem
    plan: GuillotinePlan

    @property
    def plain(self) -> dict[str, Any]:
        """Both as plain data, for the checker and for plan.json."""
        return self.problem.plain(self.plan)


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
    """What one number of segments to the circle would take; None for what the blanks themselves give.

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
        Where each blank is cut from, in the order of the ring; a new top first.
    to_buy
        Blanks that must still be bought or found.
    trials, chosen
        Numbers of segments that were tried, and the one that was taken; empty where the job gives the number or
        nothing hangs on it.
    shortage, asked
        Why the stock does not hold every blank, and what of; None where it does or nothing is there.
    """

    pieces: tuple[RingPiece, ...]
    stock: tuple[ShapedStick, ...]
    blanks: tuple[ShapedBlank, ...]
    layout: LaidOut | None
    cut: tuple[CutBlank, ...]
    to_buy: tuple[BlankRow, ...]
    trials: tuple[SegmentTrial, ...] = ()
    chosen: int | None = None
    shortage: GuillotineShortage | None = None
    asked: LayoutProblem | None = None

    @property
    def cut_ids(self) -> frozenset[str]:
        """Names of the pieces that are cut from the stock."""
        return frozenset(one.piece_id for one in self.cut)

    @property
    def loose(self) -> tuple[RingPiece, ...]:
        """Pieces that nothing is planned for."""
        cut = self.cut_ids
        return tuple(piece for piece in self.pieces if piece.id not in cut)

    @property
    def missing_area(self) -> int:
        """Area of the blanks that must still be bought, square ticks."""
        cut = self.cut_ids
        return sum(
            one.blank.length * one.blank.width
            for one in self.blanks
            for piece_id in one.piece_ids
            if piece_id not in cut
        )

    @property
    def sticks_used(self) -> int:
        """Sticks that blanks are cut from."""
        return 0 if self.layout is None else len(self.layout.plan.layouts)

    @property
    def cost_cents(self) -> int:
        """Price of the boards that are bought (cents)."""
        return 0 if self.layout is None else self.layout.plan.stages[0].value
