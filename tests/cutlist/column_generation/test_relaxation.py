from __future__ import annotations

import pytest
from splice_pools import best_by_hand, small_pool

from edgewright.cutlist.column_generation.pool import LaneKind, SideKind, SplicePool, Way
from edgewright.cutlist.column_generation.relaxation import Relaxation
from edgewright.cutlist.column_generation.weights import Budget, Weights


@pytest.mark.property
def test_bounds_never_exceed_what_is_best_by_hand() -> None:
    """Least cost, and fewest splices for it, against every partition into components."""
    met = solved = known = 0
    for number in range(30):
        pool = small_pool(number, for_sale=True)
        truth = best_by_hand(pool)
        relaxation = Relaxation(pool)
        cost = Weights(ways=tuple(way.price for way in pool.ways))
        proof = relaxation.solve(cost)
        if truth is None:
            continue
        solved += 1
        if proof is not None:
            assert not proof.impossible
            assert proof.bound <= truth[0], number
            known += 1
        splices = relaxation.solve(Weights(splice=1), [Budget(cost, truth[0])], most_lanes=4)
        if splices is not None:
            assert splices.bound <= truth[1], number
            met += splices.bound == truth[1]
    assert solved >= 20
    assert known >= solved // 2
    assert met >= solved // 2


@pytest.mark.example
def test_too_little_wood_is_impossible() -> None:
    pool = SplicePool((SideKind(10, 2, 1),), (Way(0, 0),), (1,), (LaneKind(19, 0, 1),), (1,), 1)
    proof = Relaxation(pool).solve(Weights(splice=1))
    assert proof is not None
    assert proof.impossible


@pytest.mark.example
def test_ten_sides_of_72_from_eight_lanes_of_100_take_four_splices() -> None:
    """By hand: eight sides are whole; each of the other two takes what three lanes leave (28 each), two splices."""
    pool = SplicePool((SideKind(72, 10, 1),), (Way(0, 0),), (8,), (LaneKind(100, 0, 1),), (0,), 0)
    proof = Relaxation(pool).solve(Weights(splice=1), most_lanes=6)
    assert proof is not None
    assert proof.bound == 4


@pytest.mark.example
def test_a_stick_is_ripped_in_one_way_only() -> None:
    """A board gives two strips of family 0 or three of family 1; both families need one: two boards."""
    pool = SplicePool(
        (SideKind(50, 1, 0, 0), SideKind(50, 1, 0, 1)),
        (Way(0, 7), Way(0, 7)),
        (5,),
        (LaneKind(60, 0, 2, (0,)), LaneKind(60, 1, 3, (1,))),
        (1, 1),
        1,
    )
    proof = Relaxation(pool).solve(Weights(ways=(7, 7)))
    assert proof is not None
    # by fractions half a board and a third of one would do: 5.83, so 6
    assert proof.bound == 6
