"""Boats and D-ends: the radius from the sagitta."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shape_cases import INCH, SIZES, joint_turns, or_none

from edgewright.design.outline import Arc
from edgewright.design.shapes.bowed import boat, d_end, radius_of
from edgewright.errors import GeometryError


@pytest.mark.reference
def test_a_boat_of_96_by_48_in_with_ends_of_36():
    # common practice: R 195, arc 97.0, area 4226; by hand s = 6, R = (48² + 6²) / 12 = 195, arc 2R asin(48/195)
    top = boat(*(figure * INCH for figure in (96, 36, 48)))
    side = top.outline.segments[0]
    half = math.asin(48 / 195)

    assert side.radius / INCH == pytest.approx(195, rel=1e-12)
    assert side.length / INCH == pytest.approx(390 * half, rel=1e-12)
    assert side.length / INCH == pytest.approx(97.0, abs=0.05)
    segment = 195**2 * half - 48 * (195 - 6)
    assert top.outline.area / INCH**2 == pytest.approx(96 * 36 + 2 * segment, rel=1e-12)
    assert top.outline.area / INCH**2 == pytest.approx(4226, abs=0.5)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(SIZES, or_none(0.98), st.floats(0.1, 1))
def test_a_boat_has_its_measured_widths(length, share, slim):
    middle = slim * length
    top = boat(length, share * middle, middle)

    assert top.outline.bounds == pytest.approx((0, 0, length, middle), abs=1e-6)
    ends = [edge.length for name, edge in zip(top.names, top.outline.segments, strict=True) if "end" in name]
    assert ends == pytest.approx([share * middle] * len(ends), abs=1e-6)
    assert len(ends) in (0, 2)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(SIZES, st.floats(0.2, 1), st.floats(0.02, 1), st.sampled_from(("east", "west", "both")))
def test_a_d_end_fills_its_box_and_has_its_radius(length, slim, share, ends):
    width = slim * length
    depth = share * width / 2
    top = d_end(length, width, depth, ends)

    assert top.outline.bounds == pytest.approx((0, 0, length, width), abs=1e-6)
    radii = [edge.radius for edge in top.outline.segments if isinstance(edge, Arc)]
    # half chord, rise and radius: R² = (R - h)² + (c/2)²
    assert [(r - depth) ** 2 + width**2 / 4 for r in radii] == pytest.approx([r * r for r in radii])
    assert len(radii) == (2 if ends == "both" else 1)


@pytest.mark.example
def test_half_circle_ends_are_smooth_and_shallow_ones_are_not():
    assert joint_turns(d_end(1500, 800, 400, "both")) == pytest.approx([0] * 4, abs=1e-3)
    assert min(abs(turn) for turn in joint_turns(d_end(1500, 800, 200, "both"))) > 0.1


@pytest.mark.example
def test_shoulders_beside_a_narrower_bow():
    top = d_end(1500, 800, 200, "east", 700)

    assert top.names == (
        *("south", "south-east shoulder", "east end", "north-east shoulder", "north", "west"),
    )
    # 1300 x 800 and a circular segment over 700, 200 high: R = 406.25
    r = radius_of(700, 200)
    half = math.asin(350 / r)
    assert r == pytest.approx(406.25)
    assert top.outline.area == pytest.approx(1300 * 800 + r * r * half - 350 * (r - 200))


@pytest.mark.example
def test_bows_that_leave_no_side_meet_in_a_circle():
    assert d_end(800, 800, 400, "both").outline.area == pytest.approx(400**2 * math.pi)


@pytest.mark.example
@pytest.mark.parametrize(
    ("build", "words"),
    [
        (
            lambda: boat(2400, 1200, 900),
            "middle width of a boat is 900 mm; it must be greater than its end width 1200",
        ),
        (lambda: boat(2400, 900, 900), "middle width of a boat"),
        (lambda: boat(500, 0, 1100), "bow of each side is 550 mm; half the length allows at most 250 mm"),
        (lambda: boat(2400, 900, 900.1), "give a straight edge"),
        (lambda: boat(2400, -1, 900), "end width is -1 mm"),
        (
            lambda: d_end(1500, 800, 401, "east"),
            "depth of the D is 401 mm; half its chord allows at most 400 mm",
        ),
        (
            lambda: d_end(700, 800, 360, "both"),
            "depth of 2 D ends is 720 mm; the length allows at most 700 mm",
        ),
        (
            lambda: d_end(1500, 800, 100, "east", 900),
            "chord of the D is 900 mm; the width allows at most 800 mm",
        ),
        (lambda: d_end(1500, 800, 0, "east"), "depth of the D is 0 mm"),
        (lambda: d_end(1500, 800, 100, "front"), "`front`"),
    ],
)
def test_impossible_bows_are_refused(build, words):
    with pytest.raises(GeometryError, match=words):
        build()
