"""From a design to its cut plan: strip width, layout, saw cuts, map, remnants, stages; then checked independently."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from edgewright.cutlist.checker import check_plan, recompute_bounds, shortage_holds
from edgewright.cutlist.demand import (
    as_cut_panel,
    pitch_ticks,
    plan_rules,
    ring_sides,
    sticks_for,
    top_defects,
    width_on_grid,
)
from edgewright.cutlist.grain import grain_under
from edgewright.cutlist.layout import gathered, inwards, remnants
from edgewright.cutlist.loose import still_attached
from edgewright.cutlist.model import CutPlan, Shortage, Stage, WidthTrial
from edgewright.cutlist.saw import saw_cuts
from edgewright.cutlist.shortage import shortage_of, with_proof
from edgewright.cutlist.solve import StripLayout
from edgewright.cutlist.stages import plain_plan, refuse_if, staged, with_bounds
from edgewright.cutlist.strip_map import strip_map
from edgewright.cutlist.widest import try_width, widest_strip, width_candidates
from edgewright.design.model import Design

__all__ = ["chosen_width", "make_cut_plan"]

#: Widths that are tried where boards must be bought.
_MOST_BOUGHT = 12


def make_cut_plan(design: Design, progress: Callable[[str], None] | None = None) -> CutPlan:
    """Cut plan of a design.

    Raises
    ------
    CheckError
        If the independent checker refuses the plan: a defect of this program.
    """
    width, trials = chosen_width(design, progress)
    trial, layout = try_width(design, width, for_sale=True)
    if layout is None and grain_under(design, None):
        # no plan keeps the grain; the one without regard to it has finding 103, which says what to trim
        design = replace(design, keep_grain=False)
        width, trials = chosen_width(design, progress)
        trial, layout = try_width(design, width, for_sale=True)
    if progress is not None:
        progress("checking the plan")
    plan = _assemble(design, width, trials or (trial,), layout)
    bounds = recompute_bounds(plain_plan(plan))
    plan = with_bounds(plan, bounds)
    if plan.shortage is not None:
        plan = replace(plan, shortage=with_proof(plan.shortage, proven=shortage_holds(plain_plan(plan))))
    refuse_if(check_plan(plain_plan(plan), bounds=bounds), "the plan")
    return plan


def chosen_width(
    design: Design, progress: Callable[[str], None] | None
) -> tuple[int, tuple[WidthTrial, ...]]:
    """The width asked for; for ``widest`` the widest from own wood, or what boards give when that is too narrow."""
    asked, grid, kerf = design.job.edge.strip_width, design.sizes.grid, design.job.saw.kerf.ticks_up()
    if asked != "widest":
        return width_on_grid(asked.ticks(), kerf, grid), ()
    width, trials = widest_strip(design, progress)
    if width is None or width < design.limits.floor:
        return _widest_to_buy(design, width_on_grid(design.limits.floor, kerf, grid)), trials
    return width, trials


def _widest_to_buy(design: Design, floor: int) -> int:
    """The widest strip that costs no more than the narrowest allowed; the narrowest where nothing can be bought."""
    least = _cost(design, floor)
    if least:
        wider = [width for width in width_candidates(design, for_sale=True) if width > floor]
        for width in wider[:_MOST_BOUGHT]:
            cost = _cost(design, width)
            if cost is not None and cost <= least:
                return width
    return floor


def _cost(design: Design, width: int) -> int | None:
    """Cents to spend on boards for strips of one width; None without a plan."""
    _, layout = try_width(design, width, for_sale=True)
    if layout is None:
        return None
    used = {piece.lane_id for piece in layout.pieces}
    sticks = sticks_for(design, width)
    return sum(s.price_cents for s in sticks if any(lane.id in used for lane in s.lanes))


def _assemble(
    design: Design, width: int, trials: tuple[WidthTrial, ...], layout: StripLayout | None
) -> CutPlan:
    job, sizes = design.job, design.sizes
    rules = plan_rules(design, width)
    pitch = pitch_ticks(width, rules.kerf_ticks, sizes.grid)
    sides, sticks = ring_sides(design, width), sticks_for(design, width)
    proud = job.edge.proud.ticks_up()
    pieces = inwards(gathered(layout.pieces, sticks), sticks) if layout else ()
    used = frozenset(piece.lane_id for piece in pieces)
    as_cut, amounts = (
        as_cut_panel(design, width),
        sizes.amounts if design.begun is None else design.begun.still,
    )
    attached = still_attached(sticks, as_cut)
    cuts = saw_cuts(sizes.old, amounts, attached, used, pitch, rules, as_cut) if layout else ()
    stages: tuple[Stage, ...] = ()
    shortage: Shortage | None = None
    if layout:
        stages = tuple(
            Stage(name, value, None, False, "", layout.certificates.get(name))
            for name, value in staged(sides, sticks, pieces, rules)
        )
    else:
        shortage = shortage_of(design, width)
    return CutPlan(
        status="ready" if layout else "impossible",
        rules=rules,
        corners=job.edge.corners,
        strip_map_view="underside",
        old_ticks=sizes.old,
        finished_ticks=sizes.finished,
        finished_origin_ticks=sizes.origin,
        proud_ticks=proud,
        strip_width_ticks=width,
        pitch_ticks=pitch,
        sides=sides,
        sticks=sticks,
        pieces=pieces,
        strip_map=strip_map(sizes.finished, proud, width, sides, pieces),
        cuts=cuts,
        remnants=remnants(sticks, pieces, cuts, rules, as_cut) if layout else (),
        stages=stages,
        trials=trials,
        shortage=shortage,
        as_cut=as_cut,
        defects=top_defects(job),
    )
