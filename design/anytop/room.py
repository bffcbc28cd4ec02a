"""The base under a top of any outline, and chairs and knees at it: findings 302 and 401 to 408.

The figures are those of `edgewright.design.anytop.base_fit`, told by the sides of the box round the top.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Final

from edgewright import trade
from edgewright.design.anytop.base_fit import box_size, box_trims, shaped_base_fit
from edgewright.design.anytop.model import ShapedDesign
from edgewright.design.anytop.ring import strip_cap, strip_floor_mm
from edgewright.design.check_base import apron_findings, off_centre_findings, overhang_findings
from edgewright.design.check_buildup import strip_width_findings
from edgewright.design.check_figures import at_most, shown, trade_least
from edgewright.design.check_seating import (
    accessible_findings,
    arm_findings,
    middle_zone_findings,
    places_findings,
    thigh_findings,
)
from edgewright.design.model import BaseFit, WidthLimits
from edgewright.design.outline import Outline
from edgewright.design.seat_places import chair_of, seat_places
from edgewright.design.shapes.model import Shape
from edgewright.findings import Finding
from edgewright.ticks import TICKS_PER_MM, part_ticks

__all__ = ["room_findings", "unrouted"]

#: An outline that fills this much of its box has four sides to sit at (choice of this program).
_FOUR_SIDED: Final = 0.9


def room_findings(design: ShapedDesign, before_skirt: Shape) -> Iterator[Finding]:
    """Report findings 302 and 401 to 408, by the same rules as for a rectangle.

    Parameters
    ----------
    design
        Complete but for its findings.
    before_skirt
        The finished outline without a skirt on its edge.
    """
    job, units, edge = design.job, design.job.units, design.edge_thickness_mm
    seating, apron = job.seating, job.base.apron_depth
    apron_below = None if apron is None else design.thickness_mm + apron.mm
    fit = shaped_base_fit(job, design.before, before_skirt)
    yield from _strips(design, fit)
    yield from off_centre_findings(fit.offset, units, known=bool(job.base.model_fields_set))
    yield from overhang_findings(fit.overhang, box_trims(design.before, before_skirt), units)
    yield from apron_findings(design.thickness_mm, edge, None if apron is None else apron.mm, units)
    if seating.model_fields_set:
        old, new = box_size(design.before.outline), box_size(design.finished.outline)
        yield from middle_zone_findings(old, new, units)
        if _four_sided(design.before.outline) and _four_sided(design.finished.outline):
            yield from places_findings(old, new, seating.seats, units)
        else:
            yield _places_round(design)
    if seating.table_height is None:
        return
    # whoever sits there meets the skirt first
    height, overhang = seating.table_height.mm, shaped_base_fit(job, design.before, design.finished).overhang
    if seating.arm_height is not None:
        yield from arm_findings(height, seating.arm_height.mm, edge, units, apron_below, overhang)
    if seating.seat_height is not None:
        yield from thigh_findings(height, seating.seat_height.mm, edge, apron_below, units)
    if seating.accessible:
        yield from accessible_findings(height, edge, apron_below, overhang, units)


def _strips(design: ShapedDesign, fit: BaseFit) -> Iterator[Finding]:
    """302: strips, or a skirt under the edge, that meet the base."""
    job = design.job
    cap = strip_cap(job, fit.overhang)
    if cap is None:
        return
    if job.edge.build_up == "flat":
        limits = WidthLimits(part_ticks(Fraction(strip_floor_mm(job))), "", *cap)
        found = strip_width_findings(limits, round(design.strip_width_mm * TICKS_PER_MM), units=job.units)
        # strips below the floor are found without a base as well
        yield from (one for one in found if one.number == 302)
    elif job.edge.build_up == "skirt_under" and job.strip_thickness.ticks() > cap[0]:
        yield Finding(
            302,
            "stop",
            "skirt meets the base",
            "edge",
            f"skirt {shown(design.strip_thickness_mm, job.units)} thick, at most {at_most(cap[0], job.units)}",
            f"{cap[1]}: use thinner boards, trim less on that side, or move the base",
        )


def _places_round(design: ShapedDesign) -> Finding:
    """407 of a top without four sides: places round its edge, close and comfortable (common practice, no source)."""
    units, seats = design.job.units, design.job.seating.seats
    chair = chair_of(design.job.seating)
    texts, said = [], []
    for pitch in (float(trade.SEAT_WIDTH.value), float(trade.SEAT_WIDTH_COMFORT.value)):
        before, after = (
            len(seat_places(one.outline, pitch, chair, unrouted(design, one)))
            for one in (design.before, design.finished)
        )
        each = f"at {trade_least(pitch, units)} each"
        texts.append(f"{each}: {after} round the edge (before: {before})")
        if seats is not None:
            said.append(f"{'round the edge' if seats <= after else 'too many'} {each}")
    if said:
        texts.append(f"{seats} wanted: {', '.join(said)}")
    return Finding(
        407,
        "note",
        "places at the table",
        "seating",
        "; ".join(texts),
        "count legs and walls as well: a place in front of one is none, and none is counted at an edge that is not "
        "routed",
    )


def unrouted(design: ShapedDesign, shape: Shape) -> frozenset[int]:
    """Numbers of the segments of the old or finished top whose edges are not routed; nobody sits there."""
    names = {run.name for run in design.runs if not run.routed}
    return frozenset(number for number, name in enumerate(shape.names) if name in names)


def _four_sided(outline: Outline) -> bool:
    length, width = box_size(outline)
    return abs(outline.area) >= _FOUR_SIDED * length * width
