"""All drawings to cut by of a plan, with what their file names tell and how many pieces of the cut list they hold."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from edgewright.cutlist.cut_view import cut_view
from edgewright.cutlist.layout_views import layout_views
from edgewright.cutlist.plan import Plan
from edgewright.cutlist.shaped_cut_view import oval_lines, shaped_cut_view
from edgewright.cutlist.shaped_plan import ShapedPlan
from edgewright.cutlist.stick_views import stick_views
from edgewright.cutlist.template_view import template_view
from edgewright.cutlist.underside_views import shaped_underside_views, underside_views
from edgewright.drawing.plain_ascii import plain_ascii
from edgewright.drawing.view import View

__all__ = ["DrawingFile", "drawing_files", "listed_pieces", "top_view"]

CUT: Final = "cut from sticks"
GLUED: Final = "glued on"


@dataclass(frozen=True, slots=True)
class DrawingFile:
    """A drawing.

    Attributes
    ----------
    part
        What it shows, for its name: ``top``, ``stick 1 offcut from the north side``.
    thickness_mm
        Of the wood; None for a template, which may be of any sheet.
    lists
        What its pieces are counted against, see `listed_pieces`; empty for a drawing without pieces.
    """

    view: View
    part: str
    thickness_mm: float | None
    lists: str = ""


def top_view(plan: Plan | ShapedPlan) -> View:
    """Drawing of the top of a plan that is ready: outlines, keep lines, kerfs and strips."""
    if isinstance(plan, Plan):
        return cut_view(plan.design, plan.cut_plan, plan.code)
    return shaped_cut_view(plan.design, plan.code)


def drawing_files(plan: Plan | ShapedPlan) -> tuple[DrawingFile, ...]:
    """Drawings of a plan that is ready: top, sticks, underside of each layer, template.

    Raises
    ------
    ValueError
        For a plan that is not ready: nobody must cut by it.
    """
    if not plan.ready:
        raise ValueError("a plan that is NOT FOR CUTTING has no drawings")
    design, title = plan.design, plan.job.info.title
    if isinstance(plan, Plan):
        sticks, maps = stick_views(plan), underside_views(plan)
        template = template_view(plan.design.finished_outline, (), title, plan.code)
    else:
        sticks, maps = layout_views(plan), shaped_underside_views(plan)
        region = plan.design.region
        template = template_view(region.outer, region.holes, title, plan.code, oval_lines(plan.design))
    strip = design.strip_thickness_mm
    return (
        DrawingFile(top_view(plan), "top", design.thickness_mm),
        *(
            DrawingFile(view, f"stick {number} {view.name}", strip, CUT)
            for number, view in enumerate(sticks, start=1)
        ),
        *(
            DrawingFile(view, "underside" if len(maps) == 1 else f"underside layer {number}", strip, GLUED)
            for number, view in enumerate(maps, start=1)
        ),
        DrawingFile(template, "template", None),
    )


def listed_pieces(plan: Plan | ShapedPlan) -> dict[str, list[str]]:
    """Names of the pieces in the cut list, as they are written on drawings: ``cut from sticks``, and ``glued on``."""
    if isinstance(plan, Plan):
        cut = glued = [piece.id for piece in plan.cut_plan.pieces]
    else:
        cut = [one.piece_id for one in plan.build_up.cut]
        glued = [piece.id for piece in plan.design.pieces]
    return {CUT: list(map(plain_ascii, cut)), GLUED: list(map(plain_ascii, glued))}
