"""Checks the ring: side lengths, corners and underside map, from width, proud and finished size."""

from __future__ import annotations

from collections.abc import Iterator

from edgewright.cutlist.check_faults import Plain, PlanFault

__all__ = ["map_faults", "outline_length", "ring_faults"]

_SIDES = ("north", "east", "south", "west")
#: Corner: the two ends that meet there. North and south start at the west, east and west at the south.
_CORNERS = {
    "south-west": (("south", "start_offset_ticks"), ("west", "start_offset_ticks")),
    "south-east": (("south", "end_offset_ticks"), ("east", "start_offset_ticks")),
    "north-east": (("north", "end_offset_ticks"), ("east", "end_offset_ticks")),
    "north-west": (("north", "start_offset_ticks"), ("west", "end_offset_ticks")),
}


def outline_length(plan: Plain, side: str) -> int:
    """Length of the finished top along ``side`` in ticks."""
    length, width = plan["finished_ticks"]
    return int(length if side in ("north", "south") else width)


def ring_faults(plan: Plain) -> Iterator[PlanFault]:
    """Faults in the sides of each layer and in how they meet at the corners."""
    ids = [side["id"] for side in plan["sides"]]
    for name in sorted({name for name in ids if ids.count(name) > 1}):
        yield PlanFault("side named twice", name, "two sides have this id")
    layers = sorted({side["layer"] for side in plan["sides"]})
    if layers != list(range(1, len(layers) + 1)) or not layers:
        yield PlanFault("layer missing", "ring", f"layers are {layers}, counted from 1 they must be gapless")
    for layer in layers:
        sides = [side for side in plan["sides"] if side["layer"] == layer]
        if sorted(side["side"] for side in sides) != sorted(_SIDES):
            yield PlanFault("side missing", f"layer {layer}", "a layer has each of its four sides once")
            continue
        for side in sides:
            yield from _side_faults(plan, side)
        if plan["corners"] != "mitre":
            yield from _corner_faults(plan, layer, {side["side"]: side for side in sides})


def _side_faults(plan: Plain, side: Plain) -> Iterator[PlanFault]:
    free, butts = -plan["proud_ticks"], plan["strip_width_ticks"] - plan["proud_ticks"]
    start, end = side["start_offset_ticks"], side["end_offset_ticks"]
    lawful = {
        "mitre": {(free, free)},
        "butt": {(free, free), (butts, butts)},
        "pinwheel": {(free, butts), (butts, free)},
    }[plan["corners"]]
    if (start, end) not in lawful:
        yield PlanFault(
            "wrong side offset",
            side["id"],
            f"ends stand {start} and {end} ticks from the corners; the ring has {free} or {butts}",
        )
    length = outline_length(plan, side["side"]) - start - end
    if side["length_ticks"] != length:
        yield PlanFault(
            "wrong side length", side["id"], f"{side['length_ticks']} ticks given, {length} ticks recomputed"
        )
    end_cut = "mitre" if plan["corners"] == "mitre" else "square"
    if side["end_cut"] != end_cut:
        yield PlanFault("wrong end cut", side["id"], f"a {plan['corners']} ring has {end_cut} ends")


def _corner_faults(plan: Plain, layer: int, sides: dict[str, Plain]) -> Iterator[PlanFault]:
    for corner, ends in _CORNERS.items():
        through = [name for name, offset in ends if sides[name][offset] == -plan["proud_ticks"]]
        if len(through) != 1:
            how = "both sides run through" if through else "both sides butt"
            yield PlanFault("corner does not close", f"layer {layer} {corner}", how)


def map_faults(plan: Plain) -> Iterator[PlanFault]:
    """Faults in the strip map, which must show every piece once, as seen with the top face down."""
    if plan["strip_map_view"] != "underside":
        yield PlanFault(
            "top view map",
            "strip map",
            f"the view is {plan['strip_map_view']!r}; strips are fitted face down",
        )
    pieces = {piece["id"]: piece for piece in plan["pieces"]}
    sides = {side["id"]: side for side in plan["sides"]}
    drawn = [strip["piece_id"] for strip in plan["strip_map"]]
    for name in sorted(set(pieces) - set(drawn)):
        yield PlanFault("piece not on the map", name, "the strip map leaves it out")
    for name in sorted({name for name in drawn if drawn.count(name) > 1 or name not in pieces}):
        yield PlanFault("wrong map strip", name, "is on the map twice or is no piece")
    for strip in plan["strip_map"]:
        piece = pieces.get(strip["piece_id"])
        side = sides.get(piece["side_id"]) if piece else None
        if piece is None or side is None:
            continue
        x0, y0, x1, y1 = _box_above(plan, side, piece)
        length = plan["finished_ticks"][0]
        got = (strip["x0_ticks"], strip["y0_ticks"], strip["x1_ticks"], strip["y1_ticks"])
        want = (length - x1, y0, length - x0, y1)
        if got == want:
            continue
        if got == (x0, y0, x1, y1):
            yield PlanFault(
                "mirrored map", piece["id"], f"x runs from the west; underside x is {want[0]}..{want[2]}"
            )
        else:
            yield PlanFault("wrong map strip", piece["id"], f"box {got} given, {want} recomputed")


def _box_above(plan: Plain, side: Plain, piece: Plain) -> tuple[int, int, int, int]:
    """Box of a piece seen from above, origin at the finished south-west corner."""
    width, proud = plan["strip_width_ticks"], plan["proud_ticks"]
    length, depth = plan["finished_ticks"]
    start = side["start_offset_ticks"] + piece["side_start_ticks"]
    end = start + piece["length_ticks"]
    if side["side"] == "south":
        return start, -proud, end, width - proud
    if side["side"] == "north":
        return start, depth + proud - width, end, depth + proud
    if side["side"] == "west":
        return -proud, start, width - proud, end
    return length + proud - width, start, length + proud, end
