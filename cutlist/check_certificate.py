"""Reads the certificate of a stage and recomputes the bound that it proves, from the plan's own sides and sticks."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from edgewright.cutlist.check_duals import Offer, PricedSide, dual_excess, holds_beyond
from edgewright.cutlist.check_faults import Plain
from edgewright.cutlist.check_search import Work, WorkLimitError
from edgewright.cutlist.check_stages import STAGES, WITH_LABOUR, stage_values
from edgewright.cutlist.check_stock import splices_of

__all__ = ["Certified", "certified_bound", "certified_sum", "has_shared_strips"]

#: What each stage counts: (a stick: cents or one, a splice, a strip).
_COST, _SPLICES, _STICKS, _, _STRIPS = STAGES[:5]
#: Stages that prices can bound, in their order: fence settings are left out, which only weakens a bound.
_PRICED = (_COST, _SPLICES, _STICKS, _STRIPS)


#: Steps allowed for a certificate: its work grows with the kinds of sides and strips, not with their combinations.
_WORK = 5_000_000


@dataclass(frozen=True, slots=True)
class Certified:
    """The sum that proves a bound: (worth of the sides - settled stages - sticks) / scale, rounded up."""

    bound: int
    worth: int
    settled: int
    sticks: int
    scale: int


def certified_sum(plan: Plain, name: str) -> Certified | None:
    """`certified_bound` within the usual work; None too where that is not enough."""
    try:
        return certified_bound(plan, name, Work(_WORK))
    except WorkLimitError:
        return None


def certified_bound(plan: Plain, name: str, work: Work) -> Certified | None:
    """Bound of a stage by its certificate; None where it has none, or the certificate proves nothing.

    Raises
    ------
    WorkLimitError
        If the recomputation takes more steps than allowed.
    """
    stage = next((stage for stage in plan["stages"] if stage["name"] == name), None)
    certificate = stage["certificate"] if stage else None
    if certificate is None or name not in (*_PRICED, WITH_LABOUR):
        return None
    if name in (_STRIPS, WITH_LABOUR) and has_shared_strips(plan):
        return None
    scale, budgets = certificate["scale"], certificate["budgets"]
    labour = plan["rules"]["labour_cents"] if name == WITH_LABOUR else None
    before = () if labour else _PRICED[: _PRICED.index(name)]
    values = stage_values(plan)
    if scale < 1 or len(budgets) != len(before) or min(budgets, default=0) < 0:
        return None
    counted = {stage: scale * (stage == name) for stage in _PRICED}
    if labour:
        counted = dict(zip(_PRICED, (scale, *(scale * cents for cents in labour)), strict=True))
    for stage_name, price in zip(before, budgets, strict=True):
        counted[stage_name] += price
    rules = plan["rules"]
    kerf = rules["kerf_ticks"]
    joint = kerf
    if plan["corners"] == "mitre" and rules["nest_mitres"]:
        joint = min(kerf, rules["mitre_kerf_ticks"] - plan["strip_width_ticks"])
    worth = _prices(certificate["sides"])
    costs = _prices(certificate["lanes"])
    splice = counted[_SPLICES]
    lanes = {
        (kind, length): costs.get((_first(plan, kind), length), 0)
        for kind in _kinds(plan)
        for length in set(kind[2])
    }
    most_lanes = certificate["most_lanes"]
    sides = Counter(
        (side["length_ticks"], worth.get((side["id"], side["length_ticks"]), 0)) for side in plan["sides"]
    )
    priced = [PricedSide(length, count, value) for (length, value), count in sorted(sides.items())]
    offers = [Offer(length, cost + counted[_STRIPS]) for (_, length), cost in sorted(lanes.items())]
    if most_lanes < 1 or any(value < 0 for _, value in sides) or any(cost < 0 for cost in lanes.values()):
        return None
    excess = dual_excess(priced, offers, splice, joint, kerf, most_lanes, work.spend_all)
    priced = [PricedSide(side.length, side.count, max(0, side.worth - excess)) for side in priced]
    cap = sum(splices_of(plan["rules"], side) for side in plan["sides"])
    if _SPLICES in before:
        cap = min(cap, values[_SPLICES])
    if labour and labour[0]:
        cap = min(cap, (values[WITH_LABOUR] - 1) // labour[0])  # more splices alone cost as much as the plan
    if name == _SPLICES:
        cap = min(cap, values[_SPLICES] - 1)  # a plan with more is no better, so only fewer are of interest
    if most_lanes <= cap and not holds_beyond(priced, offers, splice, joint, kerf, most_lanes):
        return None
    worth_of_all = sum(side.worth * side.count for side in priced)
    settled = sum(price * values[stage] for stage, price in zip(before, budgets, strict=True))
    sticks = 0
    for kind, count in _kinds(plan).items():
        gain = sum(lanes[kind, length] for length in kind[2])
        gain -= counted[_COST] * (kind[1] if kind[0] else 0) + counted[_STICKS]
        sticks += max(0, gain) * count
    bound = max(0, -((settled + sticks - worth_of_all) // scale))
    if name == _SPLICES or labour:
        bound = min(bound, values[name])
    return Certified(bound, worth_of_all, settled, sticks, scale)


_Kind = tuple[bool, int, tuple[int, ...]]


def _kind(stick: Plain) -> _Kind:
    """For sale or not, price, and the lengths of the lanes."""
    for_sale = stick["source"] == "for sale"
    lengths = tuple(sorted((lane["length_ticks"] for lane in stick["lanes"]), reverse=True))
    return for_sale, stick["price_cents"] if for_sale else 0, lengths


def _kinds(plan: Plain) -> Counter[_Kind]:
    return Counter(_kind(stick) for stick in plan["sticks"])


def _first(plan: Plain, kind: _Kind) -> str:
    return str(next(stick["id"] for stick in plan["sticks"] if _kind(stick) == kind))


def _prices(entries: list[Plain]) -> dict[tuple[str, int], int]:
    return {(name, entry["length_ticks"]): entry["value"] for entry in entries for name in entry["ids"]}


def has_shared_strips(plan: Plain) -> bool:
    """Whether a strip gives several lanes, so that lanes do not count strips."""
    strips = [lane.get("strip", lane["id"]) for stick in plan["sticks"] for lane in stick["lanes"]]
    return len(set(strips)) < len(strips)
