"""Inner parallels: closed forms for named shapes, fine polygons and distances for any shape, every event."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from region_cases import (
    BITTEN,
    D_END,
    DUMBBELL,
    HOLED,
    L_POINTS,
    LENS,
    NAMED,
    RACETRACK,
    ROUNDED_L,
    SHARP_L,
    circle,
    fine,
    lattice_tops,
    polygon,
    rounded,
    sag,
    tops,
    walk,
)

from edgewright.design.inset import inset
from edgewright.design.levels import area_at, perimeter_at, rectangle_levels
from edgewright.design.outline import Arc, Line, Outline, rectangle
from edgewright.design.region import Region, point_in_region
from edgewright.errors import GeometryError


def totals(parts):
    return math.fsum(part.perimeter for part in parts), math.fsum(part.area for part in parts)


# ---- closed forms ---------------------------------------------------------------------------------------


@pytest.mark.example
@pytest.mark.parametrize("d", [1e-6, 1, 12, 250, 299.999])
def test_smooth_outlines_follow_steiner(d):
    """Steiner's formula inward: P - 2πd and A - P d + πd²."""
    for top in (RACETRACK, Region(rectangle(1200, 800, (300, 310, 320, 330)))):
        (inner,) = inset(top, d)
        p, a = top.perimeter, top.area

        assert inner.perimeter == pytest.approx(p - 2 * math.pi * d, rel=1e-12)
        assert inner.area == pytest.approx(a - p * d + math.pi * d**2, rel=1e-12, abs=1e-6)


@pytest.mark.example
def test_a_sharp_rectangle_loses_eight_times_the_inset():
    (inner,) = inset(Region(rectangle(1200, 800)), 12)

    assert inner.perimeter == pytest.approx(4000 - 8 * 12, rel=1e-14)
    assert inner.area == pytest.approx(912576, rel=1e-14)
    assert len(inner.outer.segments) == 4


@pytest.mark.example
@pytest.mark.parametrize("d", [5, 50, 299])
def test_an_l_with_a_sharp_inside_corner(d):
    # five outside corners of 90° take 2d each, the inside corner gives a quarter arc: 10 - π/2
    (inner,) = inset(SHARP_L, d)
    k = 10 - math.pi / 2

    assert inner.perimeter == pytest.approx(SHARP_L.perimeter - k * d, rel=1e-12)
    assert inner.area == pytest.approx(SHARP_L.area - SHARP_L.perimeter * d + k * d**2 / 2, rel=1e-12)
    assert [s.radius for s in inner.outer.segments if isinstance(s, Arc)] == pytest.approx([d])


@pytest.mark.example
@pytest.mark.parametrize("d", [5, 50])
def test_an_l_with_a_rounded_inside_corner(d):
    top = Region(rounded(list(L_POINTS), [0, 0, 0, 80, 0, 0]))
    (inner,) = inset(top, d)

    assert inner.perimeter == pytest.approx(top.perimeter - (10 - math.pi / 2) * d, rel=1e-12)
    assert [s.radius for s in inner.outer.segments if isinstance(s, Arc)] == pytest.approx([80 + d])


@pytest.mark.example
@pytest.mark.parametrize("d", [5, 29, 30, 31, 70])
def test_arcs_die_at_their_radius(d):
    # each outside corner takes π/2 of d while its arc lives, from then on (measured sharp) 2 of d
    (inner,) = inset(ROUNDED_L, d)
    sharp = 6600 - (10 - math.pi / 2) * d - 80 * (2 - math.pi / 2)
    lacks = sum((2 - math.pi / 2) * max(radius - d, 0) for radius in (40, 60, 30))

    assert inner.perimeter == pytest.approx(sharp - lacks, rel=1e-12)


