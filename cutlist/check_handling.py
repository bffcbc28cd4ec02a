"""Findings that the saw cuts decide: what holds the guide, what holds the wood."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from edgewright import trade
from edgewright.cutlist.bench_cuts import CLAMPED, CrossCut, FenceRip
from edgewright.cutlist.handling_words import guide_advice, guide_finding, held_finding, wood_under_guide
from edgewright.cutlist.model import SawCut
from edgewright.design.check_figures import trade_least
from edgewright.display import show_ticks
from edgewright.findings import Finding
from edgewright.job import Saw
from edgewright.ticks import part_ticks, ticks_to_mm
from edgewright.units import Units

__all__ = ["MIN_FENCE_WIDTH", "MIN_RIP_LENGTH", "handling_findings"]

#: Narrowest strip and shortest board that are ripped on the fence (common practice, no source).
MIN_FENCE_WIDTH = part_ticks(trade.inch("3/4"))
MIN_RIP_LENGTH = part_ticks(trade.inch("12"))


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
        yield held_finding(f"cut {worst.number}", shown(worst.keep_ticks), _least(held, units))
    yield from _guide_findings(cuts, saw, units)
    small: dict[tuple[int, int], list[str]] = {}
    for rip in rips:
        # the rip that only takes off an old edge is judged by those that follow it
        if rip.lane_id is not None and (
            rip.fence_ticks < MIN_FENCE_WIDTH or rip.length_ticks < MIN_RIP_LENGTH
        ):
            small.setdefault((rip.fence_ticks, rip.length_ticks), []).append(rip.stick_id)
    for (fence, length), sticks in small.items():
        boards = ", ".join(dict.fromkeys(sticks))
        yield Finding(
            503, "stop", "board too small to rip on the fence", boards,
            f"{boards}: strip {shown(fence)} wide from a board {shown(length)} long; at least "
            f"{_least(MIN_FENCE_WIDTH, units)} wide and {_least(MIN_RIP_LENGTH, units)} long",
            "take the strip from a longer board or from an offcut that is still part of the panel",
        )  # fmt: skip
    short = sorted({c.length_ticks for c in crosscuts if c.held == CLAMPED})
    if short:
        limit = part_ticks(trade.MIN_CROSSCUT_HELD.value)
        yield Finding(
            504, "warn", "short pieces to crosscut", "strips",
            f"shortest {shown(short[0])}, by hand only from {_least(limit, units)}",
            "cut these in a mitre box or under a hold-down, as the crosscut list says",
        )  # fmt: skip


def _least(ticks: int, units: Units) -> str:
    """Show a least figure of the trade so that it is kept: in a metric job the next whole millimetre."""
    return trade_least(ticks_to_mm(ticks), units)


def _guide_findings(cuts: Sequence[SawCut], saw: Saw, units: Units) -> Iterator[Finding]:
    """Finding 502, once for all cuts that are alike."""
    guide = saw.guide_width.ticks_up()
    alike: dict[int, list[SawCut]] = {}
    for cut in cuts:
        under = _under(cut, cut.guide_side, cut.guide_offset_ticks)
        if under < guide:
            alike.setdefault(under, []).append(cut)
    for under, same in alike.items():
        where = f"cut{'s' * (len(same) > 1)} {_runs([cut.number for cut in same])}"
        wood = wood_under_guide(
            show_ticks(under, units) if under > 0 else "",
            show_ticks(-under, units) if under < 0 else "",
            show_ticks(guide, units),
            same[0].guide_side,
        )
        yield guide_finding(where, wood, _guide_advice(same, under, saw), mostly_off=2 * under < guide)


def _runs(numbers: Sequence[int]) -> str:
    """List ascending numbers, three and more in a row as "2 to 6"."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    texts = (f"{run[0]} to {run[-1]}" if len(run) > 2 else ", ".join(map(str, run)) for run in runs)
    return ", ".join(texts)


def _under(cut: SawCut, side: str, offset: int) -> int:
    """Wood of the panel under the guide, measured from the guide's edge, ticks; negative beside the panel."""
    if side == "keep":
        return cut.keep_ticks - offset
    return cut.panel_before_ticks - cut.kerf_end_ticks - offset


def _guide_advice(cuts: Sequence[SawCut], under: int, saw: Saw) -> str:
    offset = cuts[0].guide_offset_ticks
    return guide_advice(
        to_keep_side=saw.guide_side == "waste" and all(_under(cut, "keep", offset) > under for cut in cuts),
        to_narrow_shoe=saw.shoe_side == "wide" and saw.guide_offset_narrow.ticks() < offset,
    )
