"""Recomputes the bound of each stage, and a shortage, from sides and sticks alone: integers, no solver.

Each stage is bounded under the values the plan reached in the stages before it. A bound is exact for the
relaxation in ``check_search``; a search that is not finished within its count of steps gives None, never a
guess.
"""

from __future__ import annotations

from edgewright.cutlist.check_faults import Plain, shape_faults
from edgewright.cutlist.check_search import Work, WorkLimitError
from edgewright.cutlist.check_stages import STAGES, stage_values
from edgewright.cutlist.check_stock import Stock

__all__ = ["recompute_bounds", "shortage_holds"]

Bound = tuple[int | None, str]


def recompute_bounds(plan: Plain, work_limit: int = 200_000) -> dict[str, Bound]:
    """Bound of each stage and one short sentence why.

    Parameters
    ----------
    plan
        A ready plan as plain data (``json.loads`` of ``plan.json``'s ``cut_plan``).
    work_limit
        Steps allowed for each stage.

    Returns
    -------
    dict
        Stage name to (bound, why); cents, counts and ticks. None where nothing is known. The largest remnant
        has an upper bound, all other stages lower ones.
    """
    if shape_faults(plan):
        return dict.fromkeys(STAGES, (None, "the plan is malformed"))
    work = Work(work_limit)
    stock = Stock(plan, work)
    values = stage_values(plan)
    ways = {
        "new material cost": _cost_bound,
        "splices": _splice_bound,
        "sticks touched": _stick_bound,
        "strips ripped": _strip_bound,
        "largest remnant": _remnant_bound,
    }
    bounds: dict[str, Bound] = {}
    for name in STAGES:
        work.done = 0
        try:
            bounds[name] = ways[name](stock, values)
        except WorkLimitError:
            bounds[name] = (None, f"the search was stopped after {work_limit} steps")
    return bounds


_NOTHING: Bound = (None, "no way to cover the sides was found under the values of the stages before")


def _hold(count: int, what: str) -> str:
    return f"1 {what} holds" if count == 1 else f"{count} {what}s hold"


def _cost_bound(stock: Stock, values: dict[str, int]) -> Bound:
    cheaper = ""
    for cost, choice in stock.purchases():
        lanes = stock.lanes(choice)
        if stock.search.exists(lanes, stock.most_splices):
            return cost, cheaper or "the sticks at hand hold the sides, nothing need be bought"
        need, have = stock.need(len(lanes), stock.most_splices), sum(lanes)
        if need > have:
            cheaper = f"for {cost} cents there are {have} ticks of strip, {_take(stock, need)}"
        else:
            cheaper = f"for {cost} cents no way of sharing out the strips covers the sides"
    return _NOTHING


def _take(stock: Stock, need: int) -> str:
    """What the sides need, and whether kerfs are counted in it."""
    return f"the sides need {need} ticks" + (" with their kerfs" if need > stock.total else "")


def _splice_bound(stock: Stock, values: dict[str, int]) -> Bound:
    choices = list(stock.largest_purchases(values["new material cost"]))
    for splices in range(stock.most_splices + 1):
        if any(stock.search.exists(stock.lanes(choice), splices) for choice in choices):
            if splices == 0:
                return 0, "no plan has fewer than none"
            fewer = f"{splices - 1} splice{'s' * (splices != 2)}"
            return splices, f"no way of sharing out the strips covers the sides with {fewer}"
    return _NOTHING


def _stick_bound(stock: Stock, values: dict[str, int]) -> Bound:
    cost, splices = values["new material cost"], values["splices"]
    why = "no plan does without a stick"
    for sticks in range(1, sum(stock.counts) + 1):
        need = stock.need(10**9, splices)
        for choice in stock.choices(sticks, cost, need):
            if stock.search.exists(stock.lanes(choice), splices):
                return sticks, why
        every = (
            held
            for kind, n in zip(stock.kinds, stock.counts, strict=True)
            for held in [kind.held] * min(n, sticks)
        )
        have = sum(sorted(every, reverse=True)[:sticks])
        why = f"no choice of {sticks} of the sticks covers the sides"
        if have < need:
            why = f"{_hold(sticks, 'stick')} at most {have} ticks, {_take(stock, need)}"
    return _NOTHING


