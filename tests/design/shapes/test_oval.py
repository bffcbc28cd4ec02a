"""Four-arc ovals: tangent, exact, solved from what is measured."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shape_cases import SIZES, joint_turns

from edgewright.design.intersect import intersections
from edgewright.design.outline import Line
from edgewright.design.shapes.oval import classical_end_radius, end_radius_of, four_arc_oval, side_radius
from edgewright.errors import GeometryError


def width_at(shape, x):
    """Width of a shape where an upright line meets it."""
    upright = Line((x, -10), (x, shape.outline.bounds[3] + 10))
    ys = [y for edge in shape.outline.segments for _, y in intersections(upright, edge)]
    return max(ys) - min(ys)


@pytest.mark.example
def test_the_classical_rule_is_the_drawing_it_describes():
    # half-axes 4 and 3, h = 5: 5 - (4 - 3) = 4 is left on the slope; halved at right angles, 2 · 5/4 from the end
    assert classical_end_radius(8, 6) == pytest.approx(2 * 5 / 4)
    # the same line meets the short axis (5 - 2) · 5/3 from its end
    assert side_radius(8, 6, 2.5) == pytest.approx(3 * 5 / 3)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=80)
@given(SIZES, st.floats(0.15, 0.97), st.floats(0.03, 0.97))
def test_ovals_are_smooth_and_fill_their_box(length, slim, share):
    width = slim * length
    oval = four_arc_oval(length, width, share * width / 2)

    assert joint_turns(oval) == pytest.approx([0] * 4, abs=1e-3)
    assert oval.outline.bounds == pytest.approx((0, 0, length, width), abs=1e-7)
    assert sum(edge.sweep for edge in oval.outline.segments) == pytest.approx(2 * math.pi)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(SIZES, st.floats(0.15, 0.97), st.floats(0.03, 0.97))
def test_the_end_radius_comes_back_from_the_width_at_the_quarter(length, slim, share):
    width = slim * length
    radius = share * width / 2
    quarter = width_at(four_arc_oval(length, width, radius), length / 4)

    # a nearly round top hardly changes there with the radius: hold the width, which is what was measured
    again = four_arc_oval(length, width, quarter_width=quarter)
    assert width_at(again, length / 4) == pytest.approx(quarter, abs=1e-6)
    if slim < 0.7:
        assert end_radius_of(length, width, quarter) == pytest.approx(radius, rel=1e-5)


@pytest.mark.property
def test_larger_ends_make_a_larger_oval():
    areas = [four_arc_oval(1800, 900, radius).outline.area for radius in np.linspace(5, 445, 40)]

    assert all(np.diff(areas) > 0)
    lens, race = areas[0], areas[-1]
    assert lens < math.pi * 900 * 450 < race


@pytest.mark.example
@pytest.mark.parametrize(
    ("build", "words"),
    [
        (lambda: four_arc_oval(900, 900), "must be greater than its width 900 mm"),
        (lambda: four_arc_oval(1800, 900, 450), "less than half the width, 450 mm"),
        (lambda: four_arc_oval(1800, 900, 0), "end radius is 0 mm"),
        (lambda: four_arc_oval(1800, 900, 200, 700), "leave one out"),
        (lambda: four_arc_oval(1800, 900, quarter_width=900), "less than 900 mm"),
        (lambda: four_arc_oval(1800, 900, quarter_width=600), "allows more than"),
    ],
)
def test_impossible_ovals_are_refused(build, words):
    with pytest.raises(GeometryError, match=words):
        build()
