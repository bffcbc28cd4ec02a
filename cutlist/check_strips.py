"""Findings that the strip plan decides: width, splices, purchases, what was snapped."""

from __future__ import annotations

from collections.abc import Iterator

from edgewright.compass import SIDES, Side, is_lengthwise
from edgewright.cutlist.demand import offcuts_fit
from edgewright.cutlist.model import CutPlan
from edgewright.design.check_buildup import strip_findings
from edgewright.design.limits import overhang_cap
from edgewright.design.model import Design
from edgewright.display import show_ticks
from edgewright.findings import Finding
from edgewright.ticks import nearest_ticks

__all__ = ["plan_findings", "snapped_findings"]


def plan_findings(design: Design, plan: CutPlan) -> Iterator[Finding]:
    """Findings 103, 301, 302, 305 for the chosen width, and 505 to 509."""
    job, units = design.job, design.job.units
    width = plan.strip_width_ticks
    used = {piece.lane_id for piece in plan.pieces}
    widest = max(
        (lane.width_ticks for s in plan.sticks for lane in s.lanes if lane.id in used), default=width
    )
    cap = overhang_cap(design.base.overhang, design.sizes.grid, units)
    yield from strip_findings(design, width, max(0, widest - width), cap)
    yield from _grain(design, plan)
    splices = len(plan.pieces) - len(plan.sides)
    if plan.status == "ready" and splices:
        where = ", ".join(sorted({p.side_id for p in plan.pieces if p.side_start_ticks}))
        yield Finding(
            505, "note", "spliced sides", where, f"{splices} splice{'s' * (splices > 1)}",
            "glue the ends, leave no void in the splice, and tell the customer that a hairline may show",
        )  # fmt: skip
    bought = [s for s in plan.sticks if s.source == "for sale" and any(lane.id in used for lane in s.lanes)]
    if bought:
        names = ", ".join(
            f"{sum(s.name == n for s in bought)} x {n}" for n in dict.fromkeys(s.name for s in bought)
        )
        cost = sum(s.price_cents for s in bought) / 100
        yield Finding(
            506,
            "note",
            "boards to buy",
            "stock",
            f"{names}, {cost:.2f} in all",
            "buy them before the first cut",
        )
    found = next((trial for trial in plan.trials if trial.fits), None)
    if job.edge.strip_width == "widest" and (found is None or found.strip_width_ticks < design.limits.floor):
        own = f"at most {show_ticks(found.strip_width_ticks, units)}" if found else "no width at all"
        yield Finding(
            508, "note", "own wood gives too narrow a strip", "strips",
            f"own wood gives {own}, the bench checks ask for {show_ticks(design.limits.floor, units)}",
            "the plan uses the narrowest strip allowed and looks for boards; trim more, or buy",
        )  # fmt: skip
    if not offcuts_fit(job):
        yield Finding(
            509, "note", "offcuts not used", "strips",
            f"strips {show_ticks(job.strip_thickness.ticks(), units)} thick, top "
            f"{show_ticks(job.top.thickness_mean.ticks(), units)}",
            "offcuts of the top count only where strips are as thick as the top, within 1/32 in",
        )  # fmt: skip


def _grain(design: Design, plan: CutPlan) -> Iterator[Finding]:
    """Finding 103: strips of solid wood whose grain would lie across the grain of the top.

    An offcut keeps the grain of the top it was cut from: in a strip that was cut off parallel to the grain it
    runs along the strip, in one off an end across it. A board has its grain along its length.
    """
    top = design.job.top
    if top.material != "solid wood":
        return

    def with_grain(side: Side) -> bool:
        return is_lengthwise(side) == (top.grain_along == "length")

    side_of = {side.id: side.side for side in plan.sides}
    stick_of = {lane.id: stick for stick in plan.sticks for lane in stick.lanes}
    across: dict[str, list[str]] = {}
    for piece in sorted(plan.pieces, key=lambda piece: piece.id):
        stick = stick_of[piece.lane_id]
        runs_along_strip = stick.side is None or with_grain(stick.side)
        if runs_along_strip != with_grain(side_of[piece.side_id]):
            across.setdefault(stick.id, []).append(piece.id)
    if not across:
        return
    wrong = {piece_id for ids in across.values() for piece_id in ids}
    where = ", ".join(sorted({piece.side_id for piece in plan.pieces if piece.id in wrong}))
    pieces = "; ".join(f"{', '.join(ids)} from {stick_id}" for stick_id, ids in across.items())
    lengthwise = {is_lengthwise(side_of[p.side_id]) for p in plan.pieces if p.id in wrong}
    trims = [("east or west", "north or south")[along] for along in sorted(lengthwise)]
    yield Finding(
        103, "stop", "strip across the grain", where,
        f"grain of the top along the {top.grain_along}, across it would lie: {pieces}",
        "a strip keeps its grain only under a side parallel to the one it was cut off, a board's only along the "
        f"grain: trim the {' side and the '.join(trims)} side enough to give these strips, or glue none there; one "
        "glued across splits the top as it moves over the year",
    )  # fmt: skip


def snapped_findings(design: Design) -> Iterator[Finding]:
    """Finding 507 for every chosen size that was moved to the bench grid."""
    job, units, grid = design.job, design.job.units, design.sizes.grid
    for side in SIDES:
        asked, used = nearest_ticks(job.amounts[side]), design.sizes.amounts[side]
        if asked != used:
            yield _snapped(
                f"{side} trim", show_ticks(asked, units), show_ticks(used, units), show_ticks(grid, units)
            )
    width = job.edge.strip_width
    if width != "widest" and width.ticks() % grid:
        used = (2 * width.ticks() + grid) // (2 * grid) * grid
        yield _snapped("strip width", width.given, show_ticks(used, units), show_ticks(grid, units))


def _snapped(place: str, asked: str, used: str, grid: str) -> Finding:
    return Finding(
        507, "note", "snapped to the bench grid", place, f"asked {asked}, used {used}, grid {grid}",
        "nothing, or set bench_grid under [job]",
    )  # fmt: skip
