"""Rips on the fence and crosscuts: every edge clean, every mitre listed, short pieces never held by hand."""

import pytest

from edgewright.cutlist.bench_cuts import BY_HAND, CLAMPED, crosscuts, fence_rips
from edgewright.cutlist.model import Lane, Piece, Stick
from edgewright.cutlist.plan import plan
from edgewright.jobfile import parse_job

INCH = 8128
EIGHTH = INCH // 8
JOB = """
[job]
title = "bench"
units = "in"
[top]
length = 72
width = 42
thickness = "23/32"
material = "plywood"
[trim]
north = 6
[edge]
corners = "{corners}"
nest_mitres = {nest}
"""


def board(width, lanes, waste=0, length=72):
    rows = tuple(Lane(f"b{n}", length * INCH, int(w * INCH), 0, 0) for n, w in enumerate(lanes))
    return Stick("b", "b", "on hand", None, length * INCH, int(width * INCH), 0, rows, int(waste * INCH))


def piece(lane, start, length, cuts=("square", "square"), turned=False, name="p"):
    return Piece(name, "N1", lane, int(length * INCH), 0, int(start * INCH), *cuts, turned)


@pytest.mark.example
def test_an_old_edge_comes_off_before_the_first_strip():
    rips = fence_rips([board(9, [1.5, 1.5], waste=0.5)], [piece("b0", 0, 30), piece("b1", 0, 30)], EIGHTH)

    assert [(rip.lane_id, rip.fence_ticks / INCH) for rip in rips] == [(None, 8.5), ("b0", 1.5), ("b1", 1.5)]


@pytest.mark.example
def test_a_board_that_is_a_strip_already_is_not_ripped():
    assert fence_rips([board(1.5, [1.5])], [piece("b0", 0, 30)], EIGHTH) == ()


@pytest.mark.example
def test_a_piece_that_fills_its_strip_needs_no_crosscut():
    assert crosscuts([board(1.5, [1.5])], [piece("b0", 0, 72)], EIGHTH) == ()


@pytest.mark.example
@pytest.mark.parametrize(("length", "held"), [(11.9, CLAMPED), (12, BY_HAND)])
def test_short_pieces_are_not_held_by_hand(length, held):
    assert crosscuts([board(1.5, [1.5])], [piece("b0", 0, length)], EIGHTH)[0].held == held


def mitres(nest):
    result = plan(parse_job(JOB.format(corners="mitre", nest=nest)))
    return result, [cut for cut in result.crosscuts if cut.cut == "mitre"]


@pytest.mark.example
def test_every_mitre_is_cut_once():
    """Four sides have eight mitred ends; a pair that is nested shares one cut."""
    nested, cuts = mitres("true")
    assert sum(p.turned for p in nested.cut_plan.pieces) == 1
    assert len(cuts) == 7

    apart, cuts = mitres("false")
    assert not any(p.turned for p in apart.cut_plan.pieces)
    assert len(cuts) == 8
    squares = [cut for cut in apart.crosscuts if cut.cut == "square"]
    assert {cut.piece_id for cut in squares} == {"E1", "W1"}


@pytest.mark.example
def test_a_squaring_cut_names_the_end_it_is_measured_from():
    job = JOB.format(corners="butt", nest="true") + "[top.finished_edge]\nwest = {depth = 1}\n"
    result = plan(parse_job(job))
    squaring = [cut for cut in result.crosscuts if cut.piece_id is None]

    assert squaring
    assert {(cut.raw_end, cut.stop_ticks) for cut in squaring} == {("west", INCH)}


@pytest.mark.example
def test_pieces_are_drawn_to_the_inner_strips():
    """South's outer strip is shortened by the old corners, but nothing is ripped only to be passed over."""
    text = JOB.format(corners="butt", nest="true").replace("north = 6", "north = 4\nsouth = 4")
    result = plan(parse_job(text.replace('material = "plywood"', 'material = "plywood"\ncorner_radius = 3')))
    used = {p.lane_id for p in result.cut_plan.pieces}
    freed = {cut.yields for cut in result.cut_plan.cuts if not str(cut.yields).startswith("rest of")}

    assert freed == {lane for lane in used if lane.startswith("offcut")}


@pytest.mark.example
def test_where_boards_are_bought_the_widest_strip_of_the_same_price_is_taken():
    text = JOB.format(corners="butt", nest="true").replace("north = 6", "north = 0")
    sheet = '[[stock]]\nname = "sheet"\nlength = 96\nwidth = 12\nthickness = "23/32"\nprice = 20\n'
    result = plan(parse_job(text + sheet))

    assert result.cut_plan.strip_width_ticks == 3 * INCH
    assert result.cut_plan.stages[0].value == 2000


@pytest.mark.example
def test_a_piece_between_two_strips_is_as_long_as_the_room_between_them():
    """Kerf 5/64 in: the pitch 1 61/64 goes up to 1 31/32, so the strips are 1 57/64 and not 1 7/8 in wide."""
    text = JOB.format(corners="butt", nest="true") + '[saw]\nkerf = "5/64"\n'
    cut_plan = plan(parse_job(text.replace("[edge]", '[edge]\nstrip_width = "1 7/8"'))).cut_plan
    wide = {lane.id: lane.width_ticks for stick in cut_plan.sticks for lane in stick.lanes}
    by_id = {p.id: p for p in cut_plan.pieces}
    room = cut_plan.finished_ticks[1] - wide[by_id["N1"].lane_id] - wide[by_id["S1"].lane_id]

    assert by_id["E1"].length_ticks == room
    assert cut_plan.strip_width_ticks == 121 * INCH // 64
