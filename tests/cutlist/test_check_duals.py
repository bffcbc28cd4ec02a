"""What the checker makes of prices, against every component one by one."""

from __future__ import annotations

from random import Random

import pytest
from splice_pools import best_by_hand, every_component, small_pool

from edgewright.cutlist.check_duals import Offer, PricedSide, dual_excess, holds_beyond
from edgewright.cutlist.check_search import Work, WorkLimitError


@pytest.mark.property
def test_no_component_is_worth_more_than_the_excess_says() -> None:
    met = 0
    for number in range(200):
        pool, pick = small_pool(number), Random(number)
        worth = [pick.randint(0, 3 * side.length) for side in pool.sides]
        cost = [pick.randint(0, 3 * lane.length) for lane in pool.lanes]
        splice, kerf = pick.randint(0, 6), pool.kerf
        sides = [PricedSide(s.length, s.count, u) for s, u in zip(pool.sides, worth, strict=True)]
        offers = [Offer(lane.length, w) for lane, w in zip(pool.lanes, cost, strict=True)]
        excess = dual_excess(sides, offers, splice, kerf, kerf, 3, lambda steps: None)
        truth = (
            max(
                sum(n * u for n, u in zip(s, worth, strict=True))
                - sum(n * w for n, w in zip(m, cost, strict=True))
                - splice * (sum(m) - 1)
                for s, m in every_component(pool, 3)
            )
            if any(True for _ in every_component(pool, 3))
            else 0
        )
        assert excess >= max(0, truth), number
        met += excess == max(0, truth)
    assert met >= 100  # lanes may be reckoned with more often than there are


@pytest.mark.property
def test_beyond_many_lanes_nothing_pays_where_the_worth_of_a_tick_says_so() -> None:
    held = 0
    for number in range(300):
        pool, pick = small_pool(number), Random(number)
        sides = [PricedSide(s.length, s.count, pick.randint(0, s.length)) for s in pool.sides]
        offers = [Offer(lane.length, lane.length + pick.randint(-2, 3)) for lane in pool.lanes]
        if any(offer.cost < 0 for offer in offers):
            continue
        splice, kerf = pick.randint(0, 4), pool.kerf
        if not holds_beyond(sides, offers, splice, kerf, kerf, 1):
            continue
        held += 1
        for s, m in every_component(pool, 4):
            if sum(m) > 1:
                gain = sum(n * side.worth for n, side in zip(s, sides, strict=True))
                gain -= sum(n * offer.cost for n, offer in zip(m, offers, strict=True)) + splice * (
                    sum(m) - 1
                )
                assert gain <= 0, number
    assert held >= 30


@pytest.mark.property
def test_any_prices_at_all_give_a_bound_that_no_plan_beats() -> None:
    """Fewest splices by hand against the bound of prices drawn at random, without regard to any plan."""
    positive = 0
    for number in range(25):
        pool = small_pool(number)
        truth = best_by_hand(pool)
        if truth is None:
            continue
        for turn in range(20):
            pick = Random(1000 * number + turn)
            scale = 12
            sides = [PricedSide(s.length, s.count, pick.randint(0, 3 * scale)) for s in pool.sides]
            offers = [Offer(lane.length, pick.randint(0, 2 * scale)) for lane in pool.lanes]
            excess = dual_excess(sides, offers, scale, pool.kerf, pool.kerf, 6, lambda steps: None)
            total = sum(max(0, side.worth - excess) * side.count for side in sides)
            total -= sum(offer.cost * pool.available(t) for t, offer in enumerate(offers))
            if truth[1] <= 5:  # all components of its plan have been looked at
                assert -(-total // scale) <= truth[1], (number, turn)
                positive += total > 0
    assert positive > 0


@pytest.mark.example
def test_the_work_is_counted() -> None:
    sides = [PricedSide(10 + n, 3, 5 + n) for n in range(40)]
    with pytest.raises(WorkLimitError):
        dual_excess(sides, [Offer(400, 3)], 1, 1, 1, 2, Work(50).spend_all)
