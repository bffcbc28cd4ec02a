"""What ``edgewright prove`` needs: a cut plan as plain data, and what the independent checker says of it.

Nothing here plans: the plan is read as data, each bound is recomputed by the checker, and its verdict is listed.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from edgewright.cutlist.check_bounds import shortage_holds
from edgewright.cutlist.check_certificate import Certified, certified_sum
from edgewright.cutlist.check_faults import PlanFault, shape_faults
from edgewright.cutlist.checker import check_plan, recompute_bounds

__all__ = ["Proof", "ProvenStage", "prove"]


@dataclass(frozen=True, slots=True)
class ProvenStage:
    """A stage with the bound that was recomputed now; ``certified`` where its certificate gives that bound."""

    name: str
    value: int
    bound: int | None
    why: str
    certified: Certified | None
    certificate: dict[str, Any] | None

    @property
    def proven(self) -> bool:
        """Whether the bound meets the value."""
        return self.bound == self.value


@dataclass(frozen=True, slots=True)
class Proof:
    """Verdict of the checker: faults (none for a sound plan), the stages, and whether a shortage holds."""

    faults: tuple[PlanFault, ...]
    stages: tuple[ProvenStage, ...]
    shortage: bool | None


def prove(plan: dict[str, Any]) -> Proof:
    """Check a cut plan, as it stands under ``cut_plan`` in plan.json, from its own figures alone."""
    malformed = shape_faults(plan)
    if malformed:
        return Proof(tuple(malformed), (), None)
    if plan["status"] == "impossible":
        return Proof(check_plan(plan), (), shortage_holds(plan))
    bounds = recompute_bounds(plan)
    stages = []
    for stage in plan["stages"]:
        bound, why = bounds.get(stage["name"], (None, "not a stage of a plan"))
        certified = certified_sum(plan, stage["name"])
        shown = certified if certified is not None and certified.bound == bound else None
        stages.append(ProvenStage(stage["name"], stage["value"], bound, why, shown, stage["certificate"]))
    return Proof(check_plan(plan, bounds=bounds), tuple(stages), None)
