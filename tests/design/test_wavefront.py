"""Levels of any region: Steiner's formula, all events, unrouted edges; against inset() and a polygon library."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from region_cases import (
    BITTEN,
    D_END,
    DUMBBELL,
    HOLED,
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
    tops,
)
from shape_cases import shapes

from edgewright.design.inset import inset
from edgewright.design.levels import area_at, perimeter_at
from edgewright.design.outline import Arc, Line, Outline, rectangle
from edgewright.design.region import Region
from edgewright.design.wavefront import region_levels, region_wave
from edgewright.errors import GeometryError


def at(levels, d):
    return (
        math.fsum(perimeter_at(loop, d) for loop in levels),
        math.fsum(area_at(loop, d) for loop in levels),
    )


def totals(parts):
    return math.fsum(part.perimeter for part in parts), math.fsum(part.area for part in parts)


def bulged(points, sweeps):
    """Closed loop through points; each edge an arc that turns by its own angle, or a line for 0."""
    segments = []
    for a, b, sweep in zip(points, (*points[1:], points[0]), sweeps, strict=True):
        if not sweep:
            segments.append(Line(a, b))
            continue
        start, chord = complex(*a), complex(*b) - complex(*a)
        radius = abs(chord) / 2 / abs(math.sin(sweep / 2))
        centre = start + chord * complex(0.5, 0.5 / math.tan(sweep / 2))
        segments.append(Arc(a, b, (centre.real, centre.imag), radius, sweep))
    return Outline(tuple(segments))


@st.composite
def bulged_tops(draw):
    """Star of lines and arcs that meet at any angle."""
    count = draw(st.integers(3, 8))
    points = []
    for number in range(count):
        angle = 2 * math.pi * (number + draw(st.floats(-0.25, 0.25))) / count
        size = draw(st.floats(350, 900))
        points.append((size * math.cos(angle), size * math.sin(angle)))
    sweeps = [draw(st.one_of(st.just(0.0), st.floats(0.01, 1), st.floats(-0.8, -0.01))) for _ in points]
    outline = bulged(points, sweeps)
    try:
        return Region(outline)
    except GeometryError:
        return Region(polygon(*points))


# ---- closed forms ---------------------------------------------------------------------------------------


@pytest.mark.reference
def test_published_rounded_rectangle():
    """Steiner's formula on 1200 × 800 with R = 100, inset 12."""
    levels = region_levels(Region(rectangle(1200, 800, (100,) * 4)), 12)

    assert at(levels, 0) == pytest.approx((3828.318531, 951415.926536), abs=1e-5)
    assert at(levels, 12) == pytest.approx((3752.920307, 905928.493509), abs=1e-5)


@pytest.mark.reference
def test_published_sharp_rectangle():
    """P - 8r and A - P r + 4r² on 1200 × 800 with r = 12: 3904 and 912576."""
    assert at(region_levels(Region(rectangle(1200, 800)), 12), 12) == pytest.approx((3904, 912576), rel=1e-14)


@pytest.mark.example
@pytest.mark.parametrize("top", [RACETRACK, D_END, SHARP_L, HOLED], ids=["race", "d-end", "L", "holed"])
def test_loss_of_length_per_millimetre(top):
    # turning of arcs + 2 tan(θ/2) of sharp outside corners - θ of inside ones; a smooth hole takes 2π off
    k = {
        id(RACETRACK): 2 * math.pi,
        id(D_END): math.pi + 4,
        id(SHARP_L): 10 - math.pi / 2,
        id(HOLED): 3 * math.pi / 2 + 2 - 4 * math.pi,
    }[id(top)]
    levels = region_levels(top, 40)
    for d in (0.0, 1e-3, 12.0, 40.0):
        p, a = at(levels, d)
        assert p == pytest.approx(top.perimeter - k * d, rel=1e-13)
        assert a == pytest.approx(top.area - top.perimeter * d + k * d * d / 2, rel=1e-12)


@pytest.mark.example
def test_rounded_corners_die_one_after_another():
    levels = region_levels(ROUNDED_L, 90)
    assert [level.d_to for level in levels[0]] == pytest.approx([30, 40, 60, 90])
    for d in (5, 30, 35, 59, 61, 90):
        assert at(levels, d) == pytest.approx(totals(inset(ROUNDED_L, d)), rel=1e-11)


@pytest.mark.example
def test_all_corners_of_a_top_die_at_once():
    top = Region(rectangle(900, 600, (20, 20, 20, 20)))
    levels = region_levels(top, 50)

    assert at(levels, 20) == pytest.approx((2 * (860 + 560), 860 * 560), rel=1e-13)
    assert at(levels, 50) == pytest.approx((2 * (800 + 500), 800 * 500), rel=1e-13)


