"""Kerf bending: computed figures, and facets and closing once more from plain geometry."""

import cmath
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.design.buildup.kerf_bend import facet_depth, kerf_bend, kerf_spacing, largest_pitch
from edgewright.errors import GeometryError

INCH = 25.4


@pytest.mark.reference
def test_figures_of_the_trade():
    """Computed, rounded as printed: on 24 in a kerf of 1/8, 0.66 deep, closes every 4.5 in, with facets of 0.11."""
    spacing = kerf_spacing(24, 0.125, 0.66)
    assert spacing == pytest.approx(4.5, abs=0.051)
    assert facet_depth(24, spacing) == pytest.approx(0.11, abs=0.0051)
    # at most 1 in apart on 24 in makes facets of 0.005, on 6 in it takes 1/2 in
    assert facet_depth(24, 1) == pytest.approx(0.005, abs=0.00051)
    assert largest_pitch(24, 0.005) == pytest.approx(1, abs=0.051)
    assert largest_pitch(6, 0.005) == pytest.approx(0.5, abs=0.0251)
    # the parabola p² / 8R
    assert facet_depth(24, 1) == pytest.approx(1 / (8 * 24), rel=1e-3)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=100)
@given(st.floats(50, 3000), st.floats(1, 60))
def test_a_facet_is_the_rise_of_its_chord(radius, pitch):
    """Distance of the chord's middle from the arc, in complex numbers."""
    half = pitch / (2 * radius)
    ends = [radius * cmath.exp(1j * angle) for angle in (-half, half)]
    assert facet_depth(radius, pitch) == pytest.approx(radius - abs(sum(ends)) / 2, rel=1e-6, abs=1e-9)
    facet = facet_depth(radius, pitch)
    assert largest_pitch(radius, facet) == pytest.approx(pitch, rel=1e-6)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=100)
@given(st.floats(120, 2000), st.floats(0.2, math.pi), st.floats(10, 20), st.floats(1.5, 3.2))
def test_the_kerfs_close_far_enough_and_are_no_more_than_needed(radius, sweep, thickness, kerf):
    bend = kerf_bend(radius, sweep, thickness, kerf)
    assert bend.count * bend.pitch == pytest.approx(radius * sweep)
    assert bend.depth + bend.skin == pytest.approx(thickness)
    assert bend.facet <= 0.005 * INCH + 1e-9
    assert bend.closing >= sweep - 1e-9
    # bent, each kerf is a wedge that has closed by 2 depth tan(turn / 2)
    turn = sweep / bend.count
    assert bend.open_width == pytest.approx(kerf - 2 * bend.depth * math.tan(turn / 2), abs=1e-9)
    if bend.count > 1:
        fewer = bend.count - 1
        each = 2 * math.atan(kerf / 2 / bend.depth)
        assert facet_depth(radius, radius * sweep / fewer) > 0.005 * INCH - 1e-9 or fewer * each < sweep


@pytest.mark.example
def test_a_quarter_of_24_in_by_hand():
    """3/4 in thick, 3/32 left: 0.656 deep. 37.7 in round; pitch 0.98 in: 39 kerfs, each turning 2.3°."""
    bend = kerf_bend(24 * INCH, math.pi / 2, 0.75 * INCH, INCH / 8)
    assert bend.count == 39
    assert bend.pitch / INCH == pytest.approx(24 * math.pi / 2 / 39)
    assert bend.open_width / INCH == pytest.approx(0.125 - 0.65625 * math.radians(90 / 39), abs=1e-4)


@pytest.mark.example
def test_with_coarse_facets_the_closing_decides():
    """18 thick, 2 left, kerf 1.5: each closes by 0.0937. A right angle takes 17; facets of 0.5 alone 10."""
    bend = kerf_bend(150, math.pi / 2, 18, 1.5, skin=2, facet=0.5)
    assert bend.count == math.ceil(math.pi / 2 / 0.0937) == 17
    assert math.ceil(150 * math.pi / 2 / math.sqrt(8 * 150 * 0.5)) == 10


@pytest.mark.example
def test_a_hollow_curve_opens_its_kerfs():
    bend = kerf_bend(200, 1.0, 18, 3, inside=True)
    assert bend.open_width > 3


@pytest.mark.example
@pytest.mark.parametrize(
    ("radius", "thickness", "kerf", "skin", "says"),
    [
        (300, 18, 3, 18, "skin is 18 mm; it must be more than 0 mm and less than the thickness 18 mm"),
        (300, 18, 3, 0, "skin is 0 mm"),
        (15, 18, 3, 2, "radius of the bend is 15 mm; it must be more than the thickness 18 mm"),
        (19, 18, 6, 2, "pitch of the kerfs is .* it must be more than the kerf 6 mm"),
    ],
)
def test_bends_that_cannot_be(radius, thickness, kerf, skin, says):
    with pytest.raises(GeometryError, match=says):
        kerf_bend(radius, 1.5, thickness, kerf, skin=skin)
