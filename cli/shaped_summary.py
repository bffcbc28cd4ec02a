"""The summary of a shaped top on the terminal."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from edgewright.cli.shaped_cut_rows import cut_out_rows, cut_rows, guide_words, offcut_rows, router_rows
from edgewright.cli.shaped_ring_rows import blank_rows
from edgewright.cli.shaped_rows import (
    check_rows,
    edge_rows,
    mass_rows,
    pass_rows,
    run_rows,
    size_rows,
    tip_rows,
)
from edgewright.cli.shaped_stock_lines import stock_lines
from edgewright.cli.summary import NOT_FOR_CUTTING, caution_lines, finding_lines, quantity_lines
from edgewright.cli.summary_given import default_lines
from edgewright.cli.text import heading, paragraph, rows, table_lines
from edgewright.cutlist.shaped_plan import ShapedPlan

__all__ = ["shaped_summary", "shaped_verdict_lines"]

#: The tables of stations stand in the packet only.
_OFFSETS: Final = "by the offsets in packet.pdf"


def shaped_summary(plan: ShapedPlan, width: int, written: str = "") -> str:
    """Write the whole summary as plain text, wrapped to ``width`` columns; ``written`` says which files are."""
    return "\n".join(_lines(plan, width, written))


def _lines(plan: ShapedPlan, width: int, written: str) -> Iterator[str]:
    info = plan.job.info
    yield from paragraph(info.title, width)
    more = "".join(f", {said}" for said in (info.revision and f"revision {info.revision}", info.date) if said)
    status = "ready" if plan.ready else NOT_FOR_CUTTING
    yield from paragraph(f"plan {plan.code}{more}: {status}", width)
    yield from heading("sizes, length x width") + rows(size_rows(plan), width)
    if checks := check_rows(plan):
        yield from heading("what the measurements say") + rows(checks, width)
    yield from table_lines(
        "edges", (" ".join((name, length)) + f", {how}" for name, length, how in run_rows(plan)), width
    )
    if plan.ready:
        new = plan.job.top.new
        if new:  # the sheets come before anything else
            yield from stock_lines(plan, width)
        yield from table_lines("saw cuts, in order", _cut_words(plan), width)
        yield from table_lines(
            "routed to size", (f"{a}: {b}, {c}" for a, b, c in router_rows(plan, _OFFSETS)), width
        )
        yield from table_lines(
            "cut-outs",
            (
                f"{name}: {size}; centre {one}, {other}, square from the finished edges"
                for name, size, one, other in cut_out_rows(plan)
            ),
            width,
        )
        yield from table_lines(
            "offcuts",
            (f"{name}: {size}; largest true rectangle {best}" for name, size, best in offcut_rows(plan)),
            width,
        )
        if not new:
            yield from stock_lines(plan, width)
        yield from table_lines(
            "build-up, to be bought or found",
            (
                f"{n} {kind}{'s' * (n != '1')} {length} x {wide}, {thick} thick: {ids}"
                for n, kind, length, wide, thick, ids in blank_rows(plan)
            ),
            width,
        )
        yield from table_lines(
            "router passes",
            (f"{where} {form}: {count} (depths {depths})" for where, form, count, depths in pass_rows(plan)),
            width,
        )
        yield from table_lines(
            "inside corners that the bearing does not reach",
            (f"{corner}, {arris}: {left}" for corner, arris, left in tip_rows(plan)),
            width,
        )
    if edge := edge_rows(plan):
        yield from heading("edge") + rows(edge, width)
    yield from heading("weight") + rows(mass_rows(plan), width)
    yield from quantity_lines(plan.takeoff, plan.job.units, width)
    yield from finding_lines(plan.findings, width)
    yield from default_lines(plan.job, width)
    if plan.ready:
        yield from caution_lines(width)
    yield ""
    yield from paragraph(written, width)
    yield from shaped_verdict_lines(plan, width)


def _cut_words(plan: ShapedPlan) -> Iterator[str]:
    cuts = cut_rows(plan)
    for name, line, ends, off in cuts:
        rim = f"; its ends on the rim: {ends}" if ends else ""
        yield f"{name}: keep line {line}{rim}; comes off: {off}"
    if cuts:
        yield guide_words(plan)


def shaped_verdict_lines(plan: ShapedPlan, width: int) -> list[str]:
    """End with ready, or with why not and NOT FOR CUTTING."""
    if plan.ready:
        return paragraph(f"Ready: no stop is open on plan {plan.code}.", width)
    stops = sorted({f.number for f in plan.findings if f.severity == "stop" and f.overridden is None})
    words = f"Open stop{'s' * (len(stops) > 1)}: {', '.join(map(str, stops))}."
    return [*paragraph(words, width), NOT_FOR_CUTTING]
