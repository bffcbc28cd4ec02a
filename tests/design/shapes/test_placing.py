"""Shapes moved and turned."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shape_cases import shapes

from edgewright.design.shapes.boxed import rectangle_shape
from edgewright.design.shapes.placing import placed
from edgewright.errors import GeometryError


@pytest.mark.example
def test_a_quarter_turn_about_the_origin():
    top = placed(rectangle_shape(1000, 500), (600, 10), math.pi / 2)

    assert top.outline.bounds == pytest.approx((100, 10, 600, 1010))
    assert top.names[0] == "south"


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=50)
@given(shapes(), st.floats(-7, 7), st.floats(-5000, 5000), st.floats(-5000, 5000))
def test_what_is_moved_keeps_its_size_and_goes_where_it_should(shape, turn, x, y):
    top = placed(shape, (x, y), turn)
    cx, cy = shape.outline.centroid
    there = complex(cx, cy) * complex(math.cos(turn), math.sin(turn)) + complex(x, y)

    assert top.outline.area == pytest.approx(shape.outline.area)
    assert top.outline.length == pytest.approx(shape.outline.length)
    assert top.outline.centroid == pytest.approx((there.real, there.imag), abs=1e-6)
    assert top.names == shape.names


@pytest.mark.example
def test_places_that_are_no_numbers_are_refused():
    with pytest.raises(GeometryError, match="within 100000 mm"):
        placed(rectangle_shape(1000, 500), (0, math.nan))
