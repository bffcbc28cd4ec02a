"""Rows of a shaped top: figures that follow by hand from the job."""

from __future__ import annotations

import math
import re
from fractions import Fraction

import pytest
from shaped_jobs import shaped_plan

from edgewright.cli.shaped_cut_rows import cut_rows, offset_tables, router_rows
from edgewright.cli.shaped_rim import rim_place
from edgewright.cli.shaped_ring_rows import angle_text, bend_rows, piece_rows
from edgewright.cli.shaped_rows import mass_rows, pass_rows, run_rows
from edgewright.design.shapes.boxed import rectangle_shape

ROUND_TO_SQUARE = """
[job]
title = "Square from a round"
units = "in"
[top]
thickness = "3/4"
material = "plywood"
[top.outline]
shape = "round"
diameters = [30]
[trim.to]
shape = "rectangle"
length = 20
width = 20
[edge]
corner_radius = 0
"""


@pytest.mark.example
def test_angles_have_no_minus_zero():
    assert [angle_text(a) for a in (0.0, -0.04, -0.4, 22.5)] == ["square", "square", "-0.4°", "22.5°"]


@pytest.mark.example
def test_a_place_on_the_rim_is_told_from_the_corner_before_it():
    shape = rectangle_shape(1000.0, 600.0)
    assert rim_place(shape, (250.0, 0.0), "mm") == "250 mm on south, from west"
    assert rim_place(shape, (1000.0, 100.0), "mm") == "100 mm on east, from south"
    assert rim_place(shape, (1000.0, 0.0), "mm") in ("where south meets east",)
    assert rim_place(shape, (0.0, 500.0), "mm") == "100 mm on west, from north"


@pytest.mark.example
def test_joints_of_a_round_ring_are_a_twelfth_of_the_rim_apart():
    rows = piece_rows(shaped_plan("round_from_square"))
    assert len(rows) == 12
    assert all(row[3] == "both 15.0°" for row in rows)
    twelfth = math.pi * 46 / 12
    # 12.043 in: 12 3/64; the two halves meet in two places, so all is told from one of them
    assert twelfth == pytest.approx(12 + 3 / 64, abs=1 / 128)
    assert sum(row[4] == "at the east end" for row in rows) == 1
    assert sum(row[4] == "12 3/64 in from the east end, by the north" for row in rows) == 1
    assert [row[5] for row in rows] == [row[4] for row in (*rows[1:], rows[0])]


@pytest.mark.example
def test_a_butted_strip_begins_a_strip_width_from_the_corner():
    rows = {row[0]: row for row in piece_rows(shaped_plan("tapered"))}
    # strips 2 in wide; the long sides run through
    assert rows["1.1"][4:] == ["where west meets south", "where south meets east"]
    assert rows["1.2"][4:] == ["2 in on east, from south", "2 in on east, from north"]


@pytest.mark.example
def test_an_inside_block_is_told_from_the_corner_as_the_finding_tells_it():
    plan = shaped_plan("l_counter")
    (finding,) = [finding for finding in plan.findings if finding.number == 311]
    told = re.search(r"strips begin (.*) from the corner", finding.figures)
    assert told
    (block,) = [row for row in piece_rows(plan) if row[1] == "inside block"]
    assert block[4:] == [
        f"{told[1]} on short leg front, from long leg front",
        f"{told[1]} on long leg front, from short leg front",
    ]


@pytest.mark.example
def test_a_rounded_corner_of_a_line_and_an_arc_is_told_as_the_sharp_one():
    rows = piece_rows(shaped_plan("d_end"))
    # the ring's pieces are mitred where the straight side and the bow would meet
    assert rows[0][4:] == ["where west meets south", "where south meets east end"]
    assert all("corner" not in cell for row in rows for cell in row[4:])


@pytest.mark.example
def test_one_circle_is_one_trammel_and_its_pivot_is_told():
    ((edges, how, setting),) = router_rows(shaped_plan("round_from_square"))
    assert edges == "south half, north half"
    assert how == "trammel, R 23 in"
    # 48 in square, the circle 1/2 in to the north of its middle; a cutter of 1/2 in
    assert "23 1/2 in from north" in setting
    assert "24 in from" in setting
    assert "middle of the cutter 23 1/4 in" in setting


@pytest.mark.example
def test_an_ellipse_is_drawn_by_stations():
    ((_, how, _),) = router_rows(shaped_plan("ellipse"))
    assert how == "along a template"
    ((_, _, _, rows),) = offset_tables(shaped_plan("ellipse"))
    assert [row[0] for row in rows[:3]] == ["0 in", "6 in", "12 in"]
    # half an inch inside the half axes of 36 and 18 in, so 17 1/2 in in the middle
    assert next(row for row in rows if row[0] == "36 in")[1:] == ["17 1/2 in", "17 1/2 in"]
    # 6 in from the end: the point 1/2 in inside the ellipse, found by turning the normal
    best = 0.0
    for step in range(200_000):
        t = math.pi + (math.pi / 2) * step / 200_000
        nx, ny = math.cos(t) / 36, math.sin(t) / 18
        size = math.hypot(nx, ny)
        x, y = 36 * math.cos(t) - 0.5 * nx / size, 18 * math.sin(t) - 0.5 * ny / size
        if x + 35.5 >= 6:
            best = -y
            break
    whole, fraction, _ = rows[1][1].split()
    assert int(whole) + Fraction(fraction) == pytest.approx(best, abs=1 / 64)


