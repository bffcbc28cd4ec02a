"""The layout of a build-up, and of a new top before it, on the sticks to be had: which ways are tried and taken."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from typing import Final, Literal

from edgewright.cutlist.check_handling import MIN_FENCE_WIDTH
from edgewright.cutlist.guillotine.model import (
    Blank,
    GuillotinePlan,
    GuillotineRules,
    GuillotineShortage,
    StockRect,
)
from edgewright.cutlist.new_top import TOP
from edgewright.cutlist.shaped_build_up import LaidOut, LayoutProblem
from edgewright.cutlist.shaped_demand import Demand
from edgewright.cutlist.shaped_stock import ShapedStick
from edgewright.design.anytop.model import ShapedDesign
from edgewright.design.anytop.ring import grain_direction

__all__ = ["lay_out"]

Along = Literal["length", "width"]

_TURNED: Final[dict[Along | None, Along | None]] = {"length": "width", "width": "length", None: None}


def lay_out(
    design: ShapedDesign,
    demand: Demand,
    stock: Sequence[ShapedStick],
    progress: Callable[[str], None] | None,
) -> tuple[LaidOut | None, tuple[GuillotineShortage, LayoutProblem] | None]:
    """Lay out all blanks; where the stock does not hold them, those that it holds, and why not all, shown on what.

    Strips and segments are laid along the lanes, as they are ripped and crosscut most safely; across them only where
    that gives more, or with a new top among them costs less or takes fewer sheets.
    """
    if not stock or not demand.blanks:
        return None, None
    short: list[tuple[int, GuillotineShortage, LayoutProblem]] = []
    whole: list[LaidOut] = []
    for found in dict.fromkeys(_ways(design, demand, stock)):
        plan = found.plan(design.job.units, progress)
        if isinstance(plan, GuillotinePlan):
            whole.append(LaidOut(found, plan))
            if design.job.top.new:
                continue
            break
        missing = sum(blank.length * blank.width * plan.missing.count(blank.id) for blank in found.blanks)
        short.append((missing, plan, found))
    if whole:
        return min(whole, key=lambda laid: [stage.value for stage in laid.plan.stages[:2]]), None
    _, best, found = min(short, key=lambda one: one[0])
    some = _without(found, best.missing)
    laid = some.plan(design.job.units, progress) if some.blanks else None
    _, free, asked = short[-1]
    # blanks that may not be turned show nothing of those that may; what is missing is said of what is cut
    why = replace(free, sentence=best.sentence, missing=best.missing) if best.proven == free.proven else free
    return LaidOut(some, laid) if isinstance(laid, GuillotinePlan) else None, (why, asked)


def _ways(design: ShapedDesign, demand: Demand, stock: Sequence[ShapedStick]) -> Iterator[LayoutProblem]:
    """Problems in the order in which they are preferred.

    Lanes run along the sticks; for a new top also across them, or whichever way is better for each.
    """
    sheet_goods, new = grain_direction(design.job, design.old) is None, design.job.top.new
    kerf = design.job.saw.kerf.ticks_up()

    def rules(first: Literal["length", "width", "either"]) -> GuillotineRules:
        return GuillotineRules(kerf, MIN_FENCE_WIDTH, first)

    rects, blanks = tuple(stick.stock for stick in stock), tuple(one.blank for one in demand.blanks)
    if sheet_goods:
        yield LayoutProblem(*_along_lanes(rects, blanks, "length"), rules("length"))
    if sheet_goods and new:
        yield LayoutProblem(*_along_lanes(rects, blanks, "width"), rules("width"))
    if not (sheet_goods and new):
        yield LayoutProblem(rects, blanks, rules("length"))
    if new:
        yield LayoutProblem(rects, blanks, rules("either"))


def _along_lanes(
    rects: tuple[StockRect, ...], blanks: tuple[Blank, ...], first: Along
) -> tuple[tuple[StockRect, ...], tuple[Blank, ...]]:
    """Stock and blanks of sheet goods as if they had a grain along the lanes, so that no strip or segment is turned.

    A block or a top may be; a top whose own grain matters keeps it, for that of a sheet runs along its length.
    """
    return (
        tuple(replace(rect, grain=first) for rect in rects),
        tuple(
            replace(blank, grain=blank.grain if first == "length" else _TURNED[blank.grain])
            if blank.id == TOP
            else blank
            if 2 * blank.width > blank.length
            else replace(blank, grain="length")
            for blank in blanks
        ),
    )


def _without(problem: LayoutProblem, missing: Sequence[str]) -> LayoutProblem:
    less = (replace(blank, count=blank.count - missing.count(blank.id)) for blank in problem.blanks)
    return replace(problem, blanks=tuple(blank for blank in less if blank.count > 0))
