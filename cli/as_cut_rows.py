"""What is told of a panel whose cutting has begun: cuts made, the panel now, what came off."""

from __future__ import annotations

from edgewright.compass import SIDES
from edgewright.cutlist.plan import Plan
from edgewright.cutlist.sheets.common import range_words
from edgewright.display import show_ticks

__all__ = ["as_cut_rows"]


def as_cut_rows(plan: Plan) -> list[tuple[str, str]]:
    """Rows of name and words; none before the first cut."""
    now, begun, units = plan.cut_plan.as_cut, plan.design.begun, plan.job.units
    if now is None or begun is None:
        return []
    panel = (now.east_ticks - now.west_ticks, now.north_ticks - now.south_ticks)
    made = range_words(1, now.cuts_made) if now.cuts_made else "no cut"
    still = [f"{show_ticks(begun.still[side], units)} {side}" for side in SIDES if begun.still[side]]
    off = [
        f"{strip.id}, {show_ticks(strip.width_ticks, units)} x {show_ticks(strip.length_ticks, units)}"
        for strip in now.loose
    ]
    return [
        ("made so far", made),
        ("panel now", " x ".join(show_ticks(ticks, units) for ticks in panel)),
        ("still off", ", ".join(still) + " (kerf included)" if still else "nothing"),
        ("on the bench", "; ".join(off) or "no strip"),
    ]
