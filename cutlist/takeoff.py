"""The bill of quantities: every loss is a line, every line a product of stated factors."""

from __future__ import annotations

from typing import Final

from edgewright.cutlist.model import CutPlan
from edgewright.cutlist.takeoff_figures import TopFigures, rectangle_figures
from edgewright.cutlist.takeoff_ground import BASE, FILLER, base_lines, filler_lines, hardener_line
from edgewright.cutlist.takeoff_lines import Takeoff, TakeoffLine, TakeoffTotal, total_of
from edgewright.cutlist.takeoff_resin import resin_lines
from edgewright.cutlist.takeoff_ring import glue_strips_line, pin_lines, weight_lines
from edgewright.cutlist.takeoff_text import quantity_text, with_containers
from edgewright.design.model import Design

__all__ = ["RESIN", "Takeoff", "TakeoffLine", "TakeoffTotal", "bill", "quantity_text", "take_off"]

RESIN: Final = "resin in all"
NOTES: Final = (
    "Lines add up by expected, low and high. "
    "Likely is a 90 % band of the whole group and does not add up by line; in it, lines that share an "
    "uncertain factor move together.",
    "Containers hold the high figure, rounded up once over the whole job.",
    "Resin is the mixed volume, both parts together.",
    "The weight is without base and hardware; lift by the high figure.",
)


def take_off(design: Design, cut_plan: CutPlan) -> Takeoff:
    """Take off every quantity of a planned rectangular top.

    Parameters
    ----------
    design
        With its metrics; where no profile exists the bill is empty and its note says so.
    cut_plan
        Without pieces (an impossible plan) glue, pins and the weight of the strips are left out; a note says
        so.

    Returns
    -------
    Takeoff
        Groups in the order of work: filler, filler hardener, base coat, seal coat, resin coats, resin in all,
        glue, pins, weight.
    """
    if design.metrics is None:
        return Takeoff((), (), ("No such edge profile exists, so that no quantity can be reckoned.",))
    pins = tuple(pin_lines(design, cut_plan)) if cut_plan.pieces else ()
    return bill(rectangle_figures(design, design.metrics, cut_plan, pins))


def bill(top: TopFigures) -> Takeoff:
    """Bill of quantities of a finished top of any shape, its groups as `take_off` says."""
    notes = list(NOTES)
    filler = filler_lines(top)
    resin = resin_lines(top.job, top.coated, top.cut_outs_mm2 - top.routed_cut_outs_mm2)
    coating = [*filler, hardener_line(filler), *base_lines(top.job, top.coated), *resin]
    ring: list[TakeoffLine] = []
    if top.ring is None:
        notes.append("No strips are planned: glue, pins and the weight of the strips are left out.")
    else:
        ring = [glue_strips_line(top.ring), *top.ring.pins]
        if not top.ring.pins:
            notes.append(
                "No pin on hand is long enough to hold and short enough to stay inside: glue and clamp only."
            )
    lines = (*coating, *ring, *weight_lines(top, coating))
    takeoff = Takeoff(lines, _totals(lines, resin), tuple(notes))
    return with_containers(takeoff, (FILLER, BASE, RESIN, "glue"), top.job.units)


def _totals(lines: tuple[TakeoffLine, ...], resin: list[TakeoffLine]) -> tuple[TakeoffTotal, ...]:
    """One total for each group, and one for all resin after its last coat."""
    totals = []
    for group in dict.fromkeys(line.group for line in lines):
        totals.append(total_of(group, (line for line in lines if line.group == group)))
        if group == resin[-1].group:
            totals.append(total_of(RESIN, resin))
    return tuple(totals)
