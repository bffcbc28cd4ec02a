"""Findings that the saw cuts decide: what holds the guide, what holds the wood."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from edgewright import trade
from edgewright.cutlist.bench_cuts import CLAMPED, CrossCut, FenceRip
from edgewright.cutlist.model import SawCut
from edgewright.display import show_ticks
from edgewright.findings import Finding
from edgewright.job import Saw
from edgewright.ticks import part_ticks
from edgewright.units import Units

__all__ = ["handling_findings"]

_MIN_FENCE_WIDTH = part_ticks(trade.inch("3/4"))
_MIN_RIP_LENGTH = part_ticks(trade.inch("12"))


def handling_findings(
    cuts: Sequence[SawCut], rips: Sequence[FenceRip], crosscuts: Sequence[CrossCut], saw: Saw, units: Units
) -> Iterator[Finding]:
    """Findings 501 to 504."""

    def shown(ticks: int) -> str:
        return show_ticks(ticks, units)

    held = saw.min_held_width.ticks_up()
    narrow = [cut for cut in cuts if cut.keep_ticks < held]
    if narrow:
        worst = min(narrow, key=lambda cut: cut.keep_ticks)
        yield Finding(
            501, "stop", "panel too narrow to hold", f"cut {worst.number}",
            f"{shown(worst.keep_ticks)} of panel left under the guide, at least {shown(held)}",
            "fix the panel to the bench so that no hand holds it, then override this; or trim less",
        )  # fmt: skip
    guide = saw.guide_width.ticks_up()
    for cut in cuts:
        under = cut.guide_ticks if cut.guide_side == "keep" else cut.panel_before_ticks - cut.guide_ticks
        if under < guide:
            yield Finding(
                502, "stop" if 2 * under < guide else "warn", "guide stands off the wood", f"cut {cut.number}",
                f"{shown(max(under, 0))} of wood under a guide {shown(guide)} wide, on the {cut.guide_side} side",
                "put the guide on the keep side, use the narrow side of the shoe, or pack up with wood of equal "
                "thickness",
            )  # fmt: skip
    for rip in rips:
        if rip.fence_ticks < _MIN_FENCE_WIDTH or rip.length_ticks < _MIN_RIP_LENGTH:
            yield Finding(
                503, "stop", "board too small to rip on the fence", rip.stick_id,
                f"strip {shown(rip.fence_ticks)} wide from a board {shown(rip.length_ticks)} long; at least "
                f"{shown(_MIN_FENCE_WIDTH)} wide and {shown(_MIN_RIP_LENGTH)} long",
                "take the strip from a longer board or from an offcut that is still part of the panel",
            )  # fmt: skip
    short = sorted({c.length_ticks for c in crosscuts if c.held == CLAMPED})
    if short:
        limit = part_ticks(trade.MIN_CROSSCUT_HELD.value)
        yield Finding(
            504, "warn", "short pieces to crosscut", "strips",
            f"shortest {shown(short[0])}, by hand only from {shown(limit)}",
            "cut these in a mitre box or under a hold-down, as the crosscut list says",
        )  # fmt: skip
