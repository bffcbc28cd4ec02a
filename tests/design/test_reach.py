"""What a bearing leaves in inside corners, against a bearing rolled round polygons of many short chords.

The brute force takes the wood, closes it by the bearing (every place that no bearing outside of the wood covers), and
takes what lies deeper than d in that: shapely's buffers with 1500 chords to a quarter circle. A chord of a circle of
20 mm then falls short by 20 (π/6000)²/2 = 3e-6 mm, over the 100 mm of a corner's walls 3e-4 mm².
"""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.design.forms import Form, bevel, chamfer, cove, no_form, ogee, round_over
from edgewright.design.levels import Level
from edgewright.design.metrics import edge_metrics
from edgewright.design.outline import Arc, Line, Outline, rectangle
from edgewright.design.pocket_level import pocket_level, standing_outline
from edgewright.design.pockets import pockets
from edgewright.design.profile import EdgeProfile
from edgewright.design.quadrature import integrate
from edgewright.design.reach import uncut_tips, with_tips
from edgewright.design.region import Region
from edgewright.errors import GeometryError

FINE = 1500
BOUND = 1e-3

L_TOP = [(0, 0), (300, 0), (300, 100), (120, 100), (120, 260), (0, 260)]


def polygon(points):
    ends = [*points[1:], points[0]]
    return Outline(
        tuple(Line(tuple(map(float, a)), tuple(map(float, b))) for a, b in zip(points, ends, strict=True))
    )


def notched(angle, leg=70.0):
    """Top whose outline turns to the right by an angle, in the middle of its north side, walls of 70 mm."""
    half = angle / 2
    west, east, high = 150 - leg * math.cos(half), 150 + leg * math.cos(half), leg * math.sin(half)
    return [(west, -150), (east, -150), (east, high), (150, 0), (west, high)]


def rounded_notch(radius):
    """Square top with a corner cut out at the north-east, its inside corner of a radius."""
    r = radius
    return Outline(
        (
            Line((0.0, 0.0), (200.0, 0.0)),
            Line((200.0, 0.0), (200.0, 100.0)),
            Line((200.0, 100.0), (100.0 + r, 100.0)),
            Arc((100.0 + r, 100.0), (100.0, 100.0 + r), (100.0 + r, 100.0 + r), r, -math.pi / 2),
            Line((100.0, 100.0 + r), (100.0, 200.0)),
            Line((100.0, 200.0), (0.0, 200.0)),
            Line((0.0, 200.0), (0.0, 0.0)),
        )
    )


def crooked(bulge):
    """Inside corner whose second wall is an arc: hollow for a bulge below 0, round above."""
    start, end = (120.0, 100.0), (120.0, 200.0)
    sweep = 4 * math.atan(bulge)
    radius = 100 / (2 * math.sin(abs(sweep) / 2))
    # a left turn has its centre on the left of the chord, which runs north
    away = math.copysign(radius * math.cos(sweep / 2), sweep)
    arc = Arc(start, end, (120 - away, 150.0), radius, sweep)
    return Outline(
        (
            Line((0.0, 0.0), (300.0, 0.0)),
            Line((300.0, 0.0), (300.0, 100.0)),
            Line((300.0, 100.0), start),
            arc,
            Line(end, (0.0, 200.0)),
            Line((0.0, 200.0), (0.0, 0.0)),
        )
    )


def chorded(outline):
    points = []
    for segment in outline.segments:
        if isinstance(segment, Arc):
            count = max(2, round(abs(segment.sweep) / (math.pi / 2) * FINE))
            for step in range(count):
                angle = segment.start_angle + segment.sweep * step / count
                points.append(
                    (
                        segment.centre[0] + segment.radius * math.cos(angle),
                        segment.centre[1] + segment.radius * math.sin(angle),
                    )
                )
        else:
            points.append(segment.start)
    return points


