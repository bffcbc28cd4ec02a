"""What was given and what is used where the two differ, and the defaults with their origin."""

from __future__ import annotations

import re
from typing import Final

from edgewright.cli.text import heading, paragraph, rows
from edgewright.compass import SIDES
from edgewright.cutlist.plan import Plan
from edgewright.display import show_mm, show_ticks
from edgewright.errors import InputError
from edgewright.job import KeyUse, given_and_used
from edgewright.job_any import AnyJob
from edgewright.ticks import nearest_ticks
from edgewright.units import Units, read_length

__all__ = ["default_lines", "given_lines"]

#: Values that say no more than that there is none.
_IDLE: Final = ("-", "none", "no")
_METRIC: Final = re.compile(r"(?<![a-z])(?:mm|cm|m)\s*$")


def given_lines(plan: Plan, width: int) -> list[str]:
    """Rows ``key: given, used`` for what was snapped, averaged or is shown in another unit."""
    units = plan.job.units
    snapped = _snapped(plan)
    pairs: list[tuple[str, str]] = []
    for row in given_and_used(plan.job):
        given = row.given or row.used
        if row.key in snapped:
            pairs.append((row.key, f"given {given}, used {show_ticks(snapped[row.key], units)} (bench grid)"))
        elif row.key == "top.thickness" and len(plan.job.top.thickness) > 1:
            pairs.append(
                (row.key, f"given {given}, used {show_mm(plan.design.thickness_mm, units)}, their mean")
            )
        elif row.source == "file" and (words := _other_unit(row, units)):
            pairs.append((row.key, words))
    return heading("given and used") + rows(pairs, width) if pairs else []


def default_lines(job: AnyJob, width: int) -> list[str]:
    """Defaults in use, gathered by their origin."""
    by_origin: dict[str, list[str]] = {}
    for row in given_and_used(job):
        if row.source == "default" and row.used not in _IDLE and not row.used.startswith("0 in"):
            by_origin.setdefault(row.origin or "follows from other keys", []).append(f"{row.key} {row.used}")
    lines = heading("defaults used, by their origin") if by_origin else []
    for origin, values in by_origin.items():
        lines += paragraph(f"{origin}: {'; '.join(values)}", width, 2, 6)
    return lines


def _snapped(plan: Plan) -> dict[str, int]:
    """Find chosen sizes that were moved to the bench grid: key and ticks used."""
    job, amounts, strip = plan.job, plan.planned_sizes.amounts, plan.job.edge.strip_width
    moved = {
        f"trim.{side}": amounts[side] for side in SIDES if nearest_ticks(job.amounts[side]) != amounts[side]
    }
    if strip != "widest" and strip.ticks() != plan.cut_plan.strip_width_ticks:
        moved["edge.strip_width"] = plan.cut_plan.strip_width_ticks
    return moved


def _other_unit(row: KeyUse, units: Units) -> str:
    """Words for a length that is shown rounded or in another unit, a film or a temperature."""
    given = row.given or ""
    if " film" in row.used or " degC" in row.used:
        return f"given {given}, used {row.used}"
    try:
        shown = show_ticks(read_length(given, units).ticks(), units)
    except InputError:
        return ""
    bare = not re.search("[^0-9 ./,-]", given)
    if not shown.startswith("~") and (bare or bool(_METRIC.search(given)) == (units == "mm")):
        return ""
    return f"given {given}, shown as {shown}"
