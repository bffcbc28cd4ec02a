"""Checks the saw sequence by sawing the panel in thought, cut by cut, in the frame of the old top."""

from __future__ import annotations

from collections.abc import Iterator

from edgewright.cutlist.check_faults import Plain, PlanFault
from edgewright.cutlist.check_loose import cuts_made, first_edges, loose_lanes

__all__ = ["cut_faults"]

_OPPOSITE = {"north": "south", "south": "north", "east": "west", "west": "east"}


def cut_faults(plan: Plain) -> Iterator[PlanFault]:
    """Faults in the cuts: datum, kerf, guide, expected offcut, order, finished size, and what each yields."""
    edges = first_edges(plan)
    (x, y), (length, width) = plan["finished_origin_ticks"], plan["finished_ticks"]
    finished = {"west": x, "south": y, "east": x + length, "north": y + width}
    fresh: set[str] = set() if plan["as_cut"] is None else set(plan["as_cut"]["fresh"])
    crosscut_seen = False
    for number, cut in enumerate(plan["cuts"], start=1 + cuts_made(plan)):
        place = f"cut {cut['number']}"
        if cut["number"] != number:
            yield PlanFault("cuts out of number", place, f"this is cut {number}")
        if edges == finished:
            yield PlanFault("cut after the finished size", place, "the panel already has its finished size")
        kind = "rip" if _is_lengthwise(plan) == (cut["side"] in ("north", "south")) else "crosscut"
        if cut["kind"] != kind:
            yield PlanFault("wrong cut kind", place, f"a {cut['side']} cut in this top is a {kind}")
        crosscut_seen |= kind == "crosscut"
        if kind == "rip" and crosscut_seen:
            yield PlanFault(
                "crosscut before rip", place, "rips come first, so that their offcuts keep full length"
            )
        yield from _position_faults(plan, cut, place, edges, fresh)
        inward = -1 if cut["side"] in ("north", "east") else 1
        edges[cut["side"]] = edges[_OPPOSITE[cut["side"]]] - inward * cut["keep_ticks"]
        fresh.add(cut["side"])
        beyond = inward * (edges[cut["side"]] - finished[cut["side"]])
        if beyond > 0:
            yield PlanFault("cut into the finished top", place, f"it takes {beyond} ticks too much off")
    if edges != finished:
        wrong = ", ".join(
            f"{side} at {edges[side]}, not {finished[side]}"
            for side in edges
            if edges[side] != finished[side]
        )
        yield PlanFault("wrong finished size", "panel", f"after the last cut: {wrong} ticks")
    yield from _yield_faults(plan)


def _is_lengthwise(plan: Plain) -> bool:
    """Whether rips run east to west, which is along the longer side of the old top."""
    return bool(plan["old_ticks"][0] >= plan["old_ticks"][1])


def _position_faults(
    plan: Plain, cut: Plain, place: str, edges: dict[str, int], fresh: set[str]
) -> Iterator[PlanFault]:
    rules, keep, kerf_end = plan["rules"], cut["keep_ticks"], cut["kerf_end_ticks"]
    if cut["datum"] != _OPPOSITE[cut["side"]]:
        yield PlanFault(
            "wrong datum", place, f"a {cut['side']} cut is measured from the {_OPPOSITE[cut['side']]} edge"
        )
        return
    is_fresh = cut["datum"] in fresh
    if is_fresh and cut["datum_edge"] == "old":
        yield PlanFault(
            "datum not handed over", place, f"the {cut['datum']} edge was cut: measure from the fresh one"
        )
    elif not is_fresh and cut["datum_edge"] == "fresh":
        yield PlanFault("wrong datum edge", place, f"the {cut['datum']} edge was never cut")
    across = ("south", "north") if cut["side"] in ("north", "south") else ("west", "east")
    along = ("west", "east") if cut["side"] in ("north", "south") else ("south", "north")
    panel, length = edges[across[1]] - edges[across[0]], edges[along[1]] - edges[along[0]]
    if cut["panel_before_ticks"] != panel:
        yield PlanFault(
            "wrong panel width", place, f"{cut['panel_before_ticks']} ticks given, {panel} recomputed"
        )
    if not 0 < keep < panel:
        yield PlanFault("keep line off the panel", place, f"at {keep} of {panel} ticks")
    if kerf_end < keep:
        yield PlanFault(
            "kerf on the keep side", place, f"the kerf ends {keep - kerf_end} ticks inside the keep line"
        )
    elif kerf_end != keep + rules["kerf_ticks"]:
        yield PlanFault(
            "dropped kerf", place, f"{kerf_end - keep} ticks wide, the saw takes {rules['kerf_ticks']}"
        )
    on_grid = all(size % rules["grid_ticks"] == 0 for size in plan["old_ticks"])
    if not is_fresh and on_grid and keep % rules["grid_ticks"]:
        yield PlanFault(
            "keep line off the grid", place, f"{keep} is no multiple of {rules['grid_ticks']} ticks"
        )
    yield from _guide_faults(rules, cut, place)
    offcut = (max(0, panel - keep - rules["kerf_ticks"]), length)
    if (cut["offcut_width_ticks"], cut["offcut_length_ticks"]) != offcut:
        yield PlanFault(
            "wrong expected offcut",
            place,
            f"{cut['offcut_width_ticks']} x {cut['offcut_length_ticks']} told, {offcut[0]} x {offcut[1]} due",
        )


