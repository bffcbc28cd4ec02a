"""Loops: bulges, moved and reversed outlines, turns at joints."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shape_cases import shapes

from edgewright.design.outline import Arc, Line
from edgewright.design.segments import turn_between
from edgewright.design.shapes.loop import arc_about, bulged, reversed_outline
from edgewright.errors import GeometryError


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=80)
@given(st.floats(1, 3000), st.floats(-3, 3), st.floats(0.02, 6.2), st.booleans())
def test_an_arc_comes_back_from_its_bulge(radius, begin, sweep, clockwise):
    turn = -sweep if clockwise else sweep
    start = (100 + radius * math.cos(begin), 50 + radius * math.sin(begin))
    arc = arc_about(start, (100, 50), turn)
    again = bulged(arc.start, arc.end, math.tan(turn / 4))

    assert isinstance(again, Arc)
    assert again.radius == pytest.approx(radius, rel=1e-9)
    assert again.centre == pytest.approx((100, 50), abs=1e-7 * radius)
    assert again.sweep == pytest.approx(turn)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=30)
@given(shapes())
def test_reversed_twice_is_the_same(shape):
    back = reversed_outline(shape.outline)

    assert back.area == pytest.approx(-shape.outline.area)
    assert reversed_outline(back) == shape.outline


@pytest.mark.example
def test_turns_at_joints():
    east, north = Line((0, 0), (1, 0)), Line((1, 0), (1, 1))

    assert turn_between(east, north) == pytest.approx(math.pi / 2)
    assert turn_between(north, Line((1, 1), (2, 1))) == pytest.approx(-math.pi / 2)
    assert turn_between(east, arc_about((1, 0), (1, 1), 1.0)) == pytest.approx(0)


@pytest.mark.example
@pytest.mark.parametrize("bulge", [math.nan, math.inf, 1e-9])
def test_bulges_that_make_no_arc_are_refused(bulge):
    with pytest.raises(GeometryError):
        bulged((0, 0), (1000, 0), bulge)
