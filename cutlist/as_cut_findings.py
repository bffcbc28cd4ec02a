"""Findings 521 to 524: where what was measured after some cuts differs from the plan that was being cut.

A difference of 1/64 in is enough to ask: a tape shows it, and it comes back with every cut. Less is passed over.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Final

from edgewright.compass import OPPOSITE, is_lengthwise
from edgewright.cutlist.as_cut import AXES, TELLING, PieceOff, pieces_off
from edgewright.cutlist.demand import top_defects
from edgewright.cutlist.model import SawCut
from edgewright.design.model import Design, TrimSizes
from edgewright.display import show_ticks
from edgewright.findings import Finding
from edgewright.job import AsCut, Job
from edgewright.ticks import TICKS_PER_MM, nearest_ticks, part_ticks
from edgewright.trade import inch
from edgewright.units import Length, Units

__all__ = ["as_cut_findings"]

#: So much smaller a top may come out before the customer must be asked: a tape is allowed as much over 6 ft, and resin
#: hides as much of it. Common practice, no source.
_HIDDEN: Final = part_ticks(inch("1/16"))


def as_cut_findings(
    job: Job, made: Sequence[SawCut], sizes: TrimSizes, design: Design
) -> tuple[Finding, ...]:
    """Every difference of 1/64 in and more.

    Parameters
    ----------
    job
        The job with its [as_cut].
    made
        The cuts made, as planned; none where they are not known.
    sizes
        The sizes of the plan that was being cut.
    design
        The design of what is there now.
    """
    as_cut = job.as_cut
    assert as_cut is not None
    return (
        *_saw(job, as_cut),
        *_panel(job, as_cut, made, sizes),
        *_offcuts(as_cut, made, job.units),
        *_closing(job, as_cut, made, sizes, design),
        *_too_small(sizes, design, job.units),
        *_defects(design),
    )


def _differs(
    place: str, planned: Fraction, measured: Fraction, units: Units, change: str
) -> Iterator[Finding]:
    """Finding 521 where two figures, exact mm, differ by what a tape shows."""
    if abs(measured - planned) * TICKS_PER_MM >= TELLING:
        shown = (show_ticks(nearest_ticks(mm), units) for mm in (planned, measured))
        figures = "planned {}, measured {}".format(*shown)
        yield Finding(521, "warn", "measured otherwise than planned", place, figures, change)


def _saw(job: Job, as_cut: AsCut) -> Iterator[Finding]:
    pairs: tuple[tuple[str, Length, Length | None], ...] = (
        ("kerf", job.saw.kerf, as_cut.kerf),
        ("guide offset", job.saw.guide_offset, as_cut.guide_offset),
    )
    for place, planned, measured in pairs:
        if measured is None:
            continue
        change = f"measure the {place} again on a test cut; if it is right, go on: this plan uses it"
        yield from _differs(place, planned.exact_mm, measured.exact_mm, job.units, change)


def _panel(job: Job, as_cut: AsCut, made: Sequence[SawCut], sizes: TrimSizes) -> Iterator[Finding]:
    for high in AXES:
        key, panel = as_cut.measured(high)
        if panel is None:
            continue
        cuts = [cut for cut in made if cut.side in (high, OPPOSITE[high])]
        planned = cuts[-1].keep_ticks if cuts else sizes.old[1 if is_lengthwise(high) else 0]
        change = f"measure the {key} of the panel again; if it is right, go on: this plan is made for it"
        if cuts and as_cut.guide_offset is None:
            offset = _offset(
                cuts[-1], nearest_ticks(panel.exact_mm), (as_cut.kerf or job.saw.kerf).ticks_up()
            )
            change += (
                f"; with the guide where the plan has it, its offset was {show_ticks(offset, job.units)}: make a "
                "test cut and set guide_offset under [as_cut]"
            )
        yield from _differs(
            f"panel {key}", Fraction(planned, TICKS_PER_MM), panel.exact_mm, job.units, change
        )


def _offset(cut: SawCut, panel: int, kerf: int) -> int:
    """Guide offset that left this panel, if the guide was clamped where the plan has it."""
    return panel - cut.guide_ticks if cut.guide_side == "keep" else cut.guide_ticks - kerf - panel


def _offcuts(as_cut: AsCut, made: Sequence[SawCut], units: Units) -> Iterator[Finding]:
    for off in pieces_off(as_cut, made):
        if isinstance(off, PieceOff):
            change = "measure it again; if it is right, go on: this plan takes it as it is"
            planned = Fraction(off.cut.offcut_width_ticks, TICKS_PER_MM)
            place = f"offcut of cut {off.cut.number}"
            yield from _differs(place, planned, off.piece.width.exact_mm, units, change)


def _closing(
    job: Job, as_cut: AsCut, made: Sequence[SawCut], sizes: TrimSizes, design: Design
) -> Iterator[Finding]:
    """Finding 522 where panel, pieces and kerfs do not make up the old top, on an axis of which all is measured."""
    units = job.units
    kerf = design.job.saw.kerf.ticks_up()
    widths = {
        off.cut.number: nearest_ticks(off.piece.width.exact_mm)
        for off in pieces_off(as_cut, made)
        if isinstance(off, PieceOff)
    }
    for high in AXES:
        key, panel = as_cut.measured(high)
        cuts = [cut for cut in made if cut.side in (high, OPPOSITE[high])]
        if panel is None or not cuts or not all(cut.number in widths for cut in cuts):
            continue
        off = sum(widths[cut.number] for cut in cuts)
        now = nearest_ticks(panel.exact_mm)
        old = sizes.old[1 if is_lengthwise(high) else 0]
        left = old - now - off
        if abs(left - len(cuts) * kerf) < TELLING:
            continue
        kerfs = f"{len(cuts)} kerf{'s' * (len(cuts) > 1)}"
        yield Finding(
            522, "warn", "panel, pieces and kerfs do not add up", f"panel {key}",
            f"old {show_ticks(old, units)} less panel {show_ticks(now, units)} and "
            f"pieces {show_ticks(off, units)} leaves {show_ticks(left, units)} for {kerfs} of "
            f"{show_ticks(kerf, units)}",
            "measure panel, pieces and the kerf of a test cut again; a kerf other than planned is set under [as_cut]",
        )  # fmt: skip


def _defects(design: Design) -> Iterator[Finding]:
    """Finding 524 where a defect of the top lies in what came off: its measured length must leave it out."""
    begun, boxes = design.begun, top_defects(design.job)
    for piece in begun.loose if begun is not None else ():
        axis = 1 if is_lengthwise(piece.side) else 0
        low = piece.edge_depth
        if piece.side in ("north", "east"):
            low = design.sizes.old[axis] - piece.edge_depth - piece.width
        here = [
            box
            for box in boxes
            for at, to in [box.across_ticks if axis else box.along_ticks]
            if at < low + piece.width and to > low
        ]
        if here:
            metal = any(box.metal for box in here)
            yield Finding(
                524, "stop" if metal else "warn", "defect in a loose strip", f"offcut of cut {piece.cut}",
                f"{', '.join(box.name for box in here)}; length used {show_ticks(piece.length, design.job.units)}",
                "cut the defect off and give the length that is sound, or usable = false under [[as_cut.piece]]; "
                "this plan takes all of the length given",
            )  # fmt: skip


def _too_small(sizes: TrimSizes, design: Design, units: Units) -> Iterator[Finding]:
    """Finding 523 where the panel is smaller than the top was to become: what is gone stays gone."""
    for axis, name in ((0, "length"), (1, "width")):
        planned, now = sizes.finished[axis], design.sizes.finished[axis]
        missing = planned - now
        if missing < TELLING:
            continue
        hidden = missing <= _HIDDEN
        change = (
            "nothing, if the customer agrees: a tape and the resin hide as much"
            if hidden
            else "agree the smaller top with the customer and override this with these figures, or start with a new top"
        )
        yield Finding(
            523, "warn" if hidden else "stop", "panel smaller than the finished top", f"finished {name}",
            f"agreed {show_ticks(planned, units)}, now {show_ticks(now, units)}, {show_ticks(missing, units)} less",
            f"measure again; the finished {name} is now that of the panel; {change}",
        )  # fmt: skip
