"""A point is found by its distances from two edges that a square reaches."""

from __future__ import annotations

import math

import pytest

from edgewright.cutlist.sheets.cut_out_marks import cut_out_size
from edgewright.cutlist.sheets.square_places import square_places
from edgewright.design.shapes.boxed import rectangle_shape
from edgewright.design.shapes.counter import l_counter
from edgewright.design.shapes.cutouts import rectangle_cut_out, round_cut_out
from edgewright.design.shapes.round_top import round_shape


@pytest.mark.example
def test_nearest_two_edges_of_a_rectangle():
    one, other = square_places(rectangle_shape(1000.0, 600.0), (800.0, 100.0))
    assert (one.name, one.distance, one.foot) == ("south", pytest.approx(100), pytest.approx((800, 0)))
    assert (other.name, other.distance) == ("east", pytest.approx(200))
    # the nearest two are parallel: the second is taken from another side
    one, other = square_places(rectangle_shape(1000.0, 100.0), (500.0, 40.0))
    assert {one.name, other.name} & {"east", "west"}


@pytest.mark.example
def test_a_round_top_is_measured_from_its_box():
    one, other = square_places(round_shape([800.0]), (500.0, 300.0))
    assert (one.name, one.distance) == ("west of the box", pytest.approx(500))
    assert (other.name, other.distance) == ("south of the box", pytest.approx(300))


@pytest.mark.property
def test_no_square_reaches_across_the_bay():
    shape = l_counter(2400.0, 1600.0, 600.0, 600.0, math.pi / 2, 0.0)
    for x in range(50, 2400, 170):
        for y in range(30, 1600, 130):
            if shape.region.outer and _inside(shape, (float(x), float(y))):
                for place in square_places(shape, (float(x), float(y))):
                    half = ((x + place.foot[0]) / 2, (y + place.foot[1]) / 2)
                    assert "box" in place.name or _inside(shape, half)


def _inside(shape, point) -> bool:
    from edgewright.design.region import point_in_region

    return point_in_region(shape.region, point) == "inside"


@pytest.mark.example
def test_sizes_of_cut_outs():
    assert cut_out_size(round_cut_out((0.0, 0.0), 393.7), "in") == "round, 15 1/2 in across"
    plain = rectangle_cut_out((0.0, 0.0), 254.0, 355.6, 19.05)
    assert cut_out_size(plain, "in") == "10 in x 14 in, corners R 3/4 in"
    assert cut_out_size(rectangle_cut_out((0.0, 0.0), 300.0, 200.0), "mm") == "300 mm x 200 mm"
    turned = rectangle_cut_out((0.0, 0.0), 300.0, 200.0, turn=math.radians(12))
    assert cut_out_size(turned, "mm") == "300 mm x 200 mm, turned 12.00°"
