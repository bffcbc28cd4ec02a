"""The largest rounding that two strips cover."""

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.design.buildup.roundings import largest_rounding
from edgewright.design.check_buildup import largest_corner_radius


@pytest.mark.reference
@pytest.mark.parametrize(("width", "most"), [(1.375, 2.1), (1.5, 2.6), (1.875, 3.8), (2.5, 6.0), (3, 7.7)])
def test_rounding_of_a_right_angle(width, most):
    """Computed table for a ring 1-1/16 in wide, rounded as printed; and the formula of the right angle."""
    found = largest_rounding(width, 1.0625, math.pi / 2)
    assert found == pytest.approx(most, abs=0.051)
    assert found == pytest.approx(largest_corner_radius(width, 1.0625), rel=1e-12)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(st.floats(math.radians(20), math.radians(150)), st.floats(20, 80), st.floats(0.5, 1))
def test_at_the_largest_rounding_the_ring_is_just_wide_enough(turn, width, share):
    """Narrowest place between a sampled arc and the inner edges of two long strips, at any corner."""
    ring = share * width
    radius = largest_rounding(width, ring, turn)
    reach = radius * math.tan(turn / 2)
    # corner at the origin, one edge arriving along the x axis, the other leaving turned to the left
    towards, away = complex(-1, 0), complex(math.cos(turn), math.sin(turn))
    centre = reach * towards + 1j * radius
    arc = shapely.LineString(
        [
            ((centre - 1j * radius * complex(math.cos(a), math.sin(a))).real,
             (centre - 1j * radius * complex(math.cos(a), math.sin(a))).imag)
            for a in (turn * step / 2000 for step in range(2001))
        ]
    )  # fmt: skip
    inner = (width / math.cos(turn / 2)) * 1j * complex(math.cos(turn / 2), math.sin(turn / 2))
    far = 20 * (radius + width)
    ends = [inner + far * towards, inner, inner + far * away]
    corner = shapely.LineString([(z.real, z.imag) for z in ends])
    if radius > width:
        assert arc.distance(corner) == pytest.approx(ring, rel=1e-4)
