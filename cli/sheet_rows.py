"""What is said of the sheets of a new top beside the rows of any stock: cuts along the guide, what the proof holds."""

from __future__ import annotations

from edgewright.cutlist.new_top_cuts import guide_cuts
from edgewright.cutlist.shaped_bench import lane_name
from edgewright.cutlist.shaped_plan import ShapedPlan
from edgewright.cutlist.shown_cuts import shown_cut
from edgewright.display import show_ticks

__all__ = ["guide_rows", "way_words"]


def guide_rows(plan: ShapedPlan) -> list[list[str]]:
    """Cuts that free a new top: cut, keep line, kerf, guide, what it gives and how it is held."""
    units, rows = plan.job.units, []
    for number, cut in enumerate(guide_cuts(plan.build_up, plan.job.saw), start=1):
        shown = shown_cut(cut, units)
        keep, end, guide = shown.keep, shown.kerf_end, shown.guide
        lane = lane_name(cut.stick, cut.lane)
        what = (
            f"{number} rip {cut.stick}, {shown.before} wide, {show_ticks(cut.across, units)} long"
            if cut.way == "rip"
            else f"{number} crosscut {lane}, {shown.before} left of it"
        )
        gives = ", ".join(cut.gives)
        # lanes are ripped from the near edge, one after the other
        edge = "edge" if cut.lane == 1 else f"edge that lane {cut.lane - 1} left"
        side = f"{cut.guide_side} side, {plan.job.saw.shoe_side} side of the shoe along it"
        rows.append(
            [
                what,
                f"{keep} from the {edge if cut.way == 'rip' else 'start'}",
                f"{keep} to {end}",
                f"{guide}, {side}",
                f"{f'lane {cut.lane} with {gives}' if cut.way == 'rip' else gives}",
            ]
        )
    return rows


def way_words(plan: ShapedPlan) -> list[str]:
    """What the proof of a new top's sheets holds for, where strips were laid along the lanes."""
    layout = plan.build_up.layout
    if not plan.job.top.new or layout is None or layout.problem.rules.first == "either":
        return []
    return [
        f"Sheets are ripped along their {layout.problem.rules.first}, strips and segments lie along the lanes, and the "
        "figures are proven for that; laid freely, no layout was found that costs less or takes fewer sheets."
    ]
