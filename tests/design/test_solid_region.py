"""The kernel's solid of tops of many shapes and forms against figures that it knows nothing of."""

import math

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from region_cases import BITTEN, D_END, HOLED, LENS, RACETRACK, ROUNDED_L, SHARP_L, circle, polygon, rounded
from solid_cases import box

from edgewright.design.forms import bevel, chamfer, cove, no_form, ogee, round_over
from edgewright.design.outline import Arc, Line, rectangle
from edgewright.design.profile import EdgeProfile
from edgewright.design.region import Region
from edgewright.design.segments import direction, point_at, turn_at
from edgewright.design.solid import EXACT, SOUND, build_solid, load_kernel
from edgewright.design.solid_edge import edge_area, edge_solids
from edgewright.design.solid_figures import region_solid_spec
from edgewright.design.solid_shell import is_smooth
from edgewright.errors import GeometryError

ROUND = Region(circle(0, 0, 400, hole=False), (circle(90, 60, 50),))
HEXAGON = Region(
    polygon(*((500 * math.cos(n * math.pi / 3), 500 * math.sin(n * math.pi / 3)) for n in range(6)))
)
SMALL_CORNERS = Region(rectangle(900, 600, (3.0, 5.0, 0.0, 4.0)))
FORMS = {
    "round-overs": EdgeProfile.round_overs(36.5, 9.525, 6.0),
    "chamfer": EdgeProfile(30.0, chamfer(6.0), no_form()),
    "bevel": EdgeProfile(36.5, bevel(20.0, 8.0), round_over(3.0)),
    "cove": EdgeProfile(30.0, cove(10.0), chamfer(3.0)),
    "ogee": EdgeProfile(36.5, ogee(6.0, 2.0), no_form()),
}
TOPS = {
    "racetrack": RACETRACK,
    "d-end": D_END,
    "sharp L": SHARP_L,
    "rounded L": ROUNDED_L,
    "holed": HOLED,
    "round": ROUND,
    "hexagon": HEXAGON,
}
#: Gauss's rule for 8 nodes on -1..1 (Abramowitz and Stegun, table 25.4), each node with its weight.
GAUSS = [
    (0.1834346424956498, 0.3626837833783620),
    (0.5255324099163290, 0.3137066458778873),
    (0.7966664774136267, 0.2223810344533745),
    (0.9602898564975363, 0.1012285362903763),
]


def factor(region):
    """How much the edge shortens for each mm of inset: turning of arcs, 2 tan(θ/2) and θ at corners of lines."""
    total = 0.0
    for loop in region.loops:
        for at, segment in enumerate(loop.segments):
            before = loop.segments[at - 1]
            turn = turn_at(before, segment)
            assert not turn or (isinstance(before, Line) and isinstance(segment, Line))
            total += 2 * math.tan(turn / 2) if turn > 0 else turn
            total += segment.sweep if isinstance(segment, Arc) else 0.0
    return total


def closed_form(region, profile):
    """Volume and edge area from P - k d and A - P d + k d²/2 by quadrature along the profile."""
    k, length, area = factor(region), region.perimeter, region.area
    volume, edge = area * profile.flat, length * profile.flat
    for part in (*profile.top.parts, *profile.bottom.parts):
        pieces = 8
        for piece in range(pieces):
            for node, weight in [(sign * x, w) for x, w in GAUSS for sign in (1, -1)]:
                t = (piece + (node + 1) / 2) / pieces
                (d, _), (_, down) = point_at(part, t), direction(part, t)
                share = part.length * weight / 2 / pieces
                volume += (area - length * d + k * d * d / 2) * down * share
                edge += (length - k * d) * share
    return volume, edge


@pytest.mark.property
@pytest.mark.parametrize(
    ("name", "form"),
    [(name, form) for at, name in enumerate(TOPS) for n, form in enumerate(FORMS) if (at + n) % 3 == 0],
)
def test_solid_is_exact_where_lines_and_tangent_arcs_bound_it(name, form):
    region, profile = TOPS[name], FORMS[form]
    report = build_solid(region_solid_spec(region, profile, profile.thickness)).report
    volume, edge = closed_form(region, profile)
    assert report.volume_mm3 == pytest.approx(volume, rel=EXACT)
    assert report.edge_area_mm2 == pytest.approx(edge, rel=EXACT)
    assert report.exact


@pytest.mark.property
@pytest.mark.parametrize("form", ["round-overs", "cove"])
@pytest.mark.parametrize("region", [BITTEN, LENS, SMALL_CORNERS], ids=["bitten", "lens", "R < r"])
def test_solid_is_sound_where_edges_meet_at_an_angle_or_arcs_die(region, form):
    profile = FORMS[form]
    spec = region_solid_spec(region, profile, profile.thickness)
    report = build_solid(spec).report
    assert report.volume_mm3 == pytest.approx(spec.volume_mm3, rel=SOUND)
    assert report.edge_area_mm2 == pytest.approx(spec.edge_mm2, rel=SOUND)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=6, suppress_health_check=list(HealthCheck))
@given(
    points=st.lists(st.floats(300, 700), min_size=3, max_size=6),
    radius=st.sampled_from([0.0, 4.0, 40.0]),
    form=st.sampled_from(sorted(FORMS)),
)
def test_polygons_with_equal_corners(points, radius, form):
    """A star of corners at these distances: sharp, rounded less than the form reaches, rounded more."""
    count = len(points)
    around = [
        (r * math.cos(2 * math.pi * n / count), r * math.sin(2 * math.pi * n / count))
        for n, r in enumerate(points)
    ]
    try:
        region = Region(rounded(around, [radius] * count))
        spec = region_solid_spec(region, FORMS[form], FORMS[form].thickness)
    except GeometryError:
        assume(False)
    report = build_solid(spec).report
    assert report.volume_mm3 == pytest.approx(spec.volume_mm3, rel=EXACT if radius != 4.0 else SOUND)
    assert report.edge_area_mm2 == pytest.approx(spec.edge_mm2, rel=EXACT if radius != 4.0 else SOUND)


