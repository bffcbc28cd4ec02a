"""What stands in the packet of a shaped top, in the same form as that of a rectangular one."""

from __future__ import annotations

from typing import Any, Final

from edgewright.cautions import CAUTIONS, working_times
from edgewright.cli.packet_data import finding_groups, printed_words, quantity_rows
from edgewright.cli.packet_figures import placed_figure
from edgewright.cli.printable import printable
from edgewright.cli.shaped_rows import (
    blank_rows,
    check_rows,
    cut_rows,
    edge_rows,
    mass_rows,
    offcut_rows,
    pass_rows,
    router_rows,
    run_rows,
    size_rows,
)
from edgewright.cutlist.shaped_plan import ShapedPlan
from edgewright.cutlist.shaped_solid import shaped_solid_spec
from edgewright.cutlist.sheets.ring_sheet import ring_figures
from edgewright.cutlist.sheets.shaped_section import shaped_section
from edgewright.cutlist.sheets.top_sheet import top_figures
from edgewright.design.picture import picture
from edgewright.display import show_mm
from edgewright.drawing.view import View

__all__ = ["shaped_packet_data", "shaped_picture"]

_PANEL: Final = (180.0, 140.0)
_PICTURE: Final = (150.0, 75.0)
_SECTION: Final = (180.0, 165.0)


def shaped_packet_data(plan: ShapedPlan, paper: str) -> dict[str, Any]:
    """All texts, rows and figures of the packet; every value is a string, a number, a list or None."""
    job = plan.job
    title = printable(job.info.title)
    printed = printed_words(job)
    figures = [*top_figures(plan.design, _PANEL)] if plan.ready else []
    rings = [*ring_figures(plan.design, _PANEL)] if plan.ready else []
    return {
        "paper": paper,
        "title": title,
        "short-title": title if len(title) <= 70 else title[:69] + "…",
        "heading": title,
        "subheading": ", ".join(printed),
        "code": plan.code,
        "ready": plan.ready,
        "footer": " · ".join(["Edgewright", *printed, f"plan {plan.code}"]),
        "verdict": _verdict(plan),
        "picture": None if plan.design.profile is None else placed_figure(shaped_picture(plan)),
        "sizes": [list(row) for row in size_rows(plan)],
        "findings": finding_groups(plan.findings),
        "widths": [],
        "proofs": [],
        "sheets": [],
        "cuts": [],
        "guide-note": "",
        "rips": [],
        "crosscuts": [],
        "remnants": [],
        "chapters": [*_trim_chapter(plan, figures), *_ring_chapter(plan, rings)],
        "sections": [placed_figure(view) for view in shaped_section(plan.design, _SECTION, plan.code)],
        "edge": [list(row) for row in (*edge_rows(plan), *mass_rows(plan))],
        "quantities": quantity_rows(plan.takeoff, job.units),
        "buy": [
            [t.group, t.containers] for t in (plan.takeoff.totals if plan.takeoff else ()) if t.containers
        ],
        "notes": list(plan.takeoff.notes) if plan.takeoff else [],
        "cautions": [[c.topic, f"{c.text} {c.defer}"] for c in CAUTIONS],
        "times": [[t.step, t.text] for t in working_times(job.units)],
        "labels": _labels(plan),
    }


def shaped_picture(plan: ShapedPlan) -> View:
    """Picture of the finished top, the pieces of its build-up drawn apart below it, on paper mm."""
    plies = 7 if plan.job.top.material == "plywood" else 0
    return picture(shaped_solid_spec(plan.design), plan.job.info.title, plies=plies, paper=_PICTURE)


def _verdict(plan: ShapedPlan) -> list[str]:
    if plan.ready:
        return []
    stops = sorted({f.number for f in plan.findings if f.severity == "stop" and f.overridden is None})
    return [f"Open stops: {', '.join(map(str, stops))}. See below what to change."]


def _table(
    title: str, note: str, header: list[str], body: list[list[str]], *, ticks: bool = False
) -> dict[str, Any]:
    return {
        "title": title,
        "note": note,
        "header": header,
        "rows": [[printable(cell) for cell in row] for row in body],
        "ticks": ticks,
    }


def _chapter(title: str, figures: list[View], tables: list[dict[str, Any]]) -> list[dict[str, Any]]:
    kept = [table for table in tables if table["rows"]]
    if not figures and not kept:
        return []
    return [{"title": title, "figures": [placed_figure(view) for view in figures], "tables": kept}]


def _trim_chapter(plan: ShapedPlan, figures: list[View]) -> list[dict[str, Any]]:
    units, saw = plan.job.units, plan.job.saw
    checks = _table(
        "What the measurements say", "", ["measured", ""], [list(row) for row in check_rows(plan)]
    )
    if not plan.ready:
        return _chapter("Measured", [], [checks])
    guide = (
        f"Marks are measured along the old rim. Kerf {show_mm(saw.kerf.mm, units)} on the waste; {saw.shoe_side} side "
        f"of the shoe along the guide. Make a test cut first."
    )
    return _chapter(
        "Trim",
        figures,
        [
            _table(
                "Saw cuts in order",
                guide,
                ["cut", "keep line from", "to", "guide at", "comes off"],
                cut_rows(plan),
                ticks=True,
            ),
            _table("Routed to size", "", ["edge", "how", "setting"], router_rows(plan), ticks=True),
            _table("Offcuts", "", ["offcut", "size", "largest true rectangle"], offcut_rows(plan)),
            _table("Edges", "", ["edge", "length", ""], run_rows(plan)),
            checks,
        ],
    )


def _ring_chapter(plan: ShapedPlan, figures: list[View]) -> list[dict[str, Any]]:
    if not plan.ready:
        return []
    return _chapter(
        "Build-up",
        figures,
        [
            _table(
                "Blanks to be bought or found",
                "Lengths are those of the longer edge with both end cuts. Cut the last piece of a ring to fit.",
                ["count", "what", "length", "width", "thick", "pieces"],
                blank_rows(plan),
                ticks=True,
            ),
            _table(
                "Ends of the pieces", "Degrees from square.", ["piece", "under", "start", "end"], _ends(plan)
            ),
            _table(
                "Router passes",
                "Feed against the turning of the bit.",
                ["arris", "form", "passes", "depths"],
                pass_rows(plan),
            ),
        ],
    )


def _ends(plan: ShapedPlan) -> list[list[str]]:
    return [
        [piece.id, ", ".join(piece.edges), f"{piece.start_angle:.1f}°", f"{piece.end_angle:.1f}°"]
        for piece in plan.design.pieces
    ]


def _labels(plan: ShapedPlan) -> list[dict[str, str]]:
    if not plan.ready:
        return []
    units = plan.job.units
    return [
        {
            "id": piece.id,
            "size": f"{show_mm(piece.blank_length, units)} x {show_mm(piece.blank_width, units)}",
            "face": "outer edge outwards, this face away from the top",
            "fit": f"{piece.kind}, ends {piece.start_angle:.1f}° and {piece.end_angle:.1f}° from square",
            "where": printable(f"{', '.join(piece.edges)}, layer {piece.layer}"),
        }
        for piece in plan.design.pieces
    ]
