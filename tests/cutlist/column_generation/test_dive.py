from __future__ import annotations

import pytest

from edgewright.cutlist.column_generation.dive import combined, dive, seeds
from edgewright.cutlist.column_generation.pool import LaneKind, SideKind, SplicePool, Way
from edgewright.cutlist.column_generation.relaxation import Relaxation


@pytest.mark.example
def test_a_dive_settles_how_boards_are_ripped_for_two_widths() -> None:
    """Four sides of 50 in each of two families; a board gives two strips of 60 of one, or three of the other."""
    pool = SplicePool(
        (SideKind(50, 4, 0, 0), SideKind(50, 4, 0, 1)),
        (Way(0, 7), Way(0, 7)),
        (6,),
        (LaneKind(60, 0, 2, (0,)), LaneKind(60, 1, 3, (1,))),
        (1, 1),
        1,
    )
    relaxation, weights = Relaxation(pool, list(seeds(pool))), combined(pool)
    relaxation.solve(weights)
    ways = dive(relaxation, weights, lambda words: None)
    assert ways is not None
    # four strips of the first take two boards, four of the second two more
    assert ways[0] >= 2
    assert ways[1] >= 2
    assert sum(ways) <= 6
