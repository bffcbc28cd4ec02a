"""Prices of a tick by length alone, and the bound they prove."""

import pytest

from edgewright.cutlist.column_generation.length_prices import length_prices
from edgewright.cutlist.column_generation.pool import LaneKind, SideKind, SplicePool, Way
from edgewright.cutlist.column_generation.relaxation import Relaxation
from edgewright.cutlist.column_generation.weights import SCALE, Weights


@pytest.mark.example
def test_the_price_is_that_of_the_board_by_its_length():
    # three sides of 60 and one kind of board with two lanes of 100 for 20, kerf 0: 180 ticks at 0.1 a tick are 18
    pool = SplicePool((SideKind(60, 3, 1),), (Way(0, 20),), (5,), (LaneKind(100, 0, 2),), (0,), 0)
    cost = Weights(ways=(20,))
    (tick,) = length_prices(pool, cost, [0])
    assert float(tick) / SCALE == pytest.approx(0.1)
    proof = Relaxation(pool).by_length(cost, ())
    assert proof is not None
    assert proof.bound == 18


@pytest.mark.example
def test_a_stick_serves_one_width_or_the_other():
    # one stick gives a lane of 100 for either family; each needs 100, so one board for 7 is bought
    sides = (SideKind(100, 1, 1, 0), SideKind(100, 1, 1, 1))
    ways = (Way(0, 0), Way(0, 0), Way(1, 7), Way(1, 7))
    lanes = tuple(LaneKind(100, n, 1, (n % 2,)) for n in range(4))
    pool = SplicePool(sides, ways, (1, 9), lanes, (0, 0), 0)
    proof = Relaxation(pool).by_length(Weights(ways=(0, 0, 7, 7)), ())
    assert proof is not None
    assert proof.bound == 7


def test_too_little_wood_has_no_price():
    pool = SplicePool((SideKind(60, 3, 1),), (Way(0, 20),), (1,), (LaneKind(100, 0, 1),), (0,), 0)
    assert length_prices(pool, Weights(ways=(20,)), [0]) is None
