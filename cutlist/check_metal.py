"""Finding 514: metal in the path of a rip, through the panel or through a board."""

from __future__ import annotations

from collections.abc import Iterator

from edgewright.compass import ends_of, is_lengthwise
from edgewright.cutlist.layout import ripped_strips
from edgewright.cutlist.model import CutPlan, DefectBox
from edgewright.display import show_ticks
from edgewright.findings import Finding
from edgewright.units import Units

__all__ = ["metal_findings"]


def metal_findings(plan: CutPlan, units: Units) -> Iterator[Finding]:
    """Stops where metal lies in a kerf or nearer to it than the rules allow; crosscuts keep clear by themselves."""
    near: dict[tuple[str, int], list[str]] = {}
    for where, distance, box in (*_in_panel(plan), *_in_boards(plan)):
        if distance < plan.rules.metal_clearance_ticks:
            near.setdefault((box.name, max(0, distance)), []).append(where)
    least = show_ticks(plan.rules.metal_clearance_ticks, units)
    for (name, distance), places in near.items():
        lies = f"{show_ticks(distance, units)} from the kerf" if distance else "in the kerf"
        where = ", ".join(dict.fromkeys(places))
        yield Finding(
            514, "stop", "metal in the saw's path", where,
            f"{name}: {lies} of {where}; at least {least} clear",
            "take the metal out, then give the defect without metal = true; or move the cut",
        )  # fmt: skip


def _in_panel(plan: CutPlan) -> Iterator[tuple[str, int, DefectBox]]:
    """Cut, distance from its kerf (not above 0 if in it), and metal that lies in the panel as it is then."""
    edges = plan.first_edges
    for cut in plan.cuts:
        outwards = 1 if cut.side in ("north", "east") else -1
        keep = edges[cut.datum] + outwards * cut.keep_ticks
        kerf = sorted((keep, edges[cut.datum] + outwards * cut.kerf_end_ticks))
        ends = ends_of(cut.side)
        for box in plan.defects:
            along, across = box.along_ticks, box.across_ticks
            if not is_lengthwise(cut.side):
                along, across = across, along
            beside = sorted((edges[cut.datum], edges[cut.side]))
            on_the_saw = (
                along[0] < edges[ends[1]]
                and along[1] > edges[ends[0]]
                and across[0] < beside[1]
                and across[1] > beside[0]
            )
            if box.metal and on_the_saw:
                yield f"cut {cut.number}", max(across[0] - kerf[1], kerf[0] - across[1]), box
        edges[cut.side] = keep


def _in_boards(plan: CutPlan) -> Iterator[tuple[str, int, DefectBox]]:
    used = frozenset(piece.lane_id for piece in plan.pieces)
    kerf = plan.rules.kerf_ticks
    for stick in plan.sticks:
        strips = ripped_strips(stick, used) if stick.side is None else ()
        at = stick.edge_waste_ticks
        kerfs = [(at - kerf, at)] if at and strips else []
        for strip in strips:
            at += strip[0].width_ticks
            if at < stick.width_ticks:
                kerfs.append((at, at + kerf))
            at += kerf
        for box in stick.defects:
            distances = [max(box.across_ticks[0] - b, a - box.across_ticks[1]) for a, b in kerfs]
            if box.metal and distances:
                yield f"board {stick.name}", min(distances), box
