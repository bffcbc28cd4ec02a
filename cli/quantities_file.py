"""``quantities.csv``: the bill of quantities with the plan's code, marked where it is NOT FOR CUTTING."""

from __future__ import annotations

import csv
import io
from typing import TYPE_CHECKING

from edgewright.cli.plan_json import status_of
from edgewright.cutlist.plan import Plan
from edgewright.cutlist.quantities_csv import COLUMNS, quantities_csv

if TYPE_CHECKING:
    from edgewright.cutlist.shaped_plan import ShapedPlan

__all__ = ["quantities_file"]


def quantities_file(plan: Plan | ShapedPlan) -> str:
    """Write the bill; the first row says NOT FOR CUTTING while the plan is not ready.

    References
    ----------
    RFC 4180: every row has as many fields as the first.
    """
    if plan.takeoff is None:
        reason = "no such edge profile exists, so that no quantity can be reckoned"
        rows = [list(COLUMNS), ["note", reason, *[""] * (len(COLUMNS) - 2)]]
    else:
        rows = list(csv.reader(io.StringIO(quantities_csv(plan.takeoff, plan.job.units), newline="")))
    rows.insert(1, ["note", f"plan {plan.code}", *[""] * (len(COLUMNS) - 2)])
    if not plan.ready:
        rows.insert(0, [status_of(plan), *[""] * (len(COLUMNS) - 1)])
    text = io.StringIO(newline="")
    csv.writer(text).writerows(rows)
    return text.getvalue()
