from __future__ import annotations

from random import Random

import pytest
from splice_pools import every_component, small_pool

from edgewright.cutlist.column_generation.pool import Column, LaneKind, SideKind, SplicePool, Way
from edgewright.cutlist.column_generation.pricing import Duals, price_components
from edgewright.cutlist.column_generation.pricing_tight import price_tight, spare_length


def worth(pool: SplicePool, duals: Duals, sides: tuple[int, ...], lanes: tuple[int, ...]) -> int:
    gain = sum(n * u for n, u in zip(sides, duals.sides, strict=True))
    gain -= sum(n * w for n, w in zip(lanes, duals.lanes, strict=True))
    return gain - duals.splice * (sum(lanes) - 1)


def random_duals(pool: SplicePool, pick: Random) -> Duals:
    return Duals(
        tuple(pick.randint(0, 3 * side.length) for side in pool.sides),
        tuple(pick.randint(0, 3 * lane.length) for lane in pool.lanes),
        pick.randint(0, 6),
        1,
    )


def counted(pool: SplicePool, column: Column) -> tuple[tuple[int, ...], tuple[int, ...]]:
    sides, lanes = dict(column.sides), dict(column.lanes)
    return (
        tuple(sides.get(i, 0) for i in range(len(pool.sides))),
        tuple(lanes.get(t, 0) for t in range(len(pool.lanes))),
    )


@pytest.mark.property
def test_no_component_pays_more_than_pricing_says_and_its_columns_are_possible() -> None:
    """Against every component listed one by one; what is listed by pricing is one of them and pays."""
    sharp = 0
    for number in range(150):
        pool = small_pool(number)
        duals = random_duals(pool, Random(1000 + number))
        most_lanes = 3
        possible = set(every_component(pool, most_lanes))
        truth = max((worth(pool, duals, *component) for component in possible), default=0)
        priced = price_components(pool, duals, most_lanes)
        assert priced.most[0] >= max(0, truth), number
        sharp += priced.most[0] == max(0, truth)
        for column in priced.columns:
            assert counted(pool, column) in possible
            assert worth(pool, duals, *counted(pool, column)) > 0
    assert sharp >= 75  # else lanes are reckoned with more often than there are


@pytest.mark.property
def test_with_little_to_spare_the_components_that_waste_less_are_priced_exactly() -> None:
    looked_at = 0
    for number in range(300):
        pool = small_pool(number)
        spare = spare_length(pool, 0)
        assert spare is not None
        if spare < 0:
            continue
        duals = random_duals(pool, Random(2000 + number))
        kerf = pool.kerf

        def wasted(sides: tuple[int, ...], lanes: tuple[int, ...], pool: SplicePool = pool) -> int:
            held = sum(n * (lane.length + pool.kerf) for n, lane in zip(lanes, pool.lanes, strict=True))
            return held - sum(
                n * (side.length + pool.kerf) for n, side in zip(sides, pool.sides, strict=True)
            )

        possible = {c for c in every_component(pool, 3) if wasted(*c) <= spare}
        truth = max((worth(pool, duals, *component) for component in possible), default=0)
        priced = price_tight(pool, duals, 3, spare, 12, False)
        assert priced is not None
        assert priced.most[0] >= max(0, truth), (number, kerf)
        for column in priced.columns:
            assert counted(pool, column) in possible
        looked_at += bool(possible)
    assert looked_at > 100


@pytest.mark.example
def test_where_mitres_nest_one_lane_holds_more() -> None:
    """Two sides of 10 with a joint of -2 fit a lane of 18; spliced ones are reckoned with a plain kerf."""
    pool = SplicePool(
        (SideKind(10, 2, 1),), (Way(0, 0),), (2,), (LaneKind(18, 0, 1),), (-2,), 1
    )  # fmt: skip
    priced = price_components(pool, Duals((5,), (7,), 0, 1), 1)
    assert priced.columns == (Column(((0, 2),), ((0, 1),)),)
    assert priced.most == (3,)


@pytest.mark.example
def test_lengths_without_a_common_step_are_rounded_to_the_safe_side() -> None:
    """A lane of 3 000 001 and sides of 1 500 000: two fit with a kerf of 1, and a rounded step must not lose them."""
    pool = SplicePool(
        (SideKind(1_500_000, 2, 1), SideKind(777_777, 1, 1)), (Way(0, 0),), (1,), (LaneKind(3_000_001, 0, 1),), (1,), 1
    )  # fmt: skip
    priced = price_components(pool, Duals((5, 1), (9,), 0, 1), 1)
    assert priced.most[0] >= 1
    assert Column(((0, 2),), ((0, 1),)) in priced.columns
