"""A cut as it is shown: keep line, end of the kerf, guide and what comes off, so that the figures add up.

Each is made of the keep line, the kerf and the guide offset as they are shown alone, for those stand on the same sheet.
"""

from __future__ import annotations

from dataclasses import dataclass

from edgewright.cutlist.model import SawCut
from edgewright.cutlist.new_top_cuts import GuideCut
from edgewright.display import show_as, shown_ticks
from edgewright.units import Units

__all__ = ["ShownCut", "shown_cut"]


@dataclass(frozen=True, slots=True)
class ShownCut:
    """Texts of a cut, ``~`` in front of what is rounded; positions run from the datum.

    Attributes
    ----------
    kerf
        What the blade takes of the wood: less than the kerf where the cut runs off the panel.
    width
        Of what comes off, behind the kerf; "" where that is dust.
    before
        What lies under the saw, square to the cut.
    """

    keep: str
    kerf_end: str
    kerf: str
    guide: str
    width: str
    before: str


def shown_cut(cut: SawCut | GuideCut, units: Units) -> ShownCut:
    """Show a cut through the panel, or one that frees a new top."""
    if isinstance(cut, SawCut):
        before, end, offset = cut.panel_before_ticks, cut.kerf_end_ticks, cut.guide_offset_ticks
        keep, guide = cut.keep_ticks, cut.guide_ticks
    else:
        before, end, keep, guide = cut.before, cut.kerf_end, cut.keep, cut.guide
        offset = keep - guide if cut.guide_side == "keep" else guide - end
    at, wood = shown_ticks(keep, units), shown_ticks(before, units)
    behind = at + shown_ticks(end - keep, units)
    clamp = shown_ticks(offset, units)
    left = before - end
    return ShownCut(
        keep=show_as(at, keep, units),
        kerf_end=show_as(behind, end, units),
        kerf=show_as(behind - at, end - keep, units),
        guide=show_as(at - clamp if cut.guide_side == "keep" else behind + clamp, guide, units),
        width=show_as(max(wood - behind, 0), left, units) if left > 0 else "",
        before=show_as(wood, before, units),
    )