@pytest.mark.example
def test_short_clips_die_at_once_and_leave_a_rectangle():
    # clips of 45°, 10 mm along the sides: 10√2 long, shorter by 2 tan(π/8) for each mm
    top = Region(polygon((10, 0), (290, 0), (300, 10), (300, 190), (290, 200), (10, 200), (0, 190), (0, 10)))
    dies = 10 * math.sqrt(2) / (2 * math.tan(math.pi / 8))
    levels = region_levels(top, 40)

    assert levels[0][0].d_to == pytest.approx(dies, rel=1e-12)
    assert at(levels, 40) == pytest.approx((2 * (220 + 120), 220 * 120), rel=1e-12)


@pytest.mark.example
def test_tips_between_arcs():
    # two circles of radius 500 about (±400, 0) become circles of 500 - d
    levels = region_levels(LENS, 90)
    for d in (0, 20, 90):
        half = math.sqrt((500 - d) ** 2 - 400**2)
        angle = math.atan2(half, 400)
        p, a = at(levels, d)
        assert p == pytest.approx(4 * (500 - d) * angle, rel=1e-12)
        assert a == pytest.approx((500 - d) ** 2 * (2 * angle - math.sin(2 * angle)), rel=1e-9)


# ---- edges that are not routed ----------------------------------------------------------------------------


@pytest.mark.example
def test_a_side_at_the_wall():
    # the south side stays: what is left is (L - 2d)(W - d); the three others are routed
    (levels,) = region_levels(Region(rectangle(1000, 600)), 20, frozenset({0}))

    assert perimeter_at(levels, 0) == 1000 + 2 * 600
    assert perimeter_at(levels, 20) == pytest.approx(960 + 2 * 580)
    assert area_at(levels, 20) == pytest.approx(960 * 580)


@pytest.mark.example
def test_a_hole_that_is_not_routed():
    still = frozenset(range(len(HOLED.outer.segments), len(HOLED.segments)))
    levels = region_levels(HOLED, 20, still)
    alone = region_levels(Region(HOLED.outer), 20)

    assert [area_at(loop, 20) for loop in levels[1:]] == pytest.approx([hole.area for hole in HOLED.holes])
    assert at(levels, 20)[0] == pytest.approx(at(alone, 20)[0], rel=1e-13)


@pytest.mark.example
def test_a_routed_side_runs_out_into_a_slanted_wall():
    # interior angle 120° at the wall: the form runs out beyond the corner by d cot 60°
    points = ((0, 0), (1000, 0), (1000 + 300 / math.sqrt(3), 300), (0, 300))
    wave = region_wave(Region(polygon(*points)), 30, frozenset({1, 2, 3}))

    (inner,) = wave.loops(30)
    assert perimeter_at(wave.levels[0], 30) == pytest.approx(1000 + 30 / math.sqrt(3), rel=1e-13)
    assert inner.area == pytest.approx(Region(polygon(*points)).area - 1000 * 30 - 900 / math.sqrt(3) / 2)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=40)
@given(
    lattice_tops().filter(lambda top: not top.holes),
    st.sets(st.integers(0, 40), min_size=1),
    st.floats(0.5, 4.5),
)
def test_unrouted_edges_against_bands_with_flat_ends(top, chosen, d):
    segments = top.segments
    still = frozenset(number for number in chosen if number < len(segments))
    try:
        (levels,) = region_levels(top, d, still)
    except GeometryError:
        # only where wood is as narrow as the reach
        assert len(inset(top, d)) != 1 or 2 * d >= 5
        return
    # all corners are right angles or smooth: a routed edge takes a band with flat ends, an inside corner between
    # two routed ones a round
    cuts = []
    for number, segment in enumerate(segments):
        if number in still:
            continue
        line = [segment.start, segment.end]
        if isinstance(segment, Arc):
            begin = segment.start_angle
            line = [
                (
                    segment.centre[0] + segment.radius * math.cos(begin + segment.sweep * step / 200),
                    segment.centre[1] + segment.radius * math.sin(begin + segment.sweep * step / 200),
                )
                for step in range(201)
            ]
        cuts.append(shapely.LineString(line).buffer(d, cap_style="flat", quad_segs=64))
        if (number + 1) % len(segments) not in still:
            cuts.append(shapely.Point(segment.end).buffer(d, quad_segs=64))
    left = fine(top).difference(shapely.unary_union(cuts))

    assert area_at(levels, d) == pytest.approx(left.area, rel=2e-5, abs=0.5)


