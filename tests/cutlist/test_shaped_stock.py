"""What a build-up may be cut from, and the blanks that are wanted."""

from __future__ import annotations

import pytest
from shaped_jobs import STOPPED, shaped_plan
from stock_jobs import ROUND_48, STRAIGHT, board

from edgewright.cutlist.shaped_demand import shaped_demand, wanted_blanks
from edgewright.cutlist.shaped_stock import shaped_stock
from edgewright.display import show_ticks

SOLID = STRAIGHT.replace('material = "plywood"', 'material = "solid wood"\ngrain = "length"')


def stock(text):
    plan = shaped_plan(text)
    return shaped_stock(plan.design, shaped_demand(plan.design, plan.design.pieces))


@pytest.mark.example
def test_equal_corners_are_one_stock_of_four():
    (corners,) = stock(ROUND_48.replace("[edge]", "[edge]\nsegments = 12"))
    rect = corners.stock
    assert (rect.source, rect.count, rect.price_cents, rect.grain) == ("offcut", 4, 0, None)
    # the blank of twelve is 2 R tan 15 = 12.861 in long, on the grid 12 7/8; the corner at that length is
    # 24 (sqrt 2 - 1) - 1/2 - 12.875/2 = 3.004 in wide: shown to 1/64 in
    assert show_ticks(rect.length, "in") == "12 7/8 in"
    assert show_ticks(rect.width, "in") == "3 in"
    assert len(corners.places) == len(set(corners.names)) == 4


@pytest.mark.example
def test_boards_follow_what_one_has():
    text = STRAIGHT + board("shop sheet", "96 in", "48 in", "40") + board("rack", "61 in", "4 in")
    found = stock(text)
    assert [(one.stock.name, one.stock.source, one.stock.count) for one in found] == [
        ("rack", "on hand", 1), ("shop sheet", "for sale", None)
    ]  # fmt: skip
    assert [one.stock.price_cents for one in found] == [0, 4000]
    assert (found[0].name(1), found[1].name(2)) == ("rack", "shop sheet 2")


@pytest.mark.example
def test_wood_of_another_thickness_or_material_is_no_stock():
    other = board("thin", "96 in", "48 in").replace('"3/4"', '"1/2"') + board(
        "mdf", "96 in", "48 in"
    ).replace("[[stock]]", '[[stock]]\nmaterial = "mdf"')
    assert stock(STRAIGHT + other) == ()
    # strips that are bought thinner than the top do not come out of its corners
    assert stock(ROUND_48 + 'strip_thickness = "1/2"\n') == ()


@pytest.mark.example
def test_the_old_edge_of_a_board_is_off_both_sides():
    (found,) = stock(STRAIGHT + board("rack", "61 in", "4 in") + 'finished_depth = "1/4"\n')
    assert show_ticks(found.stock.width, "in") == "3 1/2 in"
    assert show_ticks(found.edge_waste, "in") == "1/4 in"


@pytest.mark.example
def test_sheet_goods_have_no_grain_and_equal_strips_are_one_blank():
    design = shaped_plan(STRAIGHT).design
    demand = shaped_demand(design, design.pieces)
    assert [(one.blank.count, one.blank.grain, one.piece_ids) for one in demand.blanks] == [
        (2, None, ("1.1", "1.3")), (2, None, ("1.2", "1.4"))
    ]  # fmt: skip
    # 30 in less a strip of 2 in at each end
    assert [show_ticks(one.blank.length, "in") for one in demand.blanks] == ["60 in", "26 in"]


@pytest.mark.example
def test_in_solid_wood_strips_under_the_ends_have_their_grain_across():
    design = shaped_plan(SOLID).design
    demand = shaped_demand(design, design.pieces)
    assert [one.blank.grain for one in demand.blanks] == ["length", "width"]
    along = wanted_blanks(demand, "length")
    # in wood whose grain runs along the lane the end strips lie across it
    assert [(round(one.length / 25.4), round(one.width / 25.4), one.turns) for one in along] == [
        (60, 2, False), (2, 26, False)
    ]  # fmt: skip


@pytest.mark.example
def test_slanting_pieces_of_solid_wood_are_cut_from_nothing():
    design = shaped_plan(STOPPED).design
    demand = shaped_demand(design, design.pieces)
    # of twelve segments from the east each lies 15, 45 or 75 degrees to the grain
    assert demand.slanted == tuple(piece.id for piece in design.pieces)
    assert demand.blanks == ()