@pytest.mark.example
@pytest.mark.parametrize("d", [5, 200, 349])
def test_a_d_shaped_end(d):
    # half a disc of radius 350 - d on a rectangle whose straight end comes in by d
    (inner,) = inset(D_END, d)
    r = 350 - d

    assert inner.area == pytest.approx(math.pi * r**2 / 2 + 2 * r * (900 - d), rel=1e-12)
    assert inner.perimeter == pytest.approx(math.pi * r + 2 * r + 2 * (900 - d), rel=1e-12)


@pytest.mark.example
def test_a_smooth_hole_takes_two_pi_off_the_loss():
    plate = Region(rectangle(1200, 800), (circle(400, 400, 150),))
    (inner,) = inset(plate, 20)

    assert inner.perimeter == pytest.approx(plate.perimeter - (8 - 2 * math.pi) * 20, rel=1e-13)
    assert inner.area == pytest.approx(1160 * 760 - math.pi * 170**2, rel=1e-13)
    assert len(inner.holes) == 1


@pytest.mark.example
def test_corners_of_a_square_hole_become_arcs():
    hole = polygon((40, 30), (40, 50), (60, 50), (60, 30))
    (inner,) = inset(Region(rectangle(100, 80), (hole,)), 5)

    # a square 20 × 20 grown by 5 all round: Minkowski sum with a disc
    assert inner.area == pytest.approx(90 * 70 - (400 + 80 * 5 + math.pi * 25), rel=1e-13)
    assert sum(isinstance(segment, Arc) for segment in inner.holes[0].segments) == 4


@pytest.mark.example
def test_a_lens_keeps_its_tips():
    # two circles of radius 500 about (±400, 0): radius 480, half height √(480² - 400²)
    (inner,) = inset(LENS, 20)
    half = math.sqrt(480**2 - 400**2)

    assert inner.bounds == pytest.approx((-80, -half, 80, half), abs=1e-9)
    assert inner.perimeter == pytest.approx(4 * 480 * math.atan2(half, 400), rel=1e-12)


@pytest.mark.example
def test_the_tips_of_a_cove():
    # what a quarter disc of radius 100 leaves of a square: as a hole it grows by its sides, 2 · 100 d, by the
    # band π/4 (100² - (100 - d)²) within the arc, by half a disc at each tip and a quarter at the corner
    cove = (
        Line((0, 0), (100, 0)),
        Arc((100, 0), (0, 100), (100, 100), 100, -math.pi / 2),
        Line((0, 100), (0, 0)),
    )
    hole = (
        Line((0, 0), (0, 100)),
        Arc((0, 100), (100, 0), (100, 100), 100, math.pi / 2),
        Line((100, 0), (0, 0)),
    )
    plate = Region(rectangle(300, 300, origin=(-100, -100)), (Outline(hole),))
    (inner,) = inset(plate, 10)

    band = math.pi / 4 * (100**2 - 90**2)
    grown = 100**2 * (1 - math.pi / 4) + 2 * 100 * 10 + band + (1 + 1 / 4) * math.pi * 10**2
    assert inner.area == pytest.approx(280**2 - grown, rel=1e-12)
    # as a top it keeps its tips, where the sides meet the arc of radius 110 about (100, 100)
    (tip,) = check(Region(Outline(cove)), 10)
    reach = 100 - math.sqrt(110**2 - 90**2)
    assert tip.bounds == pytest.approx((10, 10, reach, reach), abs=1e-9)


# ---- events ---------------------------------------------------------------------------------------------


@pytest.mark.example
def test_a_dumbbell_falls_into_two():
    # the handle is 40 mm wide; a block of 400 × 400 loses 2d each way and keeps two rounded inside corners
    assert len(inset(DUMBBELL, 19.99)) == 1
    for d in (20, 20.01, 60):
        one, other = inset(DUMBBELL, d)
        assert one.area == pytest.approx(other.area, rel=1e-12)
    # beyond d = 20 the arcs round the handle's corners reach √(d² - 20²) into the block less than d
    one, _ = inset(DUMBBELL, 25)
    bulge, t = 25 - math.sqrt(25**2 - 20**2), math.atan2(20, 15)
    # area between the block's moved side and two arcs of angle t each, in the mouth of the handle
    mouth = 2 * (25 * 20 - (25**2 * t / 2 + 20 * 15 / 2))
    assert bulge == 10
    assert one.area == pytest.approx(350 * 350 + mouth, rel=1e-12)


