"""Polygons: closed forms for regular ones, triangles for the others."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from region_cases import polygon

from edgewright.design.shapes.polygon import corner_angles, irregular_polygon, regular_polygon
from edgewright.errors import GeometryError


@st.composite
def corners(draw: st.DrawFn) -> list[tuple[float, float]]:
    """Corners seen from the first one in counter-clockwise order, at any distances."""
    count = draw(st.integers(3, 9))
    angles = np.cumsum([draw(st.floats(0.2, 0.5)) for _ in range(count - 1)])
    start = draw(st.floats(0, 6))
    return [(0.0, 0.0)] + [
        (reach * math.cos(start + angle), reach * math.sin(start + angle))
        for angle, reach in ((angle, draw(st.floats(300, 2000))) for angle in angles)
    ]


@pytest.mark.example
def test_a_hexagon_across_flats():
    top = regular_polygon(6, across_flats=900)

    # area √3/2 · flats², side flats/√3
    assert top.outline.area == pytest.approx(math.sqrt(3) / 2 * 900**2)
    assert [edge.length for edge in top.outline.segments] == pytest.approx([900 / math.sqrt(3)] * 6)
    assert top.outline.bounds == pytest.approx((0, 0, 900 * 2 / math.sqrt(3), 900), abs=1e-9)


@pytest.mark.property
@pytest.mark.parametrize("sides", range(3, 17))
def test_regular_polygons_have_their_handbook_area(sides):
    top = regular_polygon(sides, side=400)

    # n a² / (4 tan(π/n)), from memory
    assert top.outline.area == pytest.approx(sides * 400**2 / (4 * math.tan(math.pi / sides)))
    assert corner_angles(top.outline) == pytest.approx([180 - 360 / sides] * sides)


@pytest.mark.example
def test_other_sizes_are_checked_against_the_first():
    # an octagon of 1000 across flats: side 1000 (√2 - 1) = 414.2, across corners 1000 / cos 22.5° = 1082.4
    top = regular_polygon(8, across_flats=1000, across_corners=1082, side=420)

    assert [check.agrees for check in top.checks] == [True, False]
    assert [check.expected for check in top.checks] == pytest.approx([1082.392, 414.214], abs=1e-3)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=80)
@given(corners())
def test_a_polygon_comes_back_from_its_sides_and_diagonals(points):
    count = len(points)
    sides = [math.dist(points[at], points[(at + 1) % count]) for at in range(count)]
    diagonals = [math.dist(points[0], points[at]) for at in range(2, count - 1)]
    true = polygon(*points)

    top = irregular_polygon(sides, diagonals, corner_angles(true))

    assert top.outline.area == pytest.approx(true.area, rel=1e-9)
    assert [edge.length for edge in top.outline.segments] == pytest.approx(sides, rel=1e-9)
    built = [edge.start for edge in top.outline.segments]
    # every distance between corners, also those that were not measured
    far = [[math.dist(a, b) for b in points] for a in points]
    assert np.allclose([[math.dist(a, b) for b in built] for a in built], far, atol=1e-5)
    assert all(check.agrees for check in top.checks)


@pytest.mark.example
def test_a_misread_angle_is_found_by_the_sum():
    # 3-4-5 twice: a rectangle of 300 by 400 measured by its sides and a diagonal
    good = irregular_polygon([400, 300, 400, 300], [500], [90, 90, 90, 90])
    bad = irregular_polygon([400, 300, 400, 300], [500], [90, 90, 93, 90])

    assert good.outline.area == pytest.approx(120000)
    assert [check.agrees for check in good.checks] == [True] * 5
    assert [check.agrees for check in bad.checks] == [False, True, True, False, True]
    assert bad.checks[0].off == pytest.approx(3)


@pytest.mark.example
@pytest.mark.parametrize(
    ("build", "words"),
    [
        (lambda: regular_polygon(2, side=100), "number of sides is 2"),
        (lambda: regular_polygon(6), "0 sizes"),
        (lambda: regular_polygon(5, across_flats=900), "across flats is 900 mm for 5 sides"),
        (lambda: regular_polygon(6, side=-1), "side is -1 mm"),
        (lambda: irregular_polygon([100, 100], []), "2 sides"),
        (lambda: irregular_polygon([400, 300, 400, 300], []), "4 sides need exactly 1"),
        (
            lambda: irregular_polygon([400, 300, 400, 300], [701]),
            "diagonal 1-3 is 701 mm; side 1 400 mm and side 2 300 mm reach 700 mm together",
        ),
        (lambda: irregular_polygon([100, 50, 160], []), "side 3 is 160 mm"),
        (lambda: irregular_polygon([400, 300, 500], [], [90, 90]), "2 angles given; exactly 3"),
        (lambda: irregular_polygon([400, 300, 500], [], [90, 90, 400]), "angle at corner 3 is 400°"),
        (lambda: irregular_polygon([100, 199, 199, 199, 100], [100, 100]), "fill less than 360°"),
    ],
)
def test_impossible_polygons_are_refused(build, words):
    with pytest.raises(GeometryError, match=words):
        build()