def _guide_faults(rules: Plain, cut: Plain, place: str) -> Iterator[PlanFault]:
    # the offset is measured to the near side of the kerf, so the kerf counts only with the guide on the waste
    if cut["guide_side"] != rules["guide_side"]:
        yield PlanFault(
            "wrong guide side", place, f"{cut['guide_side']} side given, the job says {rules['guide_side']}"
        )
    if cut["guide_offset_ticks"] != rules["guide_offset_ticks"]:
        yield PlanFault("wrong guide offset", place, f"the job says {rules['guide_offset_ticks']} ticks")
    figures = {
        "keep": cut["keep_ticks"] - rules["guide_offset_ticks"],
        "waste": cut["keep_ticks"] + rules["kerf_ticks"] + rules["guide_offset_ticks"],
    }
    right = figures.pop(rules["guide_side"])
    if cut["guide_ticks"] != right:
        other = cut["guide_ticks"] in figures.values()
        name = "guide figure on the wrong side" if other else "wrong guide figure"
        yield PlanFault(name, place, f"{cut['guide_ticks']} given, {right} ticks recomputed")


def _yield_faults(plan: Plain) -> Iterator[PlanFault]:
    strips: dict[str, list[tuple[Plain, Plain]]] = {}
    for stick in plan["sticks"]:
        for lane in stick["lanes"]:
            strips.setdefault(lane["strip"], []).append((stick, lane))
    remnants = {remnant["id"] for remnant in plan["remnants"]}
    ripped = loose_lanes(plan)
    for cut in plan["cuts"]:
        name, place = cut["yields"], f"cut {cut['number']}"
        if name is None or (name in remnants and name not in strips):
            continue
        if name not in strips:
            yield PlanFault("unknown yield", place, f"{name!r} is no strip and no remnant")
            continue
        if name in ripped:
            yield PlanFault("lane ripped twice", place, f"{name} came off an earlier cut")
        ripped.add(name)
        for stick, lane in strips[name]:
            yield from _lane_of_cut_faults(stick, lane, cut, place)
    used = {piece["lane_id"] for piece in plan["pieces"]}
    for name, lanes in strips.items():
        for stick, lane in lanes:
            if stick["side"] is not None and lane["id"] in used and name not in ripped:
                yield PlanFault("lane never ripped", lane["id"], "pieces come from it, but no cut yields it")


def _lane_of_cut_faults(stick: Plain, lane: Plain, cut: Plain, place: str) -> Iterator[PlanFault]:
    name = lane["id"]
    if stick["side"] != cut["side"]:
        yield PlanFault("lane of another side", place, f"{name} belongs to {stick['name']}")
    if lane["width_ticks"] != cut["offcut_width_ticks"]:
        yield PlanFault(
            "lane does not match its cut",
            place,
            f"{name} is {lane['width_ticks']} ticks wide, the offcut {cut['offcut_width_ticks']}",
        )
    length = lane["trim_start_ticks"] + lane["length_ticks"] + lane["trim_end_ticks"]
    if length > cut["offcut_length_ticks"]:
        yield PlanFault(
            "lane does not match its cut",
            place,
            f"{name} needs {length} ticks, the offcut has {cut['offcut_length_ticks']}",
        )
