"""Checks the work at the bench by sawing it in thought: boards on the fence, then strips on the crosscut saw.

Every cut goes right across what lies on the saw and turns one kerf of it to dust. At the end each piece must have come
out once, with its length and its mitres, to the tick; once in the order of the crosscut list and once in that of the
stops. Reads plain data and imports the standard library only, like the rest of the checker.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from edgewright.cutlist.check_faults import Plain, PlanFault
from edgewright.cutlist.check_loose import loose_strips

__all__ = ["sequence_faults"]


@dataclass(frozen=True, slots=True)
class _Wood:
    """Wood on the saw: where its two long edges begin and end along the strip as ripped, ticks."""

    inner: tuple[int, int]
    outer: tuple[int, int]

    def holds(self, other: _Wood) -> bool:
        return (
            self.inner[0] <= other.inner[0] and other.inner[1] <= self.inner[1]
            and self.outer[0] <= other.outer[0] and other.outer[1] <= self.outer[1]
        )  # fmt: skip

    @property
    def is_dust(self) -> bool:
        return self.inner[0] >= self.inner[1] and self.outer[0] >= self.outer[1]


def sequence_faults(
    plan: Plain, rips: Sequence[Plain], cuts: Sequence[Plain], stops: Sequence[Plain]
) -> tuple[PlanFault, ...]:
    """Every fault of a saw sequence; empty when it is sound.

    Parameters
    ----------
    plan
        The cut plan as plain data, already passed by `edgewright.cutlist.checker.check_plan`.
    rips, cuts, stops
        Fence rips, crosscuts and stop settings as plain data (``plan.json`` holds them).
    """
    strips: dict[str, int] = {}
    faults = [*_rip_faults(plan, rips, strips), *_loose_faults(plan, rips, strips)]
    for cut in plan["cuts"]:
        if cut["yields"] is not None:
            strips[cut["yields"]] = cut["offcut_length_ticks"]
    faults += _saw_faults(plan, strips, cuts, "crosscut list")
    faults += _stop_faults(plan, cuts, stops)
    if not faults:
        by_piece: dict[str | None, list[Plain]] = {}
        for cut in cuts:
            by_piece.setdefault(cut["piece_id"], []).append(cut)
        ids = [None, *(name for stop in stops for name in stop["piece_ids"])]
        by_stop = [cut for name in ids for cut in by_piece.get(name, ())]
        faults += _saw_faults(plan, strips, by_stop, "stop list")
    return tuple(faults)


def _rip_faults(plan: Plain, rips: Sequence[Plain], strips: dict[str, int]) -> Iterator[PlanFault]:
    """Saw the boards; what comes off goes into ``strips``: name and length in ticks."""
    kerf = plan["rules"]["kerf_ticks"]
    used = {piece["lane_id"] for piece in plan["pieces"]}
    settings = [(rip["lane_id"] is not None, -rip["fence_ticks"]) for rip in rips]
    if settings != sorted(settings):
        yield PlanFault(
            "fence set twice", "fence", "old edges come off first, then strips, wide before narrow"
        )
    loose = loose_strips(plan)
    known = {stick["id"] for stick in plan["sticks"] if stick["side"] is None} | {s["id"] for s in loose}
    for name in {rip["stick_id"] for rip in rips} - known:
        yield PlanFault("unknown stick", name, "no board has this name")
    for stick in plan["sticks"]:
        if stick["side"] is not None:
            continue
        rows = list(dict.fromkeys(lane["strip"] for lane in stick["lanes"]))
        wide = {lane["strip"]: lane["width_ticks"] for lane in stick["lanes"]}
        left, waste, row = stick["width_ticks"], stick["edge_waste_ticks"], 0
        for rip in (rip for rip in rips if rip["stick_id"] == stick["id"]):
            name, fence = rip["lane_id"], rip["fence_ticks"]
            if rip["length_ticks"] != stick["length_ticks"]:
                yield PlanFault(
                    "rip stops inside a board",
                    stick["id"],
                    f"{rip['length_ticks']} of {stick['length_ticks']} ticks",
                )
            if name is None:
                if left != stick["width_ticks"] or fence != left - waste:
                    yield PlanFault(
                        "wrong fence", stick["id"], f"{fence} to take an edge of {waste} off {left} ticks"
                    )
                left = fence
                continue
            if name in strips or name not in wide:
                yield PlanFault(
                    "wrong rip", stick["id"], f"{name} is no strip of this board, or came off before"
                )
                continue
            if waste and left == stick["width_ticks"]:
                yield PlanFault(
                    "old edge in a strip", name, "the old edge was not taken off before the first strip"
                )
            if fence != wide[name]:
                yield PlanFault("wrong fence", name, f"{fence} ticks, the strip is {wide[name]} wide")
            if left - fence < waste:
                yield PlanFault(
                    "no wood for the strip",
                    name,
                    f"{left} ticks are left, strip and old edge take {fence + waste}",
                )
            # with defects it matters which strip of its board comes off
            if stick["defects"] and rows.index(name) != row:
                yield PlanFault("strip out of order", name, f"it is strip {row + 1} that comes off here")
            row += 1
            strips[name] = stick["length_ticks"]
            left = max(0, left - fence - kerf)
        for name in rows:
            needed = any(lane["strip"] == name and lane["id"] in used for lane in stick["lanes"])
            if needed and name not in strips:
                # what is left of a board may be a strip as it is
                if waste or wide[name] != left:
                    yield PlanFault("strip never ripped", name, "pieces come from it, but no rip yields it")
                strips[name], left = stick["length_ticks"], 0


def _loose_faults(plan: Plain, rips: Sequence[Plain], strips: dict[str, int]) -> Iterator[PlanFault]:
    """Saw what came off before; its inner edge lies against the fence, old finish is left over at the outer one."""
    lanes = {lane["id"]: lane for stick in plan["sticks"] for lane in stick["lanes"]}
    used = {piece["lane_id"] for piece in plan["pieces"]}
    for strip in loose_strips(plan):
        left, length = strip["width_ticks"], strip["length_ticks"]
        for rip in (rip for rip in rips if rip["stick_id"] == strip["id"]):
            name, fence = rip["lane_id"], rip["fence_ticks"]
            if name not in strip["lanes"] or name in strips:
                yield PlanFault("wrong rip", strip["id"], f"{name} is no strip of it, or came off before")
                continue
            if fence != lanes[name]["width_ticks"] or rip["length_ticks"] != length:
                yield PlanFault("wrong fence", name, f"{fence} x {rip['length_ticks']} ticks")
            if left - fence < strip["edge_waste_ticks"]:
                yield PlanFault(
                    "no wood for the strip", name, f"{left} ticks are left, the strip takes {fence}"
                )
            strips[name] = length
            left = max(0, left - fence - plan["rules"]["kerf_ticks"])
        for name in strip["lanes"]:
            if name in used and name not in strips:
                if lanes[name]["width_ticks"] != left or strip["edge_waste_ticks"]:
                    yield PlanFault("strip never ripped", name, "pieces come from it, but no rip yields it")
                strips[name], left = length, 0


def _saw_faults(plan: Plain, strips: dict[str, int], cuts: Sequence[Plain], what: str) -> Iterator[PlanFault]:
    """Saw the strips; each piece must lie there at the end, once."""
    lanes = {lane["id"]: lane for stick in plan["sticks"] for lane in stick["lanes"]}
    pieces = {piece["id"]: piece for piece in plan["pieces"]}
    wood = {name: [_Wood((0, length), (0, length))] for name, length in strips.items()}
    for cut in cuts:
        lane, piece = lanes.get(cut["lane_id"]), pieces.get(cut["piece_id"])
        place = f"{what}: {cut['piece_id'] or 'start'} in {cut['lane_id']}"
        if lane is None or lane["strip"] not in wood or (piece is None and cut["piece_id"] is not None):
            yield PlanFault("cut without wood", place, "no such strip or piece lies there")
            continue
        here = wood[lane["strip"]]
        if piece is None:
            yield from _square(plan, here, cut, place)
        else:
            yield from _cut_off(plan, here, lane, piece, cut, place)
    for piece in plan["pieces"]:
        lane = lanes[piece["lane_id"]]
        shape = _shape(lane, piece)
        if wood.get(lane["strip"], []).count(shape) != 1:
            yield PlanFault(
                "piece not cut to length",
                f"{what}: {piece['id']}",
                f"no wood lies from {shape.inner[0]} to {shape.inner[1]} ticks, ends as they should be",
            )


def _square(plan: Plain, here: list[_Wood], cut: Plain, place: str) -> Iterator[PlanFault]:
    """A squaring cut: measured from the raw end, its kerf before the stop."""
    at, kerf = cut["stop_ticks"], plan["rules"]["kerf_ticks"]
    part = next((part for part in here if part.inner[0] == part.outer[0] == 0), None)
    if part is None or not 0 < at < part.inner[1] or part.inner[1] != part.outer[1]:
        yield PlanFault("cut without wood", place, f"no wood from the raw end to {at} ticks")
        return
    if cut["length_ticks"] != part.inner[1] - at:
        yield PlanFault(
            "wrong length on the saw", place, f"{cut['length_ticks']} given, {part.inner[1] - at} ticks left"
        )
    here.remove(part)
    before, behind = _Wood((0, at - kerf), (0, at - kerf)), _Wood((at, part.inner[1]), (at, part.inner[1]))
    here += [new for new in (before, behind) if not new.is_dust]


def _cut_off(
    plan: Plain, here: list[_Wood], lane: Plain, piece: Plain, cut: Plain, place: str
) -> Iterator[PlanFault]:
    """A cut at the near or the far end of a piece, as it lies in its lane."""
    shape, at = _shape(lane, piece), lane["trim_start_ticks"] + cut["stop_ticks"]
    part = next((part for part in here if part.holds(shape)), None)
    if part is None:
        yield PlanFault("cut without wood", place, "the piece is no longer whole")
        return
    if (cut["length_ticks"], cut["turned"]) != (piece["length_ticks"], piece["turned"]):
        yield PlanFault(
            "wrong length", place, f"{cut['length_ticks']} given, the piece is {piece['length_ticks']}"
        )
    mitre, far = cut["cut"] == "mitre", cut["end"] == "end"
    at_end = piece["lane_start_ticks"] + (piece["length_ticks"] if far else 0)
    if cut["stop_ticks"] != at_end:
        yield PlanFault(
            "cut beside the end", place, f"{cut['stop_ticks']} given, the piece ends at {at_end} ticks"
        )
    if (part.outer[0] != shape.outer[0]) if piece["turned"] else (part.inner[0] != shape.inner[0]):
        yield PlanFault("piece not at the squared end", place, "other wood lies between it and the stop")
    kerf = plan["rules"]["mitre_kerf_ticks" if mitre else "kerf_ticks"]
    # a mitre falls back from the stop, on the edge that is not the long one
    back = lane["width_ticks"] * mitre * (-1 if far else 1)
    inner, outer = (at + back, at) if piece["turned"] else (at, at + back)
    here.remove(part)
    cuts_wood = (
        (inner < part.inner[1] or outer < part.outer[1])
        if far
        else (part.inner[0] < inner or part.outer[0] < outer)
    )
    if not cuts_wood:
        yield PlanFault("cut without wood", place, "the piece already ends there")
    shift = 0 if far else kerf
    before = _Wood((part.inner[0], inner - shift), (part.outer[0], outer - shift))
    shift = kerf if far else 0
    behind = _Wood((inner + shift, part.inner[1]), (outer + shift, part.outer[1]))
    here += [new for new in (before, behind) if not new.is_dust]


def _shape(lane: Plain, piece: Plain) -> _Wood:
    """A piece in its strip; one that is not turned has its long edge inside."""
    start = lane["trim_start_ticks"] + piece["lane_start_ticks"]
    end, width = start + piece["length_ticks"], lane["width_ticks"]
    near, far = piece["start_cut"], piece["end_cut"]
    if piece["turned"]:
        near, far = far, near
    short = (start + width * (near == "mitre"), end - width * (far == "mitre"))
    return _Wood(short, (start, end)) if piece["turned"] else _Wood((start, end), short)


def _stop_faults(plan: Plain, cuts: Sequence[Plain], stops: Sequence[Plain]) -> Iterator[PlanFault]:
    pieces = {piece["id"]: piece for piece in plan["pieces"]}
    cut_at_all = {cut["piece_id"] for cut in cuts if cut["piece_id"] is not None}
    listed = Counter(name for stop in stops for name in stop["piece_ids"])
    for name in sorted(cut_at_all - set(listed)):
        yield PlanFault("piece without a stop", name, "it is crosscut, but stands in no stop")
    for name, count in sorted(listed.items()):
        if name not in cut_at_all or count > 1:
            yield PlanFault("wrong stop", name, f"it stands in {count} stops, and is not cut or cut once")
    seen: set[tuple[int, int]] = set()
    for stop in stops:
        key = (stop["stop_ticks"], stop["mitres"])
        if key in seen:
            yield PlanFault("stop set twice", f"stop {key[0]}", "each stop is set once")
        seen.add(key)
        for name in stop["piece_ids"]:
            piece = pieces.get(name)
            mitres = [piece[key] for key in ("start_cut", "end_cut")].count("mitre") if piece else 0
            if piece is None or (piece["length_ticks"], mitres) != key:
                yield PlanFault("wrong stop", name, f"{key[0]} ticks, {key[1]} mitres do not fit this piece")
