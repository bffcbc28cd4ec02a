"""Grain rules of solid tops."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from region_cases import circle
from ring_cases import rules

from edgewright.design.buildup.grain import cross_grain, grain_angle, grain_rules
from edgewright.design.buildup.ring_pieces import ring_pieces
from edgewright.design.outline import rectangle

NAMES = ("south", "east", "north", "west")


@pytest.mark.example
def test_end_strips_come_from_the_end_offcut():
    made = ring_pieces(rectangle(1200, 800), NAMES, rules(layers=1, grain=0.0))
    assert [rule.source for rule in grain_rules(made, 0.0)] == [
        "along the length", "end offcut", "along the length", "end offcut",
    ]  # fmt: skip
    assert [p.edges[0] for p in cross_grain(made, 0.0)] == ["east", "west"]
    assert cross_grain(made, 0.0, ("1.2", "1.4")) == ()
    # a grain along the width turns it round
    assert [p.edges[0] for p in cross_grain(made, math.pi / 2)] == ["south", "north"]


@pytest.mark.example
def test_segments_of_a_round_slant():
    """Twelve segments, 30° apart: two along the grain, two across, eight at 30° or 60°."""
    made = ring_pieces(
        circle(0, 0, 600, hole=False), ("a", "b"), rules(layers=1, grain=0.0, segments_per_circle=12)
    )
    # the first joint lies due east, so that the first segment lies at 15° + 90°
    slants = sorted(round(rule.slant) for rule in grain_rules(made, math.radians(15)))
    assert slants == [0, 0, 30, 30, 30, 30, 60, 60, 60, 60, 90, 90]
    assert len(cross_grain(made, math.radians(15))) == 10


@pytest.mark.example
def test_sheet_goods_have_no_rule():
    made = ring_pieces(rectangle(1200, 800), NAMES, rules())
    assert grain_rules(made, 0.0) == ()


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=100)
@given(st.floats(-10, 10), st.floats(-10, 10), st.integers(-3, 3))
def test_grain_has_no_front_end(a, b, turns):
    """The angle is that between two lines: its cosine is the size of the unit vectors' product."""
    assert math.cos(grain_angle(a, b)) == pytest.approx(abs(math.cos(a - b)), abs=1e-9)
    assert grain_angle(a, b + turns * math.pi) == pytest.approx(grain_angle(a, b), abs=1e-9)
