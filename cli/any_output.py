"""Summary, verdict and plan.json of a plan, whatever the shape of its top."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from edgewright.cutlist.plan import Plan

if TYPE_CHECKING:
    from edgewright.cutlist.shaped_plan import ShapedPlan

__all__ = ["any_dict", "any_summary", "any_verdict"]


def any_summary(plan: Plan | ShapedPlan, width: int, written: str = "") -> str:
    """Write the summary, wrapped to ``width`` columns; ``written`` says which files are."""
    if isinstance(plan, Plan):
        from edgewright.cli.summary import summary

        return summary(plan, width, written)
    from edgewright.cli.shaped_summary import shaped_summary

    return shaped_summary(plan, width, written)


def any_verdict(plan: Plan | ShapedPlan, width: int) -> list[str]:
    """End with ready, or with why not and NOT FOR CUTTING."""
    if isinstance(plan, Plan):
        from edgewright.cli.summary import verdict_lines

        return verdict_lines(plan, width)
    from edgewright.cli.shaped_summary import shaped_verdict_lines

    return shaped_verdict_lines(plan, width)


def any_dict(plan: Plan | ShapedPlan, files: Sequence[str] = ()) -> dict[str, Any]:
    """Give the content of plan.json; ``files`` are the names of the files written beside it."""
    if isinstance(plan, Plan):
        from edgewright.cli.plan_json import plan_dict

        return plan_dict(plan, files)
    from edgewright.cli.shaped_json import shaped_dict

    return shaped_dict(plan, files)