@pytest.mark.example
def test_an_arc_that_does_not_run_out_is_refused():
    # the arc of radius 100 meets a wall at 10°, whose line is 100 cos 10° = 98.48 from the centre: a form that
    # reaches more than 1.52 mm is clear of the wall
    angle = math.radians(10)
    half, end = 100 * math.sin(angle), (300 * math.cos(2 * angle), 300 * math.sin(2 * angle))
    arc = Arc((-half, 0.0), (half, 0.0), (0.0, 100 * math.cos(angle)), 100.0, 2 * angle)
    corners = ((half, 0.0), (half + end[0], end[1]), (-half, 400.0), (-half, 0.0))
    top = Region(Outline((arc, *(Line(a, b) for a, b in pairwise(corners)))))

    region_levels(top, 1.5, frozenset({1, 2, 3}))
    with pytest.raises(
        GeometryError, match=r"reaches 1\.6 mm in and does not run out into the unrouted edge near \("
    ):
        region_levels(top, 1.6, frozenset({1, 2, 3}))


# ---- against inset() and a polygon library ------------------------------------------------------------------


def agrees(top, reach, *shares):
    """Compare with the inner parallels, or see that the refusal is right; True if it was not refused."""
    try:
        levels = region_levels(top, reach)
    except GeometryError as error:
        said = str(error)
    else:
        said = ""
    if said:
        assert said.startswith("the edge form reaches")
        assert "(" in said
        return False
    for share in (*shares, 1.0):
        d = share * reach
        parts = inset(top, d)
        assert len(parts) == 1
        assert len(parts[0].loops) == len(top.loops)
        # inset() may step on by 1e-6 mm past an event: P may differ by some 1e-5 mm there
        p, a = totals(parts)
        assert at(levels, d) == (pytest.approx(p, rel=1e-9, abs=3e-5), pytest.approx(a, rel=1e-9, abs=0.02))
    return True


@pytest.mark.example
@pytest.mark.parametrize("top", NAMED.values(), ids=NAMED.keys())
@pytest.mark.parametrize("reach", [1e-6, 3, 12, 19.9])
def test_named_tops_agree_with_their_inset(top, reach):
    assert agrees(top, reach, 0.3, 0.9)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(
    st.one_of(tops(), bulged_tops(), lattice_tops(), shapes().map(lambda shape: shape.region)),
    st.floats(1, 80),
)
def test_random_tops_agree_with_their_inset(top, reach):
    agrees(top, reach, 0.37)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=30)
@given(bulged_tops(), st.floats(2, 60))
def test_random_tops_against_a_polygon_library(top, reach):
    try:
        levels = region_levels(top, reach)
    except GeometryError:
        return
    # chords of 64 and 128 per arc: the error falls with the square, one extrapolation takes out most of it
    coarse, finer = (
        fine(top, chords).buffer(-reach, quad_segs=chords, join_style="round") for chords in (64, 128)
    )
    area = (4 * finer.area - coarse.area) / 3

    assert at(levels, reach)[1] == pytest.approx(area, rel=2e-6, abs=1)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=40)
@given(
    tops(), st.sampled_from((5.0, 12.0, 40.0)), st.sampled_from((0, 1e-12, 1e-9, -1e-9, 1e-7, -1e-7, 1e-5))
)
def test_radius_of_a_corner_equal_to_the_reach(top, reach, off):
    points = [segment.start for segment in top.outer.segments][:6]
    ring = shapely.Polygon(points) if len(points) > 2 else None
    if ring is None or not ring.is_valid:
        return
    ring = shapely.orient_polygons(ring.convex_hull).exterior.coords[:-1]
    radius = reach * (1 + off)
    try:
        corner = Region(rounded([tuple(p) for p in ring], [radius] * len(ring)))
    except GeometryError:
        return
    agrees(corner, reach, 0.5)


@pytest.mark.example
@pytest.mark.parametrize("kink", [1e-9, 1e-7, 1e-6, 2e-6, 1e-5, 1e-3])
@pytest.mark.parametrize("way", [1, -1])
@pytest.mark.parametrize("far", [0, 1e5])
def test_a_side_with_a_kink_too_small_to_see(kink, way, far):
    out = way * 600 * kink
    points = ((0, 0), (1200, 0), (1200, 800), (600, 800 + out), (0, 800))
    top = Region(polygon(*((x + far, y - far) for x, y in points)))
    p, a = at(region_levels(top, 37), 37)

    assert p == pytest.approx(2 * (1126 + 726), rel=1e-9 + 2 * kink)
    assert a == pytest.approx(1126 * 726, rel=1e-9 + 2 * kink)