@pytest.mark.example
def test_an_inner_parallel_vanishes_at_half_the_width():
    strip = Region(rectangle(900, 40))

    assert inset(strip, 19.9)[0].area == pytest.approx(0.2 * (900 - 39.8), rel=1e-9)
    assert inset(strip, 20) == inset(strip, 20.001) == inset(strip, 1e5) == ()
    assert inset(RACETRACK, 300) == inset(RACETRACK, 301) == ()
    assert inset(Region(circle(5, 5, 30, hole=False)), 30) == ()


@pytest.mark.example
def test_a_thin_tongue_vanishes_and_the_rest_stays():
    top = Region(polygon((0, 0), (400, 0), (400, 30), (200, 30), (200, 300), (0, 300)))
    (inner,) = inset(top, 20)

    # in the tongue's mouth the side x = 180 ends on the arc round (200, 30); 20 mm above the south side
    # that arc is √(20² - 10²) short of the corner
    west = 200 - math.sqrt(300)
    assert inner.bounds == pytest.approx((20, 20, west, 280), abs=1e-9)


@pytest.mark.example
def test_a_hole_opens_into_the_outside():
    # hole of radius 10, 10 mm from the south side: the moved hole meets the moved side at d = 5
    top = Region(rectangle(100, 80), (circle(50, 20, 10),))

    assert [len(part.holes) for part in inset(top, 4.99)] == [1]
    assert [len(part.holes) for part in inset(top, 5)] == [0]
    assert [len(part.holes) for part in inset(top, 5.01)] == [0]


@pytest.mark.example
def test_a_plate_with_a_large_hole_falls_into_four_corners():
    parts = inset(Region(rectangle(100, 100), (circle(50, 50, 40),)), 5.5)

    assert len(parts) == 4
    assert totals(parts)[1] == pytest.approx(4 * parts[0].area, rel=1e-9)


@pytest.mark.example
def test_arcs_of_one_radius_die_together():
    (inner,) = inset(Region(rectangle(500, 300, (25, 25, 25, 25))), 25)

    assert inner.area == pytest.approx(450 * 250, rel=1e-12)
    assert len(inner.outer.segments) == 4


@pytest.mark.example
@pytest.mark.parametrize("d", [-1, math.nan, math.inf])
def test_an_inset_outward_is_refused(d):
    with pytest.raises(GeometryError, match="inset is"):
        inset(RACETRACK, d)


@pytest.mark.example
def test_no_inset_changes_nothing():
    assert inset(HOLED, 0) == (HOLED,)


# ---- any shape ------------------------------------------------------------------------------------------


def check(top, d, slack=1e-7):
    """Hold an inset against distances from a fine polygon: points on it, points about it, its area."""
    parts = inset(top, d)
    shape, miss = fine(top), sag(top) + slack
    edge = shape.boundary
    for part in parts:
        for loop in part.loops:
            off = shapely.distance(edge, shapely.points(walk(loop, 8)))
            assert np.all(np.abs(off - d) <= miss)
    west, south, east, north = top.bounds
    points = np.random.default_rng(3).uniform((west, south), (east, north), (150, 2))
    clearance = shapely.distance(edge, shapely.points(points)) * shapely.contains_xy(shape, points)
    for (x, y), clear in zip(points, clearance, strict=True):
        if abs(clear - d) > miss:
            places = {point_in_region(part, (x, y)) for part in parts}
            assert ("inside" in places) == (clear > d)
    return parts


