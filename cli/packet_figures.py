"""Drawn figures of the packet as SVG texts with their size on paper."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, Final

from edgewright.cli.plan_views import SheetViews
from edgewright.drawing.lettering import FONT
from edgewright.drawing.svg import drawn_box, svg_text
from edgewright.drawing.view import View

__all__ = ["placed_figure", "placed_figures", "sheet_figures"]

#: Height that a page has for figures, and what lies between two of them, mm.
_PAGES: Final = {"a4": 251.0, "us-letter": 233.0}
_GAP: Final = 3.0


def sheet_figures(views: SheetViews, paper: str) -> list[list[dict[str, Any]]]:
    """Figures for the saw and for the bench, each group from a new page."""
    high = _PAGES[paper]
    strips = (*views.ring, *views.stock)
    groups = [placed_figures(group) for group in (views.saw, strips) if group]
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


def placed_figures(views: Iterable[View]) -> list[dict[str, Any]]:
    """Drawn figures as the template places them."""
    return [placed_figure(view) for view in views]


def placed_figure(view: View) -> dict[str, Any]:
    """A drawn figure as the template places it: SVG, size on paper (mm), and words for who cannot see it."""
    box = drawn_box(view)
    svg = svg_text(view, title=view.title, description=view.title, box=box)
    # The typesetter files the condensed face under its family.
    svg = svg.replace(FONT, FONT.removesuffix(" Condensed"))
    return {
        "svg": svg,
        "width": round(box[2] - box[0], 4),
        "height": round(box[3] - box[1], 4),
        "alt": view.title,
    }
