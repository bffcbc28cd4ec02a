from __future__ import annotations

import pytest
from guillotine_cases import random_case, rect

from edgewright.cutlist.bench_cuts import BY_HAND, CLAMPED
from edgewright.cutlist.guillotine.model import Blank, GuillotinePlan, GuillotineRules, StockRect
from edgewright.cutlist.guillotine.plan import plan_guillotine
from edgewright.cutlist.guillotine.sequence import crosscut_list, rip_list

INCH = 8128


@pytest.mark.example
def test_lists_of_one_board():
    # lanes 10, 10, 6 with a kerf of 1 end at 10, 21 and 28 of 30; pieces 20, 1, 20 take 41 of 50
    stock = [rect("a", 50, 30, grain="length")]
    blanks = [Blank("wide", 20, 10, 4, "length"), Blank("slim", 30, 6, 1, "length")]
    rules = GuillotineRules(1, 0)
    plan = plan_guillotine(stock, blanks, rules)
    assert isinstance(plan, GuillotinePlan)
    rips = rip_list(plan, stock, rules)
    assert [
        (s.width_ticks, [(r.lane, r.before_ticks, r.keep_ticks, r.kerf_end_ticks) for r in s.rips])
        for s in rips
    ] == [(10, [(1, 30, 10, 11), (2, 19, 21, 22)]), (6, [(3, 8, 28, 29)])]
    stops = crosscut_list(plan, stock, rules)
    assert [
        (s.length_ticks, [(c.blank_id, c.lane, c.start_ticks, c.end_ticks, c.kerf_end_ticks) for c in s.cuts])
        for s in stops
    ] == [
        (30, [("slim", 3, 0, 30, 31)]),
        (
            20,
            [
                ("wide", 1, 0, 20, 21),
                ("wide", 1, 21, 41, 42),
                ("wide", 2, 0, 20, 21),
                ("wide", 2, 21, 41, 42),
            ],
        ),
    ]


@pytest.mark.example
def test_a_lane_or_piece_that_ends_with_the_stick_needs_no_cut():
    stock, rules = [rect("a", 41, 21)], GuillotineRules(1, 0)
    plan = plan_guillotine(stock, [Blank("b", 20, 10, 4, "length")], rules)
    assert isinstance(plan, GuillotinePlan)
    assert [len(s.rips) for s in rip_list(plan, stock, rules)] == [1]
    assert [[c.sawn for c in s.cuts] for s in crosscut_list(plan, stock, rules)] == [
        [True, False, True, False]
    ]


@pytest.mark.example
def test_narrow_offcut_is_ripped_while_attached_and_short_pieces_are_clamped():
    stock = [StockRect("north", "north offcut", "offcut", 60 * INCH, 5 * INCH, 1, 0, None)]
    rules = GuillotineRules(INCH // 8, INCH * 3 // 4)
    blanks = [
        Blank("long", 30 * INCH, 2 * INCH, 1, "length"),
        Blank("short", 6 * INCH, 2 * INCH, 1, "length"),
    ]
    plan = plan_guillotine(stock, blanks, rules)
    assert isinstance(plan, GuillotinePlan)
    assert all(rip.attached for s in rip_list(plan, stock, rules) for rip in s.rips)
    held = {c.blank_id: c.held for s in crosscut_list(plan, stock, rules) for c in s.cuts}
    assert held == {"long": BY_HAND, "short": CLAMPED}


@pytest.mark.property
def test_positions_add_up_and_settings_are_those_of_the_plan():
    plans = 0
    for seed in range(40):
        stock, blanks, rules = random_case(seed)
        plan = plan_guillotine(stock, blanks, rules)
        if not isinstance(plan, GuillotinePlan):
            continue
        plans += 1
        settings = rip_list(plan, stock, rules)
        by_id = {s.id: s for s in stock}
        # a lane whose rip is saved because it ends with the stick may save a setting, never add one
        assert len(settings) <= plan.stages[2].value
        for layout in plan.layouts:
            rect_ = by_id[layout.stock_id]
            across = rect_.width if layout.first == "length" else rect_.length
            rips = sorted(
                (rip.lane, rip, s.width_ticks)
                for s in settings
                for rip in s.rips
                if (rip.stock_id, rip.copy) == (layout.stock_id, layout.copy)
            )
            on_saw = across
            for _, rip, width in rips:
                assert rip.before_ticks == on_saw
                assert rip.keep_ticks == across - on_saw + width
                on_saw = across - rip.kerf_end_ticks
        made = [c.blank_id for s in crosscut_list(plan, stock, rules) for c in s.cuts]
        assert sorted(made) == sorted(b.id for b in blanks for _ in range(b.count))
    assert plans > 10
