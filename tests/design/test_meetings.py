"""All meetings told at once against each pair on its own."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from region_cases import NAMED, lattice_tops

from edgewright.design.intersect import boxes, intersections, meeting_pairs
from edgewright.design.meetings import boxes_of, meetings, table
from edgewright.design.outline import Arc, Line


@st.composite
def loose(draw):
    x, y = draw(st.floats(-60, 60)), draw(st.floats(-60, 60))
    if draw(st.booleans()):
        return Line((x, y), (x + draw(st.floats(1, 90)), y + draw(st.floats(-90, 90))))
    radius, start = draw(st.floats(1, 80)), draw(st.floats(-7, 7))
    sweep = draw(st.floats(0.1, 6.2)) * draw(st.sampled_from((1, -1)))
    ends = [(x + radius * math.cos(angle), y + radius * math.sin(angle)) for angle in (start, start + sweep)]
    return Arc(ends[0], ends[1], (x, y), radius, sweep)


def one_by_one(segments):
    found = {}
    for i, j in meeting_pairs(segments):
        points = intersections(segments[i], segments[j])
        if points:
            found[i, j] = sorted(points)
    return found


def is_joint(segments, i, j):
    one, other = segments[i], segments[j]
    return min(math.dist(one.end, other.start), math.dist(other.end, one.start)) < 1e-7


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=150)
@given(st.lists(loose(), min_size=2, max_size=12))
def test_loose_segments(segments):
    found = {(i, j): sorted(points) for i, j, points in meetings(segments, table(segments))}
    expected = {
        pair: points
        for pair, points in one_by_one(segments).items()
        if pair in found or not is_joint(segments, *pair)
    }

    assert found.keys() == expected.keys()
    for pair, points in expected.items():
        assert len(found[pair]) == len(points)
        assert np.array(found[pair]) == pytest.approx(np.array(points), abs=1e-7)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=50)
@given(lattice_tops())
def test_only_plain_joints_are_left_out(top):
    segments = top.segments
    found = {(i, j): sorted(points) for i, j, points in meetings(segments, table(segments))}
    for pair, points in one_by_one(segments).items():
        if pair not in found:
            assert len(points) == 1
            assert is_joint(segments, *pair)
        else:
            assert found[pair] == points


@pytest.mark.example
@pytest.mark.parametrize("top", NAMED.values(), ids=NAMED.keys())
def test_boxes_are_those_of_each_segment(top):
    assert boxes_of(table(top.segments)) == pytest.approx(boxes(top.segments))


@pytest.mark.example
def test_a_touch_and_a_crossing_through_an_end_are_told():
    side = Line((0.0, 0.0), (10.0, 0.0))
    post, ball = Line((4.0, 0.0), (4.0, 5.0)), Arc((9.0, 1.0), (7.0, 1.0), (8.0, 1.0), 1.0, math.pi)
    under = Arc((7.0, 1.0), (9.0, 1.0), (8.0, 1.0), 1.0, math.pi)
    found = {
        (i, j): points
        for i, j, points in meetings((side, post, ball, under), table((side, post, ball, under)))
    }

    assert found[0, 1] == ((4.0, 0.0),)
    assert (0, 2) not in found
    assert found[0, 3][0] == pytest.approx((8.0, 0.0))
    assert len(found[2, 3]) == 2
    assert meetings((), table(())) == []
