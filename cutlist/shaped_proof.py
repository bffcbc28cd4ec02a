"""What ``edgewright prove`` needs of a build-up: the verdict of the independent checker and the sums behind each bound.

Nothing here plans: the build-up is read as it stands in plan.json.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from edgewright.cutlist.check_build_up import build_up_faults, malformed_build_up
from edgewright.cutlist.check_faults import PlanFault
from edgewright.cutlist.check_guillotine import (
    recompute_guillotine_bounds,
    shortage_is_proven,
)
from edgewright.cutlist.check_guillotine_sums import SumsOfPoints, sums_of_points
from edgewright.cutlist.model import Stage

__all__ = ["BuildUpProof", "prove_build_up"]


@dataclass(frozen=True, slots=True)
class BuildUpProof:
    """The verdict.

    Attributes
    ----------
    faults
        None for a sound build-up.
    stages
        Of the blanks that are cut, each with the bound that was recomputed now.
    sums
        What the bounds on cost and sticks follow from; None where nothing is cut.
    shortage
        Whether it was shown now that the stock does not hold all blanks; None where it does, or nothing is there.
    shortage_sums
        What that follows from.
    """

    faults: tuple[PlanFault, ...]
    stages: tuple[Stage, ...] = ()
    sums: SumsOfPoints | None = None
    shortage: bool | None = None
    shortage_sums: SumsOfPoints | None = None


def prove_build_up(build_up: dict[str, Any]) -> BuildUpProof:
    """Check a build-up, as it stands under ``build_up`` in plan.json, from its own figures alone."""
    malformed = malformed_build_up(build_up)
    if malformed:
        return BuildUpProof(malformed)
    laid, short = build_up["laid_out"], build_up["shortage"]
    bounds = None
    stages: tuple[Stage, ...] = ()
    sums = None
    if laid is not None:
        bounds = recompute_guillotine_bounds(laid)
        sums = sums_of_points(laid)
        stages = tuple(_stage(stage, *bounds[stage["name"]]) for stage in laid["plan"]["stages"])
    if short is None:
        return BuildUpProof(build_up_faults(build_up, bounds), stages, sums)
    asked = short["laid_out"]
    return BuildUpProof(
        build_up_faults(build_up, bounds), stages, sums, shortage_is_proven(asked), sums_of_points(asked)
    )


def _stage(stage: dict[str, Any], bound: int | None, why: str) -> Stage:
    return Stage(stage["name"], stage["value"], bound, bound == stage["value"], why)
