"""The blank of a new top among the blanks that are cut from the stock, and the finding where no sheet holds it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Final, Literal

from edgewright.cutlist.demand import matching_boards
from edgewright.cutlist.guillotine.model import Blank, GuillotineShortage
from edgewright.cutlist.shaped_demand import Demand, ShapedBlank
from edgewright.cutlist.shaped_stock import ShapedStick
from edgewright.design.anytop.model import ShapedDesign
from edgewright.design.outline import FIT_MM
from edgewright.display import SHOWN_TICKS, show_ticks
from edgewright.findings import Finding
from edgewright.ticks import TICKS_PER_MM, snap_up

__all__ = ["TOP", "no_sheet", "top_blank", "with_top"]

#: What the top is called among the pieces of its build-up; theirs are numbers.
TOP: Final = "top"


def top_blank(design: ShapedDesign) -> Blank | None:
    """Blank of a new top, its sides rounded up to what is shown; None for an old top.

    The grain is that of solid wood, and that of sheets where the job states it.
    """
    top = design.job.top
    if not top.new:
        return None
    step = SHOWN_TICKS[design.job.units]
    x0, y0, x1, y1 = design.old.outline.bounds
    # float rounding alone never makes it a step larger
    length, width = (snap_up(math.ceil((mm - 10 * FIT_MM) * TICKS_PER_MM), step) for mm in (x1 - x0, y1 - y0))
    grain: Literal["length", "width"] | None = top.grain
    if grain is None and top.material == "solid wood":
        grain = "length" if length >= width else "width"
    return Blank(TOP, length, width, 1, grain)


def with_top(design: ShapedDesign, demand: Demand) -> Demand:
    """The demand of a build-up and before it the blank of a new top."""
    blank = top_blank(design)
    return demand if blank is None else replace(demand, blanks=(ShapedBlank(blank, (TOP,)), *demand.blanks))


def no_sheet(
    design: ShapedDesign, stock: Sequence[ShapedStick], shortage: GuillotineShortage | None
) -> Finding:
    """324: nothing in the stock holds a new top; told by the largest sheet, or by why it holds no top nevertheless."""
    units, blank = design.job.units, top_blank(design)
    assert blank is not None
    need = f"the top needs {show_ticks(blank.length, units)} × {show_ticks(blank.width, units)}"
    boards = [stick.stock for stick in stock if not stick.places]
    change = "list a larger sheet under [[stock]]: a top glued up from several sheets is not planned"
    if not boards:
        material, thick = design.job.top.material, show_ticks(design.job.top.thickness_mean.ticks(), units)
        listed = f"{len(design.job.stock)} listed" if design.job.stock else "nothing is listed"
        figures = f"no {material} {thick} thick ({listed} under [[stock]]), {need}"
        change = "list the sheet that it is cut from under [[stock]], as thick as the top"
        if len(matching_boards(design.job)):
            figures = f"only boards with defects are as thick, {need}"
    else:
        largest = max(boards, key=lambda rect: (rect.length * rect.width, rect.id))
        size = f"{show_ticks(largest.length, units)} × {show_ticks(largest.width, units)}"
        figures = f"the largest sheet is {size}, {need}"
        if any(_holds(rect.length, rect.width, blank) for rect in boards):
            figures += f"; {'not with its grain the right way' if blank.grain else 'no layout was found'}"
            if shortage is not None and not blank.grain:
                figures = f"{shortage.sentence}; {need}"
    return Finding(324, "stop", "no sheet holds the top", "top", figures, change, overridable=False)


def _holds(length: int, width: int, blank: Blank) -> bool:
    sides = sorted((blank.length, blank.width))
    return all(a <= b for a, b in zip(sides, sorted((length, width)), strict=True))
