"""The bench cuts of a build-up: lanes ripped on the fence, one setting after another, then blanks crosscut to a stop.

Lanes of a stick are ripped widest first, so that the wide part stays against the fence as long as it can.
"""

from __future__ import annotations

from edgewright.cutlist.bench_cuts import CrossCut, FenceRip, how_held, how_ripped
from edgewright.cutlist.new_top_cuts import top_lane
from edgewright.cutlist.shaped_build_up import BuildUpPlan

__all__ = ["build_up_crosscuts", "build_up_rips", "lane_name"]


def lane_name(stick: str, lane: int) -> str:
    """Name of a lane, numbered from 1 in its stick."""
    return f"{stick} lane {lane}"


def build_up_rips(plan: BuildUpPlan) -> tuple[FenceRip, ...]:
    """Rips of all sticks, grouped by fence setting, the widest first; a lane that ends where its stick does needs none.

    The lane of a new top is sawn along the guide instead. A board with an old edge is first ripped clean on one side,
    and its last lane from the other.
    """
    if plan.layout is None:
        return ()
    sticks, kerf = {stick.stock.id: stick for stick in plan.stock}, plan.layout.problem.rules.kerf
    top, first = top_lane(plan), list[FenceRip]()
    found: list[FenceRip] = []
    for layout in plan.layout.plan.layouts:
        stick = sticks[layout.stock_id]
        name = stick.name(layout.copy)
        along, across = stick.stock.length, stick.stock.width
        if layout.first == "width":
            along, across = across, along
        if stick.edge_waste:
            wide = across + stick.edge_waste
            first.append(FenceRip(name, None, wide, along, how_ripped(wide)))
        left = across
        for number, lane in enumerate(layout.lanes, start=1):
            free = (layout.stock_id, layout.copy, number) == top
            if (lane.width != left or stick.edge_waste) and not free:
                held = how_ripped(lane.width)
                found.append(FenceRip(name, lane_name(name, number), lane.width, along, held))
            left -= lane.width + kerf
    return (*first, *sorted(found, key=lambda rip: -rip.fence_ticks))


def build_up_crosscuts(plan: BuildUpPlan) -> tuple[CrossCut, ...]:
    """Crosscuts of all lanes but that of a new top, in order; a blank that ends where its lane ends needs none."""
    if plan.layout is None:
        return ()
    sizes = {stick.stock.id: (stick.stock.length, stick.stock.width) for stick in plan.stock}
    across = {(one.stock_id, one.copy): one.first == "width" for one in plan.layout.plan.layouts}
    top, found = top_lane(plan), []
    for one in plan.cut:
        lane = sizes[one.stock_id][across[one.stock_id, one.copy]]
        end = one.start + one.length
        if end == lane or (one.stock_id, one.copy, one.lane) == top:
            continue
        held = how_held(one.length, lane - one.start)
        found.append(
            CrossCut(
                lane_name(one.stick, one.lane),
                one.piece_id,
                end,
                one.length,
                "square",
                "end",
                False,
                "",
                held,
            )
        )
    return tuple(found)
