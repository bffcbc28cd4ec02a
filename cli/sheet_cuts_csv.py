"""``cuts.csv`` of a new top: every cut in the order of work, along the guide, on the fence and to a stop."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from edgewright.cli.csv_text import csv_text
from edgewright.cli.cuts_csv import exact_mm
from edgewright.cutlist.new_top_cuts import PANEL_HELD, guide_cuts
from edgewright.cutlist.shaped_bench import build_up_crosscuts, build_up_rips, lane_name
from edgewright.cutlist.shaped_plan import ShapedPlan
from edgewright.display import show_ticks

__all__ = ["SHEET_COLUMNS", "sheet_cuts_csv"]

SHEET_COLUMNS: Final = (
    *("step", "operation", "of", "setting", "setting_mm", "kerf_from_mm", "kerf_to_mm"),
    *("guide_side", "guide_at", "guide_at_mm", "gives", "held", "plan_code"),
)


def sheet_cuts_csv(plan: ShapedPlan) -> str:
    """Write the cuts of a plan that is ready.

    Returns
    -------
    str
        The setting of a guide cut is its keep line, of a rip the fence, of a crosscut the stop. Lengths in the job's
        units with the unit behind; columns in ``_mm`` are exact decimals. Lines end in CR LF.

    Raises
    ------
    ValueError
        For a plan that is not ready: nobody must cut by it.

    References
    ----------
    RFC 4180.
    """
    if not plan.ready:
        raise ValueError("a plan that is NOT FOR CUTTING has no cut list")
    steps = enumerate(_rows(plan), start=1)
    return csv_text(SHEET_COLUMNS, ({"step": step, **row, "plan_code": plan.code} for step, row in steps))


def _rows(plan: ShapedPlan) -> Iterator[dict[str, str]]:
    units, found = plan.job.units, plan.build_up
    for cut in guide_cuts(found, plan.job.saw):
        yield {
            "operation": f"{cut.way} along the guide",
            "of": cut.stick if cut.way == "rip" else lane_name(cut.stick, cut.lane),
            "setting": show_ticks(cut.keep, units),
            "setting_mm": exact_mm(cut.keep),
            "kerf_from_mm": exact_mm(cut.keep),
            "kerf_to_mm": exact_mm(cut.kerf_end),
            "guide_side": cut.guide_side,
            "guide_at": show_ticks(cut.guide, units),
            "guide_at_mm": exact_mm(cut.guide),
            "gives": "; ".join(cut.gives),
            "held": PANEL_HELD,
        }
    for rip in build_up_rips(found):
        yield {
            "operation": "rip on the fence",
            "of": rip.stick_id,
            "setting": show_ticks(rip.fence_ticks, units),
            "setting_mm": exact_mm(rip.fence_ticks),
            "gives": rip.lane_id or "clean edge",
            "held": rip.held,
        }
    kerf = plan.job.saw.kerf.ticks_up()
    for crosscut in build_up_crosscuts(found):
        yield {
            "operation": "crosscut",
            "of": crosscut.lane_id,
            "setting": show_ticks(crosscut.length_ticks, units),
            "setting_mm": exact_mm(crosscut.length_ticks),
            "kerf_from_mm": exact_mm(crosscut.stop_ticks),
            "kerf_to_mm": exact_mm(crosscut.stop_ticks + kerf),
            "gives": crosscut.piece_id or "",
            "held": crosscut.held,
        }
