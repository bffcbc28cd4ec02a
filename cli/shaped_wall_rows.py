"""Rows of the sheets that hang beside the saw for a top of any outline: main figures first, then the words to them."""

from __future__ import annotations

from edgewright.cli.shaped_cut_rows import cut_rows
from edgewright.cli.sheet_rows import guide_rows
from edgewright.cutlist.shaped_plan import ShapedPlan
from edgewright.cutlist.sheets.kerf_section import CutSetting
from edgewright.cutlist.sheets.top_sheet import TRAMMEL_MM, pivots
from edgewright.design.anytop.cut_records import CutRecord, cut_records
from edgewright.design.trims.cut_datum import Datum
from edgewright.display import SHOWN_TICKS, show_mm, show_ticks
from edgewright.ticks import TICKS_PER_MM, snap_nearest
from edgewright.units import Units

__all__ = ["cut_setting", "guide_figure", "guide_note", "radius_rows", "wall_cut_rows", "wall_guide_rows"]


def cut_setting(plan: ShapedPlan) -> CutSetting:
    """Kerf, offset and sides of the job's saw, as they are shown."""
    saw, units = plan.job.saw, plan.job.units
    return CutSetting(
        saw.kerf.mm,
        plan.design.thickness_mm,
        show_mm(saw.kerf.mm, units),
        show_mm(saw.guide_offset.mm, units),
        saw.guide_side,
        saw.shoe_side,
    )


def guide_note(plan: ShapedPlan) -> str:
    """What the figures of the table are, and on which side of the cut the guide lies."""
    saw, units = plan.job.saw, plan.job.units
    kerf, away = show_mm(saw.kerf.mm, units), show_mm(saw.guide_offset.mm, units)
    edge = "keep line" if saw.guide_side == "keep" else "far edge of the kerf"
    return (
        "Keep line and guide are positions square from the edge named beside them, as the top is before the cut; marks "
        f"at the ends of a line run along the rim, and both must agree. Kerf {kerf}, all of it in the waste. GUIDE ON "
        f"THE {saw.guide_side.upper()} SIDE, {away} from the {edge}, {saw.shoe_side} side of the shoe along it."
    )


def wall_cut_rows(plan: ShapedPlan) -> list[list[str]]:
    """Saw cuts in order: number, keep line, guide, and where both are measured from, with what comes off.

    A line that no edge is parallel to is placed by its ends: then its figures are those of the ends along the rim, and
    the guide's is its distance from the line.
    """
    units = plan.job.units
    records = cut_records(plan.design.old, plan.design.trims)
    found = []
    for record, (name, line, ends, off) in zip(records, cut_rows(plan), strict=True):
        datum = record.datum(plan.job.trim.way)
        if datum is not None:
            # the distance is the main figure
            line = line.removeprefix(f"{show_mm(datum.distance, units)} ")
        far = "; guide: square from the keep line" if datum is None else ""
        words = f"{name}: {line}{far}.{f' Ends: {ends}.' if ends else ''} Comes off: {off}."
        found.append([str(record.number), _keep(record, datum, units), guide_figure(plan, datum), words])
    return found


def _keep(record: CutRecord, datum: Datum | None, units: Units) -> str:
    if datum is not None:
        return show_mm(datum.distance, units)
    if all(mark.sharp for mark in record.marks):
        return "\n".join(show_mm(mark.distance, units) for mark in record.marks)
    return "by ends"


def guide_figure(plan: ShapedPlan, datum: Datum | None) -> str:
    """Position of the guide from the edge that the keep line is measured from, in figures that add up with it.

    Beyond that edge, off the wood, it is said so.
    """
    units, saw = plan.job.units, plan.job.saw
    step = SHOWN_TICKS[units]
    offset, kerf = (snap_nearest(size.ticks(), step) for size in (saw.guide_offset, saw.kerf))
    away = offset if saw.guide_side == "keep" else kerf + offset
    if datum is None:
        return show_ticks(offset, units)
    # away from the edge where the side of the guide lies beyond the keep line as seen from there
    further = (saw.guide_side == "keep") != datum.stays
    at = snap_nearest(round(datum.distance * TICKS_PER_MM), step) + (away if further else -away)
    return show_ticks(at, units) if at >= 0 else f"{show_ticks(-at, units)} outside"


def radius_rows(plan: ShapedPlan) -> list[list[str]]:
    """Radii that a trammel is set to, each with the settings of its arm: main figure, then from pivot to the cutter."""
    units = plan.job.units
    return [
        [
            f"R {show_mm(arc.to_finished, units)}",
            show_mm(arc.to_near_side, units),
            show_mm(arc.to_cutter_centre, units),
        ]
        for arc in pivots(plan.design)
        if arc.to_finished <= TRAMMEL_MM[units]
    ]


def wall_guide_rows(plan: ShapedPlan) -> list[list[str]]:
    """Cuts that free a new top: keep line and guide as main figures, then the words to them."""
    found = []
    for what, keep, kerf, guide, gives in guide_rows(plan):
        at, _, edge = keep.partition(" from ")
        place, _, side = guide.partition(", ")
        found.append(
            [at, place, f"{what}. Measured from {edge}; kerf {kerf}; guide on the {side}. Gives {gives}."]
        )
    return found
