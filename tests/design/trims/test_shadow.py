"""Shadows and reaches of lines and arcs against finely walked points."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from region_cases import tops, walk

from edgewright.design.outline import Arc, Line
from edgewright.design.trims.shadow import Frame, free_between, shadows, span
from edgewright.errors import GeometryError


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=40)
@given(tops(), st.floats(0, 6.3))
def test_reach_is_that_of_the_walked_points(top, angle):
    way = (math.cos(angle), math.sin(angle))
    low, high = span(top.outer.segments, way)
    walked = [x * way[0] + y * way[1] for x, y in walk(top.outer, 400)]

    assert low <= min(walked) + 1e-9
    assert high >= max(walked) - 1e-9
    assert (low, high) == pytest.approx((min(walked), max(walked)), abs=0.01)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=40)
@given(st.floats(-9, 9), st.floats(0.1, 6), st.floats(-6, 6), st.floats(-12, 12), st.floats(0.5, 8))
def test_shadow_of_an_arc_holds_every_point_in_the_band(start, sweep, turn, low, size):
    centre, radius = (3.0, -2.0), 10.0
    sweep = math.copysign(sweep, turn)
    ends = [
        (centre[0] + radius * math.cos(a), centre[1] + radius * math.sin(a)) for a in (start, start + sweep)
    ]
    arc = Arc(ends[0], ends[1], centre, radius, sweep)
    found = shadows([arc], low, low + size)
    walked = []
    for step in range(2001):
        a = start + sweep * step / 2000
        x, y = centre[0] + radius * math.cos(a), centre[1] + radius * math.sin(a)
        if low + 1e-6 < y < low + size - 1e-6:
            assert any(a - 1e-7 <= x <= b + 1e-7 for a, b in found)
            walked.append(x)
    assert sum(b - a for a, b in found) >= 0
    if walked:
        # no wider than what is walked, one step aside
        assert min(a for a, _ in found) == pytest.approx(min(walked), abs=0.5)
        assert max(b for _, b in found) == pytest.approx(max(walked), abs=0.5)


@pytest.mark.example
def test_edges_along_the_border_of_a_band_block_nothing():
    assert shadows([Line((0, 5), (10, 5))], 0, 5) == []
    assert shadows([Line((0, 0), (10, 10))], 2, 5) == [pytest.approx((2, 5), abs=1e-7)]
    assert free_between([(2, 5), (4, 6), (9, 12)], 0, 10) == [(0, 2), (6, 9)]


@pytest.mark.example
def test_axes_turn_there_and_back_and_need_a_direction():
    frame = Frame.on(Line((10, 10), (10, 30)))

    assert frame.local((4, 15)) == pytest.approx((5, 6))
    assert frame.world((5, 6)) == pytest.approx((4, 15))
    with pytest.raises(GeometryError, match="direction has length 0"):
        Frame.at((0, 0), (0, 0))
