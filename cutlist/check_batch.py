"""Checks a batch from its own figures: pieces, kerfs, sticks used once in one way, and the bound of each stage.

A bound follows from whole-number prices as for one job (see ``check_duals``), with two things more: sides hang
together only within a family, so prices are looked at family by family; and a stick may be ripped in several ways, of
which it takes one, so it takes off what its dearest way gives::

    bound = ceil((worth of the sides - prices of settled stages - sum(most that any way of a stick gives)) / scale)

Imports the standard library and other files of the checker only.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from edgewright.cutlist.check_certificate import has_shared_strips
from edgewright.cutlist.check_duals import Offer, PricedSide, dual_excess, holds_beyond
from edgewright.cutlist.check_faults import Plain, PlanFault
from edgewright.cutlist.check_lanes import is_nested
from edgewright.cutlist.check_pieces import piece_faults
from edgewright.cutlist.check_search import Work, WorkLimitError
from edgewright.cutlist.check_stages import STAGES
from edgewright.cutlist.check_stock import splices_of

__all__ = ["BATCH_STAGES", "batch_bounds", "batch_faults", "batch_values", "proven_batch"]

#: The stages of a batch, in the order in which they are decided.
BATCH_STAGES = (*STAGES[:3], STAGES[4])
_WORK = 60_000_000
#: What reading data of another shape may raise.
_MALFORMED = (KeyError, TypeError, ValueError, IndexError, AttributeError, ZeroDivisionError, StopIteration)


def batch_faults(
    batch: Plain, bounds: dict[str, tuple[int | None, str]] | None = None
) -> tuple[PlanFault, ...]:
    """Every fault of a batch as it stands under ``batch`` in batch.json; malformed data is one fault, none raises."""
    try:
        return tuple(_faults(batch, batch_bounds(batch) if bounds is None else bounds))
    except _MALFORMED as error:
        return (PlanFault("malformed batch", "batch", f"{type(error).__name__}: {error}"[:200]),)


def proven_batch(
    batch: Plain,
) -> tuple[tuple[PlanFault, ...], tuple[tuple[str, int, int | None, str], ...]]:
    """Faults, and name, value, recomputed bound and reason of each stage; no stage of malformed data."""
    try:
        values, bounds = batch_values(batch), batch_bounds(batch)
    except _MALFORMED:
        return batch_faults(batch), ()
    return batch_faults(batch, bounds), tuple((name, values[name], *bounds[name]) for name in BATCH_STAGES)


def batch_values(batch: Plain) -> dict[str, int]:
    """Value of each stage, counted from the pieces: cents, splices, sticks, strips."""
    used = {piece["lane_id"] for piece in batch["pieces"]}
    touched = [s for s in batch["sticks"] if any(lane["id"] in used for lane in s["lanes"])]
    strips = {lane["strip"] for stick in touched for lane in stick["lanes"] if lane["id"] in used}
    sides = sum(len(job["sides"]) for job in batch["jobs"])
    groups = batch["groups"]
    cost = sum(groups[s["group"]]["price_cents"] for s in touched if groups[s["group"]]["for_sale"])
    return dict(
        zip(BATCH_STAGES, (cost, len(batch["pieces"]) - sides, len(touched), len(strips)), strict=True)
    )


def _faults(batch: Plain, bounds: dict[str, tuple[int | None, str]]) -> Iterator[PlanFault]:
    yield from _stick_faults(batch)
    yield from _side_faults(batch)
    lanes = {lane["id"]: lane for stick in batch["sticks"] for lane in stick["lanes"]}
    for job in batch["jobs"]:
        pieces = [piece for piece in batch["pieces"] if piece["job"] == job["number"]]
        sticks = [{"lanes": [lanes[n] for n in {p["lane_id"] for p in pieces} if n in lanes]}]
        plan = {key: job[key] for key in ("sides", "rules", "corners")} | {"pieces": pieces, "sticks": sticks}
        yield from piece_faults(plan)
    for lane in lanes.values():
        yield from _lane_faults(batch, lane)
    numbers = {job["number"] for job in batch["jobs"]}
    for piece in batch["pieces"]:
        if piece["job"] not in numbers:
            yield PlanFault("unknown job", piece["id"], f"no job has the number {piece['job']}")
        if piece["lane_id"] not in lanes:
            yield PlanFault(
                "unknown lane", piece["id"], f"no stick that is cut has a lane {piece['lane_id']!r}"
            )
    yield from _stage_faults(batch, bounds)


def _side_faults(batch: Plain) -> Iterator[PlanFault]:
    """The kinds of sides must hold each side of each job once, and with its length, family and splices."""
    kind_of = {name: kind for kind in batch["side_kinds"] for name in kind["ids"]}
    listed = [name for kind in batch["side_kinds"] for name in kind["ids"]]
    sides = {side["id"]: (job, side) for job in batch["jobs"] for side in job["sides"]}
    if sorted(listed) != sorted(sides) or len(listed) != sum(len(job["sides"]) for job in batch["jobs"]):
        yield PlanFault("side missing", "kinds of sides", "each side of each job stands there once")
        return
    for name, (job, side) in sides.items():
        kind = kind_of[name]
        if (kind["length_ticks"], kind["family"]) != (side["length_ticks"], job["family"]):
            yield PlanFault("wrong kind of side", name, "its length or its family is another")
        if kind["splices"] < splices_of(job["rules"], side):
            yield PlanFault("wrong kind of side", name, "it may be spliced oftener than its kind says")
    for job in batch["jobs"]:
        family = batch["families"][job["family"]]
        joint = batch["kerf_ticks"]
        if job["corners"] == "mitre" and job["rules"]["nest_mitres"]:
            joint = min(joint, job["rules"]["mitre_kerf_ticks"] - job["strip_width_ticks"])
        right = (job["strip_width_ticks"], joint)
        if (family["strip_width_ticks"], family["joint_ticks"]) != right:
            yield PlanFault("wrong family", f"job {job['number']}", "its strip width or its joint is another")
        if job["rules"]["kerf_ticks"] != batch["kerf_ticks"]:
            yield PlanFault("unlike kerfs", f"job {job['number']}", "a batch is cut with one blade")


def _stick_faults(batch: Plain) -> Iterator[PlanFault]:
    """Each stick is cut once, in one of the ways of its group, and there are no more of them than there are."""
    seen: set[str] = set()
    counts = Counter(stick["group"] for stick in batch["sticks"])
    names = Counter(lane["id"] for stick in batch["sticks"] for lane in stick["lanes"])
    for name, count in names.items():
        if count > 1:
            yield PlanFault("stick used twice", name, "two lanes have this id")
    for stick in batch["sticks"]:
        name, group = stick["id"], batch["groups"][stick["group"]]
        if name in seen:
            yield PlanFault("stick used twice", name, "two sticks have this id")
        seen.add(name)
        if group["ids"] and name not in group["ids"]:
            yield PlanFault("stick of another group", name, "its group does not list it")
        lanes = Counter(
            (lane["length_ticks"], tuple(lane["families"])) for lane in stick["lanes"] if lane["length_ticks"]
        )
        if lanes != _lanes_of(group["ways"][stick["way"]]):
            yield PlanFault("wrong way", name, "its lanes are not those of the way it is ripped in")
        for lane in stick["lanes"]:
            raw = lane["trim_start_ticks"] + lane["length_ticks"] + lane["trim_end_ticks"]
            if raw > stick["length_ticks"]:
                yield PlanFault(
                    "lane longer than its stick", lane["id"], f"{raw} of {stick['length_ticks']} ticks"
                )
        wide = {lane["strip"]: lane["width_ticks"] for lane in stick["lanes"]}
        need = sum(wide.values()) + (len(wide) - 1) * batch["kerf_ticks"] + 2 * stick["edge_waste_ticks"]
        if need > stick["width_ticks"]:
            yield PlanFault("strips wider than their stick", name, f"{need} of {stick['width_ticks']} ticks")
    for number, count in counts.items():
        if count > batch["groups"][number]["count"]:
            have = batch["groups"][number]["count"]
            yield PlanFault("too many sticks", f"group {number}", f"{count} are cut, there are {have}")


def _lanes_of(way: list[Plain]) -> Counter[tuple[int, tuple[int, ...]]]:
    return Counter({(lane["length_ticks"], tuple(lane["families"])): lane["count"] for lane in way})


def _lane_faults(batch: Plain, lane: Plain) -> Iterator[PlanFault]:
    jobs = {job["number"]: job for job in batch["jobs"]}
    pieces = sorted(
        (piece for piece in batch["pieces"] if piece["lane_id"] == lane["id"]),
        key=lambda piece: (piece["lane_start_ticks"], piece["length_ticks"]),
    )
    reached = 0
    families = set()
    for number, piece in enumerate(pieces):
        job = jobs.get(piece["job"])
        if job is None:
            continue
        families.add(job["family"])
        width = job["strip_width_ticks"]
        if not width <= lane["width_ticks"] <= width + job["rules"]["sliver_ticks"]:
            yield PlanFault(
                "strip of another width", piece["id"], f"{lane['width_ticks']} ticks, not {width}"
            )
        start, end = piece["lane_start_ticks"], piece["lane_start_ticks"] + piece["length_ticks"]
        if start < 0 or end > lane["length_ticks"]:
            yield PlanFault(
                "piece past the lane's end", piece["id"], f"{start} to {end} of {lane['length_ticks']}"
            )
        if number:
            before = pieces[number - 1]
            free = before["lane_start_ticks"] + before["length_ticks"]
            nested = before["job"] == piece["job"] and is_nested(before, piece)
            free -= width if nested else 0
            kerf = job["rules"]["mitre_kerf_ticks" if nested else "kerf_ticks"]
            if start < max(free, reached):
                yield PlanFault("overlap in a lane", lane["id"], f"{before['id']} and {piece['id']}")
            elif start < free + kerf:
                yield PlanFault("dropped kerf", lane["id"], f"{start - free} ticks before {piece['id']}")
            reached = max(
                reached, before["lane_start_ticks"] + before["length_ticks"] - (width if nested else 0)
            )
    if len(families) > 1 or not families <= set(lane["families"]):
        yield PlanFault(
            "strip of another family", lane["id"], "its pieces are not of one family that it serves"
        )


def _stage_faults(batch: Plain, bounds: dict[str, tuple[int | None, str]]) -> Iterator[PlanFault]:
    values = batch_values(batch)
    if tuple(stage["name"] for stage in batch["stages"]) != BATCH_STAGES:
        yield PlanFault("wrong stages", "stages", f"they are {', '.join(BATCH_STAGES)}")
        return
    for stage in batch["stages"]:
        name, value = stage["name"], stage["value"]
        bound, why = bounds[name]
        if value != values[name]:
            yield PlanFault("stage value wrong", name, f"{value} given, {values[name]} recomputed")
        if stage["bound"] != bound:
            yield PlanFault("stage bound wrong", name, f"{stage['bound']} given, {bound} recomputed: {why}")
        if stage["proven"] != (bound is not None and bound == value):
            yield PlanFault(
                "bound not met", name, f"{value} with a bound of {bound}: proven or not is told wrong"
            )
        if bound is not None and value < bound:
            yield PlanFault("better than the bound", name, f"{value} beats {bound}: {why}")


def batch_bounds(batch: Plain) -> dict[str, tuple[int | None, str]]:
    """Bound of each stage and why, recomputed from the certificates alone; None where nothing is known."""
    values = batch_values(batch)
    bounds: dict[str, tuple[int | None, str]] = {}
    for name in BATCH_STAGES:
        try:
            bounds[name] = _bound(batch, name, values, Work(_WORK))
        except WorkLimitError:
            bounds[name] = None, f"the recomputation was stopped after {_WORK} steps"
    return bounds


def _bound(batch: Plain, name: str, values: dict[str, int], work: Work) -> tuple[int | None, str]:
    if values[name] == 0:
        return 0, "no plan has less than none"
    stage = next(stage for stage in batch["stages"] if stage["name"] == name)
    certificate = stage["certificate"]
    if certificate is None:
        return None, "no certificate was found"
    shared = batch["runs_in_strips"] or has_shared_strips(batch)
    if name == BATCH_STAGES[3] and shared:
        return None, "a strip with defects gives several lanes, so lanes do not count strips"
    scale, budgets, place = certificate["scale"], certificate["budgets"], BATCH_STAGES.index(name)
    if scale < 1 or len(budgets) != place or min(budgets, default=0) < 0:
        return None, "the certificate is faulty"
    counted = {stage: scale * (stage == name) for stage in BATCH_STAGES}
    for stage_name, price in zip(BATCH_STAGES, budgets, strict=False):
        counted[stage_name] += price
    cost_price, splice, stick_price, strip_price = (counted[stage] for stage in BATCH_STAGES)
    worth = {entry["kind"]: entry["value"] for entry in certificate["sides"]}
    lane_price = {entry["kind"]: entry["value"] for entry in certificate["lanes"]}
    if min([0, *worth.values(), *lane_price.values()]) < 0:
        return None, "the certificate is faulty"
    cap = sum(splices_of(job["rules"], side) for job in batch["jobs"] for side in job["sides"])
    if place > 1:
        cap = min(cap, values[BATCH_STAGES[1]])
    if place == 1:
        cap = min(cap, values[name] - 1)  # a plan with more is no better, so only fewer are of interest
    most_lanes, kerf = certificate["most_lanes"], batch["kerf_ticks"]
    kinds = [lane for group in batch["groups"] for way in group["ways"] for lane in way]
    in_all = 0
    for number, family in enumerate(batch["families"]):
        sides = [
            PricedSide(kind["length_ticks"], len(kind["ids"]), worth.get(n, 0))
            for n, kind in enumerate(batch["side_kinds"])
            if kind["family"] == number
        ]
        offers = [
            Offer(lane["length_ticks"], lane_price.get(n, 0) + strip_price)
            for n, lane in enumerate(kinds)
            if number in lane["families"]
        ]
        offers = sorted(
            {offer.length: offer for offer in sorted(offers, key=lambda o: -o.cost)}.values(),
            key=lambda o: o.length,
        )
        joint = family["joint_ticks"]
        excess = dual_excess(sides, offers, splice, joint, kerf, most_lanes, work.spend_all)
        sides = [PricedSide(side.length, side.count, max(0, side.worth - excess)) for side in sides]
        if most_lanes <= cap and not holds_beyond(sides, offers, splice, joint, kerf, most_lanes):
            return None, "strips joined in larger numbers could do better, for all that is known"
        in_all += sum(side.worth * side.count for side in sides)
    settled = sum(price * values[stage] for stage, price in zip(BATCH_STAGES, budgets, strict=False))
    taken, at = 0, 0
    for group in batch["groups"]:
        most = 0
        for way in group["ways"]:
            gain = sum(lane_price.get(at + n, 0) * lane["count"] for n, lane in enumerate(way))
            most = max(
                most, gain - cost_price * (group["price_cents"] if group["for_sale"] else 0) - stick_price
            )
            at += len(way)
        taken += most * group["count"]
    bound = max(0, -((settled + taken - in_all) // scale))
    if name == BATCH_STAGES[1]:
        bound = min(bound, values[name])
    if place == 0:
        prices = {group["price_cents"] for group in batch["groups"] if group["for_sale"]}
        bound = _least_bill(prices, bound, values[name], work)
    return bound, (
        f"by the prices of its certificate the sides are worth {in_all / scale:.3f} and the sticks and settled stages "
        f"take off {(settled + taken) / scale:.3f}"
    )


def _least_bill(prices: set[int], bound: int, value: int, work: Work) -> int:
    """Least sum of prices that reaches a bound, at most ``value``: no bill lies in between."""
    sums = {0}
    reached = [0]
    while reached:
        work.spend_all(len(reached) * (len(prices) + 1))
        reached = sorted({a + b for a in reached for b in prices if b > 0 and a + b <= value} - sums)
        sums |= set(reached)
    return min((total for total in sums if total >= bound), default=bound)
