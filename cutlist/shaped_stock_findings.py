"""Findings that the cut plan of a build-up decides: what must be bought, what no stick holds, grain, short cuts."""

from __future__ import annotations

from collections.abc import Iterator

from edgewright.cutlist.check_handling import handling_findings
from edgewright.cutlist.demand import matching_boards
from edgewright.cutlist.new_top import TOP, no_sheet
from edgewright.cutlist.shaped_bench import build_up_crosscuts, build_up_rips
from edgewright.cutlist.shaped_cutting import Cutting
from edgewright.design.anytop.model import ShapedDesign
from edgewright.design.anytop.ring import grain_direction
from edgewright.design.check_ring import cross_grain_findings, long_piece_findings
from edgewright.display import show_mm
from edgewright.findings import Finding

__all__ = ["with_stock_findings"]

#: Findings of the design that say what to do with pieces before it is known what they are cut from.
_DECIDED_HERE = (313, 321)


def with_stock_findings(
    found: tuple[Finding, ...], design: ShapedDesign, cutting: Cutting
) -> tuple[Finding, ...]:
    """The findings, with those on grain and length left only for pieces that nothing is planned for; 322 to 325."""
    plan, units = cutting.plan, design.job.units
    cut = plan.cut_ids
    kept = tuple(finding for finding in found if finding.number not in _DECIDED_HERE)
    grain = grain_direction(design.job, design.old)
    # offcuts are ripped while they are still larger than the rectangle in them
    own = {name for stick in plan.stock for name in stick.names}
    rips = [rip for rip in build_up_rips(plan) if rip.stick_id not in own]
    return (
        *kept,
        *long_piece_findings(plan.loose, units),
        *(() if grain is None else cross_grain_findings(design.pieces, grain, units, laid_with_top=cut)),
        *_to_buy(design, cutting),
        *_with_defects(design),
        *handling_findings((), rips, build_up_crosscuts(plan), design.job.saw, units),
    )


def _with_defects(design: ShapedDesign) -> Iterator[Finding]:
    """325: boards with knots or holes, which this layout does not plan around."""
    names = [board.name for board in matching_boards(design.job) if board.defects]
    if names:
        yield Finding(
            325,
            "note",
            "boards with defects left out",
            "stock",
            ", ".join(names),
            "list what is clean of them as boards of their own, without defects",
        )


def _to_buy(design: ShapedDesign, cutting: Cutting) -> Iterator[Finding]:
    """324: a new top that no sheet holds; else 322 and 323.

    322 are blanks that the stock does not give, 323 strips that no stick holds and no rule lets be divided.
    """
    plan, units = cutting.plan, design.job.units
    if design.job.top.new and not any(one.piece_id == TOP for one in plan.cut):
        yield no_sheet(design, plan.stock, plan.shortage)
        return
    cut = len(plan.pieces) - len(plan.loose)
    if plan.to_buy and (plan.cut or design.job.stock):
        rows = "; ".join(
            f"{row.count} {row.kind}{'s' * (row.count > 1)} {show_mm(row.length, units)} × {show_mm(row.width, units)}"
            for row in plan.to_buy
        )
        yield Finding(
            322,
            "note",
            "blanks to be bought besides",
            "build-up",
            f"{cut} of {len(plan.pieces)} blanks come out of the stock; to be bought or found: {rows}",
            "find boards for them, or list boards for sale under [[stock]]: then the plan says how many and for what "
            "price",
        )
    if cutting.refused and design.job.stock:
        whole = dict(cutting.refused)
        edges = dict.fromkeys(name for piece in plan.pieces if piece.id in whole for name in piece.edges)
        yield Finding(
            323,
            "warn",
            "strip longer than any stick",
            ", ".join(edges),
            "; ".join(whole.values()),
            "list a longer board under [[stock]], or change [splice]",
        )
