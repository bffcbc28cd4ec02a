"""``quantities``: the bill with the plan's code: lines, totals, then every factor with its origin."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Final

from edgewright.cli.plan_json import status_of
from edgewright.cli.table import Row, Table, numbers, table, texts
from edgewright.cutlist.plan import Plan
from edgewright.cutlist.takeoff_lines import Takeoff
from edgewright.cutlist.takeoff_text import shown, shown_rows
from edgewright.units import Units

if TYPE_CHECKING:
    from edgewright.cutlist.shaped_plan import ShapedPlan

__all__ = ["QUANTITY_COLUMNS", "bill_rows", "quantities_table"]

#: Figures of different units stand in one column, so that each row names its own.
QUANTITY_COLUMNS: Final = (
    texts("group", "item"),
    numbers("expected", "low", "high", "likely_low", "likely_high"),
    texts("unit", "reason"),
)
MORE_PLACES: Final = (
    "Figures have more places here than on the sheets. Both add up in themselves, so that a total may differ "
    "in the last place that the sheets show."
)


def quantities_table(plan: Plan | ShapedPlan) -> Table:
    """The bill; above its header it says NOT FOR CUTTING while the plan is not ready."""
    rows: Iterator[Row] | list[Row]
    if plan.takeoff is None:
        reason = "no such edge profile exists, so that no quantity can be reckoned"
        rows = [{"group": "note", "item": reason}]
    else:
        rows = bill_rows(plan.takeoff, plan.job.units)
    code: Row = {"group": "note", "item": f"plan {plan.code}"}
    return table("quantities", QUANTITY_COLUMNS, (code, *rows), "" if plan.ready else status_of(plan))


def bill_rows(takeoff: Takeoff, units: Units) -> Iterator[Row]:
    """Rows of the bill.

    The notes come first (group ``note``): among them that lines add up by expected, low and high, and that likely does
    not. A line has no likely figures. Rows of the group ``factor`` come last, their item is the group, line and factor,
    their reason the origin.
    """
    yield from ({"group": "note", "item": note} for note in (*takeoff.notes, MORE_PLACES))
    for row in shown_rows(takeoff, units, fine=True):
        likely = (("likely_low", row.likely_low), ("likely_high", row.likely_high))
        yield {
            "group": row.group,
            "item": row.item,
            "expected": row.expected,
            "low": row.low,
            "high": row.high,
            **{key: figure for key, figure in likely if figure is not None},
            "unit": row.unit,
            "reason": row.reason,
        }
    for line in takeoff.lines:
        for factor in line.factors:
            band = factor.band
            (expected, unit), (low, _), (high, _) = (
                shown(n, factor.unit, units, fine=True) for n in (band.expected, band.low, band.high)
            )
            yield {
                "group": "factor",
                "item": f"{line.group} / {line.name}: {factor.name}",
                "expected": expected,
                "low": low,
                "high": high,
                "unit": unit,
                "reason": factor.origin,
            }
