"""All drawn sheets of a plan, each to be an SVG file of its own; the packet fits them to its pages and tables."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from edgewright.cli.chapters import PAGES
from edgewright.cli.finished_picture import finished_picture
from edgewright.cli.router_chapter import edge_view
from edgewright.cutlist.plan import Plan
from edgewright.cutlist.sheets.router_card import router_figures
from edgewright.drawing.view import View

if TYPE_CHECKING:
    from edgewright.cutlist.shaped_plan import ShapedPlan

__all__ = ["SheetViews", "sheet_views"]

Views = tuple[View, ...]


@dataclass(frozen=True, slots=True)
class SheetViews:
    """Drawn sheets by what they are for; a plan that is not ready has a picture and a section at most.

    Attributes
    ----------
    picture
        The finished top, its build-up drawn apart below it.
    saw
        The panel with its cuts, and one cut enlarged.
    ring
        The underside with the pieces of each layer.
    stock
        What the pieces are cut from: strips, or sticks with their lanes.
    section
        The edge at full size.
    router
        Edges to be routed, and inside corners that the bearing does not reach.
    """

    picture: Views = ()
    saw: Views = ()
    ring: Views = ()
    stock: Views = ()
    section: Views = ()
    router: Views = ()

    def __iter__(self) -> Iterator[View]:
        for group in (self.picture, self.saw, self.ring, self.stock, self.section, self.router):
            yield from group


def sheet_views(plan: Plan | ShapedPlan) -> SheetViews:
    """Draw the sheets of a plan; paper millimetres, each at the scale that a page of A4 gives it.

    Raises
    ------
    GeometryError
        If a sheet does not fit its box.
    """
    always = SheetViews(picture=_picture(plan), section=edge_view(plan, PAGES["a4"]))
    if not plan.ready:
        return always
    return _of_rectangle(plan, always) if isinstance(plan, Plan) else _of_outline(plan, always)


def _of_rectangle(plan: Plan, always: SheetViews) -> SheetViews:
    from edgewright.cutlist.sheets.kerf_detail import kerf_figure
    from edgewright.cutlist.sheets.stick_sheet import stick_figures
    from edgewright.cutlist.sheets.strip_map_sheet import strip_map_figures
    from edgewright.cutlist.sheets.trim_sheet import trim_figures

    page = PAGES["a4"]
    return replace(
        always,
        saw=(*trim_figures(plan, page), *kerf_figure(plan)),
        ring=strip_map_figures(plan, page),
        stock=stick_figures(plan, page),
        router=router_figures(plan.design),
    )


def _of_outline(plan: ShapedPlan, always: SheetViews) -> SheetViews:
    from edgewright.cli.shaped_wall_rows import cut_setting
    from edgewright.cutlist.sheets.kerf_section import kerf_section
    from edgewright.cutlist.sheets.layout_sheet import layout_figures
    from edgewright.cutlist.sheets.ring_sheet import ring_figures
    from edgewright.cutlist.sheets.tip_sheet import tip_figures
    from edgewright.cutlist.sheets.top_sheet import top_figures

    page = PAGES["a4"]
    test = (kerf_section(cut_setting(plan), plan.code),) if plan.design.trims.cuts else ()
    return replace(
        always,
        saw=(*top_figures(plan.design, page), *test),
        ring=ring_figures(plan.design, page),
        stock=layout_figures(plan, page),
        router=(*router_figures(plan.design), *tip_figures(plan.design)),
    )


def _picture(plan: Plan | ShapedPlan) -> Views:
    return () if plan.design.profile is None else (finished_picture(plan),)
