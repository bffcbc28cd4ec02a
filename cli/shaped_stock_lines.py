"""The part of a shaped top's summary that says what its build-up is cut from, and why that is the best."""

from __future__ import annotations

from collections.abc import Iterator

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
from edgewright.cli.text import table_lines
from edgewright.cutlist.new_top_cuts import PANEL_HELD
from edgewright.cutlist.shaped_plan import ShapedPlan

__all__ = ["stock_lines"]


def stock_lines(plan: ShapedPlan, width: int) -> Iterator[str]:
    """Sticks, lanes, fence settings, stops, what goes back to the rack, and the proof; nothing without stock."""
    new = plan.job.top.new
    yield from table_lines(
        "top and build-up, cut from" if new else "build-up, cut from",
        (f"{name}: {size}, {source}" for name, size, source in stick_rows(plan)),
        width,
    )
    yield from table_lines("boards to buy", (", ".join(filter(None, row)) for row in board_rows(plan)), width)
    yield from table_lines(
        "top sawn free along the guide",
        (
            f"{what}: keep line {keep}, kerf {kerf}, guide at {guide}; gives {gives}; {PANEL_HELD}"
            for what, keep, kerf, guide, gives in guide_rows(plan)
        ),
        width,
    )
    yield from table_lines(
        "strips to rip, fence by fence",
        (f"fence at {fence}: {lanes}; {held}" for fence, lanes, held in rip_rows(plan)),
        width,
    )
    yield from table_lines(
        "lanes and their blanks" if new else "strips and their blanks",
        (f"{name}, {wide} wide, {long} long: {run}" for name, wide, long, run in lane_rows(plan)),
        width,
    )
    yield from table_lines(
        "crosscuts, stop by stop",
        (f"stop at {length}: {pieces}; {held}" for length, pieces, held in held_rows(plan)),
        width,
    )
    yield from table_lines(
        "back to the rack", (f"{name}: {long} x {wide}" for name, long, wide in rack_rows(plan)), width
    )
    yield from table_lines(
        "why this plan is the best",
        (
            *(f"{name} {figure}: {proof}" for name, figure, proof in proof_rows(plan)),
            *way_words(plan),
            *segment_words(plan),
        ),
        width,
    )
