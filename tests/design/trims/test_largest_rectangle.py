"""Largest rectangles in convex polygons, against brute force and known shapes."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.design.trims.largest_rectangle import aligned_rectangle, largest_rectangle
from edgewright.errors import GeometryError

QUADS = st.tuples(*[st.floats(-25, 25)] * 8).map(
    lambda off: [
        (x + dx, y + dy)
        for (x, y), dx, dy in zip(
            ((0, 0), (1830, 0), (1830, 915), (0, 915)), off[::2], off[1::2], strict=True
        )
    ]
)


@st.composite
def convex(draw):
    """Corners of a hull of points, 3 to 9 of them."""
    points = draw(st.lists(st.tuples(st.integers(0, 40), st.integers(0, 40)), min_size=4, max_size=9))
    hull = shapely.MultiPoint(points).convex_hull
    if hull.geom_type != "Polygon" or hull.area < 20:
        hull = shapely.Polygon([(0, 0), (40, 5), (10, 30)])
    return [(x * 10.0, y * 10.0) for x, y in shapely.orient_polygons(hull).exterior.coords[:-1]]


def brute_area(corners, angle: float, steps: int = 60) -> float:
    """Largest rectangle along an angle whose long sides' places lie on a grid of upright chords."""
    shape = shapely.affinity.rotate(shapely.Polygon(corners), -math.degrees(angle), origin=(0, 0))
    west, south, east, north = shape.bounds
    chords = []
    for step in range(1, steps):
        x = west + (east - west) * step / steps
        chord = shape.intersection(shapely.LineString([(x, south - 1), (x, north + 1)]))
        chords.append((x, chord.bounds[1], chord.bounds[3]) if not chord.is_empty else (x, 0, 0))
    best = 0.0
    for number, (x0, low0, high0) in enumerate(chords):
        for x1, low1, high1 in chords[number + 1 :]:
            best = max(best, (x1 - x0) * (min(high0, high1) - max(low0, low1)))
    return best


@pytest.mark.example
def test_a_true_top_is_its_own_largest_rectangle():
    angle = 0.3
    frame = [(0, 0), (1200, 0), (1200, 700), (0, 700)]
    turned = [
        (x * math.cos(angle) - y * math.sin(angle), x * math.sin(angle) + y * math.cos(angle))
        for x, y in frame
    ]
    for corners in (frame, turned):
        found = largest_rectangle(corners)
        assert found.rectangle.area == pytest.approx(840_000, rel=1e-11)
        assert (found.rectangle.length, found.rectangle.width) == pytest.approx((1200, 700))
        assert found.gap <= 1e-6
    assert math.atan2(*found.rectangle.direction[::-1]) == pytest.approx(angle)


@pytest.mark.example
def test_half_of_a_triangle_and_two_squares_of_an_octagon():
    # any triangle: half its area; a regular octagon of radius 1: the square on every second corner, 2
    triangle = [(0, 0), (1000, 0), (400, 800)]
    octagon = [(math.cos(k * math.pi / 4), math.sin(k * math.pi / 4)) for k in range(8)]

    assert largest_rectangle(triangle).rectangle.area == pytest.approx(200_000, rel=1e-9)
    assert largest_rectangle(octagon).rectangle.area == pytest.approx(2, rel=1e-9)


@pytest.mark.example
def test_a_right_trapezium_keeps_its_short_side():
    # 1000 below, 700 above, 600 high: w = 1000 - y/2, (1000 - h/2) h still rises at 600
    assert largest_rectangle([(0, 0), (1000, 0), (700, 600), (0, 600)]).rectangle.area == pytest.approx(
        420_000
    )


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=8)
@given(st.one_of(QUADS, convex()))
def test_no_rectangle_of_a_fine_search_is_larger(corners):
    found = largest_rectangle(corners)
    shape = shapely.Polygon(corners)

    assert shape.buffer(1e-6).contains(shapely.Polygon(found.rectangle.corners))
    assert found.rectangle.length >= found.rectangle.width
    for step in range(60):
        assert brute_area(corners, math.pi / 2 * step / 60, 24) <= found.rectangle.area * (
            1 + found.gap + 1e-9
        )
    # a near-rectangular top has its largest rectangle within 2° of an edge's direction
    base = math.atan2(found.rectangle.direction[1], found.rectangle.direction[0])
    for off in (-0.004, -0.001, 0, 0.001, 0.004):
        assert brute_area(corners, base + off) <= found.rectangle.area * (1 + found.gap + 1e-9)
    # and the search is not left behind by the brute one
    assert brute_area(corners, base, 200) >= 0.95 * found.rectangle.area


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=20)
@given(st.one_of(QUADS, convex()), st.floats(0, 3.1))
def test_along_a_direction(corners, angle):
    found = aligned_rectangle(corners, (math.cos(angle), math.sin(angle)))
    grid = brute_area(corners, angle, 80)

    assert shapely.Polygon(corners).buffer(1e-6).contains(shapely.Polygon(found.corners))
    assert 0.93 * found.area <= grid <= found.area * (1 + 1e-9)
    off = math.atan2(found.direction[1], found.direction[0]) - angle
    assert math.sin(2 * off) == pytest.approx(0, abs=1e-9)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=30)
@given(st.one_of(QUADS, convex()), st.floats(0, 3.1), st.floats(1e-6, 0.7))
def test_a_turn_changes_the_area_no_faster_than_the_proof_says(corners, angle, turn):
    # what the search drops rests on this: |f(a + t) - f(a)| <= D^2 tan t
    here, there = (aligned_rectangle(corners, (math.cos(a), math.sin(a))).area for a in (angle, angle + turn))
    across = max(math.dist(a, b) for a in corners for b in corners)

    # rounding of a width beside a steep flank: 1e-9 of the area
    assert abs(here - there) <= across**2 * math.tan(turn) * (1 + 1e-9) + 1e-9 * max(here, there)


@pytest.mark.example
@pytest.mark.parametrize(
    ("corners", "words"),
    [
        ([(0, 0), (1, 0)], "2 corners"),
        ([(0, 0), (10, 0), (5, 2), (10, 10), (0, 10)], "hollow by"),
        ([(0, 0), (0, 10), (10, 10), (10, 0)], "counter-clockwise"),
        ([(0, 0), (0, 0), (10, 0), (0, 10)], "one place"),
    ],
)
def test_other_shapes_are_refused(corners, words):
    with pytest.raises(GeometryError, match=words):
        largest_rectangle(corners)