@pytest.mark.example
def test_marks_of_a_cut_are_told_with_edge_and_corner():
    (row,) = cut_rows(shaped_plan("tapered"))
    # 30 and 28 1/2 in wide, 28 1/4 in are left
    assert row[1] == "28 1/4 in from south, at both ends"
    assert row[2] == "1/4 in on east, from north; 1 3/4 in on west, from north"


@pytest.mark.example
def test_an_amount_off_an_edge_is_told_square_in_from_it():
    (row,) = cut_rows(shaped_plan("corner_desk_polygon"))
    # 2 in square off an edge that meets its neighbours at 135 degrees, so 2 sqrt 2 along them
    assert row[1] == "2 in square in from the old edge"
    assert row[2] == "2 53/64 in on edge 2, from edge 3; 2 53/64 in on edge 4, from edge 3"
    assert 2 * math.sqrt(2) == pytest.approx(2 + 53 / 64, abs=1 / 128)


@pytest.mark.example
def test_where_no_corner_is_seen_the_rim_gives_no_mark():
    for row in cut_rows(shaped_plan("racetrack")):
        assert row[1:3] == ["1 in square in from the old edge", ""]


@pytest.mark.example
def test_a_chord_of_a_round_top_is_marked_from_the_box_around_it():
    # a square of 20 in, turned by nothing, in a circle of 30 in: its sides are 5 in in from the box
    first, *_ = cut_rows(shaped_plan(ROUND_TO_SQUARE))
    assert first[1] == "through its two ends"
    height = math.sqrt(15**2 - 10**2)
    assert height == pytest.approx(11 + 3 / 16, abs=1 / 64)
    assert re.search(r"5 in from (south|west) of the box", first[2])
    assert first[2].count("of the box") == 4


@pytest.mark.example
def test_less_than_the_kerf_is_a_skim_cut():
    rows = cut_rows(shaped_plan("quad_largest_rectangle"))
    # 1/64 in comes off the north
    assert [row[3] for row in rows if row[0] == "2 north"] == [
        "dust: a skim cut, the blade runs partly beside the wood: clamp a batten as thick beside it"
    ]
    assert not any("skim" in row[3] for row in cut_rows(shaped_plan("tapered")))


@pytest.mark.example
def test_a_cut_out_is_routed_with_the_top_bit_only():
    plan = shaped_plan("l_counter")
    routed = [row for row in run_rows(plan) if "top bit only" in row[2]]
    assert len(routed) == sum(hole.routed for hole in plan.design.cut_outs) > 0
    assert [row[0] for row in pass_rows(plan)] == ["top", "bottom, not in cut-outs"]
    assert [row[0] for row in pass_rows(shaped_plan("tapered"))] == ["top", "bottom"]


@pytest.mark.example
def test_a_weight_that_is_known_is_one_figure():
    words = {name: dict(mass_rows(shaped_plan(name)))["wood"] for name in ("live_edge", "tapered")}
    assert re.match(r"[\d.]+ \S+ to [\d.]+ \S+,", words["tapered"])
    assert " to " not in words["live_edge"]


@pytest.mark.example
def test_equal_corners_are_one_row():
    rows = run_rows(shaped_plan("octagon"))
    assert ["8 corners, each", "25/32 in", "R 1 in, routed"] in rows
    assert math.pi / 4 == pytest.approx(25 / 32, abs=1 / 128)
    assert len(rows) == 9


@pytest.mark.reference
def test_kerfs_of_a_bent_skirt_close_by_the_usual_rule():
    ((where, figures, mind),) = bend_rows(shaped_plan("round_wrap"))
    assert "south half" in where
    found = re.search(r"radius ~?([\d.]+) mm: (\d+) kerfs every ([\d.]+) mm, ([\d.]+) mm deep", figures)
    assert found
    radius, count, pitch, depth = (float(figure) for figure in found.groups())
    # one half of the rim at least, as far as the kerfs run
    assert count * pitch == pytest.approx(math.pi * radius, rel=0.01)
    closes = re.search(r"only just close, every ([\d.]+) mm", mind)
    assert closes
    # R k / d (common practice)
    assert float(closes[1]) == pytest.approx(
        radius * shaped_plan("round_wrap").job.saw.kerf.mm / depth, rel=2e-3
    )
