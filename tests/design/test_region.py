"""Regions: measures against fine polygons, places of points, and wrong loops refused."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from region_cases import HOLED, NAMED, circle, fine, polygon, sag, tops

from edgewright.design.outline import Arc, Line, Outline, rectangle
from edgewright.design.region import Region, point_in_region
from edgewright.errors import GeometryError


@pytest.mark.example
def test_a_plate_with_a_round_hole():
    plate = Region(rectangle(100, 80), (circle(30, 40, 10),))

    assert plate.area == pytest.approx(8000 - 100 * math.pi, rel=1e-14)
    assert plate.perimeter == pytest.approx(360 + 20 * math.pi, rel=1e-14)
    assert plate.bounds == (0, 0, 100, 80)
    # moments: 8000 · 50 less 100π · 30
    x = (400000 - 3000 * math.pi) / (8000 - 100 * math.pi)
    assert plate.centroid == pytest.approx((x, 40), rel=1e-13)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=30)
@given(tops())
def test_measures_of_random_tops_by_richardson(top):
    # chords miss length, area and moments by c/n² + O(n⁻⁴): 4/3 of the finer less 1/3 of the coarser
    def measures(chords):
        shape = fine(top, chords)
        moment = np.array(shape.centroid.coords[0]) * shape.area
        return np.array([shape.area, shape.length, *moment])

    area, length, mx, my = (4 * measures(128) - measures(64)) / 3
    assert top.area == pytest.approx(area, rel=1e-8)
    assert top.perimeter == pytest.approx(length, rel=1e-8)
    assert top.centroid == pytest.approx((mx / area, my / area), abs=1e-5)


@pytest.mark.property
@pytest.mark.parametrize("name", NAMED)
def test_places_of_points_match_a_fine_polygon(name):
    top = NAMED[name]
    shape, miss = fine(top), sag(top)
    west, south, east, north = top.bounds
    points = np.random.default_rng(7).uniform((west - 9, south - 9), (east + 9, north + 9), (400, 2))
    off = shapely.distance(shape.boundary, shapely.points(points))

    for (x, y), away, inside in zip(points, off, shapely.contains_xy(shape, points), strict=True):
        if away > miss:
            assert point_in_region(top, (x, y)) == ("inside" if inside else "outside")


@pytest.mark.example
def test_points_of_the_loops_lie_on_the_edge():
    assert point_in_region(HOLED, (400, 550)) == "edge"
    assert point_in_region(HOLED, (600, 0)) == "edge"
    assert point_in_region(HOLED, (1200, 800)) == "edge"
    assert point_in_region(HOLED, (400, 400)) == "outside"
    assert point_in_region(HOLED, (600, 1e-5)) == "inside"


@pytest.mark.example
@pytest.mark.parametrize(
    ("outer", "holes", "words"),
    [
        # from (20, 20) to (5, -5) the slope is 5 : 3, so y = 0 at x = 8
        (polygon((0, 0), (30, 0), (30, 20), (20, 20), (5, -5), (0, 5)), (), r"cross at \(8, 0\)"),
        (polygon((0, 0), (0, 5), (5, 5), (5, 0)), (), "counter-clockwise"),
        (rectangle(100, 80), (circle(200, 40, 10),), r"hole 1 is outside the outer loop at \("),
        (rectangle(100, 80), (circle(100, 40, 10),), r"cross at \(100, "),
        (rectangle(100, 80), (circle(50, 40, 10, hole=False),), "run it clockwise"),
        (rectangle(100, 80), (circle(50, 40, 30), circle(50, 40, 10)), "hole 2 lies within another hole"),
        (rectangle(100, 80), (circle(40, 40, 10), circle(55, 40, 10)), r"cross at \(47.5, "),
        (rectangle(100, 80), (polygon((0, 10), (0, 20), (9, 15)),), "run along each other"),
        # an eight that crosses itself at a corner of both halves
        (polygon((0, 0), (10, 10), (30, 10), (30, 30), (10, 30), (10, 10), (12, -1)), (), r"cross at \(10, 10\)"),
    ],
)  # fmt: skip
def test_wrong_loops_are_refused_with_the_place(outer, holes, words):
    with pytest.raises(GeometryError, match=words):
        Region(outer, holes)


@pytest.mark.example
def test_an_arc_that_bulges_through_the_far_side_is_refused():
    loop = Outline(
        (
            Line((0, 0), (10, 0)),
            Line((10, 0), (10, 4)),
            Line((10, 4), (0, 4)),
            Line((0, 4), (0, 3)),
            Arc((0, 3), (0, 1), (0, 2), 1, -math.pi),
            Line((0, 1), (0, 0)),
        )
    )
    assert Region(loop).area == pytest.approx(40 - math.pi / 2)
    moved = Outline(
        (
            Line((0, 0), (0.5, 0)),
            Line((0.5, 0), (0.5, 4)),
            Line((0.5, 4), (0, 4)),
            Line((0, 4), (0, 3)),
            Arc((0, 3), (0, 1), (0, 2), 1, -math.pi),
            Line((0, 1), (0, 0)),
        )
    )
    with pytest.raises(GeometryError, match=r"cross at \(0.5, "):
        Region(moved)


@pytest.mark.example
def test_a_hole_may_touch_an_edge_at_one_point():
    top = Region(rectangle(100, 80), (circle(90, 40, 10), circle(70, 40, 10)))

    assert top.area == pytest.approx(8000 - 200 * math.pi)
