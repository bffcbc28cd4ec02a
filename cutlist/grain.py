"""The grain of solid wood: which strips may be glued under which sides, and planning that keeps to it.

A strip must have its grain parallel to that of the top. An offcut keeps the top's grain: in a strip that was cut off
parallel to it the grain runs along the strip, in one off an end across it. A board has its grain along its length. So
sides and sticks fall into two groups that share nothing, and each is planned for itself: costs and counts add up, and
the best of the whole is the best of each.
"""

from __future__ import annotations

from collections.abc import Sequence

from edgewright.compass import Side, is_lengthwise
from edgewright.cutlist.model import Grain, PlanRules, RingSide, Stick
from edgewright.cutlist.solve import StripLayout, solve_strips
from edgewright.design.model import Design

__all__ = ["by_grain", "grain_under", "solve_by_grain"]


def grain_under(design: Design, side: Side | None) -> Grain:
    """How the grain runs in a strip under a side, or off it; off a board for None. "" where it does not matter."""
    top = design.job.top
    if top.material != "solid wood" or not design.keep_grain:
        return ""
    return "along" if side is None or is_lengthwise(side) == (top.grain_along == "length") else "across"


def by_grain(
    sides: Sequence[RingSide], sticks: Sequence[Stick]
) -> tuple[tuple[tuple[RingSide, ...], tuple[Stick, ...]], ...]:
    """Sides with the sticks that fit them, by grain; one group of all where the grain does not matter."""
    return tuple(
        (tuple(s for s in sides if s.grain == grain), tuple(s for s in sticks if s.grain == grain))
        for grain in sorted({side.grain for side in sides})
    )


def solve_by_grain(
    sides: Sequence[RingSide],
    sticks: Sequence[Stick],
    rules: PlanRules,
    strip_width: int,
    *,
    any_plan: bool = False,
) -> StripLayout | None:
    """As `solve_strips`, each group for itself; None when one of them has no layout."""
    layouts = []
    for own_sides, own_sticks in by_grain(sides, sticks):
        layout = solve_strips(own_sides, own_sticks, rules, strip_width, any_plan=any_plan)
        if layout is None:
            return None
        layouts.append(layout)
    if len(layouts) == 1:
        return layouts[0]
    order = {lane.id: n for n, lane in enumerate(lane for stick in sticks for lane in stick.lanes)}
    pieces = sorted(
        (piece for one in layouts for piece in one.pieces), key=lambda piece: order[piece.lane_id]
    )
    return StripLayout(tuple(pieces), all(one.exact for one in layouts))