def rolled(outline, bearing, d, outside=None):
    """Area and length that stand at inset d beyond the inner parallel, and the length of upright walls.

    ``outside`` is another outline round which the bearing rolls on the same way: shapely's buffer first straightens
    hollows that are shallower than a hundredth of its distance, which an arc of many chords does not survive.
    """
    wood = shapely.Polygon(chorded(outline))
    # closed by the bearing, then moved in: first out with corners kept sharp, then in by both at once
    left = (
        shapely.Polygon(chorded(outside or outline))
        .buffer(bearing, join_style="mitre", mitre_limit=50)
        .buffer(-bearing - d, quad_segs=FINE)
    )
    level = wood.intersection(left)
    parallel = wood.buffer(-d, quad_segs=FINE)
    wall = level.boundary.intersection(wood.boundary.buffer(1e-6)).length
    return level.area - parallel.area, level.length - parallel.length, wall


# ---- one corner at one inset ----------------------------------------------------------------------------


@pytest.mark.reference
def test_square_inside_corner_by_hand():
    """Bearing 3/8 in across (R 3/16) in a square corner: fillet of R + d, tip of R (√2 - 1) inset."""
    r = 4.7625
    (tip,) = uncut_tips(Region(polygon(L_TOP)), round_over(9.525), r)
    assert tip.place == (120, 100)
    assert tip.segments == (2, 3)
    assert tip.bearing_centre == pytest.approx((120 + r, 100 + r))
    assert tip.fillet.radius == r
    assert tip.fillet.sweep == pytest.approx(-math.pi / 2)
    assert (tip.fillet.start, tip.fillet.end) == (
        pytest.approx((120 + r, 100)),
        pytest.approx((120, 100 + r)),
    )
    assert tip.ends_at_inset == pytest.approx(r * (math.sqrt(2) - 1))
    # the whole corner at the inset 0 lacks r²(1 - π/4) of being round: at 3/8 in the tip is long gone
    assert tip.runs == pytest.approx((0, 0))
    assert tip.runs_below == pytest.approx((r, r), abs=1e-6)
    # on the face the corner is an arc of R + d where the inner parallel turns by d
    d = 9.525
    squares, fans = 2 * r * d + d * d * math.pi / 4, (r + d) ** 2 * math.pi / 4 - r * r
    assert tip.standing_face == pytest.approx(squares - fans)
    assert tip.outline_at_face.area == pytest.approx(tip.standing_face)
    # where the tip begins: inset 0.4142 r on a quarter circle of 9.525
    z = 9.525 - math.sqrt(9.525**2 - (9.525 - r * (math.sqrt(2) - 1)) ** 2)
    assert tip.begins_below_face == pytest.approx(z)


@pytest.mark.example
def test_a_shallow_form_leaves_the_tip_up_to_the_face():
    r = 6.35
    (tip,) = uncut_tips(Region(polygon(L_TOP)), chamfer(2.0), r)
    run = r - math.sqrt(2 * 2 + 2 * r * 2)
    assert tip.begins_below_face == 0
    assert tip.runs == pytest.approx((run, run))
    assert (120.0, 100.0) in [segment.start for segment in tip.outline_at_face.segments]
    # upright walls of a 45° chamfer: 2 ∫ r - √(d² + 2rd) dd from 0 to 2
    walls = integrate(lambda d: 2 * (r - math.sqrt(d * d + 2 * r * d)), 0, 2)
    assert tip.wall_area == pytest.approx(walls.value, rel=1e-9)


CASES = {
    "square": (polygon(L_TOP), 6.35),
    "blunt": (polygon(notched(math.radians(40))), 9.525),
    "narrow": (polygon(notched(math.radians(125))), 4.7625),
    "small radius": (rounded_notch(3.0), 6.35),
    # facets of 45°, 11.3 mm apart: a bearing of 20 has its touching points 8.3 mm from each corner
    "two corners at once": (
        polygon([(0, 0), (300, 0), (300, 100), (128, 100), (120, 108), (120, 260), (0, 260)]),
        20.0,
    ),
    "hollow wall": (crooked(-0.12), 7.0),
    "round wall": (crooked(0.12), 7.0),
}


