"""Where segments meet: elementary figures, tangency, and points drawn onto both segments."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.design.intersect import intersections, meeting_pairs
from edgewright.design.outline import Arc, Line
from edgewright.design.segments import direction, distance

COORDINATE = st.floats(-2000, 2000)
POINT = st.tuples(COORDINATE, COORDINATE)


def arc(x, y, radius, start, sweep):
    def at(angle):
        return x + radius * math.cos(angle), y + radius * math.sin(angle)

    return Arc(at(start), at(start + sweep), (x, y), radius, sweep)


def near(found, *expected):
    assert len(found) == len(expected)
    for point in expected:
        assert min(math.dist(point, other) for other in found) < 1e-9


@pytest.mark.example
def test_lines_cross_meet_and_miss():
    flat = Line((0, 0), (10, 0))

    near(intersections(flat, Line((3, -1), (3, 5))), (3, 0))
    near(intersections(flat, Line((10, 0), (10, 5))), (10, 0))
    near(intersections(flat, Line((4, 0), (4, 5))), (4, 0))
    near(intersections(flat, Line((3, 1), (3, 5))))
    near(intersections(flat, Line((0, 1), (10, 1))))


@pytest.mark.example
def test_lines_that_run_along_each_other_share_the_ends_of_the_stretch():
    near(intersections(Line((0, 0), (10, 0)), Line((14, 0), (6, 0))), (10, 0), (6, 0))


@pytest.mark.example
def test_line_and_arc():
    half = arc(0, 0, 5, 0, math.pi)

    near(intersections(Line((-10, 3), (10, 3)), half), (4, 3), (-4, 3))
    near(intersections(Line((0, 3), (10, 3)), half), (4, 3))
    near(intersections(Line((-10, -3), (10, -3)), half))
    near(intersections(half, Line((-10, 5), (10, 5))), (0, 5))


@pytest.mark.example
def test_arcs_of_two_circles():
    left, right = arc(0, 0, 5, -math.pi / 2, math.pi), arc(8, 0, 5, math.pi / 2, math.pi)

    near(intersections(left, right), (4, 3), (4, -3))
    near(intersections(arc(0, 0, 5, 0, math.pi / 2), right), (4, 3))
    near(intersections(left, arc(10, 0, 5, math.pi / 2, math.pi)), (5, 0))
    near(intersections(left, arc(2, 0, 3, -1, 2)), (5, 0))  # touches from within
    near(intersections(left, arc(10.001, 0, 5, math.pi / 2, math.pi)))
    near(intersections(left, arc(1, 0, 3, -1, 2)))  # within, 1 mm short of a touch
    near(intersections(left, arc(0, 0, 4, -1, 2)))  # concentric


@pytest.mark.example
@pytest.mark.parametrize("miss", [0.0, 1e-12, -1e-12, 3e-9])
def test_a_touch_survives_rounding(miss):
    half = arc(1000, 2000, 300, 0, math.pi)

    for other in (Line((0, 2300 + miss), (2000, 2300 + miss)), arc(1000, 2350 + miss, 50, -math.pi, math.pi)):
        found = intersections(half, other)
        assert found
        for point in found:
            # within the half chord of a cap as high as the miss, √(2 R h)
            assert math.dist(point, (1000, 2300)) <= math.sqrt(2 * 300 * 1e-11) + 1e-7


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=150)
@given(POINT, st.floats(0.05, 0.95), st.floats(0.05, 0.95), st.data())
def test_two_segments_drawn_through_a_point_meet_there(point, first, second, data):
    def through(share):
        if data.draw(st.booleans()):
            other = data.draw(POINT.filter(lambda at: math.dist(at, point) > 1))
            # the point at this share between the other end and one beyond
            k = share / (1 - share)
            beyond = tuple(p + (p - o) / k for p, o in zip(point, other, strict=True))
            return Line(other, beyond)
        radius, angle = data.draw(st.floats(5, 800)), data.draw(st.floats(0, 6.28))
        sweep = data.draw(st.floats(0.2, 6)) * data.draw(st.sampled_from((1, -1)))
        x, y = point[0] - radius * math.cos(angle), point[1] - radius * math.sin(angle)
        return arc(x, y, radius, angle - share * sweep, sweep)

    a, b = through(first), through(second)
    found = intersections(a, b)

    assert found
    for at in found:
        assert max(distance(a, at), distance(b, at)) <= 2e-7
    (ux, uy), (vx, vy) = direction(a, first), direction(b, second)
    if abs(ux * vy - uy * vx) > 1e-5:  # a touch or a common stretch places no single point
        assert min(math.dist(at, point) for at in found) < 1e-6
    turned = intersections(b, a)
    assert len(turned) == len(found)
    assert meeting_pairs((a, b)) == [(0, 1)]


@pytest.mark.example
def test_a_touch_from_within_is_told_alike_both_ways():
    # east points of circles of radius 5 and 130, one point but for the rounding of a centre
    small, large = arc(1.2095362723114347 - 5, 0, 5, -0.5, 1), arc(1.2095362723114347 - 130, 0, 130, -0.5, 1)

    assert intersections(small, large) == intersections(large, small)
    # rounding of a place near 100 mm, seen across a chord: √(2 R h) of a cap of that height
    for point in intersections(small, large):
        assert math.dist(point, (1.2095362723114347, 0)) <= 2 * math.sqrt(2 * 5 * 3e-14)
