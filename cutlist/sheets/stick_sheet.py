"""Stick sheet: each strip as a bar, with its pieces, kerfs to scale, stops from its squared start and its rest.

A bar lies with its start on the left and its inner edge, a fresh saw cut, at the bottom. Mitres are drawn true;
a piece that is turned end for end has its long edge, and its stop, at the top.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from edgewright.cutlist.bench_cuts import BY_HAND, CrossCut
from edgewright.cutlist.plan import Plan
from edgewright.cutlist.sheets.common import check_box
from edgewright.cutlist.sheets.strip_bar import BAR_MARGIN, StripBar
from edgewright.cutlist.sheets.wall import wall_heading, wall_heading_height
from edgewright.drawing.paper import (
    PaperBox,
    Pen,
    pick_scale,
    scale_text,
)
from edgewright.drawing.view import View
from edgewright.ticks import ticks_to_mm

__all__ = ["stick_figures"]

_TITLE: Final = "Strips: crosscuts"


def stick_figures(plan: Plan, box: PaperBox = (180.0, 110.0)) -> tuple[View, ...]:
    """Draw all strips that pieces come from; as many figures as it takes, all at one scale.

    Parameters
    ----------
    plan
        A plan; one that is not ready has no figures.
    box
        Width and height that each figure may fill, paper mm, at least 150 x 100.

    Raises
    ------
    GeometryError
        For a box that is too small.
    """
    check_box(box)
    if not plan.ready:
        return ()
    used = {piece.lane_id for piece in plan.cut_plan.pieces}
    lanes = [(stick, lane) for stick in plan.cut_plan.sticks for lane in stick.lanes if lane.id in used]
    raw = [ticks_to_mm(lane.raw_ticks) for _, lane in lanes]
    wide = max((ticks_to_mm(lane.width_ticks) for _, lane in lanes), default=1.0)
    scale = pick_scale([(max(raw, default=1.0), box[0] - 2 * BAR_MARGIN), (wide, box[1] / 4)]) or 200.0
    lines = [
        f"{scale_text(scale).capitalize()}. Plan {plan.code}. Stops run from the squared start of the strip, "
        "marked by a small circle; hatched is what the blade takes or what is squared off. Tick each cut.",
        *_held(plan.crosscuts),
    ]
    bars = [StripBar(plan, stick, lane, box[0], scale) for stick, lane in lanes]
    figures: list[View] = []
    while bars:
        number = len(figures) + 1
        title = _TITLE if number == 1 else f"{_TITLE}, continued"
        left = box[1] - wall_heading_height(box, title.upper(), lines)
        count = 0
        while count < len(bars) and (not count or bars[count].height <= left):
            left -= bars[count].height
            count += 1
        pen = Pen()
        top = wall_heading(pen, box, title.upper(), lines)
        for bar in bars[:count]:
            top = bar.draw(pen, top)
        figures.append(pen.view(f"strips-{number}", title))
        bars = bars[count:]
    return tuple(figures)


def _held(cuts: Sequence[CrossCut]) -> list[str]:
    """How pieces are held; a stop with a star is not cut by hand."""
    marked = sorted({cut.held for cut in cuts if cut.held != BY_HAND})
    lines = [f"Stops with *: {held}." for held in marked]
    if any(cut.held == BY_HAND for cut in cuts):
        lines.append(f"{'Other' if marked else 'All'} crosscuts: {BY_HAND}.")
    return lines
