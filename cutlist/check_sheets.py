"""The demand of a job that is cut from sheets: whether each part lies in the layout once, as large as it must be.

The layout itself is checked by `edgewright.cutlist.check_guillotine`; this looks at what the layout is for. It reads
plain data and shares no code with the planner.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from edgewright.cutlist.check_faults import Plain, PlanFault

__all__ = ["check_sheets"]

_OTHER = {"length": "width", "width": "length"}


def check_sheets(plain: Plain) -> tuple[PlanFault, ...]:
    """Every fault found; empty when the demand is met.

    Parameters
    ----------
    plain
        ``parts``: id, least length and width (ticks) and fixed grain of the top and of all pieces. ``wanted``:
        blanks with the ids of their pieces. ``laid_out``: stock, blanks, rules and plan. ``cut``: where each part is
        cut from. ``to_buy``: how many parts are not cut.
    """
    return tuple(_faults(plain))


def _faults(plain: Plain) -> Iterator[PlanFault]:
    parts = {part["id"]: part for part in plain["parts"]}
    if len(parts) != len(plain["parts"]):
        yield PlanFault("part listed twice", "parts", "two parts share an id")
    wanted: dict[str, Plain] = {}
    for blank in plain["wanted"]:
        if blank["count"] != len(blank["pieces"]):
            yield PlanFault("wrong count", blank["id"], f"{blank['count']} for {len(blank['pieces'])} parts")
        for name in blank["pieces"]:
            if name in wanted:
                yield PlanFault("part wanted twice", name, f"{wanted[name]['id']} and {blank['id']}")
            wanted[name] = blank
    for name, blank in wanted.items():
        part = parts.get(name)
        if part is None:
            yield PlanFault("unknown part", name, "no such part is in the job")
        elif blank["length"] < part["length"] or blank["width"] < part["width"]:
            yield PlanFault(
                "blank too small",
                name,
                f"{blank['length']} by {blank['width']} for {part['length']} by {part['width']}",
            )
        elif part["grain"] not in (None, blank["grain"]):
            yield PlanFault("wrong grain", name, f"{blank['grain']}, not {part['grain']}")
    yield from _cut_faults(plain, parts, wanted)


def _cut_faults(plain: Plain, parts: dict[str, Plain], wanted: dict[str, Plain]) -> Iterator[PlanFault]:
    """Parts that are cut against the places of the layout: each place is one part's, none is left over."""
    places = {
        (layout["stock_id"], layout["copy"], number, placed["start"]): (
            layout["first"],
            lane["width"],
            placed,
        )
        for layout in (plain["laid_out"] or {"plan": {"layouts": ()}})["plan"]["layouts"]
        for number, lane in enumerate(layout["lanes"], start=1)
        for placed in lane["pieces"]
    }
    done = Counter(one["piece_id"] for one in plain["cut"])
    for name, times in done.items():
        if times > 1:
            yield PlanFault("part cut twice", name, f"{times} times")
    for one in plain["cut"]:
        name = one["piece_id"]
        found = places.pop((one["stock_id"], one["copy"], one["lane"], one["start"]), None)
        if found is None:
            yield PlanFault("part lies nowhere", name, "its place is not in the layout or is another's")
            continue
        first, width, placed = found
        blank = wanted.get(name)
        if blank is None or blank["id"] != placed["blank_id"]:
            yield PlanFault("wrong blank", name, f"{placed['blank_id']} lies there")
            continue
        sides = (blank["width"], blank["length"]) if placed["turned"] else (blank["length"], blank["width"])
        told = (one["length"], one["width"], one["turned"])
        if (placed["length"], width) != sides or told != (*sides, placed["turned"]):
            yield PlanFault("wrong size", name, f"{placed['length']} by {width}, told as {told}, not {sides}")
        # the grain of a board runs along its length
        runs = first if (blank["grain"] == "length") != placed["turned"] else _OTHER[first]
        if name in parts and parts[name]["grain"] and runs != "length":
            yield PlanFault("across the grain", name, f"its grain lies along the {runs} of {one['stock_id']}")
    for stock_id, copy, lane, start in places:
        yield PlanFault("blank of no part", f"{stock_id} copy {copy}", f"lane {lane} at {start}")
    left = len(parts) - len(done)
    if left != plain["to_buy"]:
        yield PlanFault(
            "demand not met", "parts", f"{left} parts are not cut, {plain['to_buy']} are to be bought"
        )