def test_two_ways_to_build_a_smooth_top_agree():
    spec = region_solid_spec(ROUND, FORMS["bevel"], 36.5)
    assert is_smooth(spec)
    found = [made() for made in edge_solids(load_kernel(), spec)]
    assert len(found) == 3
    for edge in found:
        assert edge.Volume() == pytest.approx(spec.volume_mm3, rel=EXACT)
        assert edge_area(spec, edge) == pytest.approx(spec.edge_mm2, rel=EXACT)


@pytest.mark.example
def test_wall_side_stays_square():
    """A chamfer of 6 on three sides of 1000 x 500: the west end is cut off square by the wall.

    What goes is 18 mm² of section along 2 x 1000 + 500 mm, less at each of the two mitred corners: there each side
    ends on a slope, ∫ of the section's width over its inset, twice 6³/6, and counts twice.
    """
    profile = EdgeProfile(30.0, chamfer(6.0), no_form())
    region = Region(rectangle(1000, 500))
    spec = region_solid_spec(region, profile, 30.0, still=frozenset({3}))
    report = build_solid(spec).report
    gone = 18 * 2500 - 2 * 2 * 6**3 / 6
    assert report.volume_mm3 == pytest.approx(1000 * 500 * 30 - gone, rel=EXACT)
    # 24 mm of flat; slopes of 6√2, their length at the middle 2500 - 2 x 2 x 3
    assert report.edge_area_mm2 == pytest.approx(24 * 2500 + 6 * math.sqrt(2) * (2500 - 12), rel=EXACT)


@pytest.mark.example
def test_holes_may_stay_square_or_be_routed_from_above_only():
    """A hole of radius 50: each chamfer of 6 takes, by Pappus, 18 mm² on a way of 2π (50 + 2)."""
    profile = EdgeProfile(30.0, chamfer(6.0), chamfer(6.0))
    region = Region(circle(0, 0, 400, hole=False), (circle(0, 0, 50),))
    outside = 2 * 18 * 2 * math.pi * (400 - 2)
    ring = math.pi * (400**2 - 50**2) * 30
    for more, arrises in (({}, 2), ({"holes_below": False}, 1), ({"holes_routed": False}, 0)):
        spec = region_solid_spec(region, profile, 30.0, **more)
        report = build_solid(spec).report
        volume = ring - outside - arrises * 18 * 2 * math.pi * 52
        assert report.volume_mm3 == pytest.approx(volume, rel=EXACT)
        assert report.exact


def test_bodies_add_up_to_the_whole():
    """Strips that fill the whole underside: top and strips together are the edge solid."""
    west, south, east, north = RACETRACK.bounds
    strips = tuple(
        box(f"S{n}", west + n * 400, south, west + (n + 1) * 400, north, 0.0, 18.0) for n in range(3)
    )
    spec = region_solid_spec(RACETRACK, FORMS["round-overs"], 18.5, strips=strips)
    report = build_solid(spec).report
    assert east - west == 1200
    assert [name for name, _ in report.bodies] == ["top", "S0", "S1", "S2"]
    assert sum(volume for _, volume in report.bodies) == pytest.approx(report.volume_mm3, rel=EXACT)


def test_bent_piece_is_left_out_and_named():
    bent = box("B1", 0, 0, 100, 20, 0.0, 18.0)
    hollow = type(bent)("B1", ((0, 0), (100, 0), (100, 90), (50, 20), (0, 90)), 0.0, 18.0)
    spec = region_solid_spec(RACETRACK, FORMS["round-overs"], 18.5, strips=(hollow,))
    assert spec.strips == ()
    assert build_solid(spec).report.note.endswith("; not in the solid, as they are bent: B1")


def test_solid_that_differs_from_its_figures_is_refused():
    from dataclasses import replace

    spec = region_solid_spec(RACETRACK, FORMS["chamfer"], 30.0)
    with pytest.raises(
        GeometryError, match=r"differs from the closed form by 1e-03, relative; at most 1e-05"
    ):
        build_solid(replace(spec, volume_mm3=spec.volume_mm3 * 1.001))


def test_edge_that_is_not_there_is_told():
    with pytest.raises(
        GeometryError, match="edge number 9 is not to be routed; the outline has edges 0 to 3"
    ):
        region_solid_spec(Region(rectangle(100, 100)), FORMS["chamfer"], 30.0, still=frozenset({9}))


@pytest.mark.reference
@pytest.mark.parametrize("name", ["round-overs", "cove"])
@pytest.mark.parametrize("radii", [(4.0, 4.0, 4.0, 4.0), (0.0, 5.0, 4.0, 0.0), (2.0, 12.0, 2.0, 6.0)])
def test_a_rounding_that_the_form_outreaches_beside_a_wall_edge(name, radii):
    # the kernel's own volume and area; small corner radius, larger form, back edge at the wall
    region = Region(rectangle(600, 400, radii))
    wall = frozenset(
        number
        for number, segment in enumerate(region.segments)
        if isinstance(segment, Line) and segment.start[1] == segment.end[1] == 400
    )
    solid = build_solid(region_solid_spec(region, FORMS[name], FORMS[name].thickness, still=wall))
    assert solid.report.exact, solid.report.note
