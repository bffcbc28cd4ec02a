"""Drawn figures of the packet as SVG texts with their size on paper."""

from __future__ import annotations

from typing import Any, Final

from edgewright.cli.printable import shown
from edgewright.cutlist.plan import Plan
from edgewright.cutlist.sheets.kerf_detail import kerf_figure
from edgewright.cutlist.sheets.stick_sheet import stick_figures
from edgewright.cutlist.sheets.strip_map_sheet import strip_map_figures
from edgewright.cutlist.sheets.trim_sheet import trim_figures
from edgewright.cutlist.solid_spec import solid_spec
from edgewright.design.edge_section import edge_section
from edgewright.design.picture import picture
from edgewright.drawing.lettering import FONT
from edgewright.drawing.svg import drawn_box, svg_text
from edgewright.drawing.view import View

__all__ = ["BOX", "edge_figures", "finished_picture", "picture_figure", "placed_figure", "sheet_figures"]

#: What a figure may fill on a page of either paper, mm.
BOX: Final = (180.0, 205.0)
#: Height that a page has for figures, and what lies between two of them, mm.
_PAGES: Final = {"a4": 251.0, "us-letter": 233.0}
_GAP: Final = 3.0
_PANEL: Final = (180.0, 130.0)
_HALF: Final = (180.0, 100.0)
_SECTION: Final = (180.0, 165.0)
_PICTURE: Final = (150.0, 75.0)


def sheet_figures(plan: Plan, paper: str) -> list[list[dict[str, Any]]]:
    """Figures for the saw and for the bench, each group from a new page; none while the plan is not ready."""
    if not plan.ready:
        return []
    saw = [*trim_figures(plan, _PANEL), *kerf_figure(plan, _HALF)]
    strips = [*strip_map_figures(plan, _PANEL), *stick_figures(plan, BOX)]
    high = _PAGES[paper]
    groups = [[placed_figure(view) for view in group] for group in (saw, strips) if group]
    if len(groups) == 2 and _last_page(groups[0], high) + _GAP + groups[1][0]["height"] <= high:
        # what the saw leaves of its last page is enough
        return [groups[0] + groups[1]]
    return groups


def _last_page(figures: list[dict[str, Any]], page: float) -> float:
    """Height that figures take up of the last page they need, mm."""
    used = 0.0
    for figure in figures:
        high = figure["height"]
        used = used + _GAP + high if used and used + _GAP + high <= page else high
    return used


def edge_figures(plan: Plan) -> list[dict[str, Any]]:
    """The section of the edge at full size; none where the profile does not exist."""
    width = plan.cut_plan.strip_width_ticks
    return [placed_figure(view) for view in edge_section(plan.design, width, _SECTION, code=plan.code)]


def picture_figure(plan: Plan) -> dict[str, Any] | None:
    """Picture of the finished top with its strips drawn apart; None where the profile does not exist."""
    return None if plan.design.profile is None else placed_figure(finished_picture(plan))


def finished_picture(plan: Plan) -> View:
    """Picture of the finished top, its strips drawn apart below it, on paper mm."""
    spec = solid_spec(plan.design, plan.cut_plan)
    return picture(spec, plan.job.info.title, plies=_plies(plan), paper=_PICTURE)


def _plies(plan: Plan) -> int:
    """Plies to hint at on the edge of plywood; its number decides nothing."""
    return 7 if plan.job.top.material == "plywood" else 0


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
