"""Test cut of a rectangle's plan: how its saw stands to each cut."""

from __future__ import annotations

from edgewright.cutlist.plan import Plan
from edgewright.cutlist.sheets.common import check_box
from edgewright.cutlist.sheets.kerf_section import LEAST_SECTION, CutSetting, kerf_section
from edgewright.display import show_ticks
from edgewright.drawing.paper import PaperBox
from edgewright.drawing.view import View
from edgewright.ticks import ticks_to_mm

__all__ = ["kerf_figure"]


def kerf_figure(plan: Plan, box: PaperBox = (180.0, 170.0)) -> tuple[View, ...]:
    """Draw one cut enlarged; no view for a plan that is not ready or has no cuts.

    Parameters
    ----------
    plan
        Gives kerf, offset and the guide's side.
    box
        Width and height that the figure may fill, paper mm, at least 150 x 170.

    Raises
    ------
    GeometryError
        For a box that is too small.
    """
    check_box(box, LEAST_SECTION)
    if not plan.ready or not plan.cut_plan.cuts:
        return ()
    rules, units = plan.cut_plan.rules, plan.job.units
    setting = CutSetting(
        ticks_to_mm(rules.kerf_ticks),
        plan.job.top.thickness_mean.mm,
        show_ticks(rules.kerf_ticks, units),
        show_ticks(rules.guide_offset_ticks, units),
        rules.guide_side,
        plan.job.saw.shoe_side,
    )
    return (kerf_section(setting, plan.code, box, before=plan.cut_plan.cuts[0].number),)
