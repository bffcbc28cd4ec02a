"""Router card of a top of any kind: section at full size, passes, feed, order of the work, and what to mind."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Any, Final

from edgewright.cli.chapters import PAGES, chapter, figure_room, table
from edgewright.cutlist.plan import Plan
from edgewright.cutlist.sheets.router_card import router_figures
from edgewright.cutlist.sheets.shaped_section import shaped_section
from edgewright.design.edge_section import FULL_SIZE, edge_section
from edgewright.design.form_words import form_text
from edgewright.design.forms import Form
from edgewright.design.passes import router_passes
from edgewright.display import show_mm
from edgewright.drawing.view import View

if TYPE_CHECKING:
    from edgewright.cutlist.shaped_plan import ShapedPlan

__all__ = ["edge_view", "order_rows", "pass_steps", "router_chapter"]

#: Findings about the profile, the bearing, corners and pins: what one must know with the router in hand.
_MIND: Final = frozenset({201, 202, 203, 204, 206, 207, 303, 304, 319})
_KIND: Final = "router card"
#: Room that the section and the feed have at least, and what inside corners take (mm).
_LEAST_SECTION: Final = 95.0
_LEAST_FEED: Final = 110.0
_TIPS: Final = 85.0


def router_chapter(
    plan: Plan | ShapedPlan, paper: str, tips: Sequence[View] = (), more: Iterable[dict[str, Any]] = ()
) -> list[dict[str, Any]]:
    """The card: section, passes and order on one page, the feed and what to mind on the next.

    Of a plan that is not ready there is only the section, and nothing where no profile exists.

    Parameters
    ----------
    tips
        Figures that follow the feed.
    more
        Tables that follow those of every top.
    """
    width, high = PAGES[paper]
    if not plan.ready:
        # with nothing to cut by before it the section follows the summary
        return chapter(_KIND, edge_view(plan, (width, 165.0)), (), new_page=False)
    work = [_pass_table(plan), table("Order", "", ["", ""], order_rows(plan), ticks=True)]
    mind = [table("Mind", "", ["", "", ""], _mind_rows(plan), widths=(0, 1, 1)), *more]
    section = edge_view(plan, (width, figure_room(paper, work, _LEAST_SECTION)[1]))
    if any(view.title != FULL_SIZE for view in section):
        # full size goes before one page for all
        section = edge_view(plan, (width, high))
    feed_high = figure_room(paper, mind, _LEAST_FEED)[1]
    feed = router_figures(plan.design, (width, min(feed_high, high if not tips else high - _TIPS)))
    return [
        *chapter(_KIND, section, work, title="" if section else "Router card"),
        *chapter(_KIND, [*feed, *tips], mind),
    ]


def edge_view(plan: Plan | ShapedPlan, box: tuple[float, float]) -> tuple[View, ...]:
    """Section of the edge at full size; none where the profile does not exist."""
    if isinstance(plan, Plan):
        return edge_section(plan.design, plan.cut_plan.strip_width_ticks, box, code=plan.code)
    return shaped_section(plan.design, box, plan.code)


def _pass_table(plan: Plan | ShapedPlan) -> dict[str, Any]:
    return table(
        "Router passes",
        "Depths from the face that the router stands on.",
        ["face", "form", "pass", "depth"],
        pass_steps(plan),
        ticks=True,
        large=(0, 1, 2, 3),
        widths=(0, 1, 0, 0),
    )


def pass_steps(plan: Plan | ShapedPlan) -> list[list[str]]:
    """Router passes of both forms, one row each: face, form, which pass, how deep."""
    profile, units = plan.design.profile, plan.job.units
    if profile is None:
        return []
    return [
        [where, _bit(form, plan), f"{one.number} of {len(passes)}", show_mm(one.depth, units)]
        for where, form in (("top", profile.top), ("bottom", profile.bottom))
        for passes in (router_passes(form, grid=plan.job.bench_grid.mm),)
        for one in passes
    ]


def _bit(form: Form, plan: Plan | ShapedPlan) -> str:
    units = plan.job.units
    return f"R {show_mm(form.reach, units)}" if form.is_round_over else form_text(form, units)


def order_rows(plan: Plan | ShapedPlan) -> list[list[str]]:
    """The work in order, each step with its reason: flush, fill, top form, bottom form, inside corners."""
    edge, profile, units = plan.job.edge, plan.design.profile, plan.job.units
    if profile is None:
        return []
    build_up = "flat" if isinstance(plan, Plan) else plan.design.job.edge.build_up
    found = []
    if build_up == "skirt_on_edge":
        found.append(["flush", "Plane the upper edge of the skirt flush with the face."])
    elif build_up != "none":
        stands = f" ({show_mm(edge.proud.mm, units)} proud)" if edge.proud.mm else ""
        found.append(
            [
                "flush",
                f"Trim the build-up{stands} flush with the finished edge; the bearing runs on the top's edge.",
            ]
        )
    if build_up != "none":
        found.append(
            [
                "fill",
                "Fill glue seams, joints and pin holes in the edge and sand them flat: the bearing runs on them.",
            ]
        )
    for where, form, how in (("top", profile.top, "face up"), ("bottom", profile.bottom, "face down")):
        if form.parts:
            found.append(
                [f"{where} form", f"Top {how}: {form_text(form, units)}, all passes. {_band(plan, where)}"]
            )
    if not isinstance(plan, Plan):
        if any(hole.routed for hole in plan.design.cut_outs):
            found.append(["cut-outs", "Top bit only, clockwise; their lower arris stays sharp."])
        if plan.design.tips:
            found.append(["inside corners", "Cut by hand the wood that the bearing leaves."])
    return found


def _band(plan: Plan | ShapedPlan, where: str) -> str:
    profile, units = plan.design.profile, plan.job.units
    assert profile is not None
    depth = (profile.top if where == "top" else profile.bottom).depth
    low, high = show_mm(depth, units, unit=False), show_mm(depth + plan.job.router.bearing_height.mm, units)
    return f"The bearing runs from {low} to {high} from the face that the router stands on."


def _mind_rows(plan: Plan | ShapedPlan) -> list[list[str]]:
    return [
        [str(one.number), f"{one.title}, {one.place.replace('_', '-')}: {one.figures}", one.change]
        for one in plan.findings
        if one.number in _MIND
    ]
