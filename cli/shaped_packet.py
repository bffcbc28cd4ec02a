"""What stands in the packet of a shaped top, in the same form as that of a rectangular one."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final

from edgewright.cli.chapters import PAGES, chapter, figure_room, table
from edgewright.cli.packet_data import PROOF_NOTE, packet_frame
from edgewright.cli.packet_figures import picture_figure
from edgewright.cli.router_chapter import router_chapter
from edgewright.cli.shaped_cut_rows import (
    cut_out_rows,
    offcut_rows,
    offset_tables,
    router_rows,
)
from edgewright.cli.shaped_labels import shaped_labels
from edgewright.cli.shaped_rim import FROM_THE_EAST_END
from edgewright.cli.shaped_ring_rows import bend_rows, blank_rows, piece_rows
from edgewright.cli.shaped_rows import (
    check_rows,
    edge_rows,
    mass_rows,
    run_rows,
    size_rows,
    tip_rows,
)
from edgewright.cli.shaped_stock_rows import (
    board_rows,
    held_rows,
    lane_rows,
    proof_rows,
    rack_rows,
    rip_rows,
    segment_words,
    stick_rows,
)
from edgewright.cli.shaped_wall_rows import (
    cut_setting,
    guide_note,
    radius_rows,
    wall_cut_rows,
    wall_guide_rows,
)
from edgewright.cli.sheet_rows import way_words
from edgewright.cutlist.new_top_cuts import PANEL_HELD
from edgewright.cutlist.shaped_plan import ShapedPlan
from edgewright.cutlist.sheets.kerf_section import LEAST_SECTION, kerf_section
from edgewright.cutlist.sheets.layout_sheet import layout_figures
from edgewright.cutlist.sheets.ring_sheet import ring_figures
from edgewright.cutlist.sheets.tip_sheet import tip_figures
from edgewright.cutlist.sheets.top_sheet import top_figures
from edgewright.drawing.view import View

__all__ = ["shaped_packet_data"]

#: Least height of the drawing of the top above its cuts (mm).
_LEAST_SHEET: Final = 130.0


def shaped_packet_data(plan: ShapedPlan, paper: str) -> dict[str, Any]:
    """All texts, rows and figures of the packet; every value is a string, a number, a list or None."""
    return packet_frame(plan, paper) | {
        "picture": picture_figure(plan),
        "sizes": [list(row) for row in size_rows(plan)],
        "chapters": [
            *_measured_chapter(plan),
            *(_stock_chapters(plan, paper) if plan.job.top.new else ()),
            *_cut_chapters(plan, paper),
            *_ring_chapters(plan, paper),
            *(() if plan.job.top.new else _stock_chapters(plan, paper)),
            *router_chapter(plan, paper, *_corners(plan)),
            *_figure_chapter(plan),
        ],
        "labels": shaped_labels(plan),
    }


def _measured_chapter(plan: ShapedPlan) -> list[dict[str, Any]]:
    rows = [list(row) for row in check_rows(plan)]
    return chapter(
        "summary", [], [table("What the measurements say", "", ["measured", ""], rows)], new_page=False
    )


def _cut_chapters(plan: ShapedPlan, paper: str) -> list[dict[str, Any]]:
    """Cut sheet: the drawing above the table of cuts; then the test cut, and what is routed to size."""
    if not plan.ready:
        return []
    sawn = bool(plan.design.trims.cuts)
    cuts = table(
        "Saw cuts in order",
        guide_note(plan),
        ["cut", "keep line", "guide", "from where, and what comes off"],
        wall_cut_rows(plan),
        ticks=True,
        widths=(0, 0, 0, 1),
        large=(0, 1, 2),
    )
    radii = table(
        "Trammel",
        "Radius of the finished edge; on the arm, from the pivot to the near side and to the middle of the cutter.",
        ["radius", "near side", "middle"],
        radius_rows(plan),
        ticks=True,
        widths=(1, 1, 1),
        large=(0, 1, 2),
    )
    offcuts = table(
        "Offcuts to expect", "", ["offcut", "size", "largest true rectangle"], offcut_rows(plan), ticks=True
    )
    routed = table(
        "Routed to size",
        "In several passes, the cutter in the waste. Pivots are placed on the "
        f"{'blank' if plan.job.top.new else 'old top'} or the box around it.",
        ["edge", "how", "setting"],
        router_rows(plan),
        ticks=True,
    )
    first = [cuts, offcuts] if sawn else [radii, routed, offcuts]
    rest = [
        *([radii, routed] if sawn else []),
        table(
            "Cut-outs",
            "Centres are measured square from the edges of the finished top.",
            ["cut-out", "size", "centre", "and"],
            cut_out_rows(plan),
            ticks=True,
            widths=(0, 1, 1, 1),
        ),
        *(
            table(title, note, header, rows, ticks=True, widths=(1,) * len(header))
            for title, note, header, rows in offset_tables(plan)
        ),
    ]
    sheet = top_figures(plan.design, figure_room(paper, first, _LEAST_SHEET))
    test = [kerf_section(cut_setting(plan), plan.code, (PAGES[paper][0], LEAST_SECTION[1]))] if sawn else []
    return [
        *chapter("cut sheet", sheet, first),
        *chapter("cut list", test, rest, title="" if sawn else "Curves and cut-outs"),
    ]


def _ring_chapters(plan: ShapedPlan, paper: str) -> list[dict[str, Any]]:
    """Ring map, a page for each layer; then the pieces and the blanks that must be had."""
    if not plan.ready:
        return []
    *before, last = [[view] for view in ring_figures(plan.design, PAGES[paper])] or [[]]
    lists = [
        _piece_table(plan),
        table(
            "Blanks to be bought or found",
            "Lengths are those of the longer edge with both end cuts. Cut the last piece of a ring to fit.",
            ["count", "what", "length", "width", "thick", "pieces"],
            blank_rows(plan),
            ticks=True,
        ),
        table(
            "Kerfs of the bent skirt",
            "On the hidden face, square across; the first and the last half a spacing from the ends of the curve.",
            ["curve", "kerfs", "mind"],
            bend_rows(plan),
            ticks=True,
            widths=(0, 1, 1),
        ),
    ]
    pages = [page for view in before for page in chapter("ring map", view, ())]
    return [*pages, *chapter("ring map", last, lists, title="" if last else "Build-up")]


def _piece_table(plan: ShapedPlan) -> dict[str, Any]:
    note = (
        "Ends in degrees from square; minus: the outer edge is the shorter one. Mark where each piece begins and ends "
        "with a tape along the rim"
    )
    rows = piece_rows(plan)
    if all(cell.endswith(("east end", FROM_THE_EAST_END)) for row in rows for cell in row[-2:]):
        # what every row would say is said once, and each keeps to its line
        rows = [[cell.removesuffix(f" {FROM_THE_EAST_END}") for cell in row] for row in rows]
        note += f", {FROM_THE_EAST_END}."
    else:
        note += ", from the sharp corners, as they are before they are rounded."
    told = [
        [name, long, f"{what}, ends: {ends}. From {start} to {end}."]
        for name, what, long, ends, start, end in rows
    ]
    return table(
        "Pieces, their ends and joints",
        note,
        ["piece", "length", "ends, and where it begins and ends"],
        told,
        ticks=True,
        widths=(0, 0, 1),
        large=(0, 1),
    )


def _stock_chapters(plan: ShapedPlan, paper: str) -> list[dict[str, Any]]:
    """What the blanks are cut from: the drawn sticks, then rips and stops; nothing where all must be bought."""
    if not plan.ready:
        return []
    said, new = " ".join((*way_words(plan), *segment_words(plan), PROOF_NOTE)), plan.job.top.new
    *before, last = [[view] for view in layout_figures(plan, PAGES[paper])] or [[]]
    lists = [
        table("Sticks", "", ["stick", "clean size", ""], stick_rows(plan), widths=(0, 0, 1)),
        table("Boards to buy", "", ["board", "size", "price"], board_rows(plan), ticks=True),
        table(
            "Top sawn free along the guide",
            f"Lay the sheet {PANEL_HELD}. Measure a rip from the edge that the lanes begin at, a crosscut from the "
            "start of the lane.",
            ["keep line", "guide", "cut"],
            wall_guide_rows(plan),
            ticks=True,
            widths=(0, 0, 1),
            large=(0, 1),
        ),
        table(
            "Strips to rip, fence by fence",
            "Mark a rectangle in an offcut and saw along its long side; strips lie side by side from there.",
            ["fence", "strips", "held"],
            rip_rows(plan),
            ticks=True,
            widths=(0, 1, 1),
            large=(0,),
        ),
        table(
            "Lanes and their blanks" if new else "Strips and their blanks",
            "Blanks from the start of the strip, one kerf between neighbours.",
            ["strip", "width", "length", "blanks"],
            lane_rows(plan),
            ticks=True,
            widths=(1, 0, 0, 2),
        ),
        table(
            "Crosscuts, stop by stop",
            "",
            ["stop", "pieces", "held"],
            held_rows(plan),
            ticks=True,
            widths=(0, 1, 1),
            large=(0,),
        ),
        table("Back to the rack", "", ["what", "length", "width"], rack_rows(plan), ticks=True),
    ]
    proof = table("Why this plan is the best", said, ["stage", "figure", ""], proof_rows(plan))
    pages = [page for view in before for page in chapter("layout", view, ())]
    return [*pages, *chapter("layout", last, [*lists, proof])]


def _corners(plan: ShapedPlan) -> tuple[Sequence[View], list[dict[str, Any]]]:
    """Inside corners that the bearing does not reach: drawn, and as a table."""
    if not plan.ready:
        return (), []
    tips = table(
        "Inside corners that the bearing does not reach",
        "",
        ["corner", "arris", "wood left standing"],
        tip_rows(plan),
        ticks=True,
        widths=(1, 0, 1),
    )
    return tip_figures(plan.design), [tips]


def _figure_chapter(plan: ShapedPlan) -> list[dict[str, Any]]:
    """Edges by name, exact figures of the edge and the weight."""
    rows = [list(row) for row in (*edge_rows(plan), *mass_rows(plan))]
    named = (
        [table("Edges of the finished top", "", ["edge", "length", ""], run_rows(plan))] if plan.ready else []
    )
    figures = table("Edge figures", "", ["", ""], rows)
    figures["whole"] = True
    return chapter("figures", (), [*named, figures], new_page=plan.ready)