@pytest.mark.property
@pytest.mark.parametrize("name", NAMED)
def test_named_tops_at_many_insets(name):
    top = NAMED[name]
    for d in (0.01, 3, 20, 20.5, 40, 60, 75, 80, 111, 150, 199, 200, 290, 305):
        check(top, d)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=120)
@given(tops(), st.one_of(st.floats(0.5, 60), st.floats(1, 400)))
def test_random_tops_against_distances(top, d):
    check(top, d)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=150)
@given(lattice_tops(), st.sampled_from([2.5, 5, 7.5, 8, 10, 12, 15, 20, 25, 30, 40]))
def test_tops_whose_events_fall_together(top, d):
    check(top, d)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=150)
@given(
    lattice_tops(),
    st.sampled_from([5, 10, 15, 20, 30]),
    st.sampled_from([1e-12, 1e-10, 1e-9, 3e-9, 1e-8, 3e-8, 1e-7, 3e-7, 1e-6, 1e-5]),
    st.sampled_from([1, -1]),
)
def test_tops_within_a_hair_of_their_events(top, d, hair, way):
    check(top, d + way * hair, slack=2e-6)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(tops(), st.floats(1, 200))
def test_random_tops_against_a_buffered_fine_polygon(top, d):
    # a fine polygon is nowhere further from the top than the sag of its arcs, the buffer's round joins nowhere
    # further than theirs, and the library first drops bends of up to a hundredth of the distance: its inner
    # parallel lies between ours a little further in and out
    steps = 64
    miss = sag(top) + d * (1 - math.cos(math.pi / (4 * steps))) + d / 100
    area = fine(top).buffer(-d, quad_segs=steps, join_style="round").area
    low, high = totals(inset(top, d + miss))[1], totals(inset(top, max(d - miss, 0)))[1]

    assert low - 0.01 <= area <= high + 0.01


@pytest.mark.example
def test_a_triangle_whose_rounded_tip_is_used_up():
    # equilateral, inradius 125: at 37 mm inward the inradius is 88 and the area 3√3 · 88²
    height = 125 * math.sqrt(3)
    top = Region(rounded([(250, 0), (-125, height), (-125, -height)], [5.625, 0, 0]))
    (inner,) = inset(top, 37)

    assert inner.area == pytest.approx(3 * math.sqrt(3) * 88**2, rel=1e-13)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(tops(), st.floats(1, 200))
def test_area_falls_by_the_perimeter(top, d):
    # dA/dd = -P: A(a) - A(b) = ∫ P, by Gauss-Legendre, good unless an event lies within the short stretch
    a, b = d, d * 1.001
    nodes, weights = np.polynomial.legendre.leggauss(3)
    lengths = [totals(inset(top, (a + b) / 2 + (b - a) / 2 * node))[0] for node in nodes]
    lost = totals(inset(top, a))[1] - totals(inset(top, b))[1]
    band = float(weights @ lengths) * (b - a) / 2

    assert lost == pytest.approx(band, rel=1e-3, abs=1e-6)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(tops(), st.floats(0.5, 60), st.floats(0.5, 60))
def test_two_insets_reach_no_further_than_one_of_their_sum(top, d, e):
    # erosion by two discs one after the other is erosion by the larger disc
    once, twice = inset(top, d + e), [part for first in inset(top, d) for part in inset(first, e)]

    assert len(once) == len(twice)
    assert totals(once) == pytest.approx(totals(twice), rel=1e-9, abs=1e-5)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(
    st.floats(100, 3000),
    st.floats(100, 1500),
    st.tuples(*[st.one_of(st.just(0.0), st.just(0.5), st.floats(0.01, 0.5))] * 4),
    st.floats(0.001, 0.999),
)
def test_rectangles_match_their_levels(length, width, shares, share):
    radii = tuple(part * min(length, width) for part in shares)
    levels = rectangle_levels(length, width, radii)
    d = share * levels[-1].d_to
    parts = inset(Region(rectangle(length, width, radii)), d)

    perimeter, area = totals(parts)
    assert len(parts) == 1
    assert perimeter == pytest.approx(perimeter_at(levels, d), rel=1e-10)
    assert area == pytest.approx(area_at(levels, d), rel=1e-9, abs=1e-4)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=40)
