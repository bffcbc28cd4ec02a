"""Checks that no lane and no piece includes a defect, from the boxes in the plan."""

from __future__ import annotations

from collections.abc import Iterator

from edgewright.cutlist.check_faults import Plain, PlanFault
from edgewright.cutlist.check_loose import first_edges, loose_lanes

__all__ = ["defect_faults"]

#: A box in the frame of the old top or of a board: from and to along x, from and to along y, ticks.
Box = tuple[int, int, int, int]


def defect_faults(plan: Plain) -> Iterator[PlanFault]:
    """Faults where a lane or a piece lies over a defect, or nearer to it along the strip than the rules allow."""
    loose = loose_lanes(plan)
    for stick in plan["sticks"]:
        defects = plan["defects"] if stick["side"] is not None else stick["defects"]
        if not defects:
            continue
        # of what came off already only sound wood was measured
        lanes = [lane for lane in stick["lanes"] if lane["id"] not in loose]
        rows = list(dict.fromkeys(lane["strip"] for lane in lanes))
        for lane in lanes:
            row = rows.index(lane["strip"])
            if lane["length_ticks"]:
                yield from _faults(
                    "lane", lane["id"], plan, stick, defects, _place(plan, stick, lane, row, None)
                )
            for piece in plan["pieces"]:
                if piece["lane_id"] == lane["id"]:
                    place = _place(plan, stick, lane, row, piece)
                    yield from _faults("piece", piece["id"], plan, stick, defects, place)


def _faults(
    what: str, name: str, plan: Plain, stick: Plain, defects: list[Plain], place: Box
) -> Iterator[PlanFault]:
    along_x = stick["side"] not in ("east", "west")
    for defect in defects:
        (x0, x1), (y0, y1) = defect["along_ticks"], defect["across_ticks"]
        clear = _clearance(plan, defect)
        grown = (x0 - clear, x1 + clear, y0, y1) if along_x else (x0, x1, y0 - clear, y1 + clear)
        if place[0] < grown[1] and grown[0] < place[1] and place[2] < grown[3] and grown[2] < place[3]:
            yield PlanFault(
                f"{what} over a defect",
                name,
                f"it lies at {place} ticks, {defect['name']} with what stays clear of it at {grown}",
            )


def _clearance(plan: Plain, defect: Plain) -> int:
    """Least distance along the strip from a defect to a piece; metal keeps the kerf behind the piece away too."""
    rules = plan["rules"]
    if not defect["metal"]:
        return int(rules["defect_clearance_ticks"])
    return max(
        int(rules["defect_clearance_ticks"]), int(rules["kerf_ticks"] + rules["metal_clearance_ticks"])
    )


def _place(plan: Plain, stick: Plain, lane: Plain, row: int, piece: Plain | None) -> Box:
    """Where a lane, or a piece in it, lies in the frame that the defects are given in."""
    start, length = lane["trim_start_ticks"], lane["length_ticks"]
    if piece is not None:
        start, length = start + piece["lane_start_ticks"], piece["length_ticks"]
    kerf, width, side = plan["rules"]["kerf_ticks"], lane["width_ticks"], stick["side"]
    if side is None:
        low = stick["edge_waste_ticks"] + row * (plan["strip_width_ticks"] + kerf)
        return start, start + length, low, low + width
    (x, y), (long, wide) = plan["finished_origin_ticks"], plan["finished_ticks"]
    inner = row * plan["pitch_ticks"] + kerf
    # rips run over the whole old top, crosscuts over what the rips left of it
    rips_lengthwise = plan["old_ticks"][0] >= plan["old_ticks"][1]
    if side in ("north", "south"):
        start += first_edges(plan)["west"] if rips_lengthwise else x
        low = y + wide + inner if side == "north" else y - inner - width
        return start, start + length, low, low + width
    start += y if rips_lengthwise else first_edges(plan)["south"]
    low = x + long + inner if side == "east" else x - inner - width
    return low, low + width, start, start + length
