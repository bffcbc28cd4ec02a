"""Lines and arcs: distances and pieces against dense points, winding against elementary loops."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from region_cases import circle, polygon

from edgewright.design.outline import Arc, Line
from edgewright.design.segments import curvature, direction, distance, parameter, point_at, split, winding


@st.composite
def segments(draw):
    x, y = draw(st.floats(-500, 500)), draw(st.floats(-500, 500))
    if draw(st.booleans()):
        return Line((x, y), (x + draw(st.floats(1, 900)), y + draw(st.floats(-900, 900))))
    radius, start = draw(st.floats(1, 500)), draw(st.floats(-7, 7))
    sweep = draw(st.floats(0.1, 6.2)) * draw(st.sampled_from((1, -1)))
    ends = [(x + radius * math.cos(angle), y + radius * math.sin(angle)) for angle in (start, start + sweep)]
    return Arc(ends[0], ends[1], (x, y), radius, sweep)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=80)
@given(segments(), st.tuples(st.floats(-1000, 1000), st.floats(-1000, 1000)))
def test_distance_is_that_of_the_nearest_of_many_points(segment, point):
    steps = 2000
    nearest = min(math.dist(point, point_at(segment, step / steps)) for step in range(steps + 1))

    assert nearest - segment.length / steps <= distance(segment, point) <= nearest + 1e-9


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=80)
@given(segments(), st.lists(st.floats(0.001, 0.999), max_size=5))
def test_pieces_follow_one_another_and_keep_the_length(segment, shares):
    pieces = split(segment, [point_at(segment, share) for share in shares])

    assert math.fsum(piece.length for piece in pieces) == pytest.approx(segment.length, rel=1e-12)
    assert (pieces[0].start, pieces[-1].end) == (segment.start, segment.end)
    assert all(a.end == b.start for a, b in pairwise(pieces))
    assert all(curvature(piece) == pytest.approx(curvature(segment)) for piece in pieces)
    assert all(abs(piece.sweep) <= math.pi * 1.000001 for piece in pieces if isinstance(piece, Arc))


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=80)
@given(segments(), st.floats(0.01, 0.99))
def test_direction_is_the_way_to_the_next_point(segment, share):
    here, there = point_at(segment, share - 1e-4), point_at(segment, share + 1e-4)
    length = math.dist(here, there)
    ux, uy = direction(segment, share)

    assert parameter(segment, point_at(segment, share)) == pytest.approx(share, abs=1e-9)
    assert ((there[0] - here[0]) / length, (there[1] - here[1]) / length) == pytest.approx((ux, uy), abs=1e-6)


@pytest.mark.example
def test_winding_of_loops():
    square = polygon((0, 0), (4, 0), (4, 4), (0, 4))

    assert winding(square, (1, 3)) == 1
    assert winding(square, (5, 0)) == 0
    assert winding(circle(0, 0, 2), (0, 0)) == -1  # on the chord of both halves
    assert winding(circle(0, 0, 2, hole=False), (0.5, 0)) == 1
    assert winding(circle(0, 0, 2), (1.9, 0.3)) == -1
    assert winding(circle(0, 0, 2), (1.9, 1.9)) == 0
    assert winding(circle(0, 0, 2), (3, 0)) == 0
