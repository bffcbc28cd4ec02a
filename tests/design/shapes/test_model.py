"""Measured tops: names for every edge, loops that are tops, and random shapes of every kind."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from region_cases import circle, polygon
from shape_cases import chords, is_closed, polygon_area, shapes

from edgewright.design.shapes.model import Shape, ShapeCheck
from edgewright.errors import GeometryError


@pytest.mark.example
def test_a_check_agrees_within_its_tolerance_and_not_beyond():
    assert ShapeCheck("width", 101.0, 100.0, 1.0, "").off == 1.0
    assert ShapeCheck("width", 101.0, 100.0, 1.0, "").agrees
    assert not ShapeCheck("width", 98.9, 100.0, 1.0, "").agrees


@pytest.mark.example
def test_a_loop_that_runs_the_wrong_way_or_crosses_itself_is_no_top():
    with pytest.raises(GeometryError, match="counter-clockwise"):
        Shape(circle(0, 0, 10), ("a", "b"))
    with pytest.raises(GeometryError, match="cross"):
        Shape(polygon((0, 0), (100, 0), (20, 90), (90, 120)), ("a", "b", "c", "d"))


@pytest.mark.example
def test_each_edge_needs_a_name():
    with pytest.raises(ValueError, match="1 names for 2"):
        Shape(circle(0, 0, 10, hole=False), ("a",))


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=100)
@given(shapes())
def test_every_shape_is_one_closed_region_near_the_origin_with_named_edges(shape):
    assert is_closed(shape)
    assert chords(shape).is_valid
    assert shape.outline.area == pytest.approx(polygon_area(shape), rel=1e-7)
    assert shape.outline.bounds[:2] == pytest.approx((0, 0), abs=1e-7)
    assert len(set(shape.names)) == len(shape.outline.segments)
    assert all(name == name.strip() and name for name in shape.names)
