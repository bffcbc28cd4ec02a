"""Drawn figures of the packet as SVG texts with their size on paper."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from edgewright.cli.finished_picture import finished_picture
from edgewright.cli.printable import shown
from edgewright.cutlist.plan import Plan
from edgewright.cutlist.sheets.kerf_detail import kerf_figure
from edgewright.cutlist.sheets.stick_sheet import stick_figures
from edgewright.cutlist.sheets.strip_map_sheet import strip_map_figures
from edgewright.cutlist.sheets.trim_sheet import trim_figures
from edgewright.drawing.lettering import FONT
from edgewright.drawing.svg import drawn_box, svg_text
from edgewright.drawing.view import View

if TYPE_CHECKING:
    from edgewright.cutlist.shaped_plan import ShapedPlan

__all__ = ["picture_figure", "placed_figure", "sheet_figures"]

#: Width of a figure on either paper, mm.
_WIDE: Final = 180.0
#: Height that a page has for a figure, mm.
_PAGES: Final = {"a4": 251.0, "us-letter": 233.0}


def sheet_figures(plan: Plan, paper: str) -> list[dict[str, Any]]:
    """Sheets for the saw and for the bench, each from a new page; none while the plan is not ready.

    Returns
    -------
    list of dict
        What kind of document a sheet is, and its figures. The cut list follows the figures of that name, the lists of
        the bench those of the last sheet.
    """
    if not plan.ready:
        return []
    page = (_WIDE, _PAGES[paper])
    groups = (
        *(("cut sheet", [view]) for view in trim_figures(plan, page)),
        ("cut list", kerf_figure(plan)),
        *(("strip map", [view]) for view in strip_map_figures(plan, page)),
        ("crosscuts", stick_figures(plan, page)),
    )
    return [
        {"kind": kind, "figures": [placed_figure(view) for view in views]} for kind, views in groups if views
    ]


def picture_figure(plan: Plan | ShapedPlan) -> dict[str, Any] | None:
    """Picture of the finished top with its strips drawn apart; None where the profile does not exist."""
    return None if plan.design.profile is None else placed_figure(finished_picture(plan))


def placed_figure(view: View) -> dict[str, Any]:
    """A drawn figure as the template places it: SVG, size on paper (mm), and words for who cannot see it."""
    box = drawn_box(view)
    svg = svg_text(view, title=view.title, description=view.title, box=box)
    # The typesetter files the condensed face under its family.
    svg = shown(svg.replace(FONT, FONT.removesuffix(" Condensed")))
    return {
        "svg": svg,
        "width": round(box[2] - box[0], 4),
        "height": round(box[3] - box[1], 4),
        "alt": view.title,
    }
