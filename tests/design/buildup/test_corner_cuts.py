"""Mitres between straight edges and curves."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from ring_cases import bowed

from edgewright.design.buildup.corner_cuts import along_edge, corner_cut, square_cut
from edgewright.design.buildup.roundings import Corner
from edgewright.design.outline import Line
from edgewright.design.segments import direction, distance


def between(before, after, kind="mitre"):
    (ax, ay), (bx, by) = direction(before, 1.0), direction(after, 0.0)
    turn = math.atan2(ax * by - ay * bx, ax * bx + ay * by)
    return Corner(kind, before.end, turn, 0.0, "corner")


@pytest.mark.example
def test_cuts_at_a_straight_corner():
    south, east = Line((0, 0), (100, 0)), Line((100, 0), (100, 80))
    cut = corner_cut(south, east, between(south, east), 20)
    assert cut.point == (100, 0)
    assert cut.inward == pytest.approx((-math.sqrt(0.5), math.sqrt(0.5)))
    # inside corner: the bisector still runs into the wood
    north = Line((100, 0), (100, -80))
    assert corner_cut(south, north, between(south, north), 20).inward == pytest.approx(
        (math.sqrt(0.5), math.sqrt(0.5))
    )
    assert square_cut(south, (30, 0)).inward == pytest.approx((0, 1))
    assert along_edge(east, 20, (100, 0)).point == pytest.approx((80, 0))


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=100)
@given(st.floats(-0.4, 0.8), st.floats(-0.4, 0.8), st.floats(0.2, 2.2))
def test_a_mitre_with_a_curve_runs_through_the_inner_corner(first, second, turn):
    """Where the cut leaves the ring it is the ring width away from both edges."""
    before = bowed((-900, 0), (0, 0), first if abs(first) > 0.02 else 0.0)
    after = bowed((0, 0), (900 * math.cos(turn), 900 * math.sin(turn)), second if abs(second) > 0.02 else 0.0)
    corner = between(before, after)
    ring = 24.0
    if not 0.1 < corner.turn < 2.4 or min(getattr(s, "radius", 1e9) for s in (before, after)) < 4 * ring:
        return
    cut = corner_cut(before, after, corner, ring)
    low, high = 0.0, 8 * ring
    for _ in range(60):
        middle = (low + high) / 2
        at = (cut.point[0] + middle * cut.inward[0], cut.point[1] + middle * cut.inward[1])
        low, high = (middle, high) if distance(before, at) < ring else (low, middle)
    assert distance(after, at) == pytest.approx(ring, abs=1e-6)