@given(st.floats(0, 6.3), st.floats(-4000, 4000), st.floats(1, 120))
def test_turning_and_moving_a_top_changes_nothing(angle, shift, d):
    turn, by = complex(math.cos(angle), math.sin(angle)), complex(shift, -shift / 3)
    points = [complex(x, y) * turn + by for x, y in L_POINTS]
    radii = [40.0, 60, 0, 80, 30, 0]
    moved = inset(Region(rounded([(z.real, z.imag) for z in points], radii)), d)

    assert totals(moved) == pytest.approx(totals(inset(ROUNDED_L, d)), rel=1e-9)


@pytest.mark.reference
def test_a_published_rounded_rectangle():
    """Steiner's parallel-curve formula on 1200 × 800 with R = 100, inset 12, worked out on its own."""
    (inner,) = inset(Region(rectangle(1200, 800, (100, 100, 100, 100))), 12)

    # 2 (1000 + 600) + 2π 88 and 1176 × 776 - (4 - π) 88²
    assert inner.perimeter == pytest.approx(3200 + 176 * math.pi, rel=1e-13)
    assert inner.area == pytest.approx(1176 * 776 - (4 - math.pi) * 88**2, rel=1e-13)
    assert inner.perimeter == pytest.approx(3752.920307, abs=1e-5)
    assert inner.area == pytest.approx(905928.493509, abs=1e-5)


@pytest.mark.example
def test_a_bite_and_a_bulge_of_one_radius():
    # at d = 40 the bulge is used up, the bite has grown to 80
    for d in (39.9, 40, 40.1, 60):
        parts = check(BITTEN, d)
        assert len(parts) == 1


@pytest.mark.example
@pytest.mark.parametrize("kink", [0, 1e-12, 1e-9, 1e-8, 1e-7, 1e-6, 1e-5, 1e-4, 1e-3])
@pytest.mark.parametrize("way", [1, -1])
def test_a_side_with_a_kink_too_small_to_see(kink, way):
    # the north side's middle lies out (an outside corner) or in (an inside corner) by a hair
    out = way * 600 * kink
    top = Region(polygon((0, 0), (1200, 0), (1200, 800), (600, 800 + out), (0, 800)))
    (inner,) = inset(top, 37)

    check(top, 37)
    assert inner.area == pytest.approx(1126 * 726, rel=1e-9 + 2 * kink)
    assert inner.perimeter == pytest.approx(2 * (1126 + 726), rel=1e-9 + 2 * kink)


@pytest.mark.example
@pytest.mark.parametrize("d", [1e-4, 1e-3, 0.01, 0.1])
@pytest.mark.parametrize("length", [1.05e-7, 1.2e-7, 1.5e-7, 2e-7, 4e-7])
def test_an_arc_too_short_to_tell_its_ends_apart(d, length):
    # the inside corner in the middle of the north side turns by length/d, so that its arc has that length
    dent = 300 * length / d
    corners = ((0, 0), (1200, 0), (1200, 800), (600, 800 - dent), (0, 800))
    for angle in np.linspace(0, 6, 31):
        turn = complex(math.cos(angle), math.sin(angle))
        points = [complex(*corner) * turn for corner in corners]
        (inner,) = inset(Region(polygon(*((z.real, z.imag) for z in points))), d)
        # P falls by 2 tan(θ/2) a corner for d, less at the dent; all but 8 d for turns this small
        assert inner.area == pytest.approx(
            1200 * 800 - 600 * dent - (4000 + 4e-3) * d + 4 * d * d, abs=5e-3 * d + 1e-6
        )
