"""What goes back to the rack as it is shown: it is what the wood beside it leaves, on every sheet."""

from __future__ import annotations

from typing import Final

from edgewright.cutlist.layout import ripped_strips
from edgewright.cutlist.model import CutPlan, Remnant, Stick
from edgewright.cutlist.shown_cuts import shown_cut
from edgewright.cutlist.shown_lanes import lanes_of, shown_lane, shown_parts
from edgewright.display import show_ticks
from edgewright.units import Units

__all__ = ["shown_remnant"]

_REST: Final = "rest of "


def shown_remnant(plan: CutPlan, remnant: Remnant, units: Units) -> tuple[str, str]:
    """Width and length of a remnant: the end of a lane, what is left beside the strips of a board, or an offcut."""
    width, length = show_ticks(remnant.width_ticks, units), show_ticks(remnant.length_ticks, units)
    of = remnant.id.removeprefix(_REST)
    cut = next((cut for cut in plan.cuts if cut.yields == remnant.id), None)
    if cut is not None:
        return shown_cut(cut, units).width, length
    lane = lanes_of(plan).get(of)
    if lane is not None and any(piece.lane_id == of for piece in plan.pieces):
        rest = shown_lane(plan, lane, units).rest
        same = rest is not None and rest.end - rest.start == remnant.length_ticks
        return width, rest.text(units) if rest is not None and same else length
    stick = next((stick for stick in plan.sticks if stick.id == of), None)
    return (width if stick is None else _beside(plan, stick, units) or width), length


def _beside(plan: CutPlan, stick: Stick, units: Units) -> str:
    """Width that the strips of a board leave, "" where it is not what is left behind one kerf each."""
    kerf, at, ends = plan.rules.kerf_ticks, 0, list[tuple[str, int, int]]()
    for strip in ripped_strips(stick, frozenset(piece.lane_id for piece in plan.pieces)):
        ends.append((strip[0].strip, at, at + strip[0].width_ticks))
        at = ends[-1][2] + kerf
    if not ends:
        return ""
    rest = shown_parts(ends, stick.width_ticks - stick.edge_waste_ticks, kerf, units).rest
    return "" if rest is None else rest.text(units)
