"""The number of segments of a circle by what the stock yields."""

from __future__ import annotations

import pytest
from shaped_jobs import shaped_plan
from stock_jobs import ROUND_48, board


def trials(plan):
    return {one.segments: one for one in plan.build_up.trials}


@pytest.mark.example
def test_the_corners_of_the_square_decide_for_sixteen():
    plan = shaped_plan(ROUND_48)
    # eight blanks are 19.9 in long: none in a corner; of twelve each corner holds one, of sixteen (9.55 x 1.93 in)
    # two: 24 (sqrt 2 - 1) - 1/2 - 9.5625/2 = 4.66 in are more than 2 x 1 15/16 and a kerf
    assert plan.build_up.chosen == 16
    assert {number: one.pieces - one.missing for number, one in trials(plan).items() if number} == {
        8: 0, 12: 4, 16: 8
    }  # fmt: skip
    assert len(plan.design.pieces) == 16
    assert min(one.missing_area for one in plan.build_up.trials) == trials(plan)[16].missing_area


@pytest.mark.example
def test_where_one_board_holds_any_ring_the_fewest_pieces_are_taken():
    plan = shaped_plan(ROUND_48 + board("half sheet", "48 in", "24 in", "30"))
    assert plan.build_up.to_buy == ()
    assert plan.build_up.cost_cents == 3000
    assert {one.cost_cents for one in plan.build_up.trials} == {3000}
    best = min(plan.build_up.trials, key=lambda one: (one.sticks, one.pieces))
    assert len(plan.design.pieces) == best.pieces


@pytest.mark.example
def test_a_number_that_the_job_gives_is_kept():
    plan = shaped_plan(ROUND_48.replace("[edge]", "[edge]\nsegments = 12"))
    assert plan.build_up.trials == ()
    assert len(plan.design.pieces) == 12


@pytest.mark.example
def test_short_segments_and_tops_without_stock_are_not_tried():
    # sixteen blanks of a 48 in round are 9.55 in long
    plan = shaped_plan(ROUND_48 + '[splice]\nmin_piece = "10 in"\n')
    assert 16 not in trials(plan)
    assert shaped_plan("oval_four_arcs").build_up.trials == ()
    assert shaped_plan("boat").build_up.trials == ()
