"""Rows of a shaped top: figures that follow by hand from the job."""

from __future__ import annotations

import math
import re
from fractions import Fraction

import pytest
from shaped_jobs import shaped_plan

from edgewright.cli.shaped_cut_rows import cut_rows, offset_tables, router_rows
from edgewright.cli.shaped_ring_rows import angle_text, bend_rows, piece_rows, rim_place
from edgewright.cli.shaped_rows import run_rows
from edgewright.design.shapes.boxed import rectangle_shape


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
    # 12.043 in: 12 3/64
    assert twelfth == pytest.approx(12 + 3 / 64, abs=1 / 128)
    assert sum("12 3/64 in on" in row[4] for row in rows) == 2


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
    assert row[1:3] == ["1/4 in on east, from north", "1 3/4 in on west, from north"]


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
