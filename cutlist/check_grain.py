"""Checks the grain of solid wood, and bounds of a plan whose sides and sticks fall apart by grain."""

from __future__ import annotations

from collections.abc import Iterator

from edgewright.cutlist.check_bounds import recompute_bounds as bounds_of_one
from edgewright.cutlist.check_faults import Plain, PlanFault, shape_faults
from edgewright.cutlist.check_stages import STAGES, stage_values

__all__ = ["grain_faults", "recompute_bounds"]

Bound = tuple[int | None, str]


def grain_faults(plan: Plain) -> Iterator[PlanFault]:
    """Faults where a piece has its grain across that of the top."""
    wanted = {side["id"]: side["grain"] for side in plan["sides"]}
    grain = {lane["id"]: stick["grain"] for stick in plan["sticks"] for lane in stick["lanes"]}
    for piece in plan["pieces"]:
        side, lane = wanted.get(piece["side_id"], ""), grain.get(piece["lane_id"], "")
        if side and lane != side:
            yield PlanFault(
                "piece across the grain",
                piece["id"],
                f"grain {lane or 'unknown'} the strip, {side} it is needed",
            )


def recompute_bounds(plan: Plain, work_limit: int = 200_000) -> dict[str, Bound]:
    """Bound of each stage; where the grain matters, those of its groups together.

    Cents and counts add up; the largest remnant is that of the group with the larger one. A bound holds under the
    values of the stages before it, and how those are shared between the groups is settled only while each is at its
    bound. Parameters and result are those of `edgewright.cutlist.check_bounds.recompute_bounds`.
    """
    if shape_faults(plan) or len({side["grain"] for side in plan["sides"]}) < 2:
        return bounds_of_one(plan, work_limit)
    parts = [_part(plan, grain) for grain in sorted({side["grain"] for side in plan["sides"]})]
    found = [bounds_of_one(part, work_limit) for part in parts]
    values = [stage_values(part) for part in parts]
    bounds: dict[str, Bound] = {}
    settled = True
    for name in STAGES:
        known = [bound[name][0] for bound in found]
        numbers = [number for number in known if number is not None]
        if not settled or len(numbers) < len(known):
            bounds[name] = (None, "a stage before it is not proven" if not settled else found[0][name][1])
            settled = False
            continue
        whys = [f"{_sides(part)} sides: {bound[name][1]}" for part, bound in zip(parts, found, strict=True)]
        bounds[name] = (max(numbers) if name == "largest remnant" else sum(numbers), "; ".join(whys))
        settled = numbers == [value[name] for value in values]
    return bounds


def _part(plan: Plain, grain: str) -> Plain:
    sides = [side for side in plan["sides"] if side["grain"] == grain]
    ids = {side["id"] for side in sides}
    return {
        **plan,
        "sides": sides,
        "sticks": [stick for stick in plan["sticks"] if stick["grain"] == grain],
        "pieces": [piece for piece in plan["pieces"] if piece["side_id"] in ids],
    }


def _sides(part: Plain) -> str:
    return " and ".join(sorted({side["side"] for side in part["sides"]}, reverse=True))
