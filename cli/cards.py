"""The cards for the bench: fill and sand, and pour."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from edgewright.cli.fill_card import fill_card
from edgewright.cli.pour_card import pour_card
from edgewright.cutlist.plan import Plan

if TYPE_CHECKING:
    from edgewright.cutlist.shaped_plan import ShapedPlan

__all__ = ["NO_CARDS", "cards"]

NO_CARDS: Final = (
    "No fill card and no pour card: no such edge profile exists, so that no quantity can be reckoned."
)


def cards(plan: Plan | ShapedPlan) -> dict[str, Any] | None:
    """Both cards as plain strings; None where the edge profile does not exist."""
    takeoff, metrics = plan.takeoff, plan.design.metrics
    if takeoff is None or metrics is None or not takeoff.lines:
        return None
    return {"fill": fill_card(plan, takeoff, metrics), "pour": pour_card(plan.job, takeoff, metrics)}
