"""The independent checker: every plan passes it before anybody sees it.

It reads the plan as plain data and recomputes everything it can: ring, pieces, lanes, saw cuts, map, and the
value and bound of each stage. It shares no code with the planner; a test reads the imports of these files and
holds it.
"""

from __future__ import annotations

from collections.abc import Iterator

from edgewright.cutlist.check_bounds import shortage_holds
from edgewright.cutlist.check_cuts import cut_faults
from edgewright.cutlist.check_defects import defect_faults
from edgewright.cutlist.check_faults import Plain, PlanFault, shape_faults
from edgewright.cutlist.check_grain import grain_faults, recompute_bounds
from edgewright.cutlist.check_lanes import remnant_faults, stock_faults
from edgewright.cutlist.check_loose import loose_faults
from edgewright.cutlist.check_pieces import piece_faults
from edgewright.cutlist.check_ring import map_faults, ring_faults
from edgewright.cutlist.check_stages import stage_faults

__all__ = ["Bounds", "PlanFault", "check_plan", "recompute_bounds", "shortage_holds"]

#: Bound and reason of each stage, by its name.
Bounds = dict[str, tuple[int | None, str]]


def check_plan(plan: Plain, work_limit: int = 200_000, bounds: Bounds | None = None) -> tuple[PlanFault, ...]:
    """Every fault found in a plan; empty when it is sound.

    Parameters
    ----------
    plan
        The cut plan as plain data: ``json.loads(json.dumps(dataclasses.asdict(cut_plan)))``.
    work_limit
        Steps allowed for each bound that is recomputed.
    bounds
        What `recompute_bounds` gave for this very plan, so that it is not done twice; None to do it here.

    Returns
    -------
    tuple of PlanFault
        Malformed data gives faults named "malformed plan" and no others; no input raises.
    """
    return shape_faults(plan) or tuple(_faults(plan, work_limit, bounds))


def _faults(plan: Plain, work_limit: int, bounds: Bounds | None) -> Iterator[PlanFault]:
    yield from ring_faults(plan)
    yield from stock_faults(plan)
    yield from loose_faults(plan)
    yield from defect_faults(plan)
    if plan["status"] == "impossible":
        if plan["pieces"]:
            yield PlanFault("pieces in an impossible plan", "plan", f"{len(plan['pieces'])} pieces")
        if plan["cuts"]:
            yield from cut_faults(plan)
        yield from _shortage_faults(plan, work_limit)
        return
    yield from piece_faults(plan)
    yield from grain_faults(plan)
    yield from cut_faults(plan)
    yield from map_faults(plan)
    yield from remnant_faults(plan)
    yield from stage_faults(plan, recompute_bounds(plan, work_limit) if bounds is None else bounds)


def _shortage_faults(plan: Plain, work_limit: int) -> Iterator[PlanFault]:
    shortage = plan["shortage"]
    if shortage is None:
        yield PlanFault("shortage not shown", "plan", "an impossible plan says why")
        return
    if shortage["proven"] and not shortage_holds(plan, work_limit):
        yield PlanFault(
            "shortage not shown", "shortage", "the sides could be covered, or the search did not end"
        )
    total = sum(side["length_ticks"] for side in plan["sides"])
    same_strip = shortage["strip_width_ticks"] == plan["strip_width_ticks"]
    if shortage["by_length"] and same_strip:
        figures = (shortage["sides"], shortage["sides_sum_ticks"], shortage["need_ticks"])
        right = (len(plan["sides"]), total, total + shortage["joints_ticks"])
        if figures != right or shortage["need_ticks"] <= shortage["have_ticks"]:
            yield PlanFault(
                "wrong shortage figures",
                "shortage",
                f"sides, their sum, need {figures} given, {right} recomputed; have {shortage['have_ticks']}",
            )
