"""Recomputes the bound of each stage, and a shortage, from sides and sticks alone: integers, no solver.

Each stage is bounded under the values the plan reached in the stages before it. A bound is exact for the
relaxation in ``check_search``; a search that is not finished within its count of steps gives None, never a
guess.
"""

from __future__ import annotations

from edgewright.cutlist.check_certificate import certified_sum
from edgewright.cutlist.check_faults import Plain, shape_faults
from edgewright.cutlist.check_labour import labour_bound
from edgewright.cutlist.check_search import Work, WorkLimitError
from edgewright.cutlist.check_stages import STAGES, WITH_LABOUR, stage_names, stage_values
from edgewright.cutlist.check_stock import Choice, Stock

__all__ = ["recompute_bounds", "shortage_holds"]

Bound = tuple[int | None, str]

#: Sides beyond which the search of every case is given less.
_MANY_SIDES = 16


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
        return dict.fromkeys((*STAGES, WITH_LABOUR), (None, "the plan is malformed"))
    if len(plan["sides"]) > _MANY_SIDES:
        work_limit //= 10  # there a search hardly ever ends, and certificates do what can be done
    work = Work(work_limit)
    stock = Stock(plan, work)
    values = stage_values(plan)
    ways = {
        "new material cost": _cost_bound,
        "splices": _splice_bound,
        "sticks touched": _stick_bound,
        "fence settings": _fence_bound,
        "strips ripped": _strip_bound,
        WITH_LABOUR: labour_bound,
        "largest remnant": _remnant_bound if plan["rules"]["labour_cents"] is None else _any_remnant,
    }
    bounds: dict[str, Bound] = {}
    for name in stage_names(plan):
        certified = _by_certificate(plan, name, values[name])
        if certified is not None and certified[0] == values[name]:
            bounds[name] = certified
            continue
        work.done = 0
        try:
            bounds[name] = ways[name](stock, values)
        except WorkLimitError:
            stopped = (None, f"the search was stopped after {work_limit} steps")
            bounds[name] = certified or _of_length(stock, name, values[name], work) or stopped
    return bounds


def _of_length(stock: Stock, name: str, value: int, work: Work) -> Bound | None:
    """What length alone shows of the cost, where the search of all purchases does not end."""
    if name != "new material cost":
        return None
    work.done = 0
    try:
        return _cost_by_length(stock, value)
    except WorkLimitError:
        return None


def _by_certificate(plan: Plain, name: str, value: int) -> Bound | None:
    """Bound by the numbers that the plan carries for it."""
    proof = certified_sum(plan, name)
    if proof is None:
        return None
    if value == 0:
        return 0, "no plan has less than none"
    return proof.bound, (
        f"by the prices of its certificate the sides are worth {_share(proof.worth, proof.scale)} and the sticks "
        f"and settled stages take off {_share(proof.settled + proof.sticks, proof.scale)}"
    )


def _share(value: int, scale: int) -> str:
    """A price in units of the stage, with three decimals."""
    return f"{value / scale:.3f}"


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


def _cost_by_length(stock: Stock, value: int) -> Bound | None:
    """Least cost whose strips are long enough in all, kerfs counted in; None where that is not even ``value``."""
    need, short = stock.need_with_kerfs, (0, 0)
    for cost, held in stock.held_for(value):
        if held >= need:
            if cost == 0:
                return 0, "nothing costs less than nothing"
            return cost, (
                f"for {short[0]} cents there are at most {short[1]} ticks of strip, the sides need {need} ticks, "
                "a kerf to each strip and side counted in"
            )
        short = cost, held
    return None


def _take(stock: Stock, need: int) -> str:
    """What the sides need, and whether kerfs are counted in it."""
    return f"the sides need {need} ticks" + (" with their kerfs" if need > stock.total else "")


def _splice_bound(stock: Stock, values: dict[str, int]) -> Bound:
    choices = list(stock.largest_purchases(values["new material cost"]))
    for splices in range(stock.most_splices + 1):
        if any(stock.search.exists(stock.lanes(choice), splices) for choice in choices):
            strict = _strictly(stock, choices, splices, values["splices"])
            fewer = f"{strict - 1} splice{'s' * (strict != 2)}"
            if strict > splices:
                return strict, f"with {fewer} some piece would be shorter than the least"
            if splices == 0:
                return 0, "no plan has fewer than none"
            return splices, f"no way of sharing out the strips covers the sides with {fewer}"
    return _NOTHING


def _strictly(stock: Stock, choices: list[Choice], splices: int, value: int) -> int:
    """Least number of splices, from ``splices`` up to ``value``, with the least piece in mind as far as work allows."""
    work, least = stock.work, splices
    before, work.done = work.done, 0
    try:
        while stock.strict is not None and least < value:
            if any(stock.strict.exists(stock.lanes(choice), least) for choice in choices):
                break
            least += 1
    except WorkLimitError:
        pass
    work.done = before
    return least


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


def _fence_bound(stock: Stock, values: dict[str, int]) -> Bound:
    cost, splices, sticks = (values[name] for name in STAGES[:3])
    fewest: int | None = None
    least = min((len(kind.settings) for kind in stock.kinds), default=0)
    if values["sticks touched"] and least == values["fence settings"]:
        return least, "no stick does with fewer" if least else "no board need be ripped on the fence"
    for choice in stock.choices(sticks, cost, stock.need(10**9, splices)):
        settings = {s for kind, n in zip(stock.kinds, choice, strict=True) if n for s in kind.settings}
        if fewest is not None and len(settings) >= fewest:
            continue
        if stock.search.exists(stock.lanes(choice), splices):
            fewest = len(settings)
        if fewest == 0:
            return 0, "no board need be ripped on the fence"
    if fewest is None:
        return _NOTHING
    return fewest, f"every choice of {sticks} of the sticks that covers the sides needs as many"


def _any_remnant(stock: Stock, values: dict[str, int]) -> Bound:
    return None, "it is kept as the plan with the least cost leaves it"


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
    cost, splices, sticks, _, ripped = (values[name] for name in STAGES[:5])
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
    for search in (stock.search, stock.strict):
        stock.work.done = 0
        try:
            if search is not None and not search.exists(lanes, stock.most_splices):
                return True
        except WorkLimitError:
            continue
    return False
