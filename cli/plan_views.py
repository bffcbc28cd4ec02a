"""All drawn sheets of a plan, each drawn once: the packet places them, and each is an SVG file of its own."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from edgewright.cutlist.plan import Plan
from edgewright.design.edge_section import edge_section
from edgewright.design.picture import picture
from edgewright.drawing.view import View

if TYPE_CHECKING:
    from edgewright.cutlist.shaped_plan import ShapedPlan
    from edgewright.design.solid_figures import SolidSpec

__all__ = ["BOX", "SheetViews", "finished_picture", "sheet_views"]

Views = tuple[View, ...]

#: What a figure may fill on a page of either paper, mm.
BOX: Final = (180.0, 205.0)
_PANEL: Final = (180.0, 130.0)
_HALF: Final = (180.0, 100.0)
_SECTION: Final = (180.0, 165.0)
_PICTURE: Final = (150.0, 75.0)
_SHAPED_PANEL: Final = (180.0, 140.0)
_SHAPED_SECTION: Final = (180.0, 150.0)
_CARD: Final = (180.0, 125.0)
_TIPS: Final = (180.0, 200.0)


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
        Edges to be routed, and inside corners that the bearing does not reach; of a top with an outline.
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
    """Draw the sheets of a plan; paper millimetres, at scales that suit a page of A4 or letter paper.

    Raises
    ------
    GeometryError
        If a sheet does not fit its box.
    """
    return _of_rectangle(plan) if isinstance(plan, Plan) else _of_outline(plan)


def _of_rectangle(plan: Plan) -> SheetViews:
    from edgewright.cutlist.sheets.kerf_detail import kerf_figure
    from edgewright.cutlist.sheets.stick_sheet import stick_figures
    from edgewright.cutlist.sheets.strip_map_sheet import strip_map_figures
    from edgewright.cutlist.sheets.trim_sheet import trim_figures

    width = plan.cut_plan.strip_width_ticks
    return SheetViews(
        picture=_picture(plan),
        saw=(*trim_figures(plan, _PANEL), *kerf_figure(plan, _HALF)),
        ring=strip_map_figures(plan, _PANEL),
        stock=stick_figures(plan, BOX),
        section=edge_section(plan.design, width, _SECTION, code=plan.code),
    )


def _of_outline(plan: ShapedPlan) -> SheetViews:
    from edgewright.cutlist.sheets.layout_sheet import layout_figures
    from edgewright.cutlist.sheets.ring_sheet import ring_figures
    from edgewright.cutlist.sheets.router_card import router_figures
    from edgewright.cutlist.sheets.shaped_section import shaped_section
    from edgewright.cutlist.sheets.tip_sheet import tip_figures
    from edgewright.cutlist.sheets.top_sheet import top_figures

    always = SheetViews(
        picture=_picture(plan), section=shaped_section(plan.design, _SHAPED_SECTION, plan.code)
    )
    if not plan.ready:
        return always
    return SheetViews(
        picture=always.picture,
        saw=top_figures(plan.design, _SHAPED_PANEL),
        ring=ring_figures(plan.design, _SHAPED_PANEL),
        stock=layout_figures(plan, _SHAPED_PANEL),
        section=always.section,
        router=(*router_figures(plan.design, _CARD), *tip_figures(plan.design, _TIPS)),
    )


def _picture(plan: Plan | ShapedPlan) -> Views:
    return () if plan.design.profile is None else (finished_picture(plan),)


def finished_picture(plan: Plan | ShapedPlan) -> View:
    """Picture of the finished top, the pieces of its build-up drawn apart below it, on paper mm."""
    # how many plies are hinted at on the edge of plywood decides nothing
    plies = 7 if plan.job.top.material == "plywood" else 0
    return picture(_spec(plan), plan.job.info.title, plies=plies, paper=_PICTURE)


def _spec(plan: Plan | ShapedPlan) -> SolidSpec:
    if isinstance(plan, Plan):
        from edgewright.cutlist.solid_spec import solid_spec

        return solid_spec(plan.design, plan.cut_plan)
    from edgewright.cutlist.shaped_solid import shaped_solid_spec

    return shaped_solid_spec(plan.design)
