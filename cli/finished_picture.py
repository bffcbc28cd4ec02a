"""Picture of the finished top with its strips drawn apart, for the packet, the SVG files and the README."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from edgewright.cutlist.plan import Plan
from edgewright.design.picture import picture
from edgewright.drawing.view import View

if TYPE_CHECKING:
    from edgewright.cutlist.shaped_plan import ShapedPlan
    from edgewright.design.solid_figures import SolidSpec

__all__ = ["finished_picture"]

_PICTURE: Final = (180.0, 92.0)


def finished_picture(plan: Plan | ShapedPlan) -> View:
    """Picture of the finished top, the pieces of its build-up drawn apart below it, on paper mm."""
    # more plies than can be told apart on the edge of plywood would be grey
    plies = 3 if plan.job.top.material == "plywood" else 0
    return picture(_spec(plan), plan.job.info.title, plies=plies, paper=_PICTURE)


def _spec(plan: Plan | ShapedPlan) -> SolidSpec:
    if isinstance(plan, Plan):
        from edgewright.cutlist.solid_spec import solid_spec

        return solid_spec(plan.design, plan.cut_plan)
    from edgewright.cutlist.shaped_solid import shaped_solid_spec

    return shaped_solid_spec(plan.design)
