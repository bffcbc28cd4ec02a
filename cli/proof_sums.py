"""The sums behind a bound, in words that can be followed with a pencil: prices of sides, points of blanks."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, Final

from edgewright.cutlist.check_certificate import Certified
from edgewright.cutlist.check_guillotine_sums import PointSum, SumsOfPoints
from edgewright.cutlist.model import Stage
from edgewright.display import show_area
from edgewright.ticks import TICK_MM
from edgewright.units import Units

__all__ = ["Names", "point_lines", "price_sum", "short_point_sum", "stage_sum", "stick_names"]

#: Names of sticks by the id of their stock.
Names = Mapping[str, Sequence[str]]
#: More than so many are not named in a row.
_NAMED: Final = 4


def price_sum(sums: Certified) -> str:
    """The sum that proves a bound by prices: what the sides are worth, less what is settled and what sticks cost."""
    left = (sums.worth - sums.settled - sums.sticks) / sums.scale
    return (
        f"all sides are worth {sums.worth / sums.scale:.4f}; less {sums.settled / sums.scale:.4f} for the stages "
        f"before and {sums.sticks / sums.scale:.4f} for the sticks: {left:.4f}, so at least {sums.bound}"
    )


def stick_names(build_up: Mapping[str, Any], stock: Sequence[Mapping[str, Any]]) -> Names:
    """Names of the sticks of each kind of stock, by id; ``build_up`` as in plan.json, ``stock`` of a layout in it."""
    own = {stick["id"]: tuple(map(str, stick["names"])) for stick in build_up["sticks"]}
    return {rect["id"]: own.get(rect["id"]) or (str(rect.get("name", rect["id"])),) for rect in stock}


def stage_sum(stage: Stage, sums: SumsOfPoints) -> PointSum | None:
    """The one sum that gives the bound of a stage by itself, if there is one and one is needed."""
    alone = sums.alone.get(stage.name)
    # nothing costs less than nothing, and no plan does without a stick
    trivial = stage.value == 0 or (stage.name == "sticks touched" and stage.value == 1)
    return None if trivial or alone is None else sums.sums[alone]


def point_lines(points: PointSum, names: Names, units: Units) -> list[str]:
    """What each blank counts and each stick holds; those that count nothing are left out."""
    lines = []
    for ids, count, each in points.blanks:
        if each:
            lines.append(f"blank {_some(ids)}: {_points(points, each, units)} each, {count} wanted")
    lines.append(f"all blanks: {_points(points, points.need, units)}")
    for ids, count, held in points.sticks:
        if held and count:
            name = _some([name for stick in ids for name in names.get(stick, (stick,))])
            lines.append(f"{name}: holds {_points(points, held, units)} at most, {count} to be had")
    return lines


def counted_sum(points: PointSum, stage: Stage | None, units: Units) -> str:
    """`short_point_sum` with what a blank counts before it, for a page without `point_lines`."""
    worth = [(name, each) for ids, _, each in points.blanks for name in ids if each]
    if points.areas:
        counting = "by area"
    elif all(each == 1 for _, each in worth) and len(worth) == sum(len(ids) for ids, _, _ in points.blanks):
        counting = "counting each blank as 1 point"
    elif len(worth) <= _NAMED:
        counting = "counting " + ", ".join(
            f"{_points(points, each, units)} for {name}" for name, each in worth
        )
    else:
        counting = "counting each blank as plan.json says"
    return f"{counting}, {short_point_sum(points, stage, units)}"


def short_point_sum(points: PointSum, stage: Stage | None, units: Units) -> str:
    """The inequality alone: what all blanks need against what the sticks hold; ``stage`` is None for a shortage."""
    need = f"the blanks need {_points(points, points.need, units)}"
    if stage is None and not points.have:
        return f"{need}, and no stick holds any"
    if stage is None:
        return f"{need}, all sticks together hold {_points(points, points.have, units)} at most"
    if stage.name == "new material cost":
        return f"{need}, and no choice of sticks for less than {stage.value / 100:.2f} holds so much"
    fewer = stage.value - 1
    held = sorted((held for _, count, held in points.sticks for _ in range(count)), reverse=True)
    have = sum(held[:fewer])
    if have >= points.need:
        return f"{need}, and no choice of fewer sticks for that cost holds so much"
    which = f"any {fewer} sticks hold" if fewer > 1 else "no one stick holds more than"
    return f"{need}, {which} {_points(points, have, units)}" + " at most" * (fewer > 1)


def _points(points: PointSum, number: int, units: Units) -> str:
    if points.areas:
        return show_area(number * TICK_MM**2, units)
    return f"{number} point{'s' * (number != 1)}"


def _some(names: Sequence[str]) -> str:
    more = f" and {len(names) - _NAMED} more like it" if len(names) > _NAMED else ""
    return ", ".join(names[:_NAMED]) + more
