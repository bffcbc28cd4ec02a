"""Outlines: lengths, areas and bounds against elementary figures, and what is refused."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.design.outline import Arc, Line, Outline, rectangle
from edgewright.errors import GeometryError

SIZES = st.floats(50.0, 3000.0)
FRACTIONS = st.one_of(st.just(0.0), st.just(0.5), st.floats(0.001, 0.5))
FOUR = st.tuples(FRACTIONS, FRACTIONS, FRACTIONS, FRACTIONS)


def polygon_area(points: list[tuple[float, float]]) -> float:
    turned = [*points[1:], points[0]]
    return sum(ax * by - bx * ay for (ax, ay), (bx, by) in zip(points, turned, strict=True)) / 2


def walk(outline: Outline, chords: int) -> list[tuple[float, float]]:
    """Points along the outline, each arc cut into chords by turning its start about its centre."""
    points = []
    for segment in outline.segments:
        if isinstance(segment, Line):
            points.append(segment.start)
            continue
        (cx, cy), (sx, sy) = segment.centre, segment.start
        for step in range(chords):
            turn = complex(math.cos(segment.sweep * step / chords), math.sin(segment.sweep * step / chords))
            point = complex(cx, cy) + complex(sx - cx, sy - cy) * turn
            points.append((point.real, point.imag))
    return points


@pytest.mark.example
def test_sharp_rectangle_is_four_lines():
    outline = rectangle(1200, 800, origin=(10, 20))

    assert len(outline.segments) == 4
    assert all(isinstance(segment, Line) for segment in outline.segments)
    assert outline.length == 4000
    assert outline.area == 960000
    assert outline.bounds == (10, 20, 1210, 820)
    assert outline.centroid == pytest.approx((610, 420), rel=1e-14)


@pytest.mark.example
def test_each_radius_sits_at_its_own_corner():
    outline = rectangle(100, 60, (1, 2, 3, 4))
    arcs = [segment for segment in outline.segments if isinstance(segment, Arc)]

    # starting on the south side the corners come south-east, north-east, north-west, south-west
    assert [(arc.radius, arc.centre) for arc in arcs] == [
        (2, (98, 2)),
        (3, (97, 57)),
        (4, (4, 56)),
        (1, (1, 1)),
    ]
    assert all(arc.sweep == math.pi / 2 for arc in arcs)


@pytest.mark.example
def test_disc_and_stadium_have_no_segments_without_length():
    disc = rectangle(80, 80, (40, 40, 40, 40))
    stadium = rectangle(100, 40, (20, 20, 20, 20))

    assert len(disc.segments) == 4
    assert disc.length == pytest.approx(80 * math.pi, rel=1e-14)
    assert disc.area == pytest.approx(1600 * math.pi, rel=1e-14)
    assert len(stadium.segments) == 6
    assert stadium.length == pytest.approx(120 + 40 * math.pi, rel=1e-14)
    assert stadium.bounds == pytest.approx((0, 0, 100, 40), abs=1e-12)


@pytest.mark.example
def test_radii_that_meet_only_within_float_rounding_still_fit():
    # 0.1 + 0.2 is 0.30000000000000004 as floats
    outline = rectangle(0.3, 1.0, (0.1, 0.2, 0.0, 0.0))

    assert len(outline.segments) == 5
    assert outline.length == pytest.approx(0.3 + 0.9 + 0.8 + 0.15 * math.pi, rel=1e-9)


@pytest.mark.example
def test_half_disc_area_and_centroid():
    # half disc of radius 3 about (5, 1): area 9π/2, centroid 4R/(3π) above its base
    half = Outline((Line((2, 1), (8, 1)), Arc((8, 1), (2, 1), (5, 1), 3, math.pi)))

    assert half.area == pytest.approx(4.5 * math.pi, rel=1e-14)
    assert half.centroid == pytest.approx((5, 1 + 4 / math.pi), rel=1e-14)
    assert half.bounds == pytest.approx((2, 1, 8, 4), abs=1e-12)


@pytest.mark.example
def test_a_hole_run_clockwise_has_negative_area_and_bulges():
    hole = Outline(
        (
            Arc((2, 0), (-2, 0), (0, 0), 2, -math.pi),
            Arc((-2, 0), (2, 0), (0, 0), 2, -math.pi),
        )
    )

    assert hole.area == pytest.approx(-4 * math.pi, rel=1e-14)
    assert hole.length == pytest.approx(4 * math.pi, rel=1e-14)
    assert hole.centroid == pytest.approx((0, 0), abs=1e-12)
    assert hole.bounds == pytest.approx((-2, -2, 2, 2), abs=1e-12)
    assert [bulge for _, _, bulge in hole.bulge_vertices()] == pytest.approx([-1, -1], rel=1e-14)


@pytest.mark.example
def test_an_arc_that_bites_into_the_wood_takes_its_area_away():
    # 10 × 4 rectangle with a half disc of radius 1 taken out of its south side
    bitten = Outline(
        (
            Line((0, 0), (4, 0)),
            Arc((4, 0), (6, 0), (5, 0), 1, -math.pi),
            Line((6, 0), (10, 0)),
            Line((10, 0), (10, 4)),
            Line((10, 4), (0, 4)),
            Line((0, 4), (0, 0)),
        )
    )

    assert bitten.area == pytest.approx(40 - math.pi / 2, rel=1e-14)
    assert bitten.length == pytest.approx(26 + math.pi, rel=1e-14)
    assert bitten.bounds == pytest.approx((0, 0, 10, 4), abs=1e-12)
    # moments: 40·2 less (π/2)·(4/(3π))
    assert bitten.centroid == pytest.approx((5, (80 - 2 / 3) / (40 - math.pi / 2)), rel=1e-14)


@pytest.mark.reference
def test_bulge_of_a_quarter_half_and_line():
    """Autodesk DXF Reference, group code 42: tangent of a quarter of the included angle, semicircle 1."""
    vertices = rectangle(300, 200, (100, 0, 100, 0)).bulge_vertices()
    half = Outline((Line((0, 0), (2, 0)), Arc((2, 0), (0, 0), (1, 0), 1, math.pi)))

    assert [bulge for _, _, bulge in vertices] == pytest.approx(
        [0, 0, 0.414213562373, 0, 0, 0.414213562373], abs=1e-12
    )
    assert half.bulge_vertices() == ((0, 0, 0), (2, 0, pytest.approx(1, rel=1e-14)))


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(SIZES, SIZES, FOUR)
def test_radius_and_height_come_back_from_the_bulges(length, width, fractions):
    """Autodesk DXF Reference: chord c, bulge b give radius c(1 + b²)/(4|b|) and height c|b|/2."""
    radii = tuple(fraction * min(length, width) for fraction in fractions)
    vertices = rectangle(length, width, radii).bulge_vertices()
    found = []
    for (x, y, bulge), (x2, y2, _) in zip(vertices, (*vertices[1:], vertices[0]), strict=True):
        chord = math.hypot(x2 - x, y2 - y)
        assert chord > 0
        if bulge:
            radius = chord * (1 + bulge**2) / (4 * bulge)
            assert chord * bulge / 2 == pytest.approx(radius * (1 - math.sqrt(0.5)), rel=1e-9)
            found.append(radius)

    assert sorted(found) == pytest.approx(sorted(radius for radius in radii if radius), rel=1e-9)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(SIZES, SIZES, FOUR, st.tuples(st.floats(-5000, 5000), st.floats(-5000, 5000)))
def test_length_area_and_bounds_match_a_fine_polygon(length, width, fractions, origin):
    radii = tuple(fraction * min(length, width) for fraction in fractions)
    outline = rectangle(length, width, radii, origin)
    chords = 400
    points = walk(outline, chords)
    x, y = origin

    # chords of angle δ fall short by δ²/24 in length and δ²/6 of the sector in area: δ = π/800
    assert outline.area == pytest.approx(polygon_area(points), rel=3e-6)
    perimeter = sum(math.dist(a, b) for a, b in zip(points, [*points[1:], points[0]], strict=True))
    assert outline.length == pytest.approx(perimeter, rel=1e-6)
    assert outline.bounds == pytest.approx((x, y, x + length, y + width), abs=1e-8)
    for before, after in zip(outline.segments, (*outline.segments[1:], outline.segments[0]), strict=True):
        assert math.dist(before.end, after.start) <= 1e-8
        assert before.length > 1e-9


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(SIZES, SIZES, FOUR)
def test_area_and_centroid_match_cells_taken_off_the_corners(length, width, fractions):
    radii = tuple(fraction * min(length, width) for fraction in fractions)
    outline = rectangle(length, width, radii)
    area, moment_x, moment_y = length * width, length**2 * width / 2, length * width**2 / 2
    signs = ((0, 0), (1, 0), (1, 1), (0, 1))
    for radius, (east, north) in zip(radii, signs, strict=True):
        # what the corner lacks: a square R² with centroid R/2 less a quarter disc, 4R/(3π) from its centre
        square, quarter = radius**2, math.pi * radius**2 / 4
        off = square * radius / 2 - quarter * (radius - 4 * radius / (3 * math.pi))
        lack = square - quarter
        area -= lack
        moment_x -= length * lack - off if east else off
        moment_y -= width * lack - off if north else off

    assert outline.area == pytest.approx(area, rel=1e-12)
    assert outline.centroid == pytest.approx((moment_x / area, moment_y / area), rel=1e-11)


@pytest.mark.example
@pytest.mark.parametrize(
    ("length", "width", "radii", "words"),
    [
        (0, 10, (0, 0, 0, 0), ["length is 0 mm", "greater than 0 mm"]),
        (10, -3, (0, 0, 0, 0), ["width is -3 mm"]),
        (math.nan, 10, (0, 0, 0, 0), ["length is nan mm"]),
        (10, math.inf, (0, 0, 0, 0), ["width is inf mm"]),
        (10, 10, (0, -1, 0, 0), ["south-east corner radius is -1 mm", "at least 0 mm"]),
        (10, 10, (0, 0, 0, math.nan), ["north-west corner radius is nan mm"]),
        (
            10,
            20,
            (0, 0, 6, 5),
            ["north-east 6 mm", "north-west 5 mm", "11 mm", "north side", "at most 10 mm"],
        ),
        (20, 10, (6, 0, 0, 5), ["north-west 5 mm", "south-west 6 mm", "west side", "at most 10 mm"]),
        (20, 10, (1, 1, 1), ["3 corner radii", "exactly 4"]),
    ],
)
def test_a_rectangle_that_cannot_exist_is_refused_with_value_and_bound(length, width, radii, words):
    with pytest.raises(GeometryError) as caught:
        rectangle(length, width, radii)

    for word in words:
        assert word in str(caught.value)


@pytest.mark.example
def test_an_origin_that_is_not_finite_is_refused():
    with pytest.raises(GeometryError, match="origin"):
        rectangle(10, 10, origin=(math.nan, 0))


@pytest.mark.example
@pytest.mark.parametrize(
    ("segments", "words"),
    [
        ((), "0 segments"),
        ((Line((0, 0), (1, 0)), Line((1, 0), (1, 1))), "1.41421 mm from the end"),
        ((Line((0, 0), (1, 0)), Line((1, 0), (1, 0)), Line((1, 0), (0, 0))), "segment 2 is 0 mm long"),
        ((Line((0, 0), (math.nan, 0)), Line((math.nan, 0), (0, 0))), "not finite"),
        ((Line((0, 0), (2, 0)), Arc((2, 0), (0, 0), (1, 0), -1, math.pi)), "radius -1 mm"),
        ((Arc((2, 0), (2, 0), (1, 0), 1, 2 * math.pi),), "split a circle"),
        ((Line((0, 0), (2, 0)), Arc((2, 0), (0, 0), (1, 0), 1, 3.0)), "the arc's end"),
        ((Line((0, 0), (2, 0)), Arc((2, 0), (0, 0), (1, 0), 1.5, math.pi)), "the arc's start"),
    ],
)
def test_a_loop_that_contradicts_itself_is_refused(segments, words):
    with pytest.raises(GeometryError, match=words):
        Outline(segments)
