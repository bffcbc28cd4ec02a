"""Elliptical tops: the exact curve, its arcs and the check at a quarter of the length."""

from __future__ import annotations

import math

import pytest
import scipy.special
from hypothesis import given, settings
from hypothesis import strategies as st
from shape_cases import INCH, SIZES, joint_turns

from edgewright.design.shapes.corners import round_corners
from edgewright.design.shapes.ellipse_top import ELLIPSE_FIT_MM, ellipse_shape
from edgewright.design.shapes.placing import placed
from edgewright.errors import GeometryError


@pytest.mark.reference
def test_an_ellipse_of_72_by_36_in():
    # common practice: perimeter 174.39 in, area 2036 in²; and from the library's complete integral
    top = ellipse_shape(72 * INCH, 36 * INCH)

    assert top.ellipse is not None
    assert top.ellipse.perimeter / INCH == pytest.approx(174.39, abs=0.005)
    assert top.ellipse.perimeter / INCH == pytest.approx(4 * 36 * scipy.special.ellipe(0.75), rel=1e-12)
    assert top.ellipse.area / INCH**2 == pytest.approx(2036, abs=0.5)
    assert top.outline.length / INCH == pytest.approx(174.39, abs=0.005)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=25)
@given(SIZES, st.floats(0.2, 1))
def test_the_arcs_keep_to_the_ellipse_within_the_stated_error(length, slim):
    width = slim * length
    top = ellipse_shape(length, width)

    assert top.fit_error_mm == ELLIPSE_FIT_MM
    assert max(map(abs, joint_turns(top))) < 1e-2
    assert top.outline.bounds == pytest.approx((0, 0, length, width), abs=1e-6)
    for arc in top.outline.segments:
        for share in (0.1, 0.35, 0.5, 0.8):
            angle = math.atan2(arc.start[1] - arc.centre[1], arc.start[0] - arc.centre[0]) + share * arc.sweep
            x = arc.centre[0] + arc.radius * math.cos(angle) - length / 2
            y = arc.centre[1] + arc.radius * math.sin(angle) - width / 2
            # value over slope: the distance to first order
            value = (2 * x / length) ** 2 + (2 * y / width) ** 2 - 1
            slope = 8 * math.hypot(x / length**2, y / width**2)
            assert abs(value) / slope < 1.01 * ELLIPSE_FIT_MM


@pytest.mark.example
def test_the_width_at_a_quarter_tells_an_ellipse():
    # √3/2 of 36 = 31.18
    assert ellipse_shape(72 * INCH, 36 * INCH, 31.18 * INCH).checks[0].agrees
    race = ellipse_shape(72 * INCH, 36 * INCH, 36 * INCH)
    oval = ellipse_shape(72 * INCH, 36 * INCH, 31.6 * INCH)

    assert not race.checks[0].agrees
    assert "give a racetrack" in race.suggestions[0]
    assert "a four-arc oval with an end radius of" in oval.suggestions[0]


@pytest.mark.example
def test_moving_keeps_the_exact_curve_and_turning_keeps_the_fit():
    top = ellipse_shape(1800, 900)

    moved = placed(top, (100, 200))
    assert moved.ellipse is not None
    assert moved.ellipse.centre == (1000, 650)
    assert placed(top, (0, 0), 0.3).ellipse is None
    assert placed(top, (0, 0), 0.3).fit_error_mm == ELLIPSE_FIT_MM
    assert round_corners(top, 50, 50) is top


@pytest.mark.example
def test_impossible_ellipses_are_refused():
    with pytest.raises(GeometryError, match="width is 0 mm"):
        ellipse_shape(1800, 0)
    with pytest.raises(GeometryError, match="width at a quarter of the length is -1 mm"):
        ellipse_shape(1800, 900, -1)
