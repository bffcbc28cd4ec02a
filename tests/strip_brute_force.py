"""Strip problems of up to 4 sides and 4 or 5 lanes, and the slow way to solve them; nothing here calls the planner."""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from functools import cache
from itertools import combinations, pairwise
from random import Random

from strip_cases import BARE_RULES, side, stick

from edgewright.cutlist.model import PlanRules, RingSide, Stick

Problem = tuple[tuple[RingSide, ...], tuple[Stick, ...]]


@cache
def shares(length: int, lanes: int, most: int) -> tuple[tuple[int, ...], ...]:
    """Every way to take ``length`` from ``lanes`` lanes in at most ``most`` pieces."""
    if lanes == 1:
        return ((length,),) if length == 0 or most else ()
    return tuple(
        (take, *rest)
        for take in range(length + 1)
        if not take or most
        for rest in shares(length - take, lanes - 1, most - (take > 0))
    )


def fewest_splices(sides: Sequence[tuple[int, int]], lanes: Sequence[int], kerf: int) -> int | None:
    """Fewest splices that cover sides of (length, splices allowed); None if nothing does.

    A lane is full when its pieces, each with one kerf, reach its length and one kerf.
    """
    if not lanes:
        return None
    states: dict[tuple[int, ...], int] = {tuple(sorted(lane + kerf for lane in lanes)): 0}
    for length, allowed in sides:
        after: dict[tuple[int, ...], int] = {}
        for room, spent in states.items():
            for share in shares(length, len(room), allowed + 1):
                left = [r - (s + kerf if s else 0) for r, s in zip(room, share, strict=True)]
                if min(left) >= 0:
                    key, cost = tuple(sorted(left)), spent + sum(s > 0 for s in share) - 1
                    after[key] = min(cost, after.get(key, cost))
        states = after
    return min(states.values(), default=None)


def best_by_hand(problem: Problem, rules: PlanRules) -> tuple[int, int, int] | None:
    """Least cost, the fewest splices for it, and the fewest sticks for both, over every choice of sticks."""
    sides, sticks = problem
    needs = [(s.length_ticks, s.max_splices if rules.splices_allowed else 0) for s in sides]
    found: list[tuple[int, int, int]] = []
    for count in range(1, len(sticks) + 1):
        for taken in combinations(sticks, count):
            lanes = [lane.length_ticks for s in taken for lane in s.lanes]
            splices = fewest_splices(needs, lanes, rules.kerf_ticks)
            if splices is not None:
                found.append((sum(s.price_cents for s in taken), splices, count))
    return min(found, default=None)


def small_problem(number: int, *, for_sale: bool = False) -> tuple[Problem, PlanRules]:
    """Up to 4 sides and 4 lanes that hold about what the sides need, so that many cases fit, and barely."""
    pick = Random(number)
    count, kerf, lanes = pick.randint(1, 4), pick.randint(1, 2), pick.randint(1, 4)
    sides = tuple(
        side(f"{'NESW'[i]}1", pick.randint(2, 9 - count), splices=pick.choice([0, 1, 1, 2, 3]))
        for i in range(count)
    )
    held = max(5, sum(s.length_ticks for s in sides) + pick.randint(0, count) * kerf + pick.randint(-1, 1))
    ends = [0, *sorted(pick.sample(range(1, held), lanes - 1)), held]
    sticks = []
    for i, (low, high) in enumerate(pairwise(ends)):
        price = pick.choice([None, 1, 2, 5]) if for_sale else None
        sticks.append(stick(f"s{i}", high - low, price=price))
    if for_sale:
        sticks.append(stick("more", pick.randint(3, 10), price=pick.randint(1, 6)))
    rules = dataclasses.replace(BARE_RULES, kerf_ticks=kerf, splices_allowed=pick.random() < 0.9)
    return (sides, tuple(sticks)), rules
