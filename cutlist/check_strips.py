"""Findings that the strip plan decides: width, splices, purchases, what was snapped."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from edgewright.compass import OPPOSITE, SIDES, PerSide, Side, is_lengthwise
from edgewright.cutlist.demand import offcuts_fit
from edgewright.cutlist.model import CutPlan
from edgewright.cutlist.widest import widest_strip
from edgewright.design.check_buildup import strip_findings
from edgewright.design.check_figures import at_least, at_most, exceeds
from edgewright.design.job_forms import edge_form
from edgewright.design.limits import overhang_cap, width_cap
from edgewright.design.model import Design
from edgewright.display import show_decimal, show_ticks
from edgewright.findings import Finding
from edgewright.job_fields import say
from edgewright.ticks import TICKS_PER_MM, nearest_ticks, ticks_to_mm
from edgewright.units import Units

__all__ = ["plan_findings", "snapped_findings"]


#: Longer lists of pieces are counted instead: an override repeats the figures, which are 500 characters at most.
_LONGEST_LIST = 350


def plan_findings(design: Design, plan: CutPlan) -> Iterator[Finding]:
    """Findings 103, 301, 302, 305 for the chosen width, and 505 to 509."""
    job, units = design.job, design.job.units
    width = plan.strip_width_ticks
    used = {piece.lane_id for piece in plan.pieces}
    widest = max(
        (lane.width_ticks for s in plan.sticks for lane in s.lanes if lane.id in used), default=width
    )
    reach = _with_overhang(design)
    grid, edge = design.sizes.grid, job.edge
    cap, reason = width_cap(
        edge.max_strip_width.ticks_down(),
        reach,
        grid,
        units,
        given="max_strip_width" in edge.model_fields_set,
    )
    limits = replace(design.limits, cap=cap, cap_reason=reason)
    by_overhang = overhang_cap(reach, grid, units)
    yield from strip_findings(replace(design, limits=limits), width, max(0, widest - width), by_overhang)
    yield from _grain(design, plan)
    splices = len(plan.pieces) - len(plan.sides)
    if plan.status == "ready" and splices:
        where = ", ".join(sorted({p.side_id for p in plan.pieces if p.side_start_ticks}))
        yield Finding(
            505, "note", "spliced sides", where, f"{splices} splice{'s' * (splices > 1)}",
            "glue the ends, leave no void in the splice, and tell the customer that a hairline may show"
            + _without_splice(design),
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
    yield from _snapped_width(design, plan)
    yield from _too_narrow(design, plan, buys=bool(bought))
    if not offcuts_fit(job):
        yield Finding(
            509, "note", "offcuts not used", "strips",
            f"strips {show_ticks(job.strip_thickness.ticks(), units)} thick, top "
            f"{show_ticks(job.top.thickness_mean.ticks(), units)}",
            "offcuts of the top count only where strips are as thick as the top, within "
            f"{'1/32 in' if units == 'in' else '0.8 mm'}",
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
    if len(pieces) > _LONGEST_LIST:
        pieces = f"{len(wrong)} pieces of {where}"
    lengthwise = {is_lengthwise(side_of[p.side_id]) for p in plan.pieces if p.id in wrong}
    trims = [("east or west", "north or south")[along] for along in sorted(lengthwise)]
    yield Finding(
        103, "stop", "strip across the grain", where,
        f"grain of the top along the {top.grain_along}, across it would lie: {pieces}",
        "a strip keeps its grain only under a side parallel to the one it was cut off, a board's only along the "
        f"grain: trim the {' side and the '.join(trims)} side enough to give these strips, or glue none there; one "
        "glued across splits the top as it moves over the year",
    )  # fmt: skip


def _without_splice(design: Design) -> str:
    """What strips there could be without a splice, where the width was left to the plan."""
    if design.job.edge.strip_width != "widest":
        return ""
    splice = design.job.splice.model_copy(update={"allowed": False})
    whole, _ = widest_strip(replace(design, job=design.job.model_copy(update={"splice": splice})))
    if whole is None or whole < design.limits.floor:
        return "; without a splice own wood gives no strips wide enough"
    return f"; without a splice own wood gives strips {show_ticks(whole, design.job.units)} wide"


def _with_overhang(design: Design) -> PerSide[float | None]:
    """Overhang of the sides where any is left, mm; where the base reaches past the top finding 402 says all."""
    left = design.base.overhang

    def known(side: Side) -> float | None:
        here = left[side]
        return None if here is None or exceeds(0.0, here) else here

    return PerSide.build(known)


def _too_narrow(design: Design, plan: CutPlan, *, buys: bool) -> Iterator[Finding]:
    """Finding 508: no strip as wide as the floor comes from own wood, or none has room before the base."""
    job, units, floor = design.job, design.job.units, design.limits.floor
    found = next((trial for trial in plan.trials if trial.fits), None)
    if job.edge.strip_width != "widest" or (found is not None and found.strip_width_ticks >= floor):
        return
    by_overhang = overhang_cap(_with_overhang(design), design.sizes.grid, units)
    if by_overhang is not None and by_overhang[0] < floor:
        yield from _no_room(design, by_overhang[0])
        return
    own = f"at most {at_most(found.strip_width_ticks, units)}" if found else "no width at all"
    if buys:
        change = (
            "the plan takes the widest strips that the cheapest boards give; for others set strip_width "
            "under [edge]"
        )
    elif plan.shortage is None:
        change = "the plan uses the narrowest strips allowed"
    elif plan.shortage.by_length:
        change = "the narrowest strips allowed were tried: trim more, or list boards under [[stock]]"
    else:
        change = (
            "there is length enough for the narrowest strips allowed, but no layout was found by the rules under "
            "[splice]: ease them, or list longer boards under [[stock]]"
        )
    yield Finding(
        508, "note", "own wood gives too narrow a strip", "strips",
        f"own wood gives {own}, the bench checks ask for {at_least(floor, units)}", change,
    )  # fmt: skip


def _no_room(design: Design, cap: int) -> Iterator[Finding]:
    """Finding 508 where the overhang, not the wood, keeps the strips below the floor."""
    job, units, floor, amounts = design.job, design.job.units, design.limits.floor, design.sizes.amounts
    left = {side: mm for side, mm in _with_overhang(design).items() if mm is not None}
    side = min(left, key=lambda side: left[side])
    missing, opposite = floor - cap, OPPOSITE[side]
    ways = []
    if job.base.moved:
        # centred again, the base takes half of what is trimmed less
        if amounts[side] + amounts[opposite] >= 2 * missing:
            both = " and ".join(sorted((side, opposite)))
            ways.append(f"trim {show_ticks(2 * missing, units)} less on the {both} side together")
    else:
        if amounts[side] >= missing:
            ways.append(f"trim {show_ticks(missing, units)} less on the {side} side")
        ways.append("move the base")
    thickness = job.edge.thickness(job.top.thickness_mean.exact_mm)
    if job.edge.reach("bottom", thickness) * TICKS_PER_MM >= missing:
        name = edge_form(job.edge, "bottom", design.edge_thickness_mm).name
        ways.append(f"use a smaller bottom {name}")
    ways = ways or ["make the base smaller"]
    yield Finding(
        508, "note", "no room for a strip before the base", "strips",
        f"floor {at_least(floor, units)} exceeds what the overhang leaves, {at_most(max(cap, 0), units)} on the "
        f"{side} side",
        ", ".join(ways[:-1]) + (", or " if len(ways) > 1 else "") + ways[-1],
    )  # fmt: skip


def snapped_findings(design: Design) -> Iterator[Finding]:
    """Finding 507 for every trim that was moved to the bench grid, as it was typed."""
    job, sizes = design.job, design.sizes
    for side in SIDES:
        asked, used = nearest_ticks(job.amounts[side]), sizes.amounts[side]
        if asked != used:
            typed = side in job.trim.model_fields_set
            words = say(getattr(job.trim, side)) if typed else _exact(asked, job.units)
            yield _snapped(f"{side} trim", words, used, design, "nothing, or set bench_grid under [job]")


def _snapped_width(design: Design, plan: CutPlan) -> Iterator[Finding]:
    """Finding 507 for a strip width that was moved."""
    width = design.job.edge.strip_width
    if width != "widest" and width.ticks() != plan.strip_width_ticks:
        yield _snapped(
            "strip width", say(width), plan.strip_width_ticks, design,
            "nothing: with it every keep line lies on the grid; or set bench_grid under [job]",
        )  # fmt: skip


def _snapped(place: str, asked: str, used: int, design: Design, change: str) -> Finding:
    units = design.job.units
    figures = f"asked {asked}, used {_exact(used, units)}, grid {show_ticks(design.sizes.grid, units)}"
    return Finding(507, "note", "snapped to the bench grid", place, figures, change)


def _exact(ticks: int, units: Units) -> str:
    """Show what was snapped in decimals of an inch where 64ths would hide the difference."""
    text = show_ticks(ticks, units)
    return show_decimal(ticks_to_mm(ticks), units) if text.startswith("~") and units == "in" else text
