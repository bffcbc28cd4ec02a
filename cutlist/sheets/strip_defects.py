"""Defects that a strip runs over: where they lie along it, for its bar on the stick sheet."""

from __future__ import annotations

from edgewright.compass import ends_of, is_lengthwise
from edgewright.cutlist.model import CutPlan, DefectBox, Lane, Stick
from edgewright.cutlist.offcuts import rip_sides

__all__ = ["strip_defects", "strip_start"]


def strip_start(stick: Stick) -> str:
    """The end that a strip is measured from, as it was sawn."""
    return f"{ends_of(stick.side)[0] if stick.side else 'marked'} end"


def strip_defects(plan: CutPlan, stick: Stick, lane: Lane) -> tuple[tuple[DefectBox, int, int], ...]:
    """Each defect in the strip of a lane, from and to along it (ticks from the start of the strip as sawn), in order.

    Of strips that came off before only sound wood was measured: they have none.
    """
    if plan.as_cut is not None and any(lane.id in strip.lanes for strip in plan.as_cut.loose):
        return ()
    row = next(n for n, strip in enumerate(stick.strips) if strip[0].strip == lane.strip)
    start, low = _corner(plan, stick, lane, row)
    lengthwise = stick.side is None or is_lengthwise(stick.side)
    found = []
    for box in plan.defects if stick.side is not None else stick.defects:
        along, across = (
            (box.along_ticks, box.across_ticks) if lengthwise else (box.across_ticks, box.along_ticks)
        )
        begin, end = max(along[0] - start, 0), min(along[1] - start, lane.raw_ticks)
        if begin < end and across[0] < low + lane.width_ticks and low < across[1]:
            found.append((box, begin, end))
    return tuple(sorted(found, key=lambda one: one[1:]))


def _corner(plan: CutPlan, stick: Stick, lane: Lane, row: int) -> tuple[int, int]:
    """Where a strip begins along and across, in the frame of the old top or of its board (ticks)."""
    kerf, side = plan.rules.kerf_ticks, stick.side
    if side is None:
        return 0, stick.edge_waste_ticks + row * (plan.strip_width_ticks + kerf)
    axis = 0 if is_lengthwise(side) else 1
    whole = side in rip_sides(plan.old_ticks)
    start = plan.first_edges[ends_of(side)[0]] if whole else plan.finished_origin_ticks[axis]
    inner = row * plan.pitch_ticks + kerf
    edge = plan.finished_origin_ticks[1 - axis]
    if side in ("north", "east"):
        return start, edge + plan.finished_ticks[1 - axis] + inner
    return start, edge - inner - lane.width_ticks