def _strip_bound(stock: Stock, values: dict[str, int]) -> Bound:
    cost, splices, sticks = (values[name] for name in STAGES[:3])
    choices = list(stock.choices(sticks, cost, stock.need(10**9, splices)))
    why = "no plan does without a strip"
    for strips in range(1, max((len(stock.lanes(choice)) for choice in choices), default=0) + 1):
        most = [stock.most(choice, strips) for choice in choices]
        have, lanes = max(held for held, _ in most), max(number for _, number in most)
        need = stock.need(lanes, splices)
        if need > have:
            why = f"{_hold(strips, 'strip')} at most {have} ticks, {_take(stock, need)}"
            continue
        if any(
            held >= stock.need(number, splices) and stock.search.exists(some, splices, number)
            for choice, (held, number) in zip(choices, most, strict=True)
            for some in stock.strip_sets(choice, strips)
        ):
            return strips, why
        why = f"no choice of {strips} of the strips covers the sides"
    return _NOTHING


def _remnant_bound(stock: Stock, values: dict[str, int]) -> Bound:
    """Longest lane, or lane end after one kerf, that can be left out with the sides still covered."""
    cost, splices, sticks, ripped = (values[name] for name in STAGES[:4])
    best: Bound = (None, "")

    def beats(length: int) -> bool:
        return best[0] is None or length > best[0]

    for choice in stock.choices(sticks, cost, stock.need(10**9, splices)):
        lanes = stock.lanes(choice)
        strips = stock.most(choice, ripped)[1]
        if not stock.search.exists(lanes, splices, strips):
            continue
        if best[0] is None:
            best = (
                stock.longest_stub,
                "the sides take every strip to its end, but for strips too short to use",
            )
        for kind, count, most in zip(stock.kinds, choice, stock.counts, strict=True):
            if not kind.for_sale and count < most and beats(kind.lanes[0]):
                best = (kind.lanes[0], "a whole strip stays on the rack")
        whole = {lane for kind, n in zip(stock.kinds, choice, strict=True) if n for lane in kind.spare}
        for length in dict.fromkeys(lanes):
            others = list(lanes)
            others.remove(length)
            if length in whole and beats(length) and stock.search.exists(others, splices, strips):
                best = (length, "a whole strip is not needed")
            # most lane length that any plan of so many strips could spare, less the kerf that parts it off
            have = sum(lanes[:strips])
            need = stock.need(strips, splices) + stock.kerf
            top = min(length - stock.kerf - stock.shortest_piece, have - need)
            low = (best[0] or 0) + 1
            if top < low or not stock.search.exists([*others, length - stock.kerf - low], splices, strips):
                continue
            high = top
            while low < high:
                middle = (low + high + 1) // 2
                if stock.search.exists([*others, length - stock.kerf - middle], splices, strips):
                    low = middle
                else:
                    high = middle - 1
            why = (
                f"the sides and the kerfs take {need} of {have} ticks"
                if low == have - need
                else (f"no way of sharing out the strips leaves more of a strip of {length} ticks")
            )
            best = (low, why)
    return best if best[0] is not None else _NOTHING


def shortage_holds(plan: Plain, work_limit: int = 200_000) -> bool:
    """Whether the sides of an impossible plan really cannot be covered by all its sticks together.

    By length: the sides with the fewest joints take more than all strips hold, however they are spliced.
    Otherwise the exact search must find nothing; a search that is not finished shows nothing.
    """
    if shape_faults(plan) or plan["shortage"] is None:
        return False
    stock = Stock(plan, Work(work_limit))
    lanes = stock.lanes(stock.counts)
    if plan["shortage"]["by_length"]:
        return stock.need(len(lanes), stock.most_splices) > sum(lanes)
    try:
        return not stock.search.exists(lanes, stock.most_splices)
    except WorkLimitError:
        return False
