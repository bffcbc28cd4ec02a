"""Rectangles in hollow, curved and holed regions."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from region_cases import DUMBBELL, HOLED, RACETRACK, SHARP_L, circle, fine, lattice_tops, polygon, sag, tops

from edgewright.design.outline import Line, rectangle
from edgewright.design.region import Region
from edgewright.design.trims.clear_rectangle import clear_rectangle, widest_blank
from edgewright.design.trims.largest_rectangle import aligned_rectangle
from edgewright.errors import GeometryError


@pytest.mark.example
def test_straight_sided_shapes_are_exact():
    # L of 1800 x 600 and 600 x 1500: the long leg; dumbbell: a block of 400 x 400; 1200 x 40 is less
    assert clear_rectangle(SHARP_L, (1, 0)).area == pytest.approx(1800 * 600)
    assert clear_rectangle(DUMBBELL, (0, 1)).area == pytest.approx(400 * 400)


@pytest.mark.example
def test_a_round_top_gives_its_square():
    # 2 R^2, whichever way it is laid
    disc = Region(circle(30, -20, 500, hole=False))
    for way in ((1, 0), (2, 1)):
        assert clear_rectangle(disc, way).area == pytest.approx(2 * 500**2, rel=1e-6)


@pytest.mark.example
def test_a_racetrack_by_its_closed_form():
    # half width y, half length 300 + sqrt(300^2 - y^2); largest where 2y^2 - 90000 = 300 sqrt(90000 - y^2)
    best = max(
        4 * y * (300 + math.sqrt(90000 - y * y))
        for y in (300 * math.sin(k * math.pi / 20000) for k in range(10001))
    )
    assert clear_rectangle(RACETRACK, (1, 0)).area == pytest.approx(best, rel=1e-7)


@pytest.mark.example
def test_a_triangle_with_no_side_along_is_as_the_exact_search_has_it():
    corners = [(250, 0), (-125, 216.5), (-142, -246)]
    found = clear_rectangle(Region(polygon(*corners)), (1, 0))

    assert found.area == pytest.approx(aligned_rectangle(corners, (1, 0)).area, rel=1e-8)


@pytest.mark.example
def test_widest_blank_beside_a_hole():
    # top 400 x 300 with a hole of radius 50 in its middle: full length beside it leaves (300 - 100)/2
    top = Region(rectangle(400, 300), (circle(200, 150, 50),))
    full, short = widest_blank(top, 400, (1, 0)), widest_blank(top, 150, (1, 0))

    assert full is not None
    assert full.width == pytest.approx(100)
    assert short is not None
    assert (short.length, short.width) == pytest.approx((150, 300))
    assert widest_blank(top, 401, (1, 0)) is None
    with pytest.raises(GeometryError, match="blank length"):
        widest_blank(top, 0, (1, 0))


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=12)
@given(st.one_of(tops(), st.just(HOLED)), st.floats(0, 3.1), st.floats(0.1, 0.6))
def test_what_is_found_lies_in_the_wood(top, angle, share):
    way = (math.cos(angle), math.sin(angle))
    shape = fine(top).buffer(sag(top) + 1e-6)
    found = clear_rectangle(top, way)

    assert found.length >= found.width > 0
    assert shape.contains(shapely.Polygon(found.corners))
    blank = widest_blank(top, share * found.length, found.direction)
    assert blank is not None
    assert blank.width >= found.width - 1e-6
    assert shape.contains(shapely.Polygon(blank.corners))
    corners = [segment.start for segment in top.segments]
    hull = shapely.Polygon(corners)
    if not top.holes and all(isinstance(s, Line) for s in top.segments) and hull.convex_hull.equals(hull):
        assert found.area == pytest.approx(aligned_rectangle(corners, way).area, rel=1e-6)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=10)
@given(lattice_tops())
def test_no_grid_rectangle_is_larger(top):
    shape = fine(top).buffer(sag(top) + 1e-6)
    found = clear_rectangle(top, (1, 0))
    west, south, east, north = (round(at / 20) for at in top.bounds)
    assert shape.contains(shapely.Polygon(found.corners))
    boxes = [
        shapely.box(20 * a, 20 * b, 20 * c, 20 * d)
        for a in range(west, east)
        for b in range(south, north)
        for c in range(a + 1, east + 1)
        for d in range(b + 1, north + 1)
    ]
    largest = max(
        (box.area for box in boxes if box.area > found.area * (1 + 1e-6) and shape.contains(box)), default=0
    )
    assert largest == 0
