"""Cut plans of build-ups: worked by hand, checked independently, and none of a piece lost."""

from __future__ import annotations

import copy

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shaped_jobs import SHAPES, STOPPED, shaped_plan
from stock_jobs import ROUND_48, STRAIGHT, board

from edgewright.cutlist.check_guillotine import check_guillotine
from edgewright.cutlist.shaped_bench import build_up_crosscuts, build_up_rips

INCH = 8128
SOLID = STRAIGHT.replace('material = "plywood"', 'material = "solid wood"\ngrain = "length"')
RACK = board("rack", "61 in", "4 1/8 in")
#: Jobs of several kinds, by a name.
JOBS = {
    "corners, twelve": ROUND_48.replace("[edge]", "[edge]\nsegments = 12"),
    "corners, open": ROUND_48,
    "rack": STRAIGHT + RACK,
    "rack and board": STRAIGHT + RACK + board("stick", "54 in", "2 in", "5"),
    "spliced": STRAIGHT + board("rack", "48 in", "2 in", count=4),
    "spliced or bought": STRAIGHT + board("rack", "48 in", "2 in", count=4) + board("long", "96 in", "9 in", "30"),
    "solid": SOLID + board("slab", "62 in", "32 in"),
    "skirt": STRAIGHT + 'build_up = "skirt_under"\nskirt_drop = 3\n' + board("sheet", "96 in", "48 in", "40"),
    "two layers": STRAIGHT + "layers = 2\n" + board("stick", "70 in", "2 in", "5"),
}  # fmt: skip


def cut_of(plan):
    return {one.piece_id: one for one in plan.build_up.cut}


def numbers(plan):
    return [finding.number for finding in plan.findings]


@pytest.mark.reference
def test_the_corners_of_a_round_feed_part_of_its_ring():
    """Common practice, no source: a round of 48 in with twelve segments is partly self-feeding."""
    plan = shaped_plan(JOBS["corners, twelve"])
    # R - (R - b) cos 15 and 2 R tan 15 with R 24 and b 1 1/2: 2.267 x 12.861 in; a corner of 24 (sqrt 2 - 1) less
    # the cutter of 1/2 in is 3.004 in wide at 12 7/8 in: one blank from each
    assert [(row.count, row.kind) for row in plan.blanks] == [(12, "segment")]
    assert plan.blanks[0].length / 25.4 == pytest.approx(12.875)
    assert plan.blanks[0].width / 25.4 == pytest.approx(2.28125)
    assert len(plan.build_up.cut) == 4
    assert len({one.stick for one in plan.build_up.cut}) == 4
    assert [(row.count, row.kind) for row in plan.build_up.to_buy] == [(8, "segment")]
    assert 322 in numbers(plan)
    assert plan.ready


@pytest.mark.example
def test_two_lanes_of_a_board_hold_the_long_strips_and_the_rest_is_bought():
    plan = shaped_plan(JOBS["rack"])
    # 2 x 2 in and a kerf of 1/8 in are 4 1/8 in
    assert {piece: (one.lane, one.start) for piece, one in cut_of(plan).items()} == {
        "1.1": (1, 0),
        "1.3": (2, 0),
    }
    (row,) = plan.build_up.to_buy
    assert (row.count, row.kind, row.piece_ids) == (2, "strip", ("1.2", "1.4"))
    (rips,) = {(rip.fence_ticks, rip.length_ticks) for rip in build_up_rips(plan.build_up)}
    assert rips == (2 * INCH, 61 * INCH)
    assert [cut.stop_ticks for cut in build_up_crosscuts(plan.build_up)] == [60 * INCH] * 2


@pytest.mark.example
def test_a_board_for_sale_makes_it_a_purchase_with_a_price():
    plan = shaped_plan(JOBS["rack and board"])
    assert plan.build_up.to_buy == ()
    assert plan.build_up.cost_cents == 500
    # 26 + 1/8 + 26 of 54 in
    found = cut_of(plan)
    assert [found[piece].start for piece in ("1.2", "1.4")] == [0, 26 * INCH + 1016]
    assert plan.build_up.shortage is None
    assert 322 not in numbers(plan)
    proven = {stage.name: stage.proven for stage in plan.build_up.layout.plan.stages}
    assert proven["new material cost"]
    assert proven["sticks touched"]


