"""The bill as a table file: lines, totals, then every factor with its origin."""

from __future__ import annotations

import csv
import io
from typing import Final

from edgewright.cutlist.takeoff_lines import Takeoff
from edgewright.cutlist.takeoff_text import shown, shown_rows
from edgewright.units import Units

__all__ = ["COLUMNS", "quantities_csv"]

COLUMNS: Final = (
    "group",
    "item",
    "expected",
    "low",
    "high",
    "likely_low",
    "likely_high",
    "unit",
    "reason",
)
MORE_PLACES: Final = (
    "Figures have more places here than on the sheets. Both add up in themselves, so that a total may differ "
    "in the last place that the sheets show."
)


def quantities_csv(takeoff: Takeoff, units: Units) -> str:
    """Write the bill.

    Under the column names stand the bill's notes (group ``note``): among them that lines add up by expected,
    low and high, and that likely does not. A line has no likely figures. Rows of the group ``factor`` come
    last, their item is the group, line and factor, their reason the origin.

    Returns
    -------
    str
        Plain decimals with a point, no thousands marks; the unit has its own column. Lines end in CR LF.

    References
    ----------
    RFC 4180.
    """
    text = io.StringIO(newline="")
    writer = csv.writer(text)
    writer.writerow(COLUMNS)
    writer.writerows(("note", note, *[""] * 7) for note in (*takeoff.notes, MORE_PLACES))
    for row in shown_rows(takeoff, units, fine=True):
        likely = ["" if n is None else f"{n:f}" for n in (row.likely_low, row.likely_high)]
        figures = [f"{n:f}" for n in (row.expected, row.low, row.high)]
        writer.writerow((row.group, row.item, *figures, *likely, row.unit, row.reason))
    for line in takeoff.lines:
        for factor in line.factors:
            band = factor.band
            (expected, unit), (low, _), (high, _) = (
                shown(n, factor.unit, units, fine=True) for n in (band.expected, band.low, band.high)
            )
            item = f"{line.group} / {line.name}: {factor.name}"
            writer.writerow(
                ("factor", item, f"{expected:f}", f"{low:f}", f"{high:f}", "", "", unit, factor.origin)
            )
    return text.getvalue()
