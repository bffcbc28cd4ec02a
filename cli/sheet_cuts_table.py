"""``cuts`` of a new top: every cut in the order of work, along the guide, on the fence and to a stop."""

from __future__ import annotations

from collections.abc import Iterator

from edgewright.cli.table import Column, Row, Table, length, lengths, numbers, table, texts
from edgewright.cutlist.new_top_cuts import PANEL_HELD, guide_cuts
from edgewright.cutlist.shaped_bench import build_up_crosscuts, build_up_rips, lane_name
from edgewright.cutlist.shaped_plan import ShapedPlan
from edgewright.cutlist.shown_cuts import shown_cut
from edgewright.cutlist.shown_stock import shown_stock_lanes
from edgewright.units import Units

__all__ = ["sheet_cut_columns", "sheet_cuts_table"]


def sheet_cut_columns(units: Units) -> tuple[tuple[Column, ...], ...]:
    """Columns; the setting of a guide cut is its keep line, of a rip the fence, of a crosscut the stop."""
    return (
        numbers("step"),
        texts("operation", "of"),
        lengths(units, "setting", "kerf_from", "kerf_to"),
        texts("guide_side"),
        lengths(units, "guide_at"),
        texts("gives", "held", "plan_code"),
    )


def sheet_cuts_table(plan: ShapedPlan) -> Table:
    """The cuts of a plan that is ready.

    Raises
    ------
    ValueError
        For a plan that is not ready: nobody must cut by it.
    """
    if not plan.ready:
        raise ValueError("a plan that is NOT FOR CUTTING has no cut list")
    rows = ({"step": step, **row, "plan_code": plan.code} for step, row in enumerate(_rows(plan), start=1))
    return table("cuts", sheet_cut_columns(plan.job.units), rows)


def _rows(plan: ShapedPlan) -> Iterator[Row]:
    units, found = plan.job.units, plan.build_up
    for cut in guide_cuts(found, plan.job.saw):
        shown = shown_cut(cut, units)
        yield {
            "operation": f"{cut.way} along the guide",
            "of": cut.stick if cut.way == "rip" else lane_name(cut.stick, cut.lane),
            **length("setting", cut.keep, units, shown.keep),
            **length("kerf_from", cut.keep, units, shown.keep),
            **length("kerf_to", cut.kerf_end, units, shown.kerf_end),
            "guide_side": cut.guide_side,
            **length("guide_at", cut.guide, units, shown.guide),
            "gives": "; ".join(cut.gives),
            "held": PANEL_HELD,
        }
    for rip in build_up_rips(found):
        yield {
            "operation": "rip on the fence",
            "of": rip.stick_id,
            **length("setting", rip.fence_ticks, units),
            "gives": rip.lane_id or "clean edge",
            "held": rip.held,
        }
    kerf = plan.job.saw.kerf.ticks_up()
    lanes = {part.name: lane for lane in shown_stock_lanes(plan).values() for part in lane.parts}
    for crosscut in build_up_crosscuts(found):
        lane = lanes[str(crosscut.piece_id)]
        part = lane.part(str(crosscut.piece_id))
        yield {
            "operation": "crosscut",
            "of": crosscut.lane_id,
            **length("setting", crosscut.length_ticks, units),
            **length("kerf_from", crosscut.stop_ticks, units, part.end_text(units)),
            **length("kerf_to", crosscut.stop_ticks + kerf, units, lane.kerf_end(part, kerf, units)),
            "gives": crosscut.piece_id or "",
            "held": crosscut.held,
        }