@pytest.mark.example
def test_long_strips_are_spliced_where_that_spares_money():
    plan = shaped_plan(JOBS["spliced"])
    # 48 + 12 twice, and 12 + 1/8 + 26 on each of the two other sticks
    ids = [piece.id for piece in plan.design.pieces]
    assert ids == ["1.1a", "1.1b", "1.2", "1.3a", "1.3b", "1.4"]
    assert plan.build_up.to_buy == ()
    assert sorted(one.length // INCH for one in plan.build_up.cut) == [12, 12, 26, 26, 48, 48]
    # every joint shows on the edge: six pieces, each as thick as the top
    assert plan.design.seams.joints == pytest.approx(6 * 0.75 * 25.4)
    dearer = shaped_plan(JOBS["spliced or bought"])
    assert dearer.build_up.cost_cents == 0
    assert [piece.id for piece in dearer.design.pieces] == ids


@pytest.mark.example
def test_where_something_must_be_bought_anyway_no_strip_is_spliced():
    plan = shaped_plan(STRAIGHT + board("rack", "48 in", "2 in", count=2))
    assert [piece.id for piece in plan.design.pieces] == ["1.1", "1.2", "1.3", "1.4"]
    assert set(cut_of(plan)) == {"1.2", "1.4"}


@pytest.mark.example
def test_a_strip_that_no_rule_lets_be_divided_is_told():
    plan = shaped_plan(STRAIGHT + board("rack", "40 in", "48 in") + "[splice]\nallowed = false\n")
    (finding,) = [finding for finding in plan.findings if finding.number == 323]
    assert finding.place == "south, north"
    assert "1.1 is 60 in long, the longest stick 40 in, and the job allows no splice in it" in finding.figures
    assert set(cut_of(plan)) == {"1.2", "1.4"}
    assert plan.ready


@pytest.mark.example
def test_end_strips_of_solid_wood_are_sawn_across_a_wide_board():
    # without a board their grain would cross the top's: a stop
    bare = shaped_plan(SOLID)
    assert [f.severity for f in bare.findings if f.number == 313] == ["stop"]
    plan = shaped_plan(JOBS["solid"])
    assert 313 not in numbers(plan)
    assert plan.ready
    found = cut_of(plan)
    assert {piece for piece, one in found.items() if one.turned} == {"1.2", "1.4"}
    assert {(found[piece].width, found[piece].length) for piece in ("1.2", "1.4")} == {(26 * INCH, 2 * INCH)}
    # a narrow board holds none of them: 26 in of grain do not lie across 9 in
    narrow = shaped_plan(SOLID + board("narrow", "62 in", "9 in"))
    assert set(cut_of(narrow)) == {"1.1", "1.3"}
    assert [f.severity for f in narrow.findings if f.number == 313] == ["stop"]


@pytest.mark.example
def test_slanting_segments_of_solid_wood_stay_a_stop():
    plan = shaped_plan(STOPPED + board("slab", "96 in", "48 in").replace('"3/4"', '"0.86"'))
    assert plan.build_up.cut == ()
    assert 313 in numbers(plan)


@pytest.mark.example
def test_a_skirt_comes_out_of_a_sheet():
    plan = shaped_plan(JOBS["skirt"])
    assert {piece.kind for piece in plan.design.pieces} == {"skirt"}
    assert plan.build_up.cost_cents == 4000
    assert plan.build_up.to_buy == ()


def _plans():
    yield from (shaped_plan(name) for name in SHAPES)
    yield from (shaped_plan(text) for text in JOBS.values())


@pytest.mark.property
def test_every_piece_is_cut_or_bought_and_the_checker_accepts_the_plan():
    laid = 0
    for plan in _plans():
        found = plan.build_up
        bought = [piece_id for row in found.to_buy for piece_id in row.piece_ids]
        assert sorted([*bought, *cut_of(plan)]) == sorted(piece.id for piece in plan.design.pieces)
        assert (found.layout is None) == (not found.cut)
        sizes = {piece.id: piece for piece in plan.design.pieces}
        for one in found.cut:
            size = (one.width, one.length) if one.turned else (one.length, one.width)
            piece = sizes[one.piece_id]
            assert -0.01 <= size[0] - piece.blank_length * 320 < INCH / 32 + 1
            assert -0.01 <= size[1] - piece.blank_width * 320 < INCH / 32 + 1
        if found.layout is not None:
            laid += 1
            assert check_guillotine(found.layout.plain) == ()
    assert laid >= len(JOBS)


@pytest.mark.property
def test_a_planted_fault_is_found():
    plain = shaped_plan(JOBS["rack and board"]).build_up.layout.plain
    for change in (
        lambda plan: plan["layouts"][0]["lanes"].pop(),
        lambda plan: plan["layouts"][0]["lanes"][0]["pieces"][0].update(start=2 * INCH),
        lambda plan: plan["stages"][0].update(value=0),
    ):
        other = copy.deepcopy(plain)
        change(other["plan"])
        assert check_guillotine(other)


@pytest.mark.property
def test_the_order_of_the_boards_changes_nothing_but_names():
    boards = [
        board("a", "61 in", "2 in"),
        board("b", "54 in", "2 in", "5"),
        board("c", "96 in", "4 1/4 in", "9"),
    ]
    plans = [shaped_plan(STRAIGHT + "".join(order)) for order in (boards, boards[::-1])]
    assert len({plan.build_up.cost_cents for plan in plans}) == 1
    assert len({tuple(sorted((one.piece_id, one.stick) for one in plan.build_up.cut)) for plan in plans}) == 1


@pytest.mark.example
def test_sticks_of_two_lengths_are_both_spliced_to_their_full_length():
    text = STRAIGHT + board("short", "46 in", "2 in", count=2) + board("long", "50 in", "2 in", count=2)
    plan = shaped_plan(text)
    # 2 x 50 and 2 x 46 in hold 192 in; the ring has 172 in: 60 twice and 26 twice
    assert plan.build_up.to_buy == ()
    assert sum(one.length for one in plan.build_up.cut) == 172 * INCH


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=10)
@given(
    boards=st.lists(
        st.tuples(st.integers(20, 70), st.sampled_from(["2 in", "4 1/8 in"]), st.sampled_from([None, "5"])),
        min_size=1, max_size=3,
    ),
    more=st.integers(60, 130),
)  # fmt: skip
def test_a_long_board_more_never_makes_the_ring_worse(boards, more):
    """A board that holds a long strip whole takes no way of dividing it away."""
    tables = [board(f"b{n}", f"{long} in", wide, price) for n, (long, wide, price) in enumerate(boards)]
    few = shaped_plan(STRAIGHT + "".join(tables)).build_up
    many = shaped_plan(STRAIGHT + "".join(tables) + board("more", f"{more} in", "2 in")).build_up
    assert (bool(many.to_buy), many.cost_cents * (not many.to_buy)) <= (
        bool(few.to_buy), few.cost_cents * (not few.to_buy)
    )  # fmt: skip
