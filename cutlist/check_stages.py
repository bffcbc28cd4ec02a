"""The value of each stage of the objective, counted from the pieces and sticks of the plan."""

from __future__ import annotations

from collections.abc import Iterator

from edgewright.cutlist.check_faults import Plain, PlanFault
from edgewright.cutlist.check_lanes import lane_gaps

__all__ = [
    "STAGES",
    "WITH_LABOUR",
    "board_settings",
    "bound_faults",
    "stage_faults",
    "stage_names",
    "stage_values",
]

#: The stages in the order in which they are decided; all but the last are minimised.
STAGES = (
    "new material cost",
    "splices",
    "sticks touched",
    "fence settings",
    "strips ripped",
    "largest remnant",
)
#: Where labour is weighed: one sum, then the remnant.
WITH_LABOUR = "cost with labour"


def stage_names(plan: Plain) -> tuple[str, ...]:
    """Stages that a plan must have, in their order."""
    return STAGES if plan["rules"]["labour_cents"] is None else (WITH_LABOUR, STAGES[-1])


def board_settings(stick: Plain) -> tuple[int, ...]:
    """Settings of the fence that a board needs as soon as it is in use; none for an offcut.

    An old edge is skimmed with the wide part against the fence; strips are ripped at the strip width, but what is left
    of a board as wide as a strip is one.
    """
    if stick["source"] == "offcut" or not stick["lanes"]:
        return ()
    waste, strip = stick["edge_waste_ticks"], stick["lanes"][0]["width_ticks"]
    left = stick["width_ticks"] - waste
    return ((left,) if waste else ()) + ((strip,) if waste or strip != left else ())


def stage_values(plan: Plain) -> dict[str, int]:
    """Value of each stage: cents, counts, and ticks for the largest remnant."""
    used = {piece["lane_id"] for piece in plan["pieces"]}
    touched = [stick for stick in plan["sticks"] if any(lane["id"] in used for lane in stick["lanes"])]
    kept = [stick for stick in plan["sticks"] if stick in touched or stick["source"] != "for sale"]
    gaps = [gap for stick in kept for lane in stick["lanes"] for gap in lane_gaps(plan, lane)]
    strips = {lane["strip"] for stick in plan["sticks"] for lane in stick["lanes"] if lane["id"] in used}
    values = {
        "new material cost": sum(stick["price_cents"] for stick in touched if stick["source"] == "for sale"),
        "splices": len(plan["pieces"]) - len(plan["sides"]),
        "sticks touched": len(touched),
        "fence settings": len({setting for stick in touched for setting in board_settings(stick)}),
        "strips ripped": len(strips),
        "largest remnant": max(gaps, default=0),
    }
    labour = plan["rules"]["labour_cents"]
    if labour is not None:
        counts = (values["splices"], values["sticks touched"], values["strips ripped"])
        values[WITH_LABOUR] = values["new material cost"] + sum(
            c * n for c, n in zip(labour, counts, strict=True)
        )
    return values


def stage_faults(plan: Plain, bounds: dict[str, tuple[int | None, str]]) -> Iterator[PlanFault]:
    """Faults in what the stages claim, against the values and ``bounds`` recomputed."""
    names = tuple(stage["name"] for stage in plan["stages"])
    if names != stage_names(plan):
        due = ", ".join(stage_names(plan))
        yield PlanFault("wrong stages", "stages", f"{', '.join(names) or 'none'} given, not {due}")
    values = stage_values(plan)
    for stage in plan["stages"]:
        name, value = stage["name"], stage["value"]
        if name not in values:
            continue
        lawful = {values[name]}
        if name == "largest remnant" and values[name] < plan["rules"]["sliver_ticks"]:
            lawful.add(0)  # what is left is a sliver, and slivers are waste
        if value not in lawful:
            hidden = name == "new material cost" and value < values[name]
            yield PlanFault(
                "cost hidden" if hidden else "stage value wrong",
                name,
                f"{value} given, {values[name]} recomputed",
            )
        yield from bound_faults(stage, *bounds[name])


def bound_faults(stage: Plain, bound: int | None, why: str) -> Iterator[PlanFault]:
    """Faults in what one stage claims of its bound, against the bound recomputed."""
    name, value = stage["name"], stage["value"]
    if bound is not None and (value > bound if name == "largest remnant" else value < bound):
        yield PlanFault("better than the bound", name, f"{value} beats {bound}: {why}")
    if stage["proven"] and bound != value:
        yield PlanFault("bound not met", name, f"{value} is called proven, the bound is {bound}: {why}")
    if stage["bound"] is not None and stage["bound"] != bound:
        yield PlanFault("stage bound wrong", name, f"{stage['bound']} given, {bound} recomputed: {why}")
