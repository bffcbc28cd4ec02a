"""Checks the pieces: each side covered end to end, and every splice where the rules allow one."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from edgewright.cutlist.check_faults import Plain, PlanFault

__all__ = ["piece_faults"]


def piece_faults(plan: Plain) -> Iterator[PlanFault]:
    """Faults in how the pieces cover the sides; positions in ticks from each side's start."""
    lane_ids = {lane["id"] for stick in plan["sticks"] for lane in stick["lanes"]}
    side_ids = {side["id"] for side in plan["sides"]}
    seen: set[str] = set()
    for piece in plan["pieces"]:
        if piece["id"] in seen:
            yield PlanFault("piece used twice", piece["id"], "two pieces have this id")
        seen.add(piece["id"])
        if piece["lane_id"] not in lane_ids:
            yield PlanFault("unknown lane", piece["id"], f"no stick has a lane {piece['lane_id']!r}")
        if piece["side_id"] not in side_ids:
            yield PlanFault("unknown side", piece["id"], f"the ring has no side {piece['side_id']!r}")
        if piece["length_ticks"] <= 0:
            yield PlanFault("piece too short", piece["id"], f"it is {piece['length_ticks']} ticks long")
        if piece["turned"] and not (plan["corners"] == "mitre" and plan["rules"]["nest_mitres"]):
            yield PlanFault("turned without mitre", piece["id"], "only nested mitres are turned end for end")
    splices: dict[str, list[int]] = {}
    for side in plan["sides"]:
        covering = sorted(
            (piece for piece in plan["pieces"] if piece["side_id"] == side["id"]),
            key=lambda piece: (piece["side_start_ticks"], piece["length_ticks"]),
        )
        if not covering:
            yield PlanFault("missing piece", side["id"], "no piece covers this side")
            continue
        yield from _cover_faults(side, covering)
        splices[side["id"]] = [piece["side_start_ticks"] for piece in covering[1:]]
        yield from _splice_faults(plan, side, covering, splices[side["id"]])
        yield from _end_cut_faults(side, covering)
    yield from _stagger_faults(plan, splices)


def _cover_faults(side: Plain, covering: list[Plain]) -> Iterator[PlanFault]:
    reached = 0
    for piece in covering:
        start = piece["side_start_ticks"]
        if start > reached:
            yield PlanFault("gap in a side", side["id"], f"nothing covers {reached} to {start} ticks")
        elif start < reached:
            yield PlanFault(
                "overlap in a side", side["id"], f"{piece['id']} starts {reached - start} ticks early"
            )
        reached = start + piece["length_ticks"]
    length = side["length_ticks"]
    if reached < length:
        yield PlanFault("gap in a side", side["id"], f"nothing covers {reached} to {length} ticks")
    elif reached > length:
        yield PlanFault(
            "piece past the side's end", side["id"], f"pieces reach {reached}, the side ends at {length}"
        )


def _splice_faults(
    plan: Plain, side: Plain, covering: list[Plain], splices: list[int]
) -> Iterator[PlanFault]:
    rules = plan["rules"]
    if not splices:
        return  # a side in one piece may be as short as it is
    if not rules["splices_allowed"]:
        yield PlanFault("splice where forbidden", side["id"], "the job allows no splices")
    if len(splices) > side["max_splices"]:
        yield PlanFault(
            "too many splices", side["id"], f"{len(splices)} where {side['max_splices']} are allowed"
        )
    for piece in covering:
        if piece["length_ticks"] < rules["min_piece_ticks"]:
            yield PlanFault(
                "piece too short",
                piece["id"],
                f"{piece['length_ticks']} ticks, a spliced piece has at least {rules['min_piece_ticks']}",
            )
    for splice in splices:
        place = f"{side['id']} at {splice}"
        from_start = side["start_offset_ticks"] + splice
        from_end = side["end_offset_ticks"] + side["length_ticks"] - splice
        nearest = min(from_start, from_end)
        if nearest < rules["from_corner_ticks"]:
            yield PlanFault(
                "splice near a corner",
                place,
                f"{nearest} ticks from it, at least {rules['from_corner_ticks']}",
            )
        for seam in side["seams_ticks"]:
            if abs(splice - seam) < rules["from_seam_ticks"]:
                yield PlanFault(
                    "splice near a seam",
                    place,
                    f"{abs(splice - seam)} ticks from it, at least {rules['from_seam_ticks']}",
                )
        if splice % rules["grid_ticks"]:
            yield PlanFault("splice off the grid", place, f"no multiple of {rules['grid_ticks']} ticks")


def _end_cut_faults(side: Plain, covering: list[Plain]) -> Iterator[PlanFault]:
    for number, piece in enumerate(covering):
        start = side["end_cut"] if number == 0 else "square"
        end = side["end_cut"] if number == len(covering) - 1 else "square"
        if (piece["start_cut"], piece["end_cut"]) != (start, end):
            yield PlanFault(
                "wrong end cut",
                piece["id"],
                f"{piece['start_cut']} and {piece['end_cut']} given, {start} and {end} needed",
            )


def _stagger_faults(plan: Plain, splices: dict[str, list[int]]) -> Iterator[PlanFault]:
    """Splices one above another in neighbouring layers, both measured from the same finished corner."""
    stagger = plan["rules"]["stagger_ticks"]
    for compass in ("north", "east", "south", "west"):
        layers = sorted((s for s in plan["sides"] if s["side"] == compass), key=lambda side: side["layer"])
        for lower, upper in pairwise(layers):
            if upper["layer"] != lower["layer"] + 1:
                continue
            for a in splices.get(lower["id"], []):
                for b in splices.get(upper["id"], []):
                    apart = abs(lower["start_offset_ticks"] + a - upper["start_offset_ticks"] - b)
                    if apart < stagger:
                        yield PlanFault(
                            "splice over a splice",
                            f"{lower['id']} and {upper['id']}",
                            f"{apart} ticks apart, at least {stagger}",
                        )
