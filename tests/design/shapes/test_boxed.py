"""Rectangles with round and clipped corners, racetracks and tapered tops."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shape_cases import INCH, SIZES, joint_turns, or_none

from edgewright.design.outline import rectangle
from edgewright.design.shapes.boxed import racetrack, rectangle_shape, tapered
from edgewright.errors import GeometryError


@pytest.mark.reference
def test_a_racetrack_of_72_by_36_in():
    # common practice: perimeter 185.1 in, area 2314 in²; 2 · 36 + 36π and 36 · 36 + 18²π
    top = racetrack(72 * INCH, 36 * INCH).outline

    assert top.length / INCH == pytest.approx(72 + 36 * math.pi, rel=1e-13)
    assert top.length / INCH == pytest.approx(185.10, abs=0.005)
    assert top.area / INCH**2 == pytest.approx(36 * 36 + 324 * math.pi, rel=1e-13)
    assert top.area / INCH**2 == pytest.approx(2314, abs=0.5)


@pytest.mark.example
def test_a_rectangle_with_a_round_a_clipped_and_two_sharp_corners():
    top = rectangle_shape(1000, 500, (0, 0, 100, 0), (None, (60, 40), None, None))

    # a triangle of 60 by 40 off one corner, a square less its quarter circle off another
    assert top.outline.area == pytest.approx(500000 - 1200 - (1 - math.pi / 4) * 10000, rel=1e-13)
    assert top.names == ("south", "south-east corner", "east", "north-east corner", "north", "west")
    assert top.outline.segments[1].start == pytest.approx((940, 0))
    assert top.outline.segments[1].end == pytest.approx((1000, 40))


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(SIZES, SIZES, st.lists(or_none(0.5), min_size=4, max_size=4))
def test_round_corners_match_the_plain_rectangle(length, width, shares):
    radii = tuple(share * min(length, width) for share in shares)
    one, other = rectangle_shape(length, width, radii).outline, rectangle(length, width, radii)

    # edges shorter than a millionth of a millimetre are left out
    assert one.area == pytest.approx(other.area, rel=1e-8)
    assert one.length == pytest.approx(other.length, abs=1e-5)
    assert one.bounds == pytest.approx(other.bounds, abs=2e-6)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=40)
@given(SIZES, st.floats(0.05, 0.99))
def test_racetracks_are_smooth(length, share):
    assert joint_turns(racetrack(length, share * length)) == pytest.approx([0] * 4, abs=1e-3)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=40)
@given(SIZES, SIZES, SIZES, st.sampled_from(("south", "north", "centre")))
def test_a_tapered_top_has_its_measured_ends(length, west, east, square_side):
    top = tapered(length, west, east, square_side)
    edges = dict(zip(top.names, top.outline.segments, strict=True))

    assert edges["west"].length == pytest.approx(west)
    assert edges["east"].length == pytest.approx(east)
    assert top.outline.area == pytest.approx(length * (west + east) / 2)
    if square_side == "centre":
        assert edges["south"].length == pytest.approx(edges["north"].length)
    else:
        assert edges[square_side].length == pytest.approx(length)


@pytest.mark.example
@pytest.mark.parametrize(
    ("build", "words"),
    [
        (lambda: rectangle_shape(0, 500), "length is 0 mm"),
        (lambda: rectangle_shape(1000, math.nan), "width is nan mm"),
        (lambda: rectangle_shape(1000, 500, (0, 300, 210, 0)), "510 mm; the east side allows at most 500 mm"),
        (lambda: rectangle_shape(1000, 500, (600, 0, 0, 0)), "the west side allows at most 500 mm"),
        (
            lambda: rectangle_shape(1000, 500, (500, 0, 0, 0), (None, (600, 9), None, None)),
            "south side allows at most 1000 mm",
        ),
        (
            lambda: rectangle_shape(1000, 500, (9, 0, 0, 0), ((5, 5), None, None, None)),
            "south-west corner has",
        ),
        (lambda: rectangle_shape(1000, 500, (-1, 0, 0, 0)), "south-west corner radius is -1 mm"),
        (
            lambda: rectangle_shape(1000, 500, clips=(None, None, (5, 0), None)),
            "north-east cut-back across the length is 0 mm",
        ),
        (lambda: racetrack(500, 500), "must be greater than its width 500 mm"),
        (lambda: tapered(1000, 500, 0, "south"), "width at the east end is 0 mm"),
        (lambda: tapered(1000, 500, 400, "left"), "`left`"),
    ],
)
def test_impossible_boxes_are_refused(build, words):
    with pytest.raises(GeometryError, match=words):
        build()


@pytest.mark.example
@pytest.mark.parametrize("left", [1e-10, 1e-9, 1e-8, 1e-7, 1e-6, 1e-5])
def test_sides_that_rounding_leaves_between_two_corners_make_no_knot(left):
    top = rectangle_shape(300, 300, (0, 150, 150 - left, 150))

    # a square quarter and three quarter circles
    assert top.outline.area == pytest.approx(150**2 * (1 + 3 * math.pi / 4), rel=1e-6)
