"""Which tables a plan has: cuts, pieces, stock, quantities, findings; NOT FOR CUTTING only the last two, marked so."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from edgewright.cli.pieces_table import pieces_table, shaped_pieces_table
from edgewright.cli.plan_json import status_of
from edgewright.cli.quantities_table import quantities_table
from edgewright.cli.stock_table import stock_table
from edgewright.cli.table import Cell, Table, numbers, table, texts
from edgewright.cutlist.plan import Plan
from edgewright.findings import Finding

if TYPE_CHECKING:
    from edgewright.cutlist.shaped_plan import ShapedPlan

__all__ = ["findings_table", "plan_tables"]

_FINDING_COLUMNS: Final = (
    numbers("number"),
    texts("severity", "title", "place", "figures", "what_to_change", "overridden", "plan_code"),
)


def plan_tables(plan: Plan | ShapedPlan) -> tuple[Table, ...]:
    """All tables of a plan, those that one cuts by first."""
    last = (quantities_table(plan), findings_table(plan))
    return (*_cutting(plan), *last) if plan.ready else last


def _cutting(plan: Plan | ShapedPlan) -> tuple[Table, ...]:
    if isinstance(plan, Plan):
        from edgewright.cli.cuts_table import cuts_table

        return cuts_table(plan), pieces_table(plan), stock_table(plan)
    if not plan.job.top.new:
        return shaped_pieces_table(plan), stock_table(plan)
    from edgewright.cli.sheet_cuts_table import sheet_cuts_table

    return sheet_cuts_table(plan), shaped_pieces_table(plan), stock_table(plan)


def findings_table(plan: Plan | ShapedPlan) -> Table:
    """Findings in the order in which they are printed."""
    rows = [_finding(finding) | {"plan_code": plan.code} for finding in plan.findings]
    return table("findings", _FINDING_COLUMNS, rows, "" if plan.ready else status_of(plan))


def _finding(finding: Finding) -> dict[str, Cell]:
    return {
        "number": finding.number,
        "severity": finding.severity,
        "title": finding.title,
        "place": finding.place.replace("_", "-"),
        "figures": finding.figures,
        "what_to_change": finding.change,
        "overridden": finding.overridden or "",
    }
