"""Offcuts of routed shapes, and the blanks in them."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from region_cases import circle, fine, sag, tops

from edgewright.design.outline import rectangle
from edgewright.design.region import Region
from edgewright.design.trims.curved_offcut import beyond, widest_blank_any_way
from edgewright.design.trims.round_from_square import corner_blank_width


@pytest.mark.example
def test_a_round_from_its_own_square_leaves_four_corners():
    square = Region(rectangle(1212, 1212))
    corners = beyond(square, circle(606, 606, 606, hole=False))

    assert [piece.area for piece in corners] == pytest.approx([606**2 * (1 - math.pi / 4)] * 4)
    found = widest_blank_any_way(corners[2], 300)
    assert found is not None
    # radius 600 and a cutter of 6, at 45° across the corner
    assert found.width == pytest.approx(corner_blank_width(600, 300, 6, 1212), rel=1e-6)
    assert abs(found.direction[0]) == pytest.approx(math.sqrt(0.5), abs=1e-3)
    assert widest_blank_any_way(corners[0], 900) is None


@pytest.mark.example
def test_an_outline_along_old_edges_leaves_the_rest():
    top = Region(rectangle(1000, 600), (circle(800, 300, 50),))
    (rest,) = beyond(top, rectangle(600, 600))

    assert rest.area == pytest.approx(400 * 600 - math.pi * 50**2)
    assert len(rest.holes) == 1
    assert beyond(top, rectangle(1000, 600)) == ()


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=40)
@given(tops(), st.floats(-400, 400), st.floats(-400, 400), st.floats(30, 500))
def test_areas_match_the_library(top, x, y, radius):
    disc = Region(circle(x, y, radius, hole=False))
    left = beyond(top, disc.outer)
    expected = fine(top).difference(fine(disc)).area
    slack = sag(top) * top.perimeter + sag(disc) * disc.perimeter + 1e-6

    assert math.fsum(piece.area for piece in left) == pytest.approx(expected, abs=slack)
