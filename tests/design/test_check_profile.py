"""Findings 2xx, each at its bound and beyond; figures worked by hand."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.compass import PerSide
from edgewright.design.check_profile import (
    corner_radius_findings,
    missing_wood_findings,
    old_arris_findings,
    profile_findings,
    seam_findings,
    smallest_radius,
)
from edgewright.design.forms import chamfer, cove, no_form, ogee, round_over
from edgewright.design.profile import EdgeProfile
from edgewright.errors import GeometryError

INCH = 25.4
BEARING = 3 / 16 * INCH
NONE = PerSide(0.0, 0.0, 0.0, 0.0)


def profile(thickness, top, bottom):
    return profile_findings(
        thickness * INCH, round_over(top * INCH), round_over(bottom * INCH), BEARING, "in"
    )


def numbers(findings):
    return [finding.number for finding in findings]


@pytest.mark.reference
def test_round_overs_of_three_quarters_on_1_7_16():
    # common practice: the bearing check fails, for 1-1/2 in is more than 1-1/4; 5/8 + 5/8 just passes
    no_profile, no_flat = profile(1 + 7 / 16, 3 / 4, 3 / 4)
    assert (no_profile.number, no_profile.severity, no_profile.overridable) == (201, "stop", False)
    assert (no_flat.number, no_flat.severity, no_flat.overridable) == (202, "stop", True)
    assert no_profile.figures == "round-overs 3/4 in + 3/4 in = 1 1/2 in, edge 1 7/16 in"
    assert "up to 1 1/4 in" in no_flat.change
    assert profile(1 + 7 / 16, 5 / 8, 5 / 8) == ()


@pytest.mark.reference
def test_single_23_32():
    # common practice: 1/4 + 1/4 passes (at most 17/32); 3/8 + 3/8 is 1/32 in more than there is
    assert profile(23 / 32, 1 / 4, 1 / 4) == ()
    assert profile(23 / 32, 1 / 4, 9 / 32) == ()
    assert numbers(profile(23 / 32, 1 / 4, 5 / 16)) == [202]
    assert numbers(profile(23 / 32, 3 / 8, 3 / 8)) == [201, 202]


@pytest.mark.reference
def test_published_bullnose_leaves_no_flat():
    # trade text: r = T/2 is a full bullnose, 3/8 on 3/4: it exists, yet the bearing finds no flat
    assert numbers(profile(3 / 4, 3 / 8, 3 / 8)) == [202]
    # 19 mm with 9.5 and 9.5 is flagged, 36 mm with 12 and 12 is right
    assert numbers(profile_findings(19, round_over(9.5), round_over(9.5), BEARING, "mm")) == [202]
    assert profile_findings(36, round_over(12), round_over(12), BEARING, "mm") == ()


@pytest.mark.example
def test_a_square_edge_needs_no_bearing():
    assert profile_findings(3.0, round_over(0.0), round_over(0.0), BEARING, "mm") == ()


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=80)
@given(st.floats(5, 80), st.floats(0, 40), st.floats(0, 40))
def test_201_says_the_same_as_the_profile(thickness, top, bottom):
    try:
        EdgeProfile.round_overs(thickness, top, bottom)
        exists = True
    except GeometryError:
        exists = False
    assert (
        201 in numbers(profile_findings(thickness, round_over(top), round_over(bottom), BEARING, "mm"))
    ) is not exists


def seams(top, bottom, layers=1, t0=23 / 32, strip=23 / 32):
    return seam_findings(t0 * INCH, strip * INCH, layers, top * INCH, bottom * INCH, BEARING, "in")


@pytest.mark.example
def test_bearing_band_over_the_seam():
    # seam 23/32 in from either face; band of 3/8 ends at 9/16, band of 5/8 runs from 5/8 to 13/16
    assert seams(3 / 8, 3 / 8) == ()
    (finding,) = seams(3 / 8, 5 / 8)
    assert (finding.number, finding.severity, finding.place) == (203, "warn", "bottom pass")
    assert "from 5/8 in to 13/16 in above the underside, seam at 23/32 in" in finding.figures
    assert [f.place for f in seams(5 / 8, 3 / 8)] == ["top pass"]
    # without a bottom round-over there is no bottom pass
    assert seams(3 / 8, 0) == ()


@pytest.mark.example
def test_seam_at_the_edge_of_the_band_passes():
    # the band of the bottom pass ends or begins just at the seam, 23/32 in up
    assert seams(0, 23 / 32 - 3 / 16) == ()
    assert seams(0, 23 / 32) == ()
    assert numbers(seams(0, 23 / 32 - 3 / 16 + 1 / 64)) == [203]
    assert numbers(seams(0, 23 / 32 - 1 / 64)) == [203]


@pytest.mark.example
def test_every_seam_of_a_thick_build_up_is_looked_at():
    # three layers of 1/2 in under 3/4 in: seams 1/2, 1, 1-1/2 in above the underside
    assert numbers(seams(0, 7 / 8, layers=3, t0=3 / 4, strip=1 / 2)) == [203]
    assert seams(0, 5 / 8, layers=3, t0=3 / 4, strip=1 / 2) == ()
    # and 3/4, 1-1/4, 1-3/4 in below the top face
    assert numbers(seams(9 / 8, 0, layers=3, t0=3 / 4, strip=1 / 2)) == [203]


@pytest.mark.example
def test_corner_tighter_than_the_round_over():
    radii = (0.0, 0.25 * INCH, 0.375 * INCH, 1.0 * INCH)
    found = corner_radius_findings(radii, round_over(0.25 * INCH), round_over(0.375 * INCH), "in")
    assert [(f.number, f.severity, f.place) for f in found] == [(204, "warn", "south_east")]
    assert found[0].figures == "south-east: corner radius 1/4 in, round-over 3/8 in"


@pytest.mark.example
def test_corners_alike_are_one_finding_that_names_them():
    radii = (0.25 * INCH, 0.25 * INCH, 0.125 * INCH, 0.25 * INCH)
    found = corner_radius_findings(radii, round_over(0.25 * INCH), round_over(0.375 * INCH), "in")
    assert [(f.place, f.figures) for f in found] == [
        ("corners", "south-west, south-east, north-west: corner radius 1/4 in, round-over 3/8 in"),
        ("north_east", "north-east: corner radius 1/8 in, round-over 3/8 in"),
    ]


@pytest.mark.example
def test_smallest_radius_worked_by_hand():
    # untrimmed the old radius stays the least
    assert smallest_radius(3, 0, 0) == 3
    # one side trimmed by a: the arc may shrink by a
    assert smallest_radius(3, 1, 0) == smallest_radius(3, 0, 1) == 2
    # both by a: r = R - a (2 + √2); a sharp corner from a = R (1 - 1/√2), the old arc's cut-back, 0.2929 R
    assert smallest_radius(3, 0.5, 0.5) == pytest.approx(3 - 0.5 * (2 + math.sqrt(2)))
    assert smallest_radius(3, 3 * (1 - 1 / math.sqrt(2)), 3 * (1 - 1 / math.sqrt(2))) == pytest.approx(0)
    assert smallest_radius(3, 4, 0) == 0


def arc_stays_in_old_top(old, new, a, b):
    """Whether sampled points of the finished corner lie in the old top, old corner at the origin."""
    cx, cy = a + new, b + new
    for step in range(401):
        angle = math.pi + math.pi / 2 * step / 400
        x, y = cx + new * math.cos(angle), cy + new * math.sin(angle)
        if x < old and y < old and math.hypot(x - old, y - old) > old + 1e-6 * max(old, 1):
            return False
    return True


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=150)
@given(
    old=st.floats(1, 100),
    a=st.floats(0, 60),
    b=st.floats(0, 60),
    share=st.floats(0.02, 0.9),
)
def test_smallest_radius_against_sampled_arcs(old, a, b, share):
    least = smallest_radius(old, a, b)
    assert arc_stays_in_old_top(old, least, a, b)
    assert arc_stays_in_old_top(old, least + share * old, a, b)
    if least > 0.05 * old:
        # a clearly smaller radius sticks out where the old corner is missing
        assert not arc_stays_in_old_top(old, least * (1 - share), a, b)


@pytest.mark.example
def test_wood_missing_at_untrimmed_corners_only():
    # old radius 2 in all round, 2 in off the north: only the southern corners lack wood for a 1 in radius
    trims = PerSide(2 * INCH, 0.0, 0.0, 0.0)
    found = missing_wood_findings((2 * INCH,) * 4, (INCH,) * 4, trims, "in")
    assert [(f.number, f.severity, f.place) for f in found] == [
        (205, "stop", "south_west"),
        (205, "stop", "south_east"),
    ]
    assert found[0].figures == (
        "south-west: old radius 2 in, trims west 0 in and south 0 in, finished radius 1 in, "
        "smallest that fits 2 in"
    )
    assert missing_wood_findings((2 * INCH,) * 4, (2 * INCH,) * 4, NONE, "in") == ()


@pytest.mark.example
def test_smallest_radius_is_shown_so_that_it_fits():
    # 2 - 1/2 (2 + √2) = 0.2929 in lies between 18/64 and 19/64
    trims = PerSide(0.5 * INCH, 0.5 * INCH, 0.5 * INCH, 0.5 * INCH)
    found = missing_wood_findings((2 * INCH,) * 4, (0.0,) * 4, trims, "in")
    assert found[0].figures.endswith("smallest that fits 19/64 in")
    assert missing_wood_findings((2 * INCH,) * 4, (19 / 64 * INCH,) * 4, trims, "in") == ()


@pytest.mark.example
def test_old_arris_needs_a_trim_of_its_radius():
    arris = PerSide(0.25 * INCH, 0.25 * INCH, 0.25 * INCH, 0.0)
    trims = PerSide(0.25 * INCH, 6 * INCH, 0.125 * INCH, 0.0)
    found = old_arris_findings(arris, trims, "in")
    assert [(f.number, f.severity, f.place) for f in found] == [(206, "warn", "south")]
    assert found[0].figures == "south: arris radius 1/4 in, trim 1/8 in"


@pytest.mark.example
def test_sides_alike_are_one_finding_that_names_them():
    trims = PerSide(6 * INCH, 0.0, 0.125 * INCH, 0.0)
    found = old_arris_findings(PerSide(*(0.25 * INCH,) * 4), trims, "in")
    assert [(f.place, f.figures) for f in found] == [
        ("east, west", "east, west: arris radius 1/4 in, trim 0 in"),
        ("south", "south: arris radius 1/4 in, trim 1/8 in"),
    ]


@pytest.mark.example
def test_other_forms_are_named_with_their_depths():
    eighth = INCH / 8
    found = profile_findings(18 * eighth / 4, chamfer(2 * eighth), ogee(eighth, eighth / 2), BEARING, "in")
    # 1/4 + 5/16 = 9/16 of 9/16: they just meet, and the bearing finds nothing
    assert numbers(found) == [202]
    assert found[0].figures == "forms 9/16 in + bearing 3/16 in = 3/4 in, edge 9/16 in"
    assert found[0].change.startswith("the two forms together may be 3/8 in deep; or guide")
    no_profile, _ = profile_findings(4 * eighth, chamfer(2 * eighth), round_over(3 * eighth), BEARING, "in")
    assert no_profile.figures == "chamfer 1/4 in + round-over 3/8 in = 5/8 in, edge 1/2 in"
    alone, _ = profile_findings(4 * eighth, cove(5 * eighth), no_form(), BEARING, "in")
    assert alone.figures == "cove 5/8 in = 5/8 in, edge 1/2 in"


@pytest.mark.reference
def test_a_bullnose_exists_but_asks_for_a_fence():
    # trade text: r = T/2; the flat is 0, so the second pass needs a fence or an edge guide
    half = EdgeProfile.bullnose(0.75 * INCH).top
    (found,) = profile_findings(0.75 * INCH, half, half, BEARING, "in")
    assert (found.number, found.severity, found.overridable) == (202, "warn", True)
    assert found.change.endswith("or guide the second pass by a fence or a template")


@pytest.mark.example
def test_a_corner_is_held_against_the_reach_of_the_form():
    radii = (0.0, 0.25 * INCH, 0.5 * INCH, 0.5 * INCH)
    (found,) = corner_radius_findings(radii, cove(0.375 * INCH), chamfer(0.25 * INCH), "in")
    assert (found.title, found.place) == ("corner tighter than the cove", "south_east")
    assert found.figures == "south-east: corner radius 1/4 in, cove 3/8 in"
