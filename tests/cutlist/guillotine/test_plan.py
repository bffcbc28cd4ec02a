from __future__ import annotations

import dataclasses
from random import Random

import pytest
from ask_general_solver import ask_general_solver
from guillotine_cases import best_by_enumeration, random_case, rect, sawn_apart

from edgewright.cutlist.check_guillotine import check_guillotine
from edgewright.cutlist.guillotine.model import (
    Blank,
    GuillotineLimits,
    GuillotinePlan,
    GuillotineRules,
    GuillotineShortage,
    StockRect,
)
from edgewright.cutlist.guillotine.plain import plain_layout
from edgewright.cutlist.guillotine.plan import plan_guillotine
from edgewright.errors import InputError

INCH = 8128
RULES = GuillotineRules(kerf=INCH // 8, min_rip_width=INCH * 3 // 4)


def values(plan: GuillotinePlan | GuillotineShortage) -> tuple[int, ...]:
    assert isinstance(plan, GuillotinePlan), plan
    return tuple(stage.value for stage in plan.stages)


def proven(plan: GuillotinePlan | GuillotineShortage, *names: str) -> bool:
    assert isinstance(plan, GuillotinePlan), plan
    return all(stage.proven for stage in plan.stages if stage.name in names)


def shortage(plan: GuillotinePlan | GuillotineShortage) -> GuillotineShortage:
    assert isinstance(plan, GuillotineShortage), plan
    return plan


# --- worked cases --------------------------------------------------------------------------------------------------


@pytest.mark.example
def test_equality_fits():
    # 3 lanes of 10 and 2 kerfs of 1 are 32; 2 blanks of 15 and a kerf are 31
    plan = plan_guillotine([rect("a", 31, 32)], [Blank("b", 15, 10, 6, "length")], GuillotineRules(1, 0))
    assert values(plan)[:3] == (0, 1, 1)
    assert isinstance(plan, GuillotinePlan)
    assert [lane.width for lane in plan.layouts[0].lanes] == [10, 10, 10]
    assert [piece.start for piece in plan.layouts[0].lanes[0].pieces] == [0, 16]
    assert plan.rests == ()


@pytest.mark.example
def test_one_tick_less_does_not_fit():
    for board in (rect("a", 30, 32), rect("a", 31, 31)):
        plan = shortage(plan_guillotine([board], [Blank("b", 15, 10, 6, "length")], GuillotineRules(1, 0)))
        assert plan.proven


@pytest.mark.example
def test_a_board_as_wide_as_the_blanks_needs_no_rip():
    plan = plan_guillotine([rect("a", 50, 4)], [Blank("b", 10, 4, 4, None)], GuillotineRules(1, 5))
    assert values(plan) == (0, 1, 0, 0)
    assert proven(plan, "new material cost", "sticks touched", "fence settings")


@pytest.mark.example
def test_narrow_rips_are_refused():
    short = shortage(
        plan_guillotine([rect("a", 50, 10)], [Blank("b", 20, 2, 1, "length")], GuillotineRules(1, 3))
    )
    assert short.missing == ("b",)
    # turned, the lane is 20 wide: the stick is too narrow, but across it goes
    plan = plan_guillotine([rect("a", 50, 25)], [Blank("b", 20, 2, 1, None)], GuillotineRules(1, 3))
    assert isinstance(plan, GuillotinePlan)
    assert plan.layouts[0].lanes[0].pieces[0].turned


@pytest.mark.example
def test_grain_decides_which_way_a_blank_lies():
    blank = Blank("b", 30, 5, 1, "length")
    rules = GuillotineRules(0, 0)
    assert isinstance(plan_guillotine([rect("a", 40, 10, grain="length")], [blank], rules), GuillotinePlan)
    assert shortage(plan_guillotine([rect("a", 40, 10, grain="width")], [blank], rules)).proven
    assert isinstance(plan_guillotine([rect("a", 10, 40, grain="width")], [blank], rules), GuillotinePlan)


@pytest.mark.example
def test_own_wood_goes_before_bought_and_the_cheaper_board_before_the_dearer():
    blanks = [Blank("b", 20, 10, 4, "length")]
    stock = [rect("own", 20, 10, 2), rect("small", 20, 10, None, 3), rect("large", 20, 20, None, 5)]
    # two from one's own wood; the other two from one large board (5), not two small ones (6)
    assert values(plan_guillotine(stock, blanks, GuillotineRules(0, 0)))[:2] == (5, 3)


@pytest.mark.example
def test_offcuts_that_look_enough_by_area_but_are_not():
    # 6 blanks of 6 x 6 are 216, two sticks of 11 x 11 are 242, and each holds one only
    blanks = [Blank("b", 6, 6, 3, None)]
    stock = [rect("a", 11, 11, 2), rect("sheet", 12, 6, None, 10)]
    plan = plan_guillotine(stock, blanks, GuillotineRules(0, 0))
    assert values(plan)[:2] == (10, 2)
    assert proven(plan, "new material cost", "sticks touched")


@pytest.mark.example
def test_fence_settings_are_saved_by_turning():
    # three widths as they stand; turned, the second is 4 wide as well
    blanks = [Blank("a", 9, 4, 2, None), Blank("b", 4, 3, 2, None)]
    plan = plan_guillotine([rect("s", 20, 20)], blanks, GuillotineRules(0, 0))
    assert values(plan)[2] == 1


@pytest.mark.example
def test_largest_remnant_is_one_strip_or_the_stick_not_touched():
    # one lane of 10 and a kerf of 1 leave 9 of 20, all 40 long; the other stick is touched by neither
    plan = plan_guillotine([rect("s", 40, 20)], [Blank("b", 10, 10, 3, "length")], GuillotineRules(1, 0))
    assert values(plan)[3] == 40 * 9
    assert proven(plan, "largest remnant")
    plan = plan_guillotine([rect("s", 40, 20, 2)], [Blank("b", 10, 10, 3, "length")], GuillotineRules(1, 0))
    assert values(plan)[3] == 40 * 20


@pytest.mark.example
def test_ring_segments_and_blocks_from_two_offcuts_and_a_sheet():
    blanks = [
        Blank("segment", INCH * 163 // 16, INCH * 83 // 32, 12, "length"),
        Blank("block", 4 * INCH, 4 * INCH, 8, None),
    ]
    stock = [
        StockRect("north", "north offcut", "offcut", 72 * INCH, 5 * INCH, 1, 0, None),
        StockRect("south", "south offcut", "offcut", 72 * INCH, 3 * INCH, 1, 0, None),
        StockRect("sheet", "plywood", "for sale", 96 * INCH, 48 * INCH, None, 6000, None),
    ]
    # 7 segments need 71 5/16 + 6/8 = 72 1/16 in, so an offcut gives 6 and both give 12: the blocks ask for the sheet,
    # which then holds everything by itself
    plan = plan_guillotine(stock, blanks, RULES)
    assert values(plan)[:3] == (6000, 1, 2)
    assert proven(plan, "new material cost", "sticks touched", "fence settings")


# --- against an enumeration of every layout ------------------------------------------------------------------------


@pytest.mark.property
@pytest.mark.parametrize("block", range(6))
def test_equal_to_enumeration(block):
    plans = 0
    for seed in range(40 * block, 40 * block + 40):
        stock, blanks, rules = random_case(seed)
        best = best_by_enumeration(stock, blanks, rules)
        plan = plan_guillotine(stock, blanks, rules)
        if best is None:
            assert shortage(plan).proven, seed
        else:
            assert values(plan)[:2] == best, seed
            assert proven(plan, "new material cost", "sticks touched"), seed
            plans += 1
    assert plans > 10


@pytest.mark.property
@pytest.mark.parametrize("sheets", [1, 2, 4])
def test_sheets_sawn_apart_go_back_into_as_many(sheets):
    for seed in range(3):
        plan = plan_guillotine(*sawn_apart(100 * sheets + seed, sheets))
        assert values(plan)[1] == sheets
        assert proven(plan, "new material cost", "sticks touched")


def fewest_bins(sizes: list[int], room: int, kerf: int) -> int:
    """Fewest boards for lengths to be cut whole, by trying every place for every piece."""
    best = len(sizes)

    def go_on(place: int, bins: list[int]) -> None:
        nonlocal best
        if len(bins) >= best:
            return
        if place == len(sizes):
            best = len(bins)
            return
        for i, used in enumerate(bins):
            if used + sizes[place] + kerf <= room + kerf and used not in bins[:i]:
                go_on(place + 1, [*bins[:i], used + sizes[place] + kerf, *bins[i + 1 :]])
        go_on(place + 1, [*bins, sizes[place] + kerf])

    go_on(0, [])
    return best


@pytest.mark.property
def test_blanks_as_wide_as_the_boards_are_plain_cutting_stock():
    for seed in range(12):
        pick = Random(seed)
        sizes = sorted((pick.randint(15, 60) for _ in range(9)), reverse=True)
        blanks = [Blank(f"b{n}", size, 7, 1, "length") for n, size in enumerate(sizes)]
        board = StockRect("board", "board", "for sale", 100, 7, None, 9, "length")
        plan = plan_guillotine([board], blanks, GuillotineRules(2, 0))
        boards = fewest_bins(sizes, 100, 2)
        assert values(plan)[:3] == (9 * boards, boards, 0)
        assert proven(plan, "new material cost", "sticks touched")


@pytest.mark.reference
def test_constraint_solver_finds_no_fewer_sheets():
    """The same by a general constraint solver, lanes and places as plain variables."""
    cases, expected = [], []
    for seed in range(4):
        pick = Random(900 + seed)
        blanks = [
            Blank(f"b{n}", pick.randint(12, 50), pick.choice((7, 11, 16)), pick.randint(2, 4), "length")
            for n in range(4)
        ]
        board = StockRect("s", "s", "for sale", 90, 40, None, 1, "length")
        plan = plan_guillotine([board], blanks, GuillotineRules(1, 0))
        assert proven(plan, "sticks touched")
        sizes = [[b.length, b.width, b.count] for b in blanks]
        for sheets in (values(plan)[1], values(plan)[1] - 1):
            cases.append({"blanks": sizes, "length": 90, "width": 40, "kerf": 1, "sheets": sheets})
        expected += [[1], []]
    assert [answer for answer, _ in ask_general_solver("sheets", cases)] == expected


# --- properties ----------------------------------------------------------------------------------------------------


@pytest.mark.property
def test_order_of_input_changes_nothing():
    for seed in range(15):
        stock, blanks, rules = random_case(seed)
        plan = plan_guillotine(stock, blanks, rules)
        assert plan_guillotine(stock[::-1], blanks[::-1], rules) == plan


@pytest.mark.property
def test_no_stage_is_better_than_its_bound():
    plans = 0
    for seed in range(240, 300):
        plan = plan_guillotine(*random_case(seed))
        if isinstance(plan, GuillotinePlan):
            plans += 1
            for stage in plan.stages:
                assert stage.bound is not None
                better = (
                    stage.value > stage.bound
                    if stage.name == "largest remnant"
                    else stage.value < stage.bound
                )
                assert not better, (seed, stage)
    assert plans > 20


@pytest.mark.property
def test_more_stock_is_never_worse():
    for seed in range(25):
        stock, blanks, rules = random_case(seed)
        plan = plan_guillotine(stock, blanks, rules)
        more = plan_guillotine([*stock, rect("more", 12, 9)], blanks, rules)
        if isinstance(plan, GuillotinePlan):
            assert values(more)[0] <= values(plan)[0], seed


@pytest.mark.property
def test_without_what_is_missing_there_is_a_plan():
    some = 0
    for seed in range(40):
        stock, blanks, rules = random_case(seed)
        plan = plan_guillotine(stock, blanks, rules)
        if isinstance(plan, GuillotineShortage):
            less = [dataclasses.replace(b, count=b.count - plan.missing.count(b.id)) for b in blanks]
            assert isinstance(plan_guillotine(stock, less, rules), GuillotinePlan), seed
            some += any(b.count for b in less)
    assert some


@pytest.mark.property
def test_at_the_work_limit_the_plan_stands_and_says_what_is_not_proven():
    stock, blanks, rules = sawn_apart(7, 3)
    limits = GuillotineLimits(patterns=5, rounds=1, cuts=1, tries=1, levels=0, nodes=1, steps=1)
    plan = plan_guillotine(stock, blanks, rules, limits=limits)
    assert isinstance(plan, GuillotinePlan)
    assert not check_guillotine(plain_layout(stock, blanks, rules, plan), 1)
    assert not plan.stages[1].proven
    assert plan.stages[1].bound is None


# --- bad input -----------------------------------------------------------------------------------------------------


def test_no_stock():
    plan = shortage(plan_guillotine([], [Blank("b", 10, 10, 2, None)], RULES))
    assert plan.proven
    assert plan.missing == ("b", "b")
    assert plan.sentence == "there is no stock to saw blanks 2 x b from"


def test_no_blanks():
    assert values(plan_guillotine([rect("a", 30, 20)], [], RULES)) == (0, 0, 0, 600)


def test_blank_larger_than_any_stick_says_which_and_by_how_much():
    stock = [rect("a", 48 * INCH, 24 * INCH), rect("b", 30 * INCH, 30 * INCH)]
    blanks = [
        Blank("top", 60 * INCH, 30 * INCH, 1, "length"),
        Blank("rail", 20 * INCH, 3 * INCH, 2, "length"),
    ]
    plan = shortage(plan_guillotine(stock, blanks, RULES))
    assert plan.proven
    assert plan.missing == ("top",)
    assert plan.sentence == (
        "blank top, 60 in by 30 in, is larger than every stick: board a comes nearest and is 12 in too short and "
        "6 in too narrow"
    )


def test_area_alone_decides():
    plan = shortage(
        plan_guillotine([rect("a", 10 * INCH, 10 * INCH)], [Blank("b", 6 * INCH, 6 * INCH, 3, None)], RULES)
    )
    assert plan.proven
    assert (
        plan.sentence
        == "the blanks take 108.00 in², the stock holds 100.00 in²: the stock does not hold blanks 2 x b"
    )


@pytest.mark.parametrize(
    ("stock", "blank", "rules", "words"),
    [
        (
            rect("a", 0, 5),
            Blank("b", 1, 1, 1, None),
            RULES,
            "stock a: its length is 0 in; it must be above 0",
        ),
        (rect("a", 9, 5), Blank("b", 1, -3, 1, None), RULES, "blank b: its width is"),
        (rect("a", 9, 5), Blank("b", 1, 1, -1, None), RULES, "blank b: its count is -1"),
        (rect("a", 9, 5), Blank("b", 1, 1, 10**6, None), RULES, "plan them in batches"),
        (rect("a", 9, 5), Blank("b", 1, 1, 1, None), GuillotineRules(-1, 0), "kerf is"),
        (
            StockRect("a", "a", "on hand", 9, 9, None, 0, None),
            Blank("b", 1, 1, 1, None),
            RULES,
            "give its count",
        ),
        (StockRect("a", "a", "for sale", 9, 9, 1, -5, None), Blank("b", 1, 1, 1, None), RULES, "-5 cents"),
    ],
)
def test_what_cannot_be_meant_is_refused(stock, blank, rules, words):
    with pytest.raises(InputError, match=words):
        plan_guillotine([stock], [blank], rules)


def test_ids_given_twice_are_refused():
    with pytest.raises(InputError, match="blank b is listed twice"):
        plan_guillotine([rect("a", 9, 9)], [Blank("b", 1, 1, 1, None), Blank("b", 2, 1, 1, None)], RULES)


def test_thousands_of_equal_blanks():
    sheet = StockRect("s", "s", "for sale", 96 * INCH, 48 * INCH, None, 100, "length")
    # 4 in and a kerf go 11 times into 48 in and a kerf, 10 in and a kerf 9 times into 96 in: 99 a sheet
    plan = plan_guillotine([sheet], [Blank("b", 10 * INCH, 4 * INCH, 3000, "length")], RULES)
    assert values(plan)[1] == -(-3000 // 99)
    assert proven(plan, "new material cost", "sticks touched")
