"""Show the bill in the units of the job, so that shown lines add up to shown totals.

Inside, all is in mm³ and g; this is the door. A shown total is the sum of its shown lines, each rounded once.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from decimal import ROUND_HALF_UP, Decimal
from functools import cache
from typing import Final

from edgewright.convert import convert
from edgewright.cutlist.takeoff_containers import FOR_HIGH, containers
from edgewright.cutlist.takeoff_lines import Takeoff, TakeoffLine, TakeoffTotal
from edgewright.units import Units

__all__ = [
    "ShownRow",
    "as_shown",
    "lifting_text",
    "quantity_text",
    "shown",
    "shown_rows",
    "shown_total",
    "with_containers",
]

WEIGHT_KEY: Final = "g, whole top"
_IN: Final[dict[str, tuple[str, str, str, int, int]]] = {
    # base unit: base and shown unit as pint writes them, unit as printed, places on a sheet and in a file
    "mm3": ("mm**3", "fl_oz", "fl oz", 1, 2),
    WEIGHT_KEY: ("g", "lb", "lb", 1, 2),
    "mm3 wood": ("mm**3", "in**3", "in3", 1, 2),
    "mm2": ("mm**2", "ft**2", "ft2", 2, 3),
    "mm": ("mm", "in", "in", 4, 5),
    "mm3/mm2": ("mm", "mil", "mil", 1, 3),
    "mm3/mm": ("mm**2", "fl_oz/ft", "fl oz/ft", 3, 4),
}
_MM: Final[dict[str, tuple[str, str, str, int, int]]] = {
    "mm3": ("mm**3", "mL", "ml", 0, 1),
    WEIGHT_KEY: ("g", "kg", "kg", 1, 3),
    "mm3 wood": ("mm**3", "cm**3", "cm3", 0, 1),
    "mm2": ("mm**2", "m**2", "m2", 3, 4),
    "mm": ("mm", "mm", "mm", 1, 3),
    "mm3/mm2": ("mm", "um", "µm", 0, 1),
    "mm3/mm": ("mm**2", "mL/m", "ml/m", 1, 2),
}
_BOTH: Final[dict[str, tuple[str, str, str, int, int]]] = {
    "g": ("g", "g", "g", 0, 1),
    "g/mm3": ("g/mm**3", "g/mL", "g/ml", 2, 4),
}
_PLAIN: Final[dict[str, int]] = {"count": 0, "": 3}


@dataclass(frozen=True, slots=True)
class ShownRow:
    """One row as shown: plain decimal figures, the unit beside them. ``item`` is ``total`` for a total."""

    group: str
    item: str
    expected: Decimal
    low: Decimal
    high: Decimal
    likely_low: Decimal | None
    likely_high: Decimal | None
    unit: str
    reason: str


@cache
def _scale(unit: str, units: Units) -> tuple[float, str, int, int]:
    if unit in _PLAIN:
        return 1.0, unit, _PLAIN[unit], _PLAIN[unit]
    source, target, said, sheet, file = (_BOTH | (_IN if units == "in" else _MM))[unit]
    return convert(1.0, source, target), said, sheet, file


def shown(value: float, unit: str, units: Units, *, fine: bool = False) -> tuple[Decimal, str]:
    """Convert one figure from its base unit, rounded half up; ``fine`` gives more places, for files."""
    scale, said, sheet, file = _scale(unit, units)
    step = Decimal(1).scaleb(-(file if fine else sheet))
    return Decimal(repr(value * scale)).quantize(step, ROUND_HALF_UP), said


def as_shown(figure: Decimal, unit: str, units: Units) -> float:
    """Turn a figure as it is shown back into its base unit ``unit``."""
    return float(figure) / _scale(unit, units)[0]


def quantity_text(row: ShownRow) -> str:
    """Say one shown line or total, like ``64.9 fl oz (57.3 to 72.6; likely 60.7 to 69.1)``."""
    text = f"{row.expected} {'' if row.unit == 'count' else row.unit}".rstrip()
    if row.low == row.high:
        return text
    if row.likely_low is None:
        return f"{text} ({row.low} to {row.high})"
    return f"{text} ({row.low} to {row.high}; likely {row.likely_low} to {row.likely_high})"


def shown_total(takeoff: Takeoff, group: str, units: Units, *, fine: bool = False) -> ShownRow:
    """Show the total of a group, the sum of its lines as shown: the figure that every sheet names.

    Raises
    ------
    KeyError
        For a group that the bill does not have.
    """
    for row in shown_rows(takeoff, units, fine=fine):
        if row.group == group and row.item == "total":
            return row
    raise KeyError(group)


def with_containers(takeoff: Takeoff, groups: Iterable[str], units: Units) -> Takeoff:
    """Say what to buy for some groups, each by its high figure as it is shown."""
    wanted = set(groups)
    return replace(
        takeoff,
        totals=tuple(
            _bought(takeoff, total, units) if total.group in wanted else total for total in takeoff.totals
        ),
    )


def _bought(takeoff: Takeoff, total: TakeoffTotal, units: Units) -> TakeoffTotal:
    row = shown_total(takeoff, total.group, units)
    # the sum of rounded lines may be the greater one
    high = max(total.high, as_shown(row.high, _key(total), units))
    said = containers(high, units, small_bottles=total.group == "glue", high_text=f"{row.high} {row.unit}")
    return replace(total, containers=said)


def shown_rows(takeoff: Takeoff, units: Units, *, fine: bool = False) -> tuple[ShownRow, ...]:
    """Lines of each group followed by its total; the total of the coats stands after the last coat.

    A total without lines of its own (``resin in all``) sums the totals of the coats.
    """
    rows: list[ShownRow] = []
    for total in takeoff.totals:
        lines = [_line_row(line, units, fine) for line in takeoff.in_group(total.group)]
        coats = [row for row in rows if row.item == "total" and row.group.startswith(("seal", "resin"))]
        rows += [*lines, _total_row(total, lines or coats, units, fine)]
    return tuple(rows)


def lifting_text(takeoff: Takeoff, units: Units) -> str:
    """Weight to reckon with when lifting: the high figure, rounded up to a whole lb or kg; "" without one."""
    weight = takeoff.total("weight")
    if weight is None:
        return ""
    row = shown_total(takeoff, "weight", units)
    high = max(weight.high * _scale(WEIGHT_KEY, units)[0], float(row.high))
    return f"{math.ceil(high)} {row.unit}"


def _key(entry: TakeoffLine | TakeoffTotal) -> str:
    return WEIGHT_KEY if entry.group == "weight" and entry.unit == "g" else entry.unit


def _line_row(line: TakeoffLine, units: Units, fine: bool) -> ShownRow:
    unit, band = _key(line), line.quantity
    (expected, said), (low, _), (high, _) = (
        shown(n, unit, units, fine=fine) for n in (band.expected, band.low, band.high)
    )
    return ShownRow(line.group, line.name, expected, low, high, None, None, said, line.reason)


def _total_row(total: TakeoffTotal, parts: Iterable[ShownRow], units: Units, fine: bool) -> ShownRow:
    parts = tuple(parts)
    low = sum((row.low for row in parts), Decimal(0))
    high = sum((row.high for row in parts), Decimal(0))
    unit = _key(total)
    (likely_low, said), (likely_high, _) = (
        shown(n, unit, units, fine=fine) for n in (total.likely_low, total.likely_high)
    )
    return ShownRow(
        total.group,
        "total",
        sum((row.expected for row in parts), Decimal(0)),
        low,
        high,
        # the extremes were added from rounded lines; what is likely stays inside them
        min(max(likely_low, low), high),
        max(min(likely_high, high), low),
        said,
        f"buy {total.containers.partition(FOR_HIGH)[0]}{FOR_HIGH}{high} {said}" if total.containers else "",
    )
