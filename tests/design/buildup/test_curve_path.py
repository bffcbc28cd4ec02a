"""Division of a curve: shares, joints, stretches, extremes."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from region_cases import circle, polygon
from ring_cases import bowed

from edgewright.design.buildup.curve_path import CurvePath, extremes
from edgewright.design.outline import Arc, Line
from edgewright.design.segments import point_at


@pytest.mark.example
def test_shares_of_a_circle_are_lengths():
    path = CurvePath(circle(0, 0, 100, hole=False).segments, ("south", "north"), closed=True)
    at, inward = path.joint(0.125)
    assert at == pytest.approx((70.710678, 70.710678))
    assert inward == pytest.approx((-0.70710678, -0.70710678))
    assert path.joint(1.125)[0] == pytest.approx(at)
    arcs, names = path.between(0.4, 0.6)
    assert [arc.length for arc in arcs] == pytest.approx([20 * math.pi, 20 * math.pi])
    assert names == ("south", "north")
    # across the start of the loop, and once round from there
    arcs, names = path.between(0.9, 1.1)
    assert (sum(arc.length for arc in arcs), names) == (pytest.approx(40 * math.pi), ("north", "south"))
    assert sum(arc.length for arc in path.between(1.25, 2.25)[0]) == pytest.approx(200 * math.pi)


@pytest.mark.example
@pytest.mark.parametrize("share", [0.25, 0.5, 0.25 - 1e-9, 0.25 + 1e-9, 1.0])
def test_a_joint_at_a_kink_is_square_to_both_facets(share):
    """Chords of a circle: at a corner of theirs the joint points to the centre."""
    points = [(100 * math.cos(k * math.pi / 16), 100 * math.sin(k * math.pi / 16)) for k in range(32)]
    path = CurvePath(polygon(*points).segments, tuple("abcdefghijklmnopqrstuvwxyzABCDEF"), closed=True)
    at, (nx, ny) = path.joint(share)
    assert (100 * nx, 100 * ny) == pytest.approx((-at[0], -at[1]), abs=1e-5)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=100)
@given(st.floats(50, 2000), st.floats(50, 2000), st.floats(0.2, 2), st.floats(0.2, 2), st.integers(2, 12))
def test_equal_shares_bulge_alike(first, second, a, b, count):
    """Σ sweep √R is shared equally, so L²/8R is the same for each stretch on one arc."""
    one = Arc((0, 0), point(first, a), (0, first), first, a)
    centre = (math.sin(a) * (first - second), first - math.cos(a) * (first - second))
    two = Arc(one.end, point(second, a + b, centre), centre, second, b)
    path = CurvePath((one, two), ("one", "two"))
    parts = [path.between(k / count, (k + 1) / count)[0] for k in range(count)]
    sums = [sum(math.sqrt(arc.radius) * arc.sweep for arc in part) for part in parts]
    assert sums == pytest.approx([sums[0]] * count, rel=1e-9)
    assert sum(arc.length for part in parts for arc in part) == pytest.approx(
        first * a + second * b, rel=1e-9
    )


def point(radius, angle, centre=None):
    x, y = centre or (0, radius)
    return x + radius * math.sin(angle), y - radius * math.cos(angle)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=100)
@given(st.floats(-0.9, 0.9), st.floats(0, 2 * math.pi), st.floats(0, 40))
def test_extremes_are_those_of_many_points(bulge, angle, shift):
    segment = bowed((0, 0), (300, 40), bulge if abs(bulge) > 0.02 else 0.0)
    towards = (math.cos(angle), math.sin(angle))
    if isinstance(segment, Line):
        nx, ny = -40 / math.hypot(300, 40), 300 / math.hypot(300, 40)
        moved = [(point_at(segment, t)[0] + shift * nx, point_at(segment, t)[1] + shift * ny) for t in (0, 1)]
    else:
        moved = []
        scale = (segment.radius - math.copysign(shift, segment.sweep)) / segment.radius
        for step in range(2001):
            x, y = point_at(segment, step / 2000)
            cx, cy = segment.centre
            moved.append((cx + (x - cx) * scale, cy + (y - cy) * scale))
    sizes = [x * towards[0] + y * towards[1] for x, y in moved]
    assert extremes((segment,), towards, shift) == pytest.approx((min(sizes), max(sizes)), abs=1e-3)
