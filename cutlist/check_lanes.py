"""Checks the stock: sticks used once, lanes within their sticks, pieces and kerfs in lanes, remnants."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from edgewright.cutlist.check_faults import Plain, PlanFault
from edgewright.cutlist.check_loose import loose_left

__all__ = ["is_nested", "lane_gaps", "remnant_faults", "stock_faults"]


def stock_faults(plan: Plain) -> Iterator[PlanFault]:
    """Faults in sticks and lanes and in how pieces lie in the lanes (ticks)."""
    sticks: set[str] = set()
    lanes: set[str] = set()
    for stick in plan["sticks"]:
        if stick["id"] in sticks:
            yield PlanFault("stick used twice", stick["id"], "two sticks have this id")
        sticks.add(stick["id"])
        for lane in stick["lanes"]:
            if lane["id"] in lanes:
                yield PlanFault("stick used twice", lane["id"], "two lanes have this id")
            lanes.add(lane["id"])
        yield from _stick_faults(plan, stick)
    for stick in plan["sticks"]:
        for lane in stick["lanes"]:
            yield from _lane_faults(plan, lane)


def _stick_faults(plan: Plain, stick: Plain) -> Iterator[PlanFault]:
    if (stick["source"] == "offcut") != (stick["side"] is not None):
        yield PlanFault(
            "wrong stick side", stick["id"], "an offcut comes off a side of the top, a board does not"
        )
    for lane in stick["lanes"]:
        if lane["width_ticks"] < plan["strip_width_ticks"]:
            yield PlanFault(
                "lane too narrow",
                lane["id"],
                f"{lane['width_ticks']} ticks, a strip is {plan['strip_width_ticks']}",
            )
        # wider by more than a tape shows, and what is cut to fit between two of them is too long
        if lane["width_ticks"] > plan["strip_width_ticks"] + plan["rules"]["sliver_ticks"]:
            yield PlanFault(
                "lane too wide",
                lane["id"],
                f"{lane['width_ticks']} ticks, a strip is {plan['strip_width_ticks']}",
            )
        length = lane["trim_start_ticks"] + lane["length_ticks"] + lane["trim_end_ticks"]
        if length > stick["length_ticks"]:
            yield PlanFault(
                "lane longer than its stick",
                lane["id"],
                f"{length} ticks with its trimmed ends, the stick is {stick['length_ticks']}",
            )
    strips: dict[str, list[Plain]] = {}
    for lane in stick["lanes"]:
        strips.setdefault(lane["strip"], []).append(lane)
    for name, lanes in strips.items():
        yield from _run_faults(plan, name, lanes)
    if stick["side"] is None and strips:
        kerfs = (len(strips) - 1) * plan["rules"]["kerf_ticks"]
        width = sum(lanes[0]["width_ticks"] for lanes in strips.values()) + kerfs
        if width > stick["width_ticks"]:
            yield PlanFault(
                "lanes wider than their board",
                stick["id"],
                f"lanes and kerfs take {width} ticks, the board is {stick['width_ticks']}",
            )


def _run_faults(plan: Plain, name: str, lanes: list[Plain]) -> Iterator[PlanFault]:
    """Faults in how the lanes of one strip lie behind one another."""
    sizes = {
        (lane["width_ticks"], lane["trim_start_ticks"] + lane["length_ticks"] + lane["trim_end_ticks"])
        for lane in lanes
    }
    if len(sizes) > 1:
        yield PlanFault("lanes of unlike strips", name, f"width and raw length differ: {sorted(sizes)} ticks")
    reached = None
    for lane in sorted(lanes, key=lambda lane: lane["trim_start_ticks"]):
        start, kerf = lane["trim_start_ticks"], plan["rules"]["kerf_ticks"]
        if reached is not None and start < reached + kerf:
            yield PlanFault(
                "no kerf between lanes",
                lane["id"],
                f"{start - reached} ticks before it, the saw takes {kerf}",
            )
        reached = start + lane["length_ticks"]


def _in_lane(plan: Plain, lane: Plain) -> list[Plain]:
    return sorted(
        (piece for piece in plan["pieces"] if piece["lane_id"] == lane["id"]),
        key=lambda piece: (piece["lane_start_ticks"], piece["length_ticks"]),
    )


def _lane_faults(plan: Plain, lane: Plain) -> Iterator[PlanFault]:
    pieces = _in_lane(plan, lane)
    reached = 0  # the end of all pieces but the last one: nothing may lie over those
    for number, piece in enumerate(pieces):
        start, end = piece["lane_start_ticks"], piece["lane_start_ticks"] + piece["length_ticks"]
        if start < 0:
            yield PlanFault("piece before the lane's start", piece["id"], f"it starts at {start} ticks")
        if end > lane["length_ticks"]:
            yield PlanFault(
                "piece past the lane's end",
                piece["id"],
                f"it ends at {end}, the lane at {lane['length_ticks']} ticks",
            )
        if number == 0:
            continue
        before = pieces[number - 1]
        before_end = before["lane_start_ticks"] + before["length_ticks"]
        nested = is_nested(before, piece)
        free = before_end - plan["strip_width_ticks"] if nested else before_end
        kerf = plan["rules"]["mitre_kerf_ticks" if nested else "kerf_ticks"]
        place = f"{lane['id']}: {before['id']} and {piece['id']}"
        if start < max(free, reached):
            yield PlanFault(
                "overlap in a lane", place, f"{max(free, reached) - start} ticks of wood are used twice"
            )
        elif start < free + kerf:
            yield PlanFault("dropped kerf", place, f"{start - free} ticks between them, the saw takes {kerf}")
        reached = max(reached, before_end)


def is_nested(before: Plain, after: Plain) -> bool:
    """Whether two neighbours share one slanted cut: both facing ends mitred and exactly one piece turned.

    Turning a piece end for end keeps the slant of its ends: facing ends are then both starts or both ends.
    """
    last = before["start_cut"] if before["turned"] else before["end_cut"]
    first = after["end_cut"] if after["turned"] else after["start_cut"]
    return bool(last == first == "mitre" and before["turned"] != after["turned"])


def lane_gaps(plan: Plain, lane: Plain) -> list[int]:
    """Usable lengths left in a lane in ticks: beside pieces and their kerfs, trimmed ends not counted."""
    pieces, kerf = _in_lane(plan, lane), plan["rules"]["kerf_ticks"]
    if not pieces:
        return [int(lane["length_ticks"])]
    gaps, reached = [pieces[0]["lane_start_ticks"] - kerf], None
    for piece in pieces:
        if reached is not None:
            gaps.append(piece["lane_start_ticks"] - reached - 2 * kerf)
        reached = max(reached or 0, piece["lane_start_ticks"] + piece["length_ticks"])
    gaps.append(lane["length_ticks"] - (reached or 0) - kerf)
    return [gap for gap in gaps if gap > 0]


def remnant_faults(plan: Plain) -> Iterator[PlanFault]:
    """Faults in what is said to go back to the rack: never more than what the pieces and the saw leave."""
    sticks = {stick["id"]: stick for stick in plan["sticks"]}
    used = {piece["lane_id"] for piece in plan["pieces"]}
    off_a_cut = {cut["yields"]: cut for cut in plan["cuts"] if cut["yields"] is not None}
    loose = loose_left(plan)
    claimed: dict[str, int] = {}
    seen: set[str] = set()
    for remnant in plan["remnants"]:
        name, size = remnant["id"], (remnant["length_ticks"], remnant["width_ticks"])
        if name in seen:
            yield PlanFault("remnant named twice", name, "two remnants have this id")
        seen.add(name)
        if min(size) <= 0:
            yield PlanFault("remnant without size", name, f"{size[0]} by {size[1]} ticks")
        stick = sticks.get(remnant["stick_id"])
        if stick is None:
            yield PlanFault("unknown stick", name, f"no stick {remnant['stick_id']!r}")
            continue
        cut = off_a_cut.get(name)
        whole = (
            (cut["offcut_length_ticks"], cut["offcut_width_ticks"])
            if cut
            else loose.get(name, (stick["length_ticks"], stick["width_ticks"]))
        )
        if any(part > room for part, room in zip(sorted(size), sorted(whole), strict=True)):
            yield PlanFault(
                "remnant larger than its stick", name, f"{size[0]} by {size[1]} out of {whole} ticks"
            )
        touched = any(lane["id"] in used for lane in stick["lanes"])
        if cut is None and name == f"rest of {stick['id']}":
            yield from _board_rest_faults(plan, stick, remnant, used)
        elif cut is None and name not in loose and touched and size[1] == plan["strip_width_ticks"]:
            claimed[stick["id"]] = claimed.get(stick["id"], 0) + size[0]
    for stick_id, length in sorted(claimed.items()):
        # trimmed-off ends may be counted as wood or as waste: both are let pass, where no other lane lies in them
        lanes = sticks[stick_id]["lanes"]
        runs = Counter(lane["strip"] for lane in lanes)
        left = sum(
            sum(lane_gaps(plan, lane))
            + (lane["trim_start_ticks"] + lane["trim_end_ticks"] if runs[lane["strip"]] == 1 else 0)
            for lane in lanes
        )
        if length > left:
            yield PlanFault(
                "remnant longer than what is left", stick_id, f"{length} ticks claimed, {left} left"
            )


def _board_rest_faults(plan: Plain, stick: Plain, remnant: Plain, used: set[str]) -> Iterator[PlanFault]:
    """Faults in what is left of a board beside its strips in use, their kerfs and an old edge."""
    strips = {lane["strip"]: lane["width_ticks"] for lane in stick["lanes"] if lane["id"] in used}
    taken = sum(width + plan["rules"]["kerf_ticks"] for width in strips.values())
    left = stick["width_ticks"] - (stick["edge_waste_ticks"] if strips else 0) - taken
    if remnant["width_ticks"] > left:
        yield PlanFault(
            "remnant wider than what is left",
            remnant["id"],
            f"{remnant['width_ticks']} ticks claimed, {left} left",
        )
