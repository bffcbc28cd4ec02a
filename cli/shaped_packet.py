"""What stands in the packet of a shaped top, in the same form as that of a rectangular one."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final

from edgewright.cli.packet_data import PROOF_NOTE, packet_frame
from edgewright.cli.packet_figures import placed_figures
from edgewright.cli.plan_views import SheetViews, sheet_views
from edgewright.cli.printable import printable
from edgewright.cli.shaped_cut_rows import (
    cut_out_rows,
    cut_rows,
    guide_words,
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
    pass_rows,
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
from edgewright.cli.sheet_rows import guide_rows, way_words
from edgewright.cutlist.new_top_cuts import PANEL_HELD
from edgewright.cutlist.shaped_plan import ShapedPlan
from edgewright.drawing.view import View

__all__ = ["shaped_packet_data"]

#: A table of more rows than this may be broken over pages.
_WHOLE: Final = 10


def shaped_packet_data(plan: ShapedPlan, paper: str, views: SheetViews | None = None) -> dict[str, Any]:
    """All texts, rows and figures of the packet; every value is a string, a number, a list or None.

    ``views`` are the sheets of the plan where they are drawn already.
    """
    drawn = views or sheet_views(plan)
    return packet_frame(plan, paper) | {
        "picture": next(iter(placed_figures(drawn.picture)), None),
        "sizes": [list(row) for row in size_rows(plan)],
        "chapters": [
            *_measured_chapter(plan),
            *(_stock_chapter(plan, drawn) if plan.job.top.new else ()),
            *_trim_chapter(plan, drawn),
            *_ring_chapter(plan, drawn),
            *(() if plan.job.top.new else _stock_chapter(plan, drawn)),
            *_router_chapter(plan, drawn),
        ],
        "labels": shaped_labels(plan),
    }


def _table(
    title: str,
    note: str,
    header: list[str],
    body: list[list[str]],
    *,
    ticks: bool = False,
    widths: tuple[int, ...] = (),
) -> dict[str, Any]:
    """A table; ``widths`` gives each column its share of the free width, 0 as wide as its text."""
    shares = widths or (*(0 for _ in header[1:]), 1)
    return {
        "title": title,
        "note": note,
        "header": header,
        "rows": [[printable(cell) for cell in row] for row in body],
        "ticks": ticks,
        "widths": list(shares),
        "whole": len(body) <= _WHOLE,
    }


def _chapter(
    title: str, figures: Sequence[View], tables: list[dict[str, Any]], *, new_page: bool = True
) -> list[dict[str, Any]]:
    kept = [table for table in tables if table["rows"]]
    if not figures and not kept:
        return []
    return [
        {
            "title": title,
            "figures": placed_figures(figures),
            "tables": kept,
            "new-page": new_page,
        }
    ]


def _measured_chapter(plan: ShapedPlan) -> list[dict[str, Any]]:
    rows = [list(row) for row in check_rows(plan)]
    return _chapter("", [], [_table("What the measurements say", "", ["measured", ""], rows)], new_page=False)


def _trim_chapter(plan: ShapedPlan, views: SheetViews) -> list[dict[str, Any]]:
    if not plan.ready:
        return []
    cuts = ["cut", "keep line", "its ends on the rim", "comes off"]
    places = ["cut-out", "size", "centre", "and"]
    return _chapter(
        "Top cut to its outline" if plan.job.top.new else "Trim",
        views.saw,
        [
            _table(
                "Saw cuts in order", guide_words(plan), cuts, cut_rows(plan), ticks=True, widths=(0, 1, 1, 1)
            ),
            _table(
                "Routed to size",
                "In several passes, the cutter in the waste. Pivots are placed on the "
                f"{'blank' if plan.job.top.new else 'old top'} or the box around it.",
                ["edge", "how", "setting"],
                router_rows(plan),
                ticks=True,
            ),
            *(
                _table(title, note, header, rows, widths=(0,) * len(header))
                for title, note, header, rows in offset_tables(plan)
            ),
            _table(
                "Cut-outs",
                "Centres are measured square from the edges of the finished top.",
                places,
                cut_out_rows(plan),
                ticks=True,
                widths=(0, 1, 1, 1),
            ),
            _table("Offcuts", "", ["offcut", "size", "largest true rectangle"], offcut_rows(plan)),
            *([_edge_table(plan)] if not plan.design.trims.cuts else []),
        ],
    )


def _edge_table(plan: ShapedPlan) -> dict[str, Any]:
    """On the first sheet where there is nothing to saw, else on the router card."""
    return _table("Edges of the finished top", "", ["edge", "length", ""], run_rows(plan))


def _ring_chapter(plan: ShapedPlan, views: SheetViews) -> list[dict[str, Any]]:
    if not plan.ready:
        return []
    return _chapter(
        "Build-up",
        views.ring,
        [
            _table(
                "Blanks to be bought or found",
                "Lengths are those of the longer edge with both end cuts. Cut the last piece of a ring to fit.",
                ["count", "what", "length", "width", "thick", "pieces"],
                blank_rows(plan),
                ticks=True,
            ),
            _piece_table(plan),
            _table(
                "Kerfs of the bent skirt",
                "On the hidden face, square across; the first and the last half a spacing from the ends of the curve.",
                ["curve", "kerfs", "mind"],
                bend_rows(plan),
                ticks=True,
                widths=(0, 1, 1),
            ),
        ],
    )


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
    header = ["piece", "what", "length", "ends: start, end", "begins", "ends"]
    return _table("Pieces, their ends and joints", note, header, rows, widths=(0, 0, 0, 0, 1, 1))


def _stock_chapter(plan: ShapedPlan, views: SheetViews) -> list[dict[str, Any]]:
    """What the blanks are cut from; nothing where all of them must be bought."""
    if not plan.ready:
        return []
    # it follows the ring where that leaves room: its drawing has a heading of its own
    said, new = " ".join((*way_words(plan), *segment_words(plan), PROOF_NOTE)), plan.job.top.new
    return _chapter(
        "Sheets: top and build-up" if new else "Build-up: cut list",
        views.stock,
        [
            _table("Sticks", "", ["stick", "clean size", ""], stick_rows(plan)),
            _table("Boards to buy", "", ["board", "size", "price"], board_rows(plan)),
            _table(
                "Top sawn free along the guide",
                f"Lay the sheet {PANEL_HELD}. Measure a rip from the edge that the lanes begin at, a crosscut from the "
                "start of the lane.",
                ["cut", "keep line", "kerf", "guide at", "gives"],
                guide_rows(plan),
                ticks=True,
                widths=(1, 0, 0, 1, 1),
            ),
            _table(
                "Strips to rip, fence by fence",
                "Mark a rectangle in an offcut and saw along its long side; strips lie side by side from there.",
                ["fence", "strips", "held"],
                rip_rows(plan),
                ticks=True,
                widths=(0, 1, 1),
            ),
            _table(
                "Lanes and their blanks" if new else "Strips and their blanks",
                "Blanks from the start of the strip, one kerf between neighbours.",
                ["strip", "width", "length", "blanks"],
                lane_rows(plan),
                widths=(1, 0, 0, 2),
            ),
            _table(
                "Crosscuts, stop by stop",
                "",
                ["stop", "pieces", "held"],
                held_rows(plan),
                ticks=True,
                widths=(0, 1, 1),
            ),
            _table("Back to the rack", "", ["what", "length", "width"], rack_rows(plan)),
            _table("Why this plan is the best", said, ["stage", "figure", ""], proof_rows(plan)),
        ],
        new_page=False,
    )


def _router_chapter(plan: ShapedPlan, views: SheetViews) -> list[dict[str, Any]]:
    """The router card: section, plan, passes; of a plan that is not ready only the section and the figures."""
    figures = (*views.section, *views.router)
    edges = [list(row) for row in (*edge_rows(plan), *mass_rows(plan))]
    tables = [
        _table(
            "Router passes",
            "Feed against the turning of the bit. Depths from the face that the router stands on.",
            ["arris", "form", "passes", "depths"],
            pass_rows(plan),
            ticks=True,
        ),
        *([_edge_table(plan)] if plan.design.trims.cuts else []),
        _table(
            "Inside corners that the bearing does not reach",
            "",
            ["corner", "arris", "wood left standing"],
            tip_rows(plan),
        ),
    ]
    if not plan.ready:
        tables = []
    last = _table("Edge figures", "", ["", ""], edges)
    last["whole"] = True
    # with nothing to cut by before it the chapter follows the measurements on their page
    return _chapter("Edge", figures, [*tables, last], new_page=plan.ready)