@pytest.mark.reference
@pytest.mark.parametrize("name", CASES)
@pytest.mark.parametrize("d", [0.4, 1.7, 3.1, 8.0])
def test_against_a_rolled_bearing(name, d):
    outline, bearing = CASES[name]
    found = pockets(Region(outline), bearing)
    assert len(found) == 1
    level = pocket_level(found[0], d)
    # a bearing of 6.35 does not see whether the corner behind it is sharp
    outside = polygon([(0, 0), (200, 0), (200, 100), (100, 100), (100, 200), (0, 200)])
    area, length, wall = rolled(outline, bearing, d, outside if name == "small radius" else None)
    assert level.standing == pytest.approx(area, abs=BOUND)
    assert level.routed + level.wall - level.parallel == pytest.approx(length, abs=BOUND)
    assert level.wall == pytest.approx(wall, abs=5 * BOUND)
    assert standing_outline(found[0], d).area == pytest.approx(level.standing, abs=1e-9)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=15)
@given(st.floats(0.2, 2.4), st.floats(2, 8), st.floats(0.1, 10))
def test_any_angle_against_a_rolled_bearing(turn, bearing, d):
    outline = polygon(notched(turn))
    (pocket,) = pockets(Region(outline), bearing)
    level = pocket_level(pocket, d)
    area, length, _ = rolled(outline, bearing, d)
    assert level.standing == pytest.approx(area, abs=BOUND)
    assert level.routed + level.wall - level.parallel == pytest.approx(length, abs=BOUND)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(st.floats(0.05, 2.5), st.floats(2, 8), st.floats(0, 10))
def test_what_is_taken_grows_by_the_routed_edge(turn, bearing, d):
    """d(standing)/dd is the parallel that should be cut less the edge that is: areas and lengths hold together."""
    (pocket,) = pockets(Region(polygon(notched(turn))), bearing)
    step = 1e-5
    low, here, high = (pocket_level(pocket, max(x, 0.0)) for x in (d - step, d, d + step))
    assert here.standing >= -1e-9
    if d > step:
        slope = (high.standing - low.standing) / (2 * step)
        ends = pocket.radius / math.cos(turn / 2) - pocket.radius
        if abs(d - ends) > 1e-3:
            assert slope == pytest.approx(here.parallel - here.routed, abs=2e-3)


# ---- over the depth of a form ---------------------------------------------------------------------------


@pytest.mark.reference
@pytest.mark.parametrize("form", [round_over(9.525), cove(6.0), bevel(8.0, 4.0), ogee(3.0, 1.0)])
def test_volume_against_slices_of_a_rolled_bearing(form: Form):
    outline = polygon(L_TOP)
    (tip,) = uncut_tips(Region(outline), form, 6.35)
    nodes, weights = np.polynomial.legendre.leggauss(24)
    total = 0.0
    for part in form.parts:
        # the depth bent so that what goes as its root near an end does no harm
        for half in (0, 1):
            u = (nodes + 1) / 2
            share = (1 - (1 - u) ** 3) / 2 + 0.5 if half else u**3 / 2
            slope = 3 * ((1 - u) if half else u) ** 2 / 2
            low, rise = part.start[1], part.end[1] - part.start[1]
            for x, s, weight in zip(share, slope, weights, strict=True):
                if rise:
                    area, _, _ = rolled(outline, 6.35, max(form.inset_at(low + float(x) * rise), 1e-6))
                    total += area * float(s * weight) / 2 * rise
    count = 250
    depths = [(n + 0.5) / count * form.depth for n in range(count)]
    walls = sum(rolled(outline, 6.35, max(form.inset_at(z), 1e-6))[2] for z in depths) * form.depth / count
    assert tip.standing_volume == pytest.approx(total, abs=BOUND * form.depth)
    assert tip.wall_area == pytest.approx(walls, rel=5e-3)
    assert tip.error < 1e-6


