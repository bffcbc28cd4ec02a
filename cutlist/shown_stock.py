"""Sticks of a build-up as they are shown: the lanes with their blanks, and what is left of each."""

from __future__ import annotations

from edgewright.cutlist.guillotine.model import Layout, Rest
from edgewright.cutlist.shaped_plan import ShapedPlan
from edgewright.cutlist.shaped_stock import ShapedStick
from edgewright.cutlist.shown_lanes import ShownLane, shown_parts
from edgewright.display import show_ticks

__all__ = ["along_lanes", "shown_stock_lanes", "shown_stock_rest"]


#: Stock, copy and number of a lane: boards of two kinds may have one name.
LaneKey = tuple[str, int, int]


def shown_stock_lanes(plan: ShapedPlan) -> dict[LaneKey, ShownLane]:
    """Lanes of all sticks as they are shown."""
    found = plan.build_up
    if found.layout is None:
        return {}
    units, kerf = plan.job.units, plan.job.saw.kerf.ticks_up()
    sticks = {stick.stock.id: stick for stick in found.stock}
    shown: dict[LaneKey, ShownLane] = {}
    for layout in found.layout.plan.layouts:
        stick = sticks[layout.stock_id]
        for number in range(1, len(layout.lanes) + 1):
            here = (layout.stock_id, layout.copy, number)
            ends = [
                (one.piece_id, one.start, one.start + one.length)
                for one in sorted(found.cut, key=lambda one: one.start)
                if (one.stock_id, one.copy, one.lane) == here
            ]
            shown[here] = shown_parts(ends, along_lanes(stick, layout), kerf, units)
    return shown


def along_lanes(stick: ShapedStick, layout: Layout) -> int:
    """Length of the lanes of a stick, ticks."""
    return stick.stock.length if layout.first == "length" else stick.stock.width


def shown_stock_rest(plan: ShapedPlan, rest: Rest) -> tuple[str, str]:
    """Length and width of a rest: what the lane, or the lanes beside it, leave as they are shown."""
    units, kerf, found = plan.job.units, plan.job.saw.kerf.ticks_up(), plan.build_up
    assert found.layout is not None
    layout = next(
        one for one in found.layout.plan.layouts if (one.stock_id, one.copy) == (rest.stock_id, rest.copy)
    )
    stick = next(stick for stick in found.stock if stick.stock.id == rest.stock_id)
    long, wide = show_ticks(rest.length, units), show_ticks(rest.width, units)
    if rest.length == along_lanes(stick, layout):
        at, lanes = 0, []
        for lane in layout.lanes:
            lanes.append(("lane", at, at + lane.width))
            at += lane.width + kerf
        across = stick.stock.length + stick.stock.width - along_lanes(stick, layout)
        beside = shown_parts(lanes, across, kerf, units).rest
        return long, beside.text(units) if beside and beside.end - beside.start == rest.width else wide
    lane_rests = (
        lane.rest
        for key, lane in shown_stock_lanes(plan).items()
        if key[:2] == (rest.stock_id, rest.copy) and lane.rest is not None
    )
    behind = next((one for one in lane_rests if one.end - one.start == rest.length), None)
    return behind.text(units) if behind else long, wide
