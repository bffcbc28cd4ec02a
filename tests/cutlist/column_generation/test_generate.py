from __future__ import annotations

from collections.abc import Sequence

import pytest
from splice_pools import best_by_hand, small_pool

from edgewright.cutlist.column_generation.generate import Limits, generate
from edgewright.cutlist.column_generation.pool import Column, LaneKind, SideKind, SplicePool, Way
from edgewright.cutlist.realise import Realised


def anything(uses: Sequence[Column], ways: Sequence[int]) -> Realised:
    """Place whatever was chosen."""
    return Realised(())


@pytest.mark.property
def test_cost_and_splices_as_by_hand_and_never_better_than_the_bound() -> None:
    best, solved = 0, 0
    for number in range(30):
        pool = small_pool(number, for_sale=True)
        truth = best_by_hand(pool)
        plan = generate(pool, anything)
        if truth is None:
            assert plan is None, number
            continue
        assert plan is not None, number
        values = {stage.name: stage.value for stage in plan.stages}
        for stage in plan.stages:
            assert stage.proof is None or stage.proof.bound <= stage.value
        got = values["new material cost"], values["splices"]
        assert got >= truth, number
        solved += 1
        best += got == truth
    assert solved >= 20
    assert best >= solved * 95 // 100


@pytest.mark.example
def test_what_cannot_be_placed_is_refused_and_replaced() -> None:
    """The pair of lanes of 40 is refused for the side of 72; three lanes do."""
    pool = SplicePool((SideKind(72, 1, 2),), (Way(0, 0),), (3,), (LaneKind(40, 0, 1),), (1,), 1)
    asked = []

    def not_two(uses: Sequence[Column], ways: Sequence[int]) -> Realised:
        asked.append(uses[0].strips)
        return Realised(()) if uses[0].strips == 3 else Realised(None, alone=frozenset({0}))

    plan = generate(pool, not_two)
    assert plan is not None
    assert asked[0] == 2
    assert {stage.name: stage.value for stage in plan.stages}["splices"] == 2


@pytest.mark.example
def test_with_no_round_allowed_there_is_no_plan_and_no_error() -> None:
    pool = SplicePool((SideKind(30, 1, 1),), (Way(0, 0),), (1,), (LaneKind(40, 0, 1),), (1,), 1)
    assert generate(pool, anything, limits=Limits(rounds=0)) is None
    assert generate(pool, anything) is not None


@pytest.mark.example
def test_the_caller_can_stop_it() -> None:
    pool = SplicePool((SideKind(30, 1, 1),), (Way(0, 0),), (1,), (LaneKind(40, 0, 1),), (1,), 1)

    def stop(words: str) -> None:
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        generate(pool, anything, ticking=stop)