@pytest.mark.example
def test_corrected_metrics_hold_together():
    region = Region(polygon(L_TOP))
    profile = EdgeProfile(36.0, round_over(9.525), chamfer(4.0))
    # sharp L: P(d) = P - (10 - π/2) d
    p, a, k = region.perimeter, region.area, 10 - math.pi / 2
    levels = (Level(0.0, 40.0, p, -k, a, -p, k / 2),)
    plain = edge_metrics(levels, profile)
    tips = uncut_tips(region, profile.top, 6.35), uncut_tips(region, profile.bottom, 6.35)
    fixed = with_tips(plain, *tips)
    assert fixed.flat_top_mm2 - plain.flat_top_mm2 == pytest.approx(tips[0][0].standing_face)
    assert fixed.solid_volume_mm3 > plain.solid_volume_mm3
    assert fixed.edge_mm2 == pytest.approx(
        fixed.top_round_over_mm2 + fixed.flat_mm2 + fixed.bottom_round_over_mm2
    )
    square = a * profile.thickness
    assert fixed.solid_volume_mm3 == pytest.approx(square - fixed.removed_top_mm3 - fixed.removed_bottom_mm3)
    assert with_tips(plain) == plain


# ---- which corners --------------------------------------------------------------------------------------


@pytest.mark.example
def test_outside_corners_and_wide_inside_radii_leave_nothing():
    assert uncut_tips(Region(rectangle(300, 200)), round_over(9.525), 6.35) == ()
    assert uncut_tips(Region(rounded_notch(12.7)), round_over(9.525), 6.35) == ()
    assert uncut_tips(Region(rounded_notch(6.35)), round_over(9.525), 6.35) == ()
    assert uncut_tips(Region(polygon(L_TOP)), no_form(), 6.35) == ()


@pytest.mark.example
def test_a_square_cut_out_has_four_tips_and_a_wall_edge_none():
    hole = polygon([(100, 80), (100, 130), (160, 130), (160, 80)])
    region = Region(rectangle(300.0, 200.0), (hole,))
    tips = uncut_tips(region, round_over(6.35), 4.7625)
    assert sorted(tip.place for tip in tips) == [(100, 80), (100, 130), (160, 80), (160, 130)]
    assert len({round(tip.standing_volume, 9) for tip in tips}) == 1
    # two corners lie on the side that is not routed
    assert len(uncut_tips(region, round_over(6.35), 4.7625, frozenset({4}))) == 2


@pytest.mark.example
@pytest.mark.parametrize(
    ("outline", "bearing", "form", "words"),
    [
        # a slot of 8 mm for a bearing of 12.7
        (
            polygon([(0, 0), (200, 0), (200, 100), (104, 100), (104, 50), (96, 50), (96, 100), (0, 100)]),
            6.35,
            round_over(3),
            "(104, 50) mm",
        ),
        # a step of 3 mm is too short for its touching point
        (
            polygon([(0, 0), (200, 0), (200, 100), (100, 100), (100, 103), (0, 103)]),
            6.35,
            round_over(3),
            "(100, 100) mm",
        ),
        # the corner's walls are 7 mm from the next outside corner: a reach of 20 meets its mitre
        (
            polygon([(0, 0), (200, 0), (200, 100), (100, 100), (100, 107), (0, 107)]),
            6.35,
            round_over(20),
            "reaches 20 mm in",
        ),
        (polygon(L_TOP), 0.0, round_over(3), "bearing radius is 0 mm"),
    ],
)
def test_where_no_bearing_goes_is_said_with_the_place(outline, bearing, form, words):
    with pytest.raises(GeometryError) as caught:
        uncut_tips(Region(outline), form, bearing)
    assert words in str(caught.value)
