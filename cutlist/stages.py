"""Values of the stages of the objective, and what the checker can prove about each without the solver."""

from __future__ import annotations

import dataclasses
import json
from collections.abc import Sequence
from typing import Any

from edgewright.cutlist.bench_cuts import fence_rips
from edgewright.cutlist.checker import Bounds, PlanFault
from edgewright.cutlist.layout import lane_rests
from edgewright.cutlist.model import CutPlan, Piece, PlanRules, RingSide, Stick
from edgewright.errors import CheckError

__all__ = ["STAGES", "WITH_LABOUR", "plain_plan", "refuse_if", "stage_values", "staged", "with_bounds"]

#: In the order of the objective; the last is maximised, the others minimised.
STAGES = (
    "new material cost",
    "splices",
    "sticks touched",
    "fence settings",
    "strips ripped",
    "largest remnant",
)
#: The one stage before the remnant where labour is weighed.
WITH_LABOUR = "cost with labour"


def staged(
    sides: Sequence[RingSide], sticks: Sequence[Stick], pieces: Sequence[Piece], rules: PlanRules
) -> tuple[tuple[str, int], ...]:
    """Name and value of each stage of a plan's own objective."""
    values = stage_values(sides, sticks, pieces, rules)
    if rules.labour_cents is None:
        return tuple(zip(STAGES, values, strict=True))
    cost, splices, touched, _, strips, largest = values
    each_splice, each_stick, each_strip = rules.labour_cents
    total = cost + each_splice * splices + each_stick * touched + each_strip * strips
    return ((WITH_LABOUR, total), (STAGES[-1], largest))


def stage_values(
    sides: Sequence[RingSide], sticks: Sequence[Stick], pieces: Sequence[Piece], rules: PlanRules
) -> tuple[int, ...]:
    """Value of each stage: cents, splices, sticks, fence settings, strips, ticks."""
    used = {piece.lane_id for piece in pieces}
    strips = {lane.strip for stick in sticks for lane in stick.lanes if lane.id in used}
    touched = [stick for stick in sticks if any(lane.id in used for lane in stick.lanes)]
    cost = sum(stick.price_cents for stick in touched if stick.source == "for sale")
    largest = max(lane_rests(sticks, pieces, rules).values(), default=0)
    settings = {rip.fence_ticks for rip in fence_rips(sticks, pieces, rules.kerf_ticks)}
    return cost, len(pieces) - len(sides), len(touched), len(settings), len(strips), largest


def plain_plan(plan: CutPlan) -> dict[str, Any]:
    """The plan as plain data, as it stands in plan.json and as the checker reads it."""
    plain: dict[str, Any] = json.loads(json.dumps(dataclasses.asdict(plan)))
    return plain


def refuse_if(faults: Sequence[PlanFault], what: str) -> None:
    """Stop with the faults that the checker found, if any.

    Raises
    ------
    CheckError
        A defect of this program, so nothing is shown.
    """
    if faults:
        listed = "; ".join(f"{fault.name} ({fault.place}): {fault.message}" for fault in faults[:5])
        raise CheckError(f"the checker refused {what}, so nothing is shown; please report this: {listed}")


def with_bounds(plan: CutPlan, bounds: Bounds) -> CutPlan:
    """The plan with each stage's bound as the independent checker recomputed it; proven where it meets the value."""
    stages = []
    for stage in plan.stages:
        bound, why = bounds.get(stage.name, (None, "not recomputed"))
        stages.append(dataclasses.replace(stage, bound=bound, proven=bound == stage.value, why=why))
    return dataclasses.replace(plan, stages=tuple(stages))