@pytest.mark.example
@pytest.mark.parametrize("size", [1e-6, 1e-4, 1e-2])
@pytest.mark.parametrize("sweep", [0.0, 0.4, -0.4])
def test_a_tiny_edge_changes_nothing(size, sweep):
    # a corner clipped by a hair, beside a line or an arc
    points = [(0, 0), (800, 0), (800, 500 - size), (800 - size, 500), (0, 500)]
    whole = [(0, 0), (800, 0), (800, 500), (0, 500)]
    tiny = at(region_levels(Region(bulged(points, [0, sweep, 0, 0, 0])), 30), 30)
    plain = at(region_levels(Region(bulged(whole, [0, sweep, 0, 0])), 30), 30)

    assert tiny == (pytest.approx(plain[0], abs=10 * size), pytest.approx(plain[1], abs=1500 * size))


@pytest.mark.example
def test_a_bite_and_a_bulge_of_one_radius():
    for reach in (39.9999, 40, 40.0001, 60):
        assert agrees(BITTEN, reach, 0.5)


# ---- what is refused ---------------------------------------------------------------------------------------


@pytest.mark.example
def test_a_neck_narrower_than_both_sides_reach_is_named():
    assert at(region_levels(DUMBBELL, 19.9), 19.9)[1] > 0
    with pytest.raises(
        GeometryError, match=r"reaches 21 mm in from both sides and meets itself near \(.*narrower"
    ):
        region_levels(DUMBBELL, 21)


@pytest.mark.example
@pytest.mark.parametrize(
    ("holes", "reach", "names", "place"),
    [
        # 20 mm from the south side; 24 mm between the two; at 15 mm a hole of 30 has passed the side by 10
        ((circle(100, 50, 30),), 10.5, "the outer edge and hole 1", (100, 10)),
        ((circle(100, 100, 30), circle(184, 100, 30)), 12.5, "hole 1 and hole 2", (142, 100)),
        ((circle(250, 100, 30), circle(100, 170, 15)), 10, "the outer edge and hole 2", (100, 192)),
    ],
)
def test_loops_too_near_to_each_other_are_named_with_the_place(holes, reach, names, place):
    with pytest.raises(GeometryError, match=f"{names} are too near to each other for it near") as caught:
        region_levels(Region(rectangle(300, 200), holes), reach)
    near = str(caught.value).partition("near (")[2].partition(")")[0]
    # where the moved edges cross, half a chord of the overlap from the middle: √(25² - 20²) = 15 in the last case
    assert math.dist(tuple(map(float, near.split(", "))), place) < 16


@pytest.mark.example
def test_an_arm_used_up_along_its_length_is_named():
    arm = Region(
        polygon((0, 0), (600, 0), (600, 200), (900, 200), (900, 240), (600, 240), (600, 600), (0, 600))
    )
    assert at(region_levels(arm, 19), 19)[1] > 0
    with pytest.raises(GeometryError, match=r"used up from both sides near \((8|88)\d*, 220\) mm at 20 mm"):
        region_levels(arm, 30)


@pytest.mark.example
@pytest.mark.parametrize(
    ("top", "reach"),
    [
        (Region(rectangle(300, 100)), 50.01),
        (Region(rectangle(100, 100)), 60),
        (Region(circle(0, 0, 50, hole=False)), 50.1),
        (LENS, 101),
        (Region(polygon((0, 0), (100, 0), (50, 80))), 60),
        (Region(rectangle(300, 200), (circle(60, 100, 40),)), 10.5),
    ],
    ids=["rectangle", "square", "disc", "lens", "triangle", "hole near the edge"],
)
def test_nothing_left_is_refused_in_one_sentence_with_a_place(top, reach):
    with pytest.raises(
        GeometryError, match=r"the edge form reaches .* mm.*\(-?[\d.e+-]+, -?[\d.e+-]+\) mm.*: "
    ):
        region_levels(top, reach)


@pytest.mark.example
def test_reach_must_be_a_length():
    for wrong in (-1.0, math.nan, math.inf):
        with pytest.raises(GeometryError, match="reach is"):
            region_levels(RACETRACK, wrong)


@pytest.mark.example
@pytest.mark.parametrize("top", NAMED.values(), ids=NAMED.keys())
def test_no_reach_is_the_outline_itself(top):
    assert at(region_levels(top, 0), 0) == pytest.approx((top.perimeter, top.area), rel=1e-13)
    assert [loop.area for loop in region_wave(top, 0).loops(0)] == pytest.approx(
        [loop.area for loop in top.loops]
    )


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=40)
@given(st.one_of(bulged_tops(), tops()), st.floats(1, 60), st.floats(0, 1))
def test_moved_loops_have_the_length_and_area_of_the_levels(top, reach, share):
    try:
        wave = region_wave(top, reach)
    except GeometryError:
        return
    loops, d = wave.loops(share * reach), share * reach

    assert [loop.length for loop in loops] == pytest.approx(
        [perimeter_at(one, d) for one in wave.levels], rel=1e-9
    )
    assert [loop.area for loop in loops] == pytest.approx([area_at(one, d) for one in wave.levels], rel=1e-9)
