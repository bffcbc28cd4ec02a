"""Checks a panel whose cutting has begun: where its edges lie, what came off, and the strips taken from that."""

from __future__ import annotations

from collections.abc import Iterator

from edgewright.cutlist.check_faults import Plain, PlanFault

__all__ = ["cuts_made", "first_edges", "loose_faults", "loose_lanes", "loose_left", "loose_strips"]

_ACROSS = {"north": "width", "south": "width", "east": "length", "west": "length"}


def first_edges(plan: Plain) -> dict[str, int]:
    """Where the panel's edges lie before the first cut of the plan, ticks in the frame of the old top."""
    begun = plan["as_cut"]
    if begun is None:
        return {"west": 0, "south": 0, "east": plan["old_ticks"][0], "north": plan["old_ticks"][1]}
    return {side: begun[f"{side}_ticks"] for side in ("west", "south", "east", "north")}


def cuts_made(plan: Plain) -> int:
    """How many cuts were made before the first cut of the plan."""
    return 0 if plan["as_cut"] is None else int(plan["as_cut"]["cuts_made"])


def loose_strips(plan: Plain) -> list[Plain]:
    """Strips that came off in the cuts already made; none before the first."""
    return [] if plan["as_cut"] is None else list(plan["as_cut"]["loose"])


def loose_lanes(plan: Plain) -> set[str]:
    """Lanes that came off before the first cut of the plan, so that no cut of it may free them."""
    strips = loose_strips(plan)
    return {name for strip in strips for name in strip["lanes"]}


def loose_left(plan: Plain) -> dict[str, tuple[int, int]]:
    """Length of each loose strip and the width that the lanes in use leave of it, also under ``rest of`` its name."""
    used = {piece["lane_id"] for piece in plan["pieces"]}
    widths = {
        lane["id"]: lane["width_ticks"] + plan["rules"]["kerf_ticks"]
        for stick in plan["sticks"]
        for lane in stick["lanes"]
        if lane["id"] in used
    }
    left = {}
    for strip in loose_strips(plan):
        width = strip["width_ticks"] - sum(widths.get(name, 0) for name in strip["lanes"])
        left[strip["id"]] = left[f"rest of {strip['id']}"] = (strip["length_ticks"], width)
    return left


def loose_faults(plan: Plain) -> Iterator[PlanFault]:
    """Faults in the panel as it is said to lie there and in what is said to have come off it."""
    begun = plan["as_cut"]
    if begun is None:
        return
    edges, old = first_edges(plan), dict(zip(("length", "width"), plan["old_ticks"], strict=True))
    panel = {"length": edges["east"] - edges["west"], "width": edges["north"] - edges["south"]}
    for axis, low, high in (("length", "west", "east"), ("width", "south", "north")):
        if edges[low] < 0 or edges[high] > old[axis] or panel[axis] <= 0:
            yield PlanFault(
                "panel outside the old top", axis, f"from {edges[low]} to {edges[high]} of {old[axis]} ticks"
            )
    if len(begun["fresh"]) > begun["cuts_made"]:
        yield PlanFault(
            "more fresh edges than cuts", "panel", f"{len(begun['fresh'])} edges, {begun['cuts_made']} cuts"
        )
    yield from _strip_faults(plan, panel, old)
    yield from _lane_faults(plan)


def _strip_faults(plan: Plain, panel: dict[str, int], old: dict[str, int]) -> Iterator[PlanFault]:
    begun = plan["as_cut"]
    taken: set[int] = set()
    used = dict(panel)
    for strip in begun["loose"]:
        across = _ACROSS[strip["side"]]
        used[across] += strip["width_ticks"]
        if not 0 < strip["cut"] <= begun["cuts_made"] or strip["cut"] in taken:
            yield PlanFault(
                "loose strip of no cut",
                strip["id"],
                f"cut {strip['cut']}, {begun['cuts_made']} are made, each frees one",
            )
        taken.add(strip["cut"])
        if strip["side"] not in begun["fresh"]:
            yield PlanFault("loose strip of no cut", strip["id"], f"the {strip['side']} side was not cut")
        along = "length" if across == "width" else "width"
        if strip["length_ticks"] > old[along]:
            yield PlanFault(
                "loose strip larger than the top",
                strip["id"],
                f"{strip['length_ticks']} of {old[along]} ticks",
            )
    for axis, size in used.items():
        if size > old[axis]:
            yield PlanFault(
                "loose strips larger than the top",
                axis,
                f"panel and strips take {size} ticks, the old top had {old[axis]}",
            )


def _lane_faults(plan: Plain) -> Iterator[PlanFault]:
    lanes = {lane["id"]: (stick, lane) for stick in plan["sticks"] for lane in stick["lanes"]}
    seen: set[str] = set()
    for strip in plan["as_cut"]["loose"]:
        room = strip["width_ticks"] - strip["edge_waste_ticks"] + plan["rules"]["kerf_ticks"]
        for name in strip["lanes"]:
            if name in seen:
                yield PlanFault("loose lane used twice", name, "two loose strips give it")
            seen.add(name)
            if name not in lanes:
                yield PlanFault("unknown loose lane", name, f"no stick has it, {strip['id']} gives it")
                continue
            stick, lane = lanes[name]
            if stick["side"] != strip["side"]:
                yield PlanFault(
                    "lane of another side", name, f"{strip['id']} came off the {strip['side']} side"
                )
            length = lane["trim_start_ticks"] + lane["length_ticks"] + lane["trim_end_ticks"]
            if length > strip["length_ticks"]:
                yield PlanFault(
                    "lane longer than its loose strip", name, f"{length} of {strip['length_ticks']} ticks"
                )
            room -= lane["width_ticks"] + plan["rules"]["kerf_ticks"]
        if room < 0 and strip["lanes"]:
            yield PlanFault(
                "lanes wider than their loose strip", strip["id"], f"{-room} ticks more than it is wide"
            )
